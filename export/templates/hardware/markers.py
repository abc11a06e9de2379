"""Markers along the neck: a strip that folds over the board's edge for the side markers, a sheet for those in the face.

The strip is drawn as it lies: half of it on the board's face, the other half folded down over the edge along the fold.
It is as long as the edge is, so that its one end stands at the nut's front and its other at the board's end.
"""

import math
from itertools import pairwise

from export.drawing.dimension import arrow, cross
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.drills import either, nearest_names
from export.errors import ExportError
from export.hole_table import Bored
from export.records import Figure, Stamp
from geometry.hardware.markers import along_edge
from geometry.job import Job
from geometry.layout import HardwarePlan, Layout, Marker
from geometry.units import mm, show, show_pm

ON_FACE, DOWN_EDGE = 14.0, 14.0
"""How far the strip lies on the face, and how far it hangs down the edge, mm."""
LETTERS, CLEAR = 2.3, 3.0
"""Height of the letters, and how far a seam stays from a hole, mm."""


def draw_side(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """The strip for the side markers. Raises `ExportError` where there are none, or frets or the edge are missing."""
    hardware, markers = layout.hardware, job.hardware.markers
    if markers is None or markers.side is None:
        raise ExportError("The strip for side markers needs them: ask for side markers on the Headstock card")
    if layout.frets is None or not hardware.side:
        raise ExportError("The strip for side markers needs the frets and the board’s edge; read them first")
    length = sum(math.dist(a, b) for a, b in pairwise(hardware.edge))
    out = 1.0 if markers.side.side == job.bass_or_treble("left") else -1.0
    below = mm(markers.side.below)
    ring = [(0.0, -out * ON_FACE), (length, -out * ON_FACE), (length, out * DOWN_EDGE), (0.0, out * DOWN_EDGE)]
    marks = [Mark(shape=polyline(ring, closed=True), purpose="cut", of="strip")]
    marks.append(Mark(shape=Line((0.0, 0.0), (length, 0.0)), purpose="lay", of="fold"))
    bored = []
    for number, dot in enumerate(hardware.side, 1):
        at, of = (dot.along, out * below), f"side marker:{number}"
        marks.append(Mark(shape=Circle(at, dot.diameter / 2), purpose="drill", of=of))
        marks += cross(at, dot.diameter / 2 + 1.4, "centre", of=of, weight=0.75)
        bored.append(_listed(dot, at, mm(markers.side.deep)))
    marks += _frets(layout, hardware, length, out)
    marks += _words(job, markers.side.side, length, out)
    notes = (
        f"Fold it over the board’s {markers.side.side} edge along the thin line, from the nut to the board’s end; if "
        "it does not reach, the print is out.",
        _drilled(dots=hardware.side, deep=mm(markers.side.deep), job=job),
        "Over the body, guard the top with card.",
    )
    return Figure(
        title="Side markers",
        marks=tuple(marks),
        keep=_whole(marks),
        notes=notes,
        kept=("strip",),
        loose=True,
        nowhere=True,
        bored=tuple(bored),
    )


def _frets(layout: Layout, hardware: HardwarePlan, length: float, out: float) -> list[Mark]:
    """Where the frets cross the fold, as ticks on the face, with every marked fret's number."""
    assert layout.frets is not None
    marked, marks = {dot.fret for dot in hardware.side}, []
    for line in layout.frets.lines[1:]:
        left, right = complex(*line.left), complex(*line.right)
        _, along = along_edge(hardware.edge, left, left - right)
        if along > length:
            continue
        marks.append(Mark(shape=Line((along, 0.0), (along, -out * 6.0)), purpose="lay", of=f"fret:{line.fret}"))
        if line.fret in marked:
            text = Text((along - 1.2, -out * 4.0), str(line.fret), LETTERS, 0.0, "em", bold=True)
            marks.append(Mark(shape=text, purpose="note", of="strip"))
    return marks


def _words(job: Job, side: str, length: float, out: float) -> list[Mark]:
    """What keeps the strip's ends and sides apart when it is cut out: near the nut, where no seam is."""
    face, edge = -out * (ON_FACE - 3.5), out * (DOWN_EDGE - 3.0)
    wanted = (
        Text((3.0, face), "nut", LETTERS, 0.0, "sm", bold=True),
        Text((16.0, face), f"on the face, {side.upper()} side", LETTERS, 0.0, "sm", bold=True),
        Text((length - 3.0, face), "board end", LETTERS, 0.0, "em", bold=True),
        Text((16.0, edge), f"down the {side.upper()} edge", LETTERS, 0.0, "sm", bold=True),
        Text((60.0, edge), job.title, LETTERS, 0.0, "sm"),
    )
    marks = [Mark(shape=text, purpose="note", of="strip") for text in wanted if text.text]
    return [*marks, *arrow((60.0, face), (72.0, face), "note", of="strip")]


def draw_face(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """The face markers on the board. Raises `ExportError` where there are none, or frets are missing."""
    markers = job.hardware.markers
    if markers is None or markers.face is None:
        raise ExportError("The sheet for face markers needs them: ask for face markers on the Headstock card")
    if layout.frets is None or layout.neck is None or not layout.hardware.face:
        raise ExportError("The sheet for face markers needs the frets; read them first")
    marks, bored = _board(layout), []
    for number, dot in enumerate(layout.hardware.face, 1):
        of = f"face marker:{number}"
        marks.append(Mark(shape=Circle(dot.at, dot.diameter / 2), purpose="drill", of=of))
        marks += cross(dot.at, dot.diameter / 2 + 1.4, "centre", of=of, weight=0.75)
        bored.append(_listed(dot, dot.at, mm(markers.face.deep)))
    left, right = layout.neck.nut
    for side, (x, y) in (("left", left), ("right", right)):
        sign, name = (1.0 if side == "left" else -1.0), job.bass_or_treble(side).upper()
        text = Text((x + 6.0, y + sign * 3.0), name, 4.0, 0.0, "sb" if sign > 0 else "st", bold=True)
        marks.append(Mark(shape=text, purpose="note"))
    notes = (
        "Lay it on the board: the nut’s front and the frets on their lines, the edges on the edges. Prick the middles.",
        _drilled(dots=layout.hardware.face, deep=mm(markers.face.deep), job=job),
    )
    return Figure(
        title="Face markers",
        marks=tuple(marks),
        keep=_whole(marks),
        notes=notes,
        seen="the face",
        is_template=True,
        bored=tuple(bored),
    )


def _whole(marks: list[Mark]) -> tuple[Box, ...]:
    """What no seam should cross: each hole with its cross."""
    holes = [mark.shape for mark in marks if mark.purpose == "drill" and isinstance(mark.shape, Circle)]
    rooms = [(hole.centre, hole.radius + CLEAR) for hole in holes]
    return tuple(Box(x - room, y - room, x + room, y + room) for (x, y), room in rooms)


def _board(layout: Layout) -> list[Mark]:
    """The board's edges, the nut's front and the frets, to lay the sheet on; words for the nut and the frets marked."""
    assert layout.frets is not None
    lines, marked = layout.frets.lines, {dot.fret for dot in layout.hardware.face}
    marks = [Mark(shape=Line(line.left, line.right), purpose="lay", of=f"fret:{line.fret}") for line in lines]
    marks += [
        Mark(shape=Line(_end(lines[0], side), _end(lines[-1], side)), purpose="lay", of=f"edge:{side}")
        for side in ("left", "right")
    ]
    for line in lines:
        if line.fret in marked or line.fret == 0:
            (x, y), says = line.right, "nut" if line.fret == 0 else str(line.fret)
            marks.append(Mark(shape=Text((x, y - 1.5), says, LETTERS, 0.0, "mt"), purpose="note"))
    return marks


def _end(line: object, side: str) -> XY:
    end: XY = getattr(line, side)
    return end


def _listed(dot: Marker, at: XY, deep: float) -> Bored:
    return Bored(name=f"fret {dot.fret}", at=at, diameter=dot.diameter, drill=nearest_names(dot.diameter), deep=deep)


def _drilled(*, dots: tuple[Marker, ...], deep: float, job: Job) -> str:
    """The drill, how deep, and how surely the places are known."""
    diameter = dots[0].diameter
    worst = max(dot.pm95 for dot in dots)
    return (
        f"Drill {either(nearest_names(diameter), job.unit)}, {show(deep, job.unit)} {job.unit} deep, in scrap first; "
        f"good to ±{show_pm(worst, job.unit)} {job.unit} along the neck."
    )
