"""Small parts that several rooms of the window are built of, and how they look."""
