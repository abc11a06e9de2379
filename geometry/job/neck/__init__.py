"""The neck as the job has it: board, frets, nut, headstock, and the hardware along it."""
