"""The neck as it was measured: edges, centre line, straightness, the paths of its strings."""
