"""What stands between the old and the new: nearest places, walls of wood, what stays uncovered; with its ±."""
