"""The blanks of saddle and nut: their views, their sheets, and their tables on the job sheet."""
