"""Old work as it is entered: its kinds, its points and sizes, and ways to give them."""
