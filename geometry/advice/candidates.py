"""Readings that a hand could take next: between points that are known, with the instruments of the bench."""

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from geometry import words
from geometry.job import Job, Reading
from geometry.job.measured.kinds import Kind, On
from geometry.job.measured.measuring_tools import DEFAULT
from geometry.job.sides import Side
from geometry.layout import BOARD_CORNERS

CORNERS = (*BOARD_CORNERS, "fret12.left", "fret12.right")
EDGES = (("nut.left", "end.left"), ("nut.right", "end.right"))
WIDTHS = (frozenset(("nut.left", "nut.right")), frozenset(("end.left", "end.right")))
"""Between which points the board's width is read, at the nut and at its end."""
CALIPER, RULE = 150.0, 1000.0
"""How far the usual caliper opens and the longest rule on the bench reaches, mm (common practice, no source)."""
SHORT = 8.0
"""Nothing shorter than this is worth a reading of its own, mm."""
MOST_POINTS = 12
"""How many points that want a check are looked at; the rest wait, for one card cannot show more."""


def candidates(
    job: Job, at: Mapping[str, complex], wanting: Iterable[str], frets: Mapping[On, tuple[int, ...]]
) -> list[Reading]:
    """Readings with value null: board corners to one another, points `wanting` a check to the corners and from the
    board's edges, and `frets` by side. `at` are the solved places.
    """
    rule, caliper = usual_rule(job), usual_caliper(job)
    found: list[Reading] = []

    def add(kind: Kind, of: tuple[str, ...], laid: tuple[str, ...] = (), side: Side | None = None) -> None:
        short = kind == "distance" and abs(at[of[0]] - at[of[1]]) <= CALIPER
        with_ = caliper if short else rule
        if kind == "distance" and any(words.is_hole(name) for name in of):
            kind, of = "rims", of if words.is_hole(of[1]) else of[::-1]
        found.append(Reading(id=f"new.{len(found)}", kind=kind, of=of, from_=laid, side=side, with_=with_))

    corners = [name for name in CORNERS if name in at]
    wished = [name for name in wanting if name in at and name not in corners][:MOST_POINTS]
    for a, b in _pairs(corners, wished):
        if SHORT < abs(at[a] - at[b]) < RULE:
            add("distance", (a, b))
    for name in wished:
        for a, b in EDGES:
            if a in at and b in at and name not in (a, b):
                off = ((at[b] - at[a]).conjugate() * (at[name] - at[a])).imag / abs(at[b] - at[a])
                add("along", (name,), (a, b))
                if abs(off) > SHORT:
                    add("off", (name,), (a, b), "left" if off > 0 else "right")
    for on, counted in frets.items():
        for fret in counted:
            found.append(Reading(id=f"new.{len(found)}", kind="fret", fret=fret, on=on, with_=rule))
    return found


def _pairs(corners: list[str], wished: list[str]) -> Iterator[tuple[str, str]]:
    for i, a in enumerate(corners):
        for b in corners[i + 1 :]:
            yield a, b
        for b in wished:
            yield a, b
    for i, a in enumerate(wished):
        for b in wished[i + 1 :]:
            if not (words.is_hole(a) and words.is_hole(b)):  # from the middle of one: nobody sees it
                yield a, b


def usual_rule(job: Job) -> str:
    """The rule that the job's readings are mostly taken with, else the usual one of its unit."""
    return _favourite(job, "rule") or ("rule 1/64" if job.unit == "in" else DEFAULT)


def usual_caliper(job: Job) -> str:
    """The caliper that they are taken with; the rule where even the widths at nut and board's end, which a caliper
    takes, are read with one: such a bench has no caliper.
    """
    widths = [r.with_ for r in job.readings if r.kind == "distance" and frozenset(r.of) in WIDTHS]
    without = any(with_ is not None and not with_.startswith("caliper") for with_ in widths)
    return _favourite(job, "caliper") or (usual_rule(job) if without else "caliper 0.1")


def _favourite(job: Job, family: str) -> str:
    """The instrument of a family that the job's readings are mostly taken with; "" for none."""
    used = [reading.with_ for reading in job.readings if reading.with_ and reading.with_.startswith(family)]
    return max(set(used), key=lambda name: (used.count(name), name)) if used else ""


def numbered(job: Job, reading: Reading) -> Reading:
    """The reading under the next free number."""
    taken = {other.id for other in job.readings}
    number = len(job.readings) + 1
    while f"r{number}" in taken:
        number += 1
    return msgspec.structs.replace(reading, id=f"r{number}")
