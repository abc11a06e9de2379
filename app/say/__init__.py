"""What is said on the screen and not composed in geometry or export already."""
