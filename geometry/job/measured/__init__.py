"""What was measured: readings and their kinds, what they are read with, and the distances of a proof."""
