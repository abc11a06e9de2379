"""The table of readings: its rows, its columns, and how each cell is painted."""
