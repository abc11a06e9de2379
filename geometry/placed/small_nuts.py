"""Strings that begin at a fret: where their small nuts stand across the board, and what is to be said of them.

Such a string lies on as the others do, unless it is said how far from its neighbour or from the board's edge it starts.
Its **neighbour** is the next string toward those that begin at the nut.
"""

from collections.abc import Iterator

import numpy as np
from msgspec.structs import replace

from geometry import words
from geometry.findings import Finding
from geometry.frame import Points, crossing
from geometry.frets.fret_lines import FretLines
from geometry.job import Job, String, Strings
from geometry.job.sides import SIDES
from geometry.layout import FretLine, StringPlan
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import TOUCH, Across, on_the_nut, outer_at_nut
from geometry.saddle.saddle_line import nominal_places
from geometry.units import mm, said

OFF_BOARD = 1.0
"""A string that starts so far beyond the board's edge, mm, was not read there, however the width was measured (common
practice, no source)."""


def start_where_said(job: Job, frame: NeckFrame, strings: Across, lines: FretLines, ends: Points) -> Across:
    """The strings side by side, those that start at a fret where the job says; `ends` (rows, 2) are the nominal places
    on the outer paths. A line is as sure across the neck as any string's: no reading moves it.
    """
    if job.strings is None or not any(_said(string) for string in job.strings.list):
        return strings
    nut, saddle = strings.nut.copy(), nominal_places(ends[:1], strings.saddle)[0]
    left, right = frame.nut[0]
    for index, neighbour in _outward(outer_at_nut(job.strings)[0], len(nut)):
        string = job.strings.list[index]
        if not _said(string):
            continue
        on, way = lines.on[string.first - 1], lines.way[string.first - 1]
        to_bass = way if job.bass == "left" else -way
        outward = to_bass if neighbour < index else -to_bass
        if string.from_edge is not None:
            side = SIDES.index(job.bass) if neighbour < index else 1 - SIDES.index(job.bass)
            at = crossing(on, way, frame.edge[0, side], frame.edge_way[0, side]) - outward * mm(string.from_edge)
        else:
            begin = on_the_nut(frame, nut[neighbour : neighbour + 1])[0, 0]
            beside = crossing(on, way, begin, saddle[neighbour] - begin)
            at = beside + outward * (mm(string.from_neighbour) if string.from_neighbour is not None else 0.0)
        nut[index] = float(crossing(at, saddle[index] - at, right, left - right).imag)
    return replace(strings, nut=nut)


def _said(string: String) -> bool:
    return string.from_neighbour is not None or string.from_edge is not None


def _outward(first: int, count: int) -> list[tuple[int, int]]:
    """Each string with its neighbour, from the first that begins at the nut outward."""
    to_bass = [(index, index - 1) for index in range(first + 1, count)]
    return [*to_bass, *((index, index + 1) for index in range(first - 1, -1, -1))]


def findings(job: Job, plans: tuple[StringPlan, ...], frets: tuple[FretLine, ...]) -> tuple[Finding, ...]:
    """Strings that start off the board, on the wrong side of others, or so near their neighbour that they touch it.

    `frets` are the fret lines from edge to edge, the nut's first.
    """
    found: list[Finding] = []
    for index, plan in enumerate(plans):
        if not plan.starts_at:
            continue
        beside = _beside(job, plans, index)
        crossed = [other.name for off, other in beside if off < 0]
        found += [*_off_board(job, plan, frets[plan.starts_at]), *_crosses(job, plan, crossed)]
        if not crossed:
            found += _touches(job, plan, beside)
    return tuple(found)


def _beside(job: Job, plans: tuple[StringPlan, ...], index: int) -> list[tuple[float, StringPlan]]:
    """The strings that are there where one starts, and how far from each it starts, mm: below 0 where that is on the
    other side than in the list. Of two that start at one fret only the outer one counts the other.
    """
    begins = [at for at, plan in enumerate(plans) if not plan.starts_at]

    def order(at: int) -> tuple[int, int, int]:
        return plans[at].starts_at, max(begins[0] - at, at - begins[-1]), at

    return [
        ((1 if at < index else -1) * _to_bass(job, plans[index], other), other)
        for at, other in enumerate(plans)
        if order(at) < order(index)
    ]


def _to_bass(job: Job, plan: StringPlan, other: StringPlan) -> float:
    """How far toward the bass a string starts from another, square to that, mm."""
    a, b, at = (complex(*xy) for xy in (other.nut_xy, other.break_point, plan.nut_xy))
    to_left = float(((at - a) * np.conj(b - a)).imag / abs(b - a))
    return to_left if job.bass == "left" else -to_left


def _off_board(job: Job, plan: StringPlan, fret: FretLine) -> Iterator[Finding]:
    left, right, at = (complex(*xy) for xy in (fret.left, fret.right, plan.nut_xy))
    way = (left - right) / abs(left - right)
    off = max(((at - left) * way.conjugate()).real, ((right - at) * way.conjugate()).real)
    if off > OFF_BOARD:
        text = (
            f"Where {words.string(plan.name)} starts, at fret {plan.starts_at}, it would lie {said(off, job.unit)} "
            f"beyond the board’s edge. {_look_at(job, plan)}"
        )
        yield _stop("strings.starts_off", text, plan, mm=off)


def _crosses(job: Job, plan: StringPlan, crossed: list[str]) -> Iterator[Finding]:
    if crossed:
        them = "it" if len(crossed) == 1 else "them"
        text = (
            f"{words.first_large(words.string(plan.name))} starts at fret {plan.starts_at} on the wrong side of "
            f"{words.strings(crossed)}, and crosses {them} on its way to the bridge. {_look_at(job, plan)}"
        )
        yield _stop("strings.crosses", text, plan)


def _touches(job: Job, plan: StringPlan, beside: list[tuple[float, StringPlan]]) -> Iterator[Finding]:
    rooms = [(off - (plan.diameter or 0.0) / 2 - (other.diameter or 0.0) / 2, other) for off, other in beside]
    room, other = min(rooms, key=lambda one: one[0])
    if room >= TOUCH:
        return
    lie = f"have only {said(room, job.unit)} between them" if room > 0 else "lie on each other"
    yield Finding(
        grade="look" if room > 0 else "stop",
        code="strings.close_at_start",
        text=f"Where {words.string(plan.name)} starts, at fret {plan.starts_at}, "
        f"{words.strings((other.name, plan.name))} {lie}. Start it farther from its neighbour.",
        values={"gap": room, "fret": float(plan.starts_at)},
        where=f"string:{plan.name}",
    )


def _look_at(job: Job, plan: StringPlan) -> str:
    """Where to look when a string's start is wrong."""
    string = next((one for one in job.strings.list if one.name == plan.name), None) if job.strings is not None else None
    if string is not None and string.from_edge is not None:
        return "Look at how far from the board’s edge it is said to start."
    if string is not None and string.from_neighbour is not None:
        return "Look at how far from its neighbour it is said to start."
    return "Say how far from its neighbour, or from the board’s edge, it starts."


def height_told(strings: Strings, at: int) -> str:
    """From what the height of the string at that place of the list is taken, for none is read of its own; "" for one
    that begins at the nut.
    """
    if not strings.list[at].first:
        return ""
    begin = [index for index, string in enumerate(strings.list) if not string.first]
    who = f"The height of {words.string(strings.list[at].name)} is taken"
    if begin[0] < at < begin[-1]:
        return f"{who} by its place between {words.strings(_names(strings, begin[0], begin[-1]))}."
    like = begin[0] if at < begin[0] else begin[-1]
    return f"{who} as that of {words.string(strings.list[like].name)}, over frets 1 and 12 and where it breaks."


def _names(strings: Strings, *places: int) -> tuple[str, ...]:
    return tuple(strings.list[at].name for at in places)


def _stop(code: str, text: str, plan: StringPlan, **values: float) -> Finding:
    values = {**values, "fret": float(plan.starts_at)}
    return Finding(grade="stop", code=code, text=text, values=values, where=f"string:{plan.name}")
