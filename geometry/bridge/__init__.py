"""The bridge on its seat: its outline, its pins and ties, and the wood that is left in it."""
