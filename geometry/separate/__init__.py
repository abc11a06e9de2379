"""Saddles of their own on bases that are screwed down: whether their travel reaches every string's place."""
