"""The commands that do without a window, one a module; each has a `run`."""
