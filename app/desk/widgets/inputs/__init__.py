"""Where something is typed, chosen or pressed."""
