"""What several templates draw alike: the bridge with its slot and pins, the old work, the words for the sides."""

from typing import Literal

from export.drawing.dimension import cross
from export.drawing.flatten import Box, around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Path, Text
from export.drawing.room.clear_words import IN_KEY, NAMES
from export.drawing.typeface import text_box
from export.plan.bridge.bridgework import ridge, tie_block
from export.plan.bridge.old_work_drawn import footprint, metal_marks, old_hole, on_the_top, under_the_top
from geometry import words
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout
from geometry.saddle.slot_leaning import as_it_stands
from geometry.units import said

PAST_SLOT = 11.0
"""How far the saddle line is carried on past the slot's ends, mm."""
ROUND, AREA_HATCH = 30.0, 3.0
"""How far round the bridge what lies under the top is shown, and between an area's lines, mm."""
ROOM = 16.0
"""What the words of an area need free behind it, mm."""
METAL_HALF = 2.0
"""Half the side of the square that stands for metal, mm."""


def bridge_work(layout: Layout) -> list[Mark]:
    """Outline to cut, slot to rout, holes to drill, and the saddle line through it all."""
    outline = [Path(layout.bridge.outline, closed=True)] if layout.bridge is not None else []
    return [*(Mark(shape=shape, purpose="cut", of="bridge") for shape in outline), *slot_and_holes(layout)]


def slot_and_holes(layout: Layout) -> list[Mark]:
    """Slot to rout, holes to drill, and the saddle line through it all."""
    marks: list[Mark] = []
    if layout.saddle is not None:
        marks += [Mark(shape=polyline(slot, closed=True), purpose="route", of="slot") for slot in layout.saddle.slots]
        marks += ridge(layout.saddle, PAST_SLOT)
    if layout.bridge is not None and layout.bridge.tie is not None:
        marks += tie_block(layout.bridge.tie)
    return marks + pin_holes(layout)


def pin_holes(layout: Layout) -> list[Mark]:
    """The bridge's pin holes with their crosses."""
    marks: list[Mark] = []
    for pin in layout.bridge.pins if layout.bridge else ():
        marks.append(Mark(shape=Circle(pin.at, pin.diameter / 2), purpose="drill", of=f"pin:{pin.name}"))
        marks += cross(pin.at, pin.diameter / 2 + 1.4, "centre", of=f"pin:{pin.name}", weight=0.75)
    return marks


def old_work(layout: Layout) -> list[Mark]:
    """The old footprint and holes as they were, and metal with its keep-out."""
    old = layout.old
    marks = footprint(old.outline)
    below = under(layout)
    marks += [*below, *on_the_top(old, AREA_HATCH), *_area_names(layout, below)]
    for hole in (*old.pins, *old.holes):
        of = f"old pin:{hole.name}" if hole in old.pins else f"old hole:{hole.name}"
        marks += old_hole(hole, of)
        if not hole.assumed:
            marks.append(Mark(shape=Circle(hole.at, 0.3), purpose="before", of=of, filled=True))
    marks += _assumed(layout)
    behind = [x for area in old.areas for x, _ in area.outline]
    back = max((*(x for x, _, _ in layout.bridge.outline), *behind)) if layout.bridge else 0.0
    for metal in old.metal:
        (x, y), r, of = metal.at, metal.keep_out, f"metal:{metal.name}"
        marks += metal_marks(metal, METAL_HALF)
        stop = max(back, x + r) + 6.0
        marks.append(Mark(shape=Line((x + max(r, METAL_HALF), y), (stop, y)), purpose="dimension", of=of))
        marks.append(Mark(shape=Text((stop + 1.2, y), "METAL", 3.0, 0.0, "sm", bold=True), purpose="note", of=of))
    return marks


def under(layout: Layout, far: float = ROUND) -> list[Mark]:
    """What lies under the top `far` mm round the bridge: the plate and the braces, these with their names."""
    spots = [(x, y) for x, y, _ in layout.bridge.outline] if layout.bridge else []
    if not spots:
        return []
    box = around(spots).grown(far)
    marks = under_the_top(layout.old, within=box)
    for brace in layout.old.braces:
        last = next((mark.shape for mark in reversed(marks) if mark.of == f"brace:{brace.name}"), None)
        if isinstance(last, Line):
            end = max(last.a, last.b)
            name = Text((end[0] + 1.2, end[1]), words.brace(brace.name), 2.2, 0.0, "sm")
            marks.append(Mark(shape=name, purpose="note", of=f"brace:{brace.name}"))
    return marks


def _area_names(layout: Layout, near: list[Mark]) -> list[Mark]:
    """What is wrong with each area, behind it: past the lines that lie close behind it, with a line to the words."""
    marks = []
    for area in layout.old.areas:
        box = around(area.outline)
        y = _beside_no_hole(layout, area.what, box)
        last = box.x1
        for x in sorted(_crossed_at(near, y)):
            last = x if last < x < last + ROOM else last
        at, of = (last + 2.0 if last > box.x1 else last, y), f"area:{area.name}"
        if last > box.x1:
            marks.append(Mark(shape=Line((box.x1, y), at), purpose="dimension", of=of))
        marks.append(Mark(shape=Text((at[0] + 1.5, y), area.what, 2.2, 0.0, "sm"), purpose="note", of=of))
    return marks


def _beside_no_hole(layout: Layout, what: str, area: Box) -> float:
    """Where across the neck it is said what is wrong with an area: at its middle, or nearer to one of its ends where an
    old hole would seem to be meant.
    """
    heights = [area.y0 + share * (area.y1 - area.y0) for share in (0.5, 0.65, 0.35, 0.8, 0.2)]
    holes = [hole for hole in (*layout.old.pins, *layout.old.holes) if hole.at[0] > area.x1]
    for y in heights:
        words_box = text_box(Text((area.x1 + 1.5, y), what, 2.2, 0.0, "sm"))
        if not any(words_box.grown(NAMES + hole.diameter / 2).meets(around([hole.at])) for hole in holes):
            return y
    return heights[0]


def _crossed_at(marks: list[Mark], y: float) -> list[float]:
    """Where lines cross a place across the neck, along it."""
    found = []
    for mark in marks:
        if isinstance(mark.shape, Line) and (mark.shape.a[1] - y) * (mark.shape.b[1] - y) < 0:
            (ax, ay), (bx, by) = mark.shape.a, mark.shape.b
            found.append(ax + (bx - ax) * (y - ay) / (by - ay))
    return found


def _assumed(layout: Layout) -> list[Mark]:
    """The word beside the middle one of the holes that nobody read; the key says it where there is no room here."""
    found = [hole for hole in layout.old.pins if hole.assumed]
    if not found:
        return []
    hole = found[len(found) // 2]
    at = (hole.at[0] - 0.7 * hole.diameter - 1.0, hole.at[1])
    return [Mark(shape=Text(at, "assumed", 2.0, 0.0, "em"), purpose="note", of=IN_KEY)]


def seen_from(at: XY, says: str, more: str = "") -> list[Mark]:
    """From where the part is seen, large, and what follows from it."""
    x, y = at
    marks = [Mark(shape=Text((x, y), says, 4.0, 0.0, "st", bold=True), purpose="note")]
    return [*marks, *([Mark(shape=Text((x, y + 2.0), more, 2.3, 0.0, "sb"), purpose="note")] if more else [])]


def sides(job: Job, layout: Layout, at: float) -> list[Mark]:
    """BASS and TREBLE large beside the bridge's wings, ending at `at` along the neck; the longer side says so."""
    bridge, saddle = layout.bridge, layout.saddle
    assert bridge is not None
    marks = []
    for side, sign in (("left", 1.0), ("right", -1.0)):
        name = job.bass_or_treble(side)
        tip = sign * min(abs(y) for _, y in bridge.corners)
        across: Literal["et", "eb"] = "et" if sign > 0 else "eb"
        marks.append(
            Mark(shape=Text((at, tip - sign * 4.0), name.upper(), 6.5, 0.0, across, bold=True), purpose="note")
        )
        leaning = as_it_stands(job, saddle) if saddle is not None else None
        if leaning is not None and leaning.longer == name and leaning.mm > 0.05:
            says = f"{how_held(job).ridge} {said(leaning.mm, job.unit)} farther"
            edge = max((abs(y) for _, y in layout.neck.end), default=0.0) if layout.neck and layout.neck.end else 0.0
            inside = abs(tip) - 18.0 > edge  # clear of the board's edge carried on
            place = tip - sign * 14.0 if inside else tip + sign * 1.0
            marks.append(Mark(shape=Text((at, place), says, 2.3, 0.0, across), purpose="note"))
    return marks
