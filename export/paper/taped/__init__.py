"""One figure on several sheets that are taped together, with its seams where they do no harm."""
