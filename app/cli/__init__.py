"""The command line: what is asked for on it, and the pages that it prints."""
