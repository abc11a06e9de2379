"""Templates of the headstock, from its face, its back and its sides, and of markers along the neck."""
