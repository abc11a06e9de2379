"""Least squares of the readings, the frame they are given in, and what they leave loose."""
