"""Templates of a bridge that stands on the top, and of a tailpiece."""
