"""The layout's sentences with points and readings called as a person calls them: `nut.left` is “nut treble”."""

import re
from functools import lru_cache

from msgspec.structs import replace

from geometry import words
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.layout import Layout
from geometry.survey import words as survey_words


def spoken(job: Job, layout: Layout) -> Layout:
    """The same layout, its findings and its survey in the person's words."""
    said, survey = layout.survey, layout.survey
    if said.why or said.loose:
        loose = tuple(replace(item, held_by=sentence(job, item.held_by)) for item in said.loose)
        survey = replace(said, why=sentence(job, said.why), loose=loose)
    findings = tuple(replace(finding, text=sentence(job, finding.text)) for finding in layout.findings)
    return replace(layout, survey=survey, findings=findings)


def sentence(job: Job, text: str) -> str:
    """A sentence in the person's words; what has been put into words stays as it is."""
    for reading in job.readings:
        if reading.id in text:
            text = _reading(reading, job.hand, text)
    names, pattern = _points(tuple(job.points), job.hand)

    def put(found: re.Match[str]) -> str:
        name = names[found[0]]
        first = found.start() == 0 or text[: found.start()].endswith(". ")
        return name[:1].upper() + name[1:] if first else name

    return pattern.sub(put, text)


def called(reading: Reading, hand: Hand) -> str:
    """What a reading is called in a sentence: “nut, edge to edge”."""
    said = words.reading(reading, hand)
    return f"“{said[:1].lower()}{said[1:]}”"


def _reading(reading: Reading, hand: Hand, text: str) -> str:
    """A sentence with a reading's id, alone or with what it is behind it, put into words."""
    own, plain = re.escape(reading.id), re.escape(survey_words.reading(reading))
    return re.sub(rf"(?:[Rr]eading )?\b{own}\b(?:, {plain}(?=:)| \({plain}\))?", lambda _: called(reading, hand), text)


@lru_cache(maxsize=16)
def _points(points: tuple[str, ...], hand: Hand) -> tuple[dict[str, str], re.Pattern[str]]:
    """What points are called in a sentence, and what finds them there."""
    names: dict[str, str] = {}
    for point in points:
        if "." in point:
            plain = survey_words.point(point)
            for name in (point, plain, plain[:1].upper() + plain[1:]):
                names[name] = words.point(point, hand).replace(", ", " ")
    longest_first = sorted(names, key=len, reverse=True)
    return names, re.compile(
        r"(?<![\w.])(?:" + "|".join(map(re.escape, longest_first)) + r")(?![\w]|\.\w)" if names else r"(?!)"
    )
