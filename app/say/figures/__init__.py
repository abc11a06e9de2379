"""The figures of the strip along the bottom, and the signs of the steps along the top."""
