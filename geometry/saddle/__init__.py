"""What each string wants of the saddle, the line that serves them best, its slot, and what is to be said of it."""
