"""The plan told thing by thing, to who can't see it."""
