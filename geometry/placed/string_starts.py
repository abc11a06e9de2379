"""Strings that begin at a fret: where their small nuts stand across the board, and what is to be said of them.

Such a string lies on as the others do, unless it is said how far from its neighbour or from the board's edge it starts.
Its **neighbour** is the next string toward those that begin at the nut.
"""

import numpy as np
from msgspec.structs import replace

from geometry import words
from geometry.findings import Finding
from geometry.frame import Points, crossing
from geometry.frets.fret_lines import FretLines
from geometry.job import Job, String
from geometry.job.sides import SIDES
from geometry.layout import StringPlan
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import TOUCH, Across, on_the_nut, outer_at_nut
from geometry.saddle.saddle_line import nominal_places
from geometry.units import mm, said


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


def findings(job: Job, plans: tuple[StringPlan, ...]) -> tuple[Finding, ...]:
    """Strings that touch their neighbours where they start."""
    found = []
    for index, plan in enumerate(plans):
        beside = [
            plans[i] for i in (index - 1, index + 1) if 0 <= i < len(plans) and plans[i].starts_at <= plan.starts_at
        ]
        for other in beside if plan.starts_at else ():
            room = _apart(plan, other) - (plan.diameter or 0.0) / 2 - (other.diameter or 0.0) / 2
            if room >= TOUCH:
                continue
            lie = f"have only {said(room, job.unit)} between them" if room > 0 else "lie on each other"
            found.append(
                Finding(
                    grade="look" if room > 0 else "stop",
                    code="strings.close_at_start",
                    text=f"Where {words.string(plan.name)} starts, at fret {plan.starts_at}, "
                    f"{words.strings((other.name, plan.name))} {lie}. Start it farther from its neighbour.",
                    values={"gap": room, "fret": float(plan.starts_at)},
                    where=f"string:{plan.name}",
                )
            )
    return tuple(found)


def _apart(plan: StringPlan, other: StringPlan) -> float:
    """From where a string starts, square across to another, mm."""
    a, b, at = (complex(*xy) for xy in (other.nut_xy, other.break_point, plan.nut_xy))
    return float(abs(((at - a) * np.conj(b - a)).imag / abs(b - a)))
