"""What is to be said of the nut's blank and its slots.

All bounds: common practice, no source; mm.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from geometry import words
from geometry.findings import Finding, Grade
from geometry.job import Job, Nut
from geometry.job.stringing import SPREADS
from geometry.layout import Layout, NutBlank, NutSlot
from geometry.neck.string_paths import by_margins, spread_field, wider_at_nut
from geometry.units import mm, said, said_pm

EDGE_WALL = 1.5
"""Less wood between an outer slot and the nut's end breaks out."""
BETWEEN = 0.8
"""The same between two slots."""
UNDER = 1.5
"""Less of the nut under a slot breaks through."""
SUNK = 0.05
"""A slot so far under the frets' plane lets its open string lie on fret 1."""
HOLDS = 0.5
"""Of its string's thickness a slot is this deep at least, or the string jumps out."""


def findings(job: Job, nut: Nut, blank: NutBlank, layout: Layout) -> tuple[Finding, ...]:
    """What waits, what does not fit, and how the slots' bottoms lie."""
    told = {(finding.code, finding.values.get("fret", 0.0)) for finding in layout.findings}
    return (
        *_margins(job, nut, blank),
        *_waits(nut, blank),
        *(() if ("margin.small", 0.0) in told else _edge(job, blank)),
        *(() if ("strings.close_at_nut", 0.0) in told else _neighbours(job, blank)),
        *_through(job, blank),
        *_too_low(job, layout, blank),
        *_sunk(job, nut, blank),
        *_bottoms(job, blank),
    )


def _margins(job: Job, nut: Nut, blank: NutBlank) -> Iterator[Finding]:
    """Margins beside which the least spread finds no room on the nut."""
    left = blank.length[0] - sum(mm(margin) for margin in nut.margins or ())
    if nut.margins is not None and len(blank.slots) > 1 and left < SPREADS[0]:
        text = (
            f"The margins at the nut leave no room for the strings on a nut of {said(blank.length[0], job.unit)}: make "
            "them smaller."
        )
        yield _found("stop", "nut.margins", text, "nut.margins", mm=left)


def _waits(nut: Nut, blank: NutBlank) -> Iterator[Finding]:
    if nut.fret_height is None:
        text = (
            "The bottoms of the nut’s slots wait for the frets’ height: measure a fret’s top over the board’s face, "
            "near the nut. Their places and widths are known without it."
        )
        yield _found("look", "nut.waits", text, "nut.fret_height")
    elif nut.height is not None and not blank.face:
        text = (
            "How deep the nut’s slots are waits for the board’s face over the nut’s bottom: measure it at the board’s "
            "edge."
        )
        yield _found("look", "nut.waits", text, "nut.bed")


def _edge(job: Job, blank: NutBlank) -> Iterator[Finding]:
    """The wood from an outer slot to the nut's end, where it is least."""
    thin = min(blank.slots, key=lambda slot: math.inf if slot.edge is None else slot.edge, default=None)
    if thin is None or thin.edge is None or thin.edge >= EDGE_WALL:
        return
    out = thin.edge <= 0
    text = (
        f"The slot of {words.string(thin.string)} would break out of the nut’s end: "
        if out
        else f"Only {said(thin.edge, job.unit)} stays between the slot of {words.string(thin.string)} and the nut’s end"
        f"; leave {said(EDGE_WALL, job.unit)} or more: "
    )
    mend = "margins at the nut larger" if by_margins(job) else "spread at the nut smaller"
    yield _found("stop" if out else "look", "nut.edge", f"{text}make the {mend}.", spread_field(job), mm=thin.edge)


def _neighbours(job: Job, blank: NutBlank) -> Iterator[Finding]:
    """The least wall between two slots."""
    walls = [
        (abs(a.along[0] - b.along[0]) - ((a.width or 0.0) + (b.width or 0.0)) / 2, a.string, b.string)
        for a, b in pairwise(blank.slots)
    ]
    least, a, b = min(walls, default=(math.inf, "", ""))
    if least >= BETWEEN:
        return
    wall = f"only {said(least, job.unit)} stays" if least > 0 else "nothing stays"
    text = (
        f"Between the slots of {words.strings((a, b))} {wall}; leave {said(BETWEEN, job.unit)} or more: make "
        f"{wider_at_nut(job)}."
    )
    yield _found("look" if least > 0 else "stop", "nut.wall", text, spread_field(job), mm=least)


def _through(job: Job, blank: NutBlank) -> Iterator[Finding]:
    """The least of the nut that stays under a slot, at its back, where it is deepest."""
    falls = blank.thickness * math.tan(blank.back_angle)
    known = [(slot.over_bed[0] - falls, slot.string) for slot in blank.slots if slot.over_bed is not None]
    least, name = min(known, default=(math.inf, ""))
    if least >= UNDER:
        return
    through = least <= 0
    text = (
        f"The slot of {words.string(name)} would go through the nut’s bottom at its back: "
        if through
        else f"Under the slot of {words.string(name)} only {said(least, job.unit)} of the nut stays at its back; leave "
        f"{said(UNDER, job.unit)} or more: "
    )
    mend = "look at the board’s face over the nut’s bottom, or let the slots fall away less."
    yield _found("stop" if through else "look", "nut.through", text + mend, "nut.bed", mm=least)


def _too_low(job: Job, layout: Layout, blank: NutBlank) -> Iterator[Finding]:
    """A blank whose top lies under a slot's bottom, or hardly over it."""
    sizes = {string.name: string.diameter for string in layout.strings}
    known = [(slot.deep, _holds(sizes.get(slot.string)), slot) for slot in blank.slots if slot.deep is not None]
    short = [(deep[0] - needs, deep, slot) for deep, needs, slot in known if deep[0] < needs]
    if not short:
        return
    _, deep, slot = min(short, key=lambda one: one[0])
    none = deep[0] <= 0
    text = (
        f"The blank is {said_pm(deep[1], job.unit, -deep[0])} too low for {words.string(slot.string)}: its slot’s "
        "bottom would lie over the blank’s top. Take a higher one."
        if none
        else f"The slot of {words.string(slot.string)} would be only {said_pm(deep[1], job.unit, deep[0])} deep, less "
        "than half its string: it may jump out. Take a higher blank."
    )
    yield _found("stop" if none else "look", "nut.low", text, "nut.height", mm=deep[0], pm95=deep[1])


def _holds(diameter: float | None) -> float:
    return HOLDS * (diameter or 0.0)


def _sunk(job: Job, nut: Nut, blank: NutBlank) -> Iterator[Finding]:
    """A slot under the frets' plane; behind a zero fret that is where it belongs."""
    if blank.zero_fret:
        if nut.over_fret1 != (None, None):
            text = "With a zero fret the height over fret 1 follows from that fret: what is wanted there is not used."
            yield _found("look", "nut.over_fret1", text, "nut.over_fret1")
        return
    if nut.fret_height is None:
        return
    known = [(slot.over_board[0] - mm(nut.fret_height), slot) for slot in blank.slots if slot.over_board is not None]
    least, lowest = min(known, key=lambda one: one[0], default=(0.0, None))
    if lowest is None or lowest.over_board is None or least >= -SUNK:
        return
    text = (
        f"For so little over fret 1 the slot of {words.string(lowest.string)} would lie "
        f"{said_pm(lowest.over_board[1], job.unit, -least)} under the fret tops, and its open string on fret 1: ask "
        "for more, or look at the heights over frets 1 and 12."
    )
    yield _found("look", "nut.sunk", text, "nut.over_fret1", mm=least, pm95=lowest.over_board[1])


def _bottoms(job: Job, blank: NutBlank) -> Iterator[Finding]:
    """How the slots' bottoms lie, from the first string to the last."""
    known = [slot for slot in blank.slots if slot.over_board is not None]
    if not known:
        return
    ends = (known[0], known[-1])
    says = " and ".join(_bottom(job, slot) for slot in ends)
    values = {f"over_board.{slot.string}": slot.over_board[0] for slot in known if slot.over_board is not None}
    guide = "; they only guide, the zero fret carries the strings" if blank.zero_fret else ""
    text = f"The bottoms of the nut’s slots lie over the board’s face: {says}{guide}."
    yield _found("good", "nut.slots", text, "nut.fret_height", **values)


def _bottom(job: Job, slot: NutSlot) -> str:
    assert slot.over_board is not None
    height, wide = slot.over_board
    return f"{said_pm(wide, job.unit, height)} under {words.string(slot.string)}"


def _found(grade: Grade, code: str, text: str, field: str, **values: float) -> Finding:
    return Finding(grade=grade, code=code, text=text, values=values, where=f"field:{field}")
