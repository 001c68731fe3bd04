"""Questions about a plan: why, why not, what if, what would change it."""
