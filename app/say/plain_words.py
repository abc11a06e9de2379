"""A moment and an error, as a person reads them."""

import datetime

from app.say.terminal import shortened
from geometry.words import first_large


def moment(when: float) -> str:
    """A time (s since the epoch) as a clock and a calendar here show it."""
    there = datetime.datetime.fromtimestamp(when).astimezone()
    today = datetime.datetime.now().astimezone().date() == there.date()
    return f"today at {there:%H:%M:%S}" if today else f"{there:%Y-%m-%d} at {there:%H:%M}"


def sentence(text: str) -> str:
    """What an error says, as a sentence: a large first letter, and one stop at the end."""
    text = shortened(text)
    return first_large(text if not text or text[-1:] in ".?!" else f"{text}.")
