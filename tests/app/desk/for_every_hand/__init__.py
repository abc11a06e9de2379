"""The window for eyes that see little, for hands without a mouse, and for ears."""
