"""The plan as it is painted: the view, the marks, the rulers, and both pictures kept in step."""
