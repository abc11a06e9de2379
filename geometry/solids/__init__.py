"""Saddle and nut as solids: how high they stand under each string, where their slots lie, how the board bends them."""
