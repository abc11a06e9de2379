"""Words for a terminal: a job's own texts cannot break a line, steer the cursor or turn the writing round."""

import re

LACKING = "☐"
"""Stands for a sign that cannot be shown, as on paper."""
ENDLESS = re.compile(r"(\S{100})\S{100,}(\S{100})")
"""A word that would bury the sentence it stands in, with its beginning and its end."""


def shortened(text: str) -> str:
    """The text with only the beginning and the end of words without end."""
    return ENDLESS.sub(r"\1…\2", text)


def one_line(text: str) -> str:
    """The words on one line: breaks are spaces."""
    return plain(" ".join(text.split()))


def plain(text: str) -> str:
    """The text with a box for each sign that would steer the terminal."""
    return "".join(sign if sign.isprintable() or sign.isspace() else LACKING for sign in text)
