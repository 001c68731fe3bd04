"""Three invented jobs in one invented shop. Nothing here is a real part or price."""
