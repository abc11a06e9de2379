"""Words for a terminal: a job's own texts cannot break a line, steer the cursor or turn the writing round."""

LACKING = "☐"
"""Stands for a sign that cannot be shown, as on paper."""


def one_line(text: str) -> str:
    """The words on one line: breaks are spaces."""
    return plain(" ".join(text.split()))


def plain(text: str) -> str:
    """The text with a box for each sign that would steer the terminal."""
    return "".join(sign if sign.isprintable() or sign.isspace() else LACKING for sign in text)
