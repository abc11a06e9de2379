"""The old footprint: what of it shows beside the new bridge, and a bridge that would cover it."""
