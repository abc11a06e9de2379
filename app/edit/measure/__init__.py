"""Readings as they are added, pasted and grouped, and what they are read with."""
