"""The spacing that fits the frets as read, the lines of the frets, and frets that were miscounted."""
