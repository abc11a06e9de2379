"""Whether the list of strings runs from treble to bass, and whether one is lacking in it.

A **course** is one string or several that are fretted together; of its pitches the lowest counts. A string that starts
at a fret says nothing of the order: it may be the highest and lie at the bass.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import groupby, pairwise

from geometry import words
from geometry.findings import Finding, look
from geometry.job.stringing import String, Strings
from geometry.pitch import cents, frequency

LEAST_STEPS = 2
"""Steps from course to course of which fewer tell no order (common practice, no source)."""
WIDEST = 8
"""Semitones by which a course rarely lies lower than its neighbour at the treble: fourths and fifths are usual, seven
at most, and two fourths are ten (common practice, no source)."""


def findings(strings: Strings) -> tuple[Finding, ...]:
    """A list that was begun at the bass, one in which a string seems to lack, and a short string at the treble."""
    return (*_order(strings), *_gap(strings), *_lone(strings), *_short_at_treble(strings))


def _order(strings: Strings) -> Iterator[Finding]:
    """A list that climbs more often than it falls from course to course: it was begun at the bass, for few courses are
    tuned out of their order.
    """
    steps = list(pairwise(pitch for pitch, _ in groupby(pitch for _, pitch in _courses(strings))))
    climbs, falls = sum(a < b for a, b in steps), sum(a > b for a, b in steps)
    if len(steps) < LEAST_STEPS or climbs <= falls:
        return
    how = "more often than they fall " if falls else ""
    yield look(
        "strings.order",
        f"The strings climb {how}from the first to the last, and the list runs from treble to bass: the first string "
        "is the treble one. Turn the list round, or look at the pitches.",
        "field:strings.list",
    )


def _gap(strings: Strings) -> Iterator[Finding]:
    """Neighbours so far apart in pitch that one may have been left out between them."""
    for (above, high), (below, low) in pairwise(_courses(strings)):
        semitones = cents(high, low) / 100
        if semitones > WIDEST + 0.5:
            yield look(
                "strings.gap",
                f"{words.first_large(words.string(below.name))} is tuned {semitones:.0f} semitones below "
                f"{words.string(above.name)}, and neighbours rarely lie more than {WIDEST} apart: look at both "
                "pitches, and whether a string between them was left out.",
                f"string:{below.name}",
                semitones=semitones,
            )
            return


def _lone(strings: Strings) -> Iterator[Finding]:
    """A course with fewer strings than all others have, between these; an outer one may be single."""
    counts = Counter(string.course if string.course is not None else string.name for string in strings.list)
    courses, sizes = list(counts), list(counts.values())
    for at in range(1, len(sizes) - 1):
        others = {*sizes[:at], *sizes[at + 1 :]}
        if len(others) == 1 and sizes[at] < min(others):
            yield look(
                "strings.lone",
                f"Course {courses[at]} has {sizes[at]} string{'' if sizes[at] == 1 else 's'}, and all others have "
                f"{min(others)}: look whether one was left out.",
                "field:strings.list",
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


def _courses(strings: Strings) -> list[tuple[String, float]]:
    """Each course's first string and lowest pitch (Hz); empty while one is not known."""
    found: dict[int | str, tuple[String, float]] = {}
    for string in strings.list:
        if string.starts_at:
            continue
        if string.pitch is None:
            return []
        course: int | str = string.name if string.course is None else string.course
        pitch = frequency(string.pitch, strings.a4)
        first, lowest = found.get(course, (string, pitch))
        found[course] = first, min(pitch, lowest)
    return list(found.values())
