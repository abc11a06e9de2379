"""The campaigns of the other kinds in short, as tests."""
