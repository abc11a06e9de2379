"""All that is told of a job, as lines that a person can read: a path into what was worked out, and what stands there.

A line holds as much as fits: a whole small record, or one value of it. Numbers keep seven figures.
"""

import json
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any, get_args

import msgspec

from geometry.advice import advise
from geometry.advice.measuring_lists import Name, measuring_list
from geometry.choice import choose
from geometry.go_or_wait import as_findings, in_short, strip_words, told, worked_out
from geometry.job import Job
from geometry.job.proof import STAGES
from geometry.layout import Layout
from geometry.placed.how_far import how_far
from geometry.placed.kept_placements import below, compare, places_of, rows
from geometry.proof import as_finding, band_words, ends_called, prove, row_words, said
from geometry.survey import survey

WIDE = 140
"""Characters of a line that holds more than one value."""
FIGURES = 7

Lines = dict[str, Any]


def lines_of(what: object, path: str = "") -> Lines:
    """A record, a list or a value as lines by their paths."""
    return dict(_lines(msgspec.to_builtins(what, str_keys=True), path))


def _lines(what: Any, path: str) -> Iterator[tuple[str, Any]]:
    if isinstance(what, float):
        yield path, float(f"{what:.{FIGURES}g}")
    elif not isinstance(what, dict | list | tuple):
        yield path, what
    else:
        inside = what.items() if isinstance(what, dict) else enumerate(what)
        found = [line for name, part in inside for line in _lines(part, f"{path}.{name}".lstrip("."))]
        whole = short(what)
        yield from [(path, whole)] if path and len(json.dumps(whole, ensure_ascii=False)) <= WIDE else found


def short(what: Any) -> Any:
    """A value whose numbers keep as many figures as are kept."""
    match what:
        case float():
            return float(f"{what:.{FIGURES}g}")
        case dict():
            return {name: short(part) for name, part in what.items()}
        case list() | tuple():
            return [short(part) for part in what]
        case _:
            return what


def layout_of(job: Job, layout: Layout) -> Lines:
    """Everything that is worked out, with each finding's sentence and the numbers behind it."""
    del job
    return lines_of(layout)


def advice_of(job: Job, layout: Layout) -> Lines:
    """What is worth reading next, and what would be told of it."""
    return lines_of(advise(job, layout), "advice")


def verdicts_of(job: Job, layout: Layout) -> Lines:
    """What may be done to the wood, what must wait, and for what: as numbers and in words."""
    steps = worked_out(job, layout)
    words = {"told": [told(job, step, steps) for step in steps], "in short": in_short(job, steps)}
    return (
        lines_of(steps, "steps")
        | lines_of(words, "words")
        | lines_of(strip_words(steps), "strip")
        | lines_of(as_findings(job, layout, steps), "findings")
    )


def choice_of(job: Job, layout: Layout) -> Lines:
    """Where else the bridge might go, and what speaks for each place."""
    return lines_of(choose(job, survey(job), layout), "choice")


def proof_of(job: Job, layout: Layout) -> Lines:
    """Which distances prove the place, and what those say that were read."""
    del layout
    found: Lines = {}
    for stage in STAGES:
        proved = prove(job, stage)
        if proved is not None:
            ends = [
                [*ends_called(row.reading, job.hand), band_words(job, row), row_words(job, row)] for row in proved.rows
            ]
            found |= lines_of(proved, stage) | lines_of(ends, f"{stage}.words")
            found |= lines_of([said(job, proved), as_finding(job, proved)], f"{stage}.said")
    return found


def kept_of(job: Job, layout: Layout) -> Lines:
    """What is kept of the placement, and how it compares with those that were kept before."""
    found = lines_of(places_of(job, layout), "places")
    for kept in job.kept:
        compared = compare(job, layout, kept)
        found |= lines_of(compared, kept.name)
        if compared is not None:
            found |= lines_of([rows(job, compared), below(job, compared)], f"{kept.name}.words")
    return found


def distances_of(job: Job, layout: Layout) -> Lines:
    """How far some things lie from others: points, lines, and both."""
    names = [f"point:{name}" for name in list(layout.points)[::6]][:6]
    pairs = [
        *pairwise(names),
        *((name, "saddle") for name in names),
        ("neck", "seam"),
        ("neck", "nut.left"),
    ]
    return {line: at for a, b in pairs for line, at in lines_of(how_far(job, a, b), f"{a} to {b}").items()}


def lists_of(job: Job) -> Lines:
    """Each measuring list for an instrument of this hand with so many strings, with and without pins and strings."""
    assert job.strings is not None
    found: Lines = {}
    for name in get_args(Name):
        for on in (True, False):
            given = measuring_list(name, job.hand, len(job.strings.list), job.unit, pins=on, strings_on=on)
            found |= lines_of(given, f"{name}, {'all on' if on else 'bare'}")
    return found


PARTS: dict[str, Callable[[Job, Layout], Lines]] = {
    "layout": layout_of,
    "advice": advice_of,
    "verdicts": verdicts_of,
    "proof": proof_of,
    "kept": kept_of,
}
SLOW: dict[str, Callable[[Job, Layout], Lines]] = {"choice": choice_of, "distances": distances_of}
"""Parts that take long; a few jobs show all there is to see of them."""
