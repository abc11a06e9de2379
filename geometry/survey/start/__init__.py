"""Where the adjustment begins: rough places, mirror images, and readings too far out to begin with."""
