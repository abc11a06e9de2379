"""Templates of saddles of their own on bases that are screwed down."""
