"""A saddle of several pieces, or in steps: where it is parted, each piece's line, and what is said of them."""
