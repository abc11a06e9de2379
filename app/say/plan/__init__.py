"""What the plan shows, in words, and before there is much to show."""
