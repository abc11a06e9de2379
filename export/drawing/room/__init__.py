"""Where a drawing still has room for words and parts."""
