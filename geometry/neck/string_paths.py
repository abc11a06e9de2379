"""String paths: where each string lies at the nut and at the saddle, side by side, and the line between.

The **outer paths** are those of the outermost strings at the nut on the left and on the right. The list of strings runs
from treble to bass, so which end of it lies on the left follows from the hand.
"""

from collections.abc import Sequence
from itertools import accumulate, pairwise

import msgspec
import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Array, Points, crossing, unit
from geometry.job import Job, Spread, Strings
from geometry.job.stringing import SPREADS, String
from geometry.neck.find_neck import NeckFrame
from geometry.units import mm, said

EDGE_TO_STRING = 3.5
"""Board edge to the outer string's centre where the nut's spread is not given, mm (common practice, no source)."""
PAIR_AT_NUT, PAIR_AT_SADDLE = 2.2, 3.0
"""Centre to centre of the two strings of a course where the job does not say, mm (common practice, no source)."""
TOUCH = 0.5
"""Strings side by side with less than this between them touch when they swing, mm (common practice, no source)."""


class OuterPaths(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """[left, right] in all rows: `start` on the nut's front and `along` the path, (rows, 2)."""

    start: Points
    along: Points


class Across(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Where each string lies across the neck, in list order: its y at the nut and at the saddle, (n,) mm; `first` the
    frets they begin at, 0 for the nut. Of one that begins farther on, the nut's place is that of its line carried back.
    """

    nut: Array
    saddle: Array
    first: tuple[int, ...]


def across(job: Job, frame: NeckFrame) -> Across | None:
    """The strings side by side; None while there are none or their spread at the saddle is not given."""
    strings = job.strings
    if strings is None or strings.saddle is None or not strings.list:
        return None
    shift, way = mm(strings.shift), 1 if job.bass == "left" else -1
    within = _within_margins(job, frame)
    spread, at_nut = within or (nut_spread(strings, frame), shift)
    nut = side_by_side(strings, spread, PAIR_AT_NUT, outer_at_nut(strings))
    saddle = side_by_side(strings, strings.saddle, PAIR_AT_SADDLE)
    first = tuple(string.first for string in strings.list)
    return Across(nut=way * nut + at_nut, saddle=way * saddle + shift + _moved_across(job), first=first)


def outer_at_nut(strings: Strings) -> tuple[int, int]:
    """The first and the last string that begin at the nut, by their places in the list."""
    begin = [index for index, string in enumerate(strings.list) if not string.first]
    return begin[0], begin[-1]


def _moved_across(job: Job) -> float:
    """How far the strings go to the left with a bridge that is moved across the neck, mm."""
    return mm(job.bridge.moved.across) if job.bridge is not None and job.bridge.moved is not None else 0.0


def side_by_side(strings: Strings, spread: Spread, usual_pair: float, outer: tuple[int, int] | None = None) -> Array:
    """The strings' places from the middle between the outer ones, in list order (n,), the first on the minus side; mm.

    The spread is that of the `outer` two, by their places in the list, the first and the last where none are given; a
    string beyond them lies on as those between do.

    Equal centres, or equal gaps between the strings' sides (a string of unknown diameter counts as 0). The strings of
    a course lie as far apart as the spread says, or `usual_pair` (mm), on the mean of all courses, and the courses
    share out what is left.
    """
    sizes = [mm(s.diameter) if s.diameter is not None and spread.spacing == "gaps" else 0.0 for s in strings.list]
    needs = [(a + b) / 2 for a, b in pairwise(sizes)]
    paired = in_pairs(strings)
    within = [need for need, pair in zip(needs, paired, strict=True) if pair]
    pair = mm(spread.pair) if spread.pair is not None else usual_pair
    pair_gap = pair - sum(within) / max(len(within), 1)
    first, last = outer if outer is not None and outer[0] < outer[1] else (0, len(needs))
    pairs = sum(paired[first:last])
    gap = (mm(spread.spread) - sum(needs[first:last]) - pair_gap * pairs) / max(last - first - pairs, 1)
    steps = [need + (pair_gap if pair else gap) for need, pair in zip(needs, paired, strict=True)]
    return np.array([*accumulate(steps, initial=-sum(steps[:first]) - sum(steps[first:last]) / 2)])


def in_pairs(strings: Strings) -> list[bool]:
    """For each string but the first, whether it is of one course with the string before it.

    Where all are of one course they lie side by side like strings of their own.
    """
    found = [a.course is not None and a.course == b.course for a, b in pairwise(strings.list)]
    return [False] * len(found) if all(found) else found


def nut_spread(strings: Strings, frame: NeckFrame) -> Spread:
    """The spread at the nut as given, or by common practice from the nut's width."""
    if strings.nut is not None:
        return strings.nut
    width = abs(complex(frame.nut[0, 0] - frame.nut[0, 1]))
    least, most = SPREADS
    return Spread(spread=min(max(width - 2 * EDGE_TO_STRING, least), most))


def _within_margins(job: Job, frame: NeckFrame) -> tuple[Spread, float] | None:
    """The spread that margins at the nut leave, and its middle's y; None where no margins are asked for."""
    if job.nut is None or job.nut.margins is None:
        return None
    corners = frame.nut[0]
    inward = unit(corners[::-1] - corners)
    left, right = (corners + inward * np.array([mm(margin) for margin in job.nut.margins])).imag.tolist()
    least, most = SPREADS
    return Spread(spread=min(max(left - right, least), most), spacing=job.nut.spacing), (left + right) / 2


def on_the_nut(frame: NeckFrame, places: Array) -> Points:
    """Points on the nut's front at these y (n,) in all rows, (rows, n)."""
    way = frame.nut[:, 0] - frame.nut[:, 1]
    slope = way.real / way.imag
    start = frame.nut[:, 1]
    return (start.real - slope * start.imag)[:, None] + slope[:, None] * places + 1j * places


def outer_paths(frame: NeckFrame, strings: Across | None, reach: float) -> OuterPaths:
    """The outer paths; along the board's edges while the strings are not known.

    `reach` is about how far the saddle lies from the nut: the spread at the saddle is met there.
    """
    begin = [] if strings is None else [index for index, first in enumerate(strings.first) if not first]
    if strings is None or len(begin) < 2:
        return OuterPaths(start=frame.nut, along=frame.edge_way)
    ends = [begin[int(strings.nut[begin].argmax())], begin[int(strings.nut[begin].argmin())]]
    start = on_the_nut(frame, strings.nut[ends])
    return OuterPaths(start=start, along=unit(reach + 1j * strings.saddle[ends] - start))


def edge_crossings(frame: NeckFrame, at: Points, along: Points) -> Points:
    """Where a line in all rows (rows,) crosses the edge lines, (rows, 2)."""
    return crossing(at[:, None], along[:, None], frame.edge, frame.edge_way)


def findings(job: Job, strings: Across) -> tuple[Finding, ...]:
    """Strings that lie so near each other that they touch, at the nut or at the saddle."""
    if job.strings is None:
        return ()
    found, way = [], 1 if job.bass == "left" else -1
    at_nut = [index for index, first in enumerate(strings.first) if not first]
    everywhere = list(range(len(strings.first)))
    for where, places, there, wider, field in (
        ("nut", strings.nut, at_nut, wider_at_nut(job), spread_field(job)),
        ("saddle", strings.saddle, everywhere, "the spread at the saddle wider", "strings.saddle.spread"),
    ):
        least, a, b = _nearest([job.strings.list[index] for index in there], way * places[there])
        if least < TOUCH:
            lie = f"have only {said(least, job.unit)} between them" if least > 0 else "lie on each other"
            found.append(
                Finding(
                    grade="look" if least > 0 else "stop",
                    code=f"strings.close_at_{where}",
                    text=f"At the {where} {words.strings((a, b))} {lie}. Make {wider}{_or_pair(job.strings)}.",
                    values={"gap": least},
                    where=f"field:{field}",
                )
            )
    return tuple(found)


def by_margins(job: Job) -> bool:
    """Whether the strings at the nut are spread between margins."""
    return job.nut is not None and job.nut.margins is not None


def spread_field(job: Job) -> str:
    """The field that says how far the strings are spread at the nut."""
    return "nut.margins" if by_margins(job) else "strings.nut.spread"


def wider_at_nut(job: Job) -> str:
    """What gives the strings more room at the nut, after `make`."""
    return "the margins at the nut smaller" if by_margins(job) else "the spread at the nut wider"


def _or_pair(strings: Strings) -> str:
    return ", or change how far the two strings of a pair lie apart" if any(in_pairs(strings)) else ""


def _nearest(strings: Sequence[String], places: Array) -> tuple[float, str, str]:
    """The least room between two neighbours' sides, mm (below 0 where they lie on each other), and their names.

    `places` (n,) run toward the plus side.
    """
    halves = [mm(s.diameter) / 2 if s.diameter is not None else 0.0 for s in strings]
    rooms = [
        (y - x - half - other, a.name, b.name)
        for (x, y), (half, other), (a, b) in zip(
            pairwise(places.tolist()), pairwise(halves), pairwise(strings), strict=True
        )
    ]
    return min(rooms, default=(float("inf"), "", ""))
