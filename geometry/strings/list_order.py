"""Whether the list of strings runs from treble to bass, and whether one is lacking in it.

A **course** is one string or several that are fretted together. A string that starts at a fret says nothing of the
order, for it may be the highest and lie at the bass, nor does a drone: drones are tuned to each other in any order.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from typing import NamedTuple

from geometry import words
from geometry.findings import Finding, look
from geometry.job.stringing import String, Strings
from geometry.pitch import cents, frequency

LEAST_STEPS = 2
"""Steps from course to course of which fewer tell no order (common practice, no source)."""
WIDEST = 8
"""Semitones by which a course rarely lies lower than its neighbour at the treble: fourths and fifths are usual, seven
at most, and two fourths are ten (common practice, no source)."""
FEW_COURSES = 3
"""Of so many courses the middle one may well be single between pairs (common practice, no source)."""


class _Course(NamedTuple):
    """A course's lowest string, and the pitches of its lowest and of its highest, Hz."""

    lowest: String
    low: float
    high: float


def findings(strings: Strings) -> tuple[Finding, ...]:
    """A list that was begun at the bass, one in which a string seems to lack, and a short string at the treble."""
    return (*_order(strings), *_gap(strings), *_lone(strings), *_short_at_treble(strings))


def _order(strings: Strings) -> Iterator[Finding]:
    """A list that climbs more often than it falls from course to course, by their lowest strings and by their highest:
    it was begun at the bass, for few courses are tuned out of their order, and few have an octave in them.
    """
    fretted = [course for course in _courses(strings) if course.lowest.fretted]
    climbs, falls = _climbs_and_falls(course.low for course in fretted)
    high_climbs, high_falls = _climbs_and_falls(course.high for course in fretted)
    if climbs + falls < LEAST_STEPS or climbs <= falls or high_climbs <= high_falls:
        return
    how = "more often than they fall " if falls else ""
    yield look(
        "strings.order",
        f"The strings climb {how}from the first to the last, and the list runs from treble to bass: the first string "
        "is the treble one. Turn the list round, or look at the pitches.",
        "field:strings.list",
    )


def _climbs_and_falls(pitches: Iterable[float]) -> tuple[int, int]:
    steps = list(pairwise(pitch for pitch, _ in groupby(pitches)))
    return sum(a < b for a, b in steps), sum(a > b for a, b in steps)


def _gap(strings: Strings) -> Iterator[Finding]:
    """Neighbours so far apart in pitch that one may have been left out between them."""
    for above, below in pairwise(_courses(strings)):
        semitones = cents(above.low, below.low) / 100
        if semitones > WIDEST + 0.5 and above.lowest.fretted and below.lowest.fretted:
            yield look(
                "strings.gap",
                f"{words.first_large(words.string(below.lowest.name))} is tuned {semitones:.0f} semitones below "
                f"{words.string(above.lowest.name)}, and neighbours rarely lie more than {WIDEST} apart: look at both "
                "pitches, and whether a string between them was left out.",
                f"string:{below.lowest.name}",
                semitones=semitones,
            )
            return


def _lone(strings: Strings) -> Iterator[Finding]:
    """A course with fewer strings than all others have, between these; an outer one may be single."""
    courses = _by_course(strings.list)
    if len(courses) <= FEW_COURSES:
        return
    sizes = [len(course) for course in courses]
    for at, course in enumerate(courses[1:-1], 1):
        others = {*sizes[:at], *sizes[at + 1 :]}
        if len(others) == 1 and sizes[at] < min(others):
            who = words.first_large(words.strings([one.name for one in course]))
            alone = "is alone in its" if len(course) == 1 else "are alone in their"
            yield look(
                "strings.lone",
                f"{who} {alone} course, and each other course has {min(others)} strings: "
                "look whether one was left out.",
                f"string:{course[0].name}",
                strings=float(sizes[at]),
            )


def _short_at_treble(strings: Strings) -> Iterator[Finding]:
    """A string that starts at a fret before all that begin at the nut."""
    first = strings.list[0]
    if first.starts_at and len(strings.list) > 1:
        yield look(
            "strings.short_treble",
            f"{words.first_large(words.string(first.name))} starts at fret {first.starts_at} and comes first, at the "
            "treble; a short string lies at the bass as a rule, and comes last. Look at the order of the list.",
            f"string:{first.name}",
        )


def _courses(strings: Strings) -> list[_Course]:
    """Each course that begins at the nut; empty while a pitch is not known."""
    long = [string for string in strings.list if not string.starts_at]
    if any(string.pitch is None for string in long):
        return []
    found = []
    for course in _by_course(long):
        pitches = [frequency(string.pitch, strings.a4) for string in course if string.pitch is not None]
        low = min(pitches)
        found.append(_Course(course[pitches.index(low)], low, max(pitches)))
    return found


def _by_course(strings: Sequence[String]) -> list[list[String]]:
    """The strings of each course, in list order; one that is of none is by itself."""
    found = defaultdict[int | str, list[String]](list)
    for string in strings:
        found[string.name if string.course is None else string.course].append(string)
    return list(found.values())
