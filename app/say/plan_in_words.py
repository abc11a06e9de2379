"""What the plan shows, in words, for who can't see it: what is in hand and where, then what is worked out, what is
found, and where every string and point stands.

A place is told as a rule finds it: how far from the nut along the neck centre line, and how far from that to bass or
treble.
"""

from collections.abc import Callable, Iterator

from export.plan.measured_points import pm95
from geometry import units, words
from geometry.findings import Finding, is_unsure
from geometry.job import Job, Reading
from geometry.job.kinds import SHAPES
from geometry.job.sides import SIDES
from geometry.layout import XY, Layout

NOTHING = "Nothing is worked out yet."
CORNERS = (("front", "left"), ("front", "right"), ("back", "right"), ("back", "left"))
"""The bridge's corners as the layout lists them."""
InSight = Callable[[XY], bool]
"""Whether a place is in sight."""


def place(xy: XY, job: Job) -> str:
    """Where a thing stands: “427.4 mm from the nut, 27.5 mm to the bass”."""
    x, y = xy
    along = f"{units.said(abs(x), job.unit)} {'behind' if x < 0 and units.shows(x, job.unit) else 'from'} the nut"
    if not units.shows(y, job.unit):
        return f"{along}, on the neck centre line"
    return f"{along}, {units.said(abs(y), job.unit)} to the {words.side('left' if y > 0 else 'right', job.hand)}"


def in_hand(job: Job, layout: Layout | None, reading: str, held: str, at: XY | None) -> str:
    """The reading and the point in hand, by id and name; `at` is where the point stands. Empty while the hand is."""
    found = next((r for r in job.readings if r.id == reading), None)
    said = [_reading(job, found)] if found is not None else []
    if held:
        where = f"{place(at, job)}, {_known(job, layout, held)}" if at is not None else "not placed yet"
        said.append(f"the point {words.called(held, job.hand)}, {where}")
    return f"In hand: {'; '.join(said)}." if said else ""


def _reading(job: Job, reading: Reading) -> str:
    name, typed = words.reading_inside(reading, job.hand), words.value(reading, job.unit)
    if reading.struck:
        return f"{name}, struck out"
    if not reading.taken:
        return f"{name}, not taken yet"
    bare = typed[-1:].isdigit() and not SHAPES[reading.kind].degrees
    return f"{name}, {typed or 'taken'}{f' {job.unit}' if bare else ''}"


def _known(job: Job, layout: Layout | None, name: str) -> str:
    solved = layout.points.get(name) if layout is not None else None
    if solved is None:
        return "only a rough place"
    return f"±{units.said_pm(pm95(solved), job.unit)}{'' if solved.checked else ', nothing checks it'}"


def overview(job: Job, layout: Layout | None, in_sight: InSight = lambda _: True) -> tuple[str, ...]:
    """What is shown, a sentence each; of strings and points those that are in sight."""
    if layout is None:
        return (NOTHING,)
    points = _points(job, layout, in_sight)
    if layout.neck is None:
        return (NOTHING, *points)
    strings = _strings(job, layout, in_sight)
    return (*_saddle(job, layout), *_bridge(job, layout), *map(_finding, _to_look_at(layout)), *strings, *points)


def _saddle(job: Job, layout: Layout) -> Iterator[str]:
    saddle = layout.saddle
    if saddle is None:
        yield "The saddle is not placed yet."
        return
    if len(saddle.pieces) > 1:
        yield f"The saddle is {len(saddle.pieces)} pieces, each in a slot of its own."
    for side, xy, more in zip(SIDES, saddle.at_strings, saddle.pm95, strict=True):
        yield f"Saddle, {words.side(side, job.hand)}: {place(xy, job)}, ±{units.said_pm(more, job.unit)}."


def _bridge(job: Job, layout: Layout) -> Iterator[str]:
    corners = layout.bridge.corners if layout.bridge is not None else ()
    for (row, side), xy in zip(CORNERS, corners, strict=False):
        yield f"Bridge, {row} {words.side(side, job.hand)}: {place(xy, job)}."


def _to_look_at(layout: Layout) -> list[Finding]:
    return [finding for finding in layout.findings if finding.grade != "good"]


def _finding(finding: Finding) -> str:
    if finding.grade == "stop":
        return f"Stop: {finding.text}"
    return f"{'Estimated or unchecked' if is_unsure(finding) else 'Look again'}: {finding.text}"


def _strings(job: Job, layout: Layout, in_sight: InSight) -> Iterator[str]:
    for string in layout.strings:
        if in_sight(string.break_point):
            said = words.first_large(words.string(string.name))
            yield f"{said} leaves the saddle {place(string.break_point, job)}."


def _points(job: Job, layout: Layout, in_sight: InSight) -> Iterator[str]:
    for name, point in layout.points.items():
        if in_sight((point.x, point.y)):
            said = words.first_large(words.point(name, job.hand))
            yield f"{said}: {place((point.x, point.y), job)}, {_known(job, layout, name)}."
