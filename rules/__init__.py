"""The rule base: one module a subject, and the tables it reasons over."""
