"""Templates of a bridge that is glued: where it goes, the bridge itself, the plate under it, its tie block."""
