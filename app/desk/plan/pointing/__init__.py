"""The hand on the plan: what it points at, drags, places and types."""
