"""Pictures of a plan as SVG in black: drawn from the plan, each with its words."""
