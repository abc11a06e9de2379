"""A reading as rows of equations: their value, their slopes, and where they let a point lie."""
