"""The bases of separate saddles: from the face, laid against the board's end, with each string's window; and from the
back, mirrored, with the ferrules, laid on the two outer through holes as they come out.
"""

from collections.abc import Sequence
from functools import partial

import msgspec

from export.drawing.dimension import cross, dimension, off_line, tips
from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.drawing.typeface import width
from export.drills import nearest_names
from export.errors import ExportError
from export.hole_table import Bored
from export.plan.bridge import separate_drawn
from export.records import SCALES, Figure, Stamp
from export.templates import numbered_holes, parts, registration, turning_holes
from export.templates.separate.saddle_bases_told import before_drilling, drill_notes, saddles_table
from geometry.job import Job
from geometry.layout import Hole, Layout, SeparatePlan, StringPlan
from geometry.units import mm, show_size

STUB, PAST = 25.0, 12.0
"""How far the strings are shown before the base, and the outlines' middle line behind all, mm."""
EDGE_NAME = 40.0
"""The room that the name of an edge needs, mm."""
DISTANCE, CLEAR = 3.0, 1.2
"""How high the words of a distance to check are, and how far they keep from the opening's edge, mm."""
SLANT = 0.3
"""How far an arrow's tip may lie off the line it should touch, which slants, before an extension line stands there, mm.
"""
ROUND = 3.0
"""How far a seam between sheets stays from the base, mm."""
LACKING = ("neck.missing", "frets.missing", "frets.no_scale", "strings.missing")
"""The findings that say what is still to be told before the base has a place."""


def draw_face(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """From the face. Raises `ExportError` where no base has a place."""
    plan, neck = _plan(job, layout), layout.neck
    assert neck is not None
    start = registration.start_at(job, layout, "board end")
    front, back = _reach(plan)
    olds = [hole for hole in (*layout.old.pins, *layout.old.holes)]
    windows = registration.seam_windows(layout, start.front + 20.0, front - STUB - 16.0)
    turning = turning_holes.turning_holes(_round(plan), plan.bases[0].turn) if job.sheets.turning else ()
    listed = [*_bored(job, plan, back=False), *numbered_holes.plain(job, turning, "in the template, to turn on")]
    tip = registration.nut_arrow(job, (start.front + registration.ARROW_AT, max(start.left[1], start.right[1]) + 11.0))
    rings = [
        Mark(shape=polyline(ring, closed=True), purpose="mark", of="base") for ring in separate_drawn.base_rings(plan)
    ]
    marks = [
        *registration.start_marks(start, neck),
        *registration.edge_lines(
            job, neck, start, max([back, *(hole.at[0] for hole in olds)]) + 14.0, _free(plan, start)
        ),
        Mark(shape=Line((start.front + 3.0, 0.0), (back + PAST, 0.0)), purpose="centre", of="neck"),
        *windows,
        *parts.old_work(layout),
        *_opening(plan),
        *_stubs(layout, plan, front),
        *rings,
        *(mark for one in plan.saddles for mark in separate_drawn.window(one, "worked out")),
        *separate_drawn.holes(plan, crosses=numbered_holes.CROSS),
        *turning_holes.marks(turning),
        *_numbers(listed, olds, rings),
        *_names(layout, plan, front),
        *_named(plan),
        *_distances(job, layout, plan, start, windows),
        *_sides(job, plan, front - 14.0),
        *parts.seen_from((start.front + 16.0, 7.0), "FACE"),
        *tip,
    ]
    figure = Figure(
        title="Saddle bases",
        marks=tuple(marks),
        keep=(around(_round(plan)).grown(ROUND),),
        notes=(
            SCALES,
            registration.LAID[start.against],
            "A string’s short line is its saddle’s travel; the long stroke is where it is wanted, the bar how sure "
            "that is.",
            *drill_notes(job, plan, back=False),
        ),
        seen="outside",
        is_template=True,
        bored=tuple(listed),
        tables=(saddles_table(job, layout, plan), *before_drilling(job, layout)),
    )
    return numbered_holes.with_hole_table(job, layout, figure)


def draw_back(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # as above
    """From the back, mirrored. Raises `ExportError` where no string goes through the body."""
    plan = _plan(job, layout)
    if not plan.through:
        raise ExportError("The template of the back shows the holes through the body, and no string goes through it")
    separate = job.separate
    assert separate is not None
    assert separate.through is not None
    front, back = _reach(plan)
    wide = mm(separate.through.ferrule) if separate.through.ferrule is not None else None
    turning = turning_holes.turning_holes(_round(plan), plan.bases[0].turn) if job.sheets.turning else ()
    listed = [*_bored(job, plan, back=True), *numbered_holes.plain(job, turning, "in the template, to turn on")]
    rings = [
        Mark(shape=polyline(ring, closed=True), purpose="hidden", of="base") for ring in separate_drawn.base_rings(plan)
    ]
    marks = [
        *rings,
        *(mark for hole in plan.through for mark in _back_hole(hole, wide)),
        *turning_holes.marks(turning),
        *numbered_holes.numbers(
            [msgspec.structs.replace(one, diameter=max(wide or 0.0, one.diameter)) for one in listed], rings
        ),
        Mark(shape=Line((front - 10.0, 0.0), (back + PAST, 0.0)), purpose="centre", of="neck"),
        *_sides(job, plan, front - 14.0),
        *registration.nut_arrow(job, (front - 75.0, 12.0)),
        *parts.seen_from((front - 75.0, -15.0), "SEEN FROM THE BACK", "bass and treble are mirrored"),
    ]
    figure = Figure(
        title="Saddle bases, back",
        marks=tuple(marks),
        keep=(around(_round(plan)).grown(ROUND),),
        notes=(
            SCALES,
            "Lay it on the two outer through holes as they come out; the others must lie under their crosses.",
            "Dashed: the base on the face.",
            *drill_notes(job, plan, back=True),
        ),
        mirror=True,
        seen="the back",
        own_datum=(f"hole of string {plan.through[0].name}", plan.through[0].at),
        is_template=True,
        bored=tuple(listed),
    )
    return numbered_holes.with_hole_table(job, layout, figure)


def _plan(job: Job, layout: Layout) -> SeparatePlan:
    if layout.separate is None or layout.neck is None:
        if job.separate is None:
            raise ExportError(
                "The sheets of saddle bases are for saddles on a base that is screwed down; see the Bridge card"
            )
        lacks = next(
            (f.text for f in layout.findings if f.code in LACKING), "It needs the neck, the frets and the strings"
        )
        raise ExportError(f"The sheets of saddle bases cannot be drawn yet. {lacks.removesuffix('.')}")
    return layout.separate


def _round(plan: SeparatePlan) -> list[XY]:
    """All that belongs to the bases: their corners, holes and the travel's ends."""
    holes = [hole.at for base in plan.bases for hole in base.screws] + [hole.at for hole in plan.through]
    return [*plan.corners, *holes, *(at for one in plan.saddles for at in (one.foremost, one.rearmost))]


def _reach(plan: SeparatePlan) -> tuple[float, float]:
    xs = [x for x, _ in _round(plan)]
    return min(xs), max(xs)


def _bored(job: Job, plan: SeparatePlan, *, back: bool) -> list[Bored]:
    """The holes as their table lists them: screws and through holes from the face, through holes from the back."""
    separate = job.separate
    assert separate is not None
    screws = [] if back else [hole for base in plan.bases for hole in base.screws]
    listed = [_listed(f"screw {hole.name}", hole, "by your screw") for hole in screws]
    through = separate.through
    if through is None:
        return listed
    depth = "through"
    if back and through.ferrule is not None:
        wide, deep = (show_size(mm(length), job.unit) for length in (through.ferrule, through.ferrule_deep))
        depth = f"through; ferrule {wide} wide, {deep} {job.unit} deep"
    return listed + [_listed(f"string {hole.name}", hole, depth) for hole in plan.through]


def _listed(name: str, hole: Hole, depth: str) -> Bored:
    return Bored(name=name, at=hole.at, diameter=hole.diameter, drill=nearest_names(hole.diameter), depth=depth)


def _numbers(listed: Sequence[Bored], olds: Sequence[Hole], rings: Sequence[Mark]) -> list[Mark]:
    """The holes' numbers, clear of each other, of old holes and of the bases' edges."""
    there = [_listed(old.name, old, "") for old in olds]
    return numbered_holes.numbers([*listed, *there], rings)[: len(listed)]


def _back_hole(hole: Hole, ferrule: float | None) -> list[Mark]:
    """A through hole as it comes out at the back, with its ferrule's hole round it."""
    of = f"through:{hole.name}"
    marks = [Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="drill", of=of)]
    if ferrule is not None:
        marks.append(Mark(shape=Circle(hole.at, ferrule / 2), purpose="drill", of=f"ferrule:{hole.name}"))
    half = max(hole.diameter, ferrule or 0.0) / 2 + numbered_holes.CROSS
    return [*marks, *cross(hole.at, half, "centre", of=of, weight=0.75)]


def _free(plan: SeparatePlan, start: registration.Start) -> float | None:
    """How far from the start the edges are named where an opening would lie under their usual place: in the middle of
    what is free before it; None where none is read, or nothing is free there.
    """
    room = min((x for x, _ in plan.opening), default=0.0) - start.front
    return room / 2 if room > EDGE_NAME else None


def _opening(plan: SeparatePlan) -> list[Mark]:
    """The opening, named inside it at its lower end, which may be askew."""
    if not plan.opening:
        return []
    lower = sorted(plan.opening, key=lambda at: at[1])[:2]
    at = (sum(x for x, _ in lower) / 2, max(y for _, y in lower) + 1.5)
    return [
        Mark(shape=polyline(plan.opening, closed=True), purpose="lay", of="opening"),
        Mark(shape=Text(at, "opening", 2.2, 0.0, "mb"), purpose="note", of="opening"),
    ]


def _stubs(layout: Layout, plan: SeparatePlan, front: float) -> list[Mark]:
    """A stub of each string up to its saddle's travel, to sight by."""
    return [
        Mark(shape=Line(*_stub(plan, string, front)), purpose="lay", of=f"string:{string.name}", weight=0.75)
        for string in layout.strings
    ]


def _stub(plan: SeparatePlan, string: StringPlan, front: float) -> tuple[XY, XY]:
    """Where a string's stub begins and ends."""
    (ax, ay), (bx, by) = string.nut_xy, string.break_point
    stop = next(one.foremost[0] for one in plan.saddles if one.string == string.name)
    begin, end = ((x, ay + (by - ay) * (x - ax) / (bx - ax)) for x in (min(front, stop) - STUB, stop))
    return begin, end


def _names(layout: Layout, plan: SeparatePlan, front: float) -> list[Mark]:
    """Each string's name before its stub."""
    marks = []
    for string in layout.strings:
        x, y = _stub(plan, string, front)[0]
        text = Text((x - 1.4, y), string.name, 2.6, 0.0, "em", bold=True)
        marks.append(Mark(shape=text, purpose="note", of=f"saddle:{string.name}"))
    return marks


def _named(plan: SeparatePlan) -> list[Mark]:
    """The word for the bases, behind the corner farthest behind."""
    x, y = max(plan.corners)
    return [Mark(shape=Text((x + 2.0, y), "base" if len(plan.bases) == 1 else "bases", 2.6, 0.0, "sm"), purpose="note")]


def _distances(
    job: Job, layout: Layout, plan: SeparatePlan, start: registration.Start, windows: list[Mark]
) -> list[Mark]:
    """Along each edge to the base's front; with extension lines where the board's end or the front slants away. Their
    words keep off the windows.
    """
    fronts = [base.corners[:2] for base in plan.bases]
    marks = []
    for hand, check in registration.edge_checks(layout, start.against, "base").items():
        says = registration.edge_distance(job, hand, check.distance)
        off = 6.5 if hand == job.bass_or_treble("right") else -6.5
        near, far = tips(check.from_xy, check.to_xy, off)
        slant = (off_line(near, start.left, start.right), min(off_line(far, a, b) for a, b in fronts))
        extended, of = (slant[0] > SLANT, slant[1] > SLANT), f"check:{check.code}"
        share = _before_opening(plan, near[0], far[0], width(says, DISTANCE, bold=True))
        drawn = partial(
            dimension, check.from_xy, check.to_xy, says, off=off, height=DISTANCE, extended=extended, share=share, of=of
        )
        one = drawn()
        marks += drawn(within=True) if registration.cut_through(one, windows) else one
    return marks


def _before_opening(plan: SeparatePlan, near: float, far: float, wide: float) -> float:
    """At which share of a distance, from `near` to `far` along the neck, its words stand: in its middle, or before the
    opening where they would lie on its edge and there is room for them.
    """
    middle, room = (near + far) / 2, min((x for x, _ in plan.opening), default=far) - near
    if near + room > middle + wide / 2 + CLEAR or room < wide + 2 * CLEAR:
        return 0.5
    return (room - wide / 2 - CLEAR) / (far - near)


def _sides(job: Job, plan: SeparatePlan, at: float) -> list[Mark]:
    """BASS and TREBLE large beside the base, ending at `at` along the neck."""
    ys = [y for _, y in plan.corners]
    marks = []
    for side, y in (("left", max(ys) + 3.0), ("right", min(ys) - 3.0)):
        text = Text((at, y), job.bass_or_treble(side).upper(), 6.5, 0.0, "eb" if side == "left" else "et", bold=True)
        marks.append(Mark(shape=text, purpose="note"))
    return marks
