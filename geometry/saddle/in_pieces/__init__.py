"""A saddle of several pieces, or in steps: where it is parted, and whether one piece would do."""
