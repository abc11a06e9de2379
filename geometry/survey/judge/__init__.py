"""Whether the readings agree, which to look at again, and which of the points are checked."""
