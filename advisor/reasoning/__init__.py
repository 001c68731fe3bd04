"""The inference engine, the facts it reasons over, and who concluded what from what."""
