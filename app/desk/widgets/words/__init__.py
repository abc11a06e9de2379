"""Lines of text that find room for all their words."""
