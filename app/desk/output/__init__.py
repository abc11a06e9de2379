"""The job's pages: exported and printed."""
