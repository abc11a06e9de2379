"""The cards, one room a step of the work, and what all of them are built of."""
