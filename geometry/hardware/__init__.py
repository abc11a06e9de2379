"""Headstock and tuner posts, and markers along the neck."""
