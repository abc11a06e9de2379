"""The bridge and what is about it on the plan: old work, bases, feet, sizes and margins."""
