"""Marks on paper, and what can be done with them before anybody knows what they mean."""
