"""What the plan shows, in words, for who can't see it: what is in hand and where, then what is worked out, what is
found, and where every string and point stands.

A place is told as a rule finds it: how far from the nut along the neck centre line, and how far from that to bass or
treble.
"""

from collections.abc import Callable, Iterator, Mapping

import msgspec

from export.plan.measured_points import pm95
from geometry import units, words
from geometry.findings import ASKED, Finding, is_unsure
from geometry.job import Job, Reading
from geometry.job.bridges.how_held import how_held
from geometry.job.measured.kinds import SHAPES
from geometry.job.sides import SIDES
from geometry.layout import XY, Layout

NOTHING = "Nothing is worked out yet."
UNPLACED = "The saddle is not placed yet."
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
    return f"{words.reading_inside(reading, job.hand)}, {_typed(job, reading)}"


def _typed(job: Job, reading: Reading) -> str:
    """A reading's value with its unit, or why it has none that counts."""
    if reading.struck:
        return "struck out"
    if not reading.taken:
        return "not taken yet"
    typed = words.value(reading, job.unit)
    bare = typed[-1:].isdigit() and not SHAPES[reading.kind].degrees
    said = f"{typed or 'taken'}{f' {job.unit}' if bare else ''}"
    return " ".join(filter(None, (said, words.side_read(reading, job.hand))))


def _known(job: Job, layout: Layout | None, name: str) -> str:
    solved = layout.points.get(name) if layout is not None else None
    if solved is None:
        return "only a rough place"
    return f"±{units.said_pm(pm95(solved), job.unit)}{'' if solved.checked else ', nothing checks it'}"


class Shown(msgspec.Struct, frozen=True):
    """One thing that the plan shows: what it is called, what is told of it, the places it stands at (mm in the neck
    frame; none where it has no place of its own), and what its mark stands for.
    """

    name: str
    says: str
    of: str
    at: tuple[XY, ...] = ()

    @property
    def sentence(self) -> str:
        """Its name and what is told of it."""
        return f"{self.name}: {self.says.rstrip('.')}."


def missing(layout: Layout | None) -> tuple[str, ...]:
    """What is not there yet to be shown, in a sentence."""
    if layout is None or layout.neck is None:
        return (NOTHING,)
    return () if layout.saddle is not None else (UNPLACED,)


def shown(
    job: Job, layout: Layout | None, rough: Mapping[str, XY], in_sight: InSight = lambda _: True
) -> tuple[Shown, ...]:
    """What is shown, thing by thing, what matters most first; of strings and points those that are in sight. `rough`:
    where points are drawn that nothing holds yet.
    """
    if layout is None:
        return ()
    places = {name: (point.x, point.y) for name, point in layout.points.items()}
    points = [_point(job, layout, name, at) for name, at in {**rough, **places}.items() if in_sight(at)]
    if layout.neck is None:
        return tuple(points)
    strings = _strings(job, layout, in_sight)
    return (*_saddle(job, layout), *_bridge(job, layout), *map(_finding, _to_look_at(layout)), *strings, *points)


def reading_shown(job: Job, reading_id: str, place_of: Callable[[str], XY | None]) -> tuple[Shown, ...]:
    """The reading in hand, which the plan draws as it is taken; nothing while there is none."""
    found = next((r for r in job.readings if r.id == reading_id), None)
    if found is None:
        return ()
    at = tuple(xy for name in found.of if (xy := place_of(name)) is not None)
    name = f"Reading in hand, {words.reading_inside(found, job.hand)}"
    return (Shown(name, _typed(job, found), f"reading:{found.id}", at),)


def _saddle(job: Job, layout: Layout) -> Iterator[Shown]:
    saddle = layout.saddle
    if saddle is None:
        return
    if len(saddle.pieces) > 1:
        yield Shown("Saddle", f"{len(saddle.pieces)} pieces, each in a slot of its own", "saddle", saddle.at_strings)
    for side, xy, more in zip(SIDES, saddle.at_strings, saddle.by_sheet.pm95, strict=True):
        says = f"{place(xy, job)}, ±{units.said_pm(more, job.unit)}"
        named = how_held(job).line if job.held == "strings" else how_held(job).ridge
        yield Shown(f"{words.first_large(named)}, {words.side(side, job.hand)}", says, "saddle", (xy,))


def _bridge(job: Job, layout: Layout) -> Iterator[Shown]:
    bridge = layout.bridge
    corners = bridge.corners if bridge is not None else ()
    for at, ((row, side), xy) in enumerate(zip(CORNERS, corners, strict=False)):
        says = place(xy, job)
        if bridge is not None and bridge.corners_pm95:
            along, across = bridge.corners_pm95[at]
            says = f"{says}, ±{units.said_pm(along, job.unit)} along the neck"
            if units.shows(across, job.unit):
                says = f"{says} and ±{units.said_pm(across, job.unit)} across it"
        yield Shown(f"Bridge, {row} {words.side(side, job.hand)}", says, "bridge", (xy,))
    for base in layout.separate.bases if layout.separate is not None else ():
        of = "" if job.separate is None or job.separate.bases == "one" else f" of {words.strings(base.strings)}"
        for (row, side), xy in zip(CORNERS, base.corners, strict=False):
            yield Shown(f"Base{of}, {row} {words.side(side, job.hand)}", place(xy, job), "bridge", (xy,))


def _to_look_at(layout: Layout) -> list[Finding]:
    return [finding for finding in layout.findings if finding.grade != "good"]


def _finding(finding: Finding) -> Shown:
    if finding.grade == "stop":
        return Shown("Stop", finding.text, finding.where)
    waits = "Still to be given" if finding.code in ASKED else "Look again"
    return Shown("Estimated or unchecked" if is_unsure(finding) else waits, finding.text, finding.where)


def _strings(job: Job, layout: Layout, in_sight: InSight) -> Iterator[Shown]:
    for string in layout.strings:
        at = string.break_point
        if in_sight(at):
            name = f"{words.first_large(words.string(string.name))} at the {how_held(job).ridge}"
            yield Shown(name, place(at, job), f"string:{string.name}", (at,))


def _point(job: Job, layout: Layout, name: str, at: XY) -> Shown:
    says = f"{place(at, job)}, {_known(job, layout, name)}"
    return Shown(words.point_headed(name, job.hand), says, f"point:{name}", (at,))
