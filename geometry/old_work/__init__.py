"""What the old bridge left on the top and under it, and what the new one does to that."""
