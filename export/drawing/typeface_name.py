"""What the one typeface is called. By itself, for the window's first picture needs no more of it."""

NAME = "Source Sans Pro"
