"""What strings are made of and how they behave: mass, stretch, stiffness, tension, strength, and the usual sets."""
