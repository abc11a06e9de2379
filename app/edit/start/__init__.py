"""A new job: what is asked before the first reading, and the list of readings that follows."""
