"""Plain words for points, lines and readings: those of the paper (`export.words`), so that screen and sheet agree."""

import datetime

from app.say.terminal import shortened as shortened
from export.words import fineness as fineness
from export.words import first_large as first_large
from export.words import instrument as instrument
from export.words import job_line as job_line
from export.words import joined as joined
from export.words import line as line
from export.words import point as point
from export.words import reading as reading
from export.words import reading_parts as reading_parts
from export.words import side as side
from export.words import value as value


def moment(when: float) -> str:
    """A time (s since the epoch) as a clock and a calendar here show it."""
    there = datetime.datetime.fromtimestamp(when).astimezone()
    today = datetime.datetime.now().astimezone().date() == there.date()
    return f"today at {there:%H:%M:%S}" if today else f"{there:%Y-%m-%d} at {there:%H:%M}"


def sentence(text: str) -> str:
    """What an error says, as a sentence: a large first letter, and one stop at the end."""
    text = shortened(text)
    return first_large(text if not text or text[-1:] in ".?!" else f"{text}.")
