"""The open job: worked out, opened, saved, copied against a kill; and what the person prefers."""
