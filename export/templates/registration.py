"""How a template finds its place on the wood: a notch at the board's end, the nut, fret 12, edge lines, seam windows.

The **start** of a template is what it is laid against. Where the board's end has true corners that is the board's end;
where it is rounded, raised, undercut or flush it is fret 12 with the edge lines.
"""

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from export.drawing.dimension import arrow
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.drawing.typeface import text_corners, width
from export.errors import ExportError
from geometry.job import Job
from geometry.layout import Check, FretLine, Layout, Neck, Ray
from geometry.units import Unit, show

REACH = 16.0
"""How far a notch reaches back over the board, mm."""
WINDOW = 9.0
"""A seam window's radius, mm."""
TICK = 7.0
"""How long the ticks are that stand on a window's rims, mm."""
OFF_CUT = 0.8
"""How far words keep off what is cut out, mm: as far as a knife may stray (common practice, no source)."""
TO_THE_NUT = "to the nut"
SEAM = "seam"
"""What a seam's windows and their ticks stand for."""
ARROW_AT = 6.0
"""How far behind the start the arrow to the nut has its head, mm."""
TABS = (11.0, 7.0)
"""Half the length of the frame for a strip of tape, mm: the usual, and where there is little room."""
FINE = 0.4
"""The weight of an edge that the sheet is laid against: a line of 0.2 mm."""
CLOSE: dict[Unit, str] = {"mm": "0.8 mm", "cm": "0.08 cm", "in": "1/32 in"}
"""How far a distance along an edge may be off before the sheet is laid again. Derived: the sheet is laid within 0.15 mm
and the distance read with a rule of half millimetres within 0.2 mm, one standard deviation each; it was printed as well
as its scale lets pass, 0.2 mm in 100 mm, or taped as well as its crosses do, 0.5 mm, each error within that as likely
as another. Then one of both distances is so far off by chance less than once in twenty: over 200 mm 3 in 100, taped 1
in 100 from fret 12 and up to 6 where all of the tape's error lies behind it.
"""
Against = Literal["board end", "fret 12", "nut"]
Thing = Literal["bridge", "base"]
LAID: dict[Against, str] = {
    "board end": "Lay the notch on the board’s end, both edge lines on its edges.",
    "fret 12": "Lay the line on fret 12, both edge lines on the board’s edges.",
    "nut": "Lay both edge lines on the board’s edges.",
}
"""How the sheet is laid: by the notch alone, which needs some play, it could lie askew or to one side."""


class Start(NamedTuple):
    """What the template is laid against: its left and right end on the edge lines."""

    against: Against
    left: XY
    right: XY

    @property
    def front(self) -> float:
        """How far to the tail it reaches."""
        return max(self.left[0], self.right[0])


def start_at(job: Job, layout: Layout, against: Against) -> Start:
    """The start wanted, or fret 12 where the board's end will not do. Raises `ExportError`."""
    neck, end = layout.neck, layout.neck.end if layout.neck else None
    if neck is None:
        raise ExportError("This template needs the neck: read the nut’s and the board end’s corners first")
    if against == "nut":
        return Start("nut", *neck.nut)
    if against == "board end" and job.board.end == "corners" and end is not None:
        return Start("board end", *end)
    twelfth = fret_line(layout, 12)
    if twelfth is None:
        raise ExportError(
            "This template is laid against the board’s end or fret 12, and neither is known; read the board end’s "
            "corners or the distance from the nut to fret 12"
        )
    return Start("fret 12", twelfth.left, twelfth.right)


def fret_line(layout: Layout, fret: int) -> FretLine | None:
    """One fret's line from edge to edge."""
    return next((line for line in layout.frets.lines if line.fret == fret), None) if layout.frets else None


def notch_corners(start: Start, neck: Neck) -> tuple[XY, XY, XY, XY]:
    """The notch: the board end's own two corners, and two farther back along its edges."""
    return start.left, _back(start.left, neck.left_edge), _back(start.right, neck.right_edge), start.right


def _back(at: XY, ray: Ray) -> XY:
    return at[0] - REACH * ray.direction[0], at[1] - REACH * ray.direction[1]


def start_marks(start: Start, neck: Neck) -> list[Mark]:
    """The notch to cut out, the nut's front to cut along, or fret 12 to lay on its crown."""
    corners = notch_corners(start, neck)
    middle = (sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4)
    if start.against == "fret 12":
        line = Mark(shape=Line(start.left, start.right), purpose="lay", of="fret:12", weight=2.0)
        stubs = [Mark(shape=Line(a, b), purpose="lay", of="edge") for a, b in (corners[:2], corners[:1:-1])]
        return [line, *stubs, *_two_lines(middle, "fret 12: lay this", "line on its crown")]
    says = {
        "board end": ("cut this notch out: sits", "against the board end"),
        "nut": ("cut this notch out: sits", "against the nut’s front"),
    }[start.against]
    notch = Mark(shape=polyline(corners, closed=True), purpose="cut", of="notch", weight=FINE)
    return [notch, *_two_lines(middle, *says)]


def _two_lines(at: XY, first: str, second: str) -> list[Mark]:
    texts = (
        Text((at[0] - 1.5, at[1]), first, 2.1, math.pi / 2, "mb"),
        Text((at[0] + 1.5, at[1]), second, 2.1, math.pi / 2, "mt"),
    )
    return [Mark(shape=text, purpose="note", of="notch") for text in texts]


def edge_lines(job: Job, neck: Neck, start: Start, reach: float, named: float | None = None) -> list[Mark]:
    """The board's edges carried on over the top, named outside: so far from the start along each (mm) where that is
    given.
    """
    marks = []
    for side, ray, corner in (("left", neck.left_edge, start.left), ("right", neck.right_edge, start.right)):
        length = (reach - corner[0]) / ray.direction[0]
        outer = 1.0 if side == "left" else -1.0
        angle = math.atan2(ray.direction[1], ray.direction[0])
        out = 0.42 * length if named is None else named
        name = Text(
            (corner[0] + out * ray.direction[0], corner[1] + out * ray.direction[1] + outer * 1.2),
            f"{job.bass_or_treble(side)} edge of the board",
            2.1,
            angle,
            "mb" if outer > 0 else "mt",
        )
        stop = (corner[0] + length * ray.direction[0], corner[1] + length * ray.direction[1])
        marks.append(Mark(shape=Line(corner, stop), purpose="lay", of=f"edge:{side}"))
        marks.append(Mark(shape=name, purpose="note"))
    return marks


def edge_distance(job: Job, hand: str, distance: float) -> str:
    """What a distance (mm) along the edge at a hand is to read, and how near is near enough; not of a bridge that is
    slid from there by ear. How surely the place itself is known stands with the saddle's place: here it would be taken
    for what is good.
    """
    return f"{hand} edge {show(distance, job.unit)} {job.unit}{_good(job)}"


def _good(job: Job) -> str:
    return f", good within {CLOSE[job.unit].removesuffix(f' {job.unit}')}" if job.floating is None else ""


def edge_checks(layout: Layout, against: Against, of: Thing = "bridge") -> dict[str, Check]:
    """The distance along each edge to the front of bridge or base, by bass and treble: from the board's end or fret 12,
    where a sheet is laid against either; from fret 12 where it is laid at the nut.
    """
    code = f"end.{of}." if against == "board end" else f"fret12.{of}."
    return {check.code.rsplit(".", 1)[1]: check for check in layout.checks if check.code.startswith(code)}


def edges_said(job: Job, layout: Layout, of: Thing = "bridge", against: Against = "board end") -> str:
    """What both distances along the edges are to read on the sheet that is laid `against` something, or on fret 12:
    “ from the board’s end: bass 195.2, treble 194.9 mm, good within 0.8”; nothing where neither is known.
    """
    try:
        start = start_at(job, layout, against)
    except ExportError:
        return ""
    found = sorted(edge_checks(layout, start.against, of).items())
    if not found:
        return ""
    start_called = "the board’s end" if start.against == "board end" else "fret 12"
    read = ", ".join(f"{hand} {show(check.distance, job.unit)}" for hand, check in found)
    return f" from {start_called}: {read} {job.unit}{_good(job)}"


def seam_windows(layout: Layout, low: float, high: float) -> list[Mark]:
    """Two windows over the seam between two places along the neck, where it was read if it can be; else near the bridge
    first, for near the board there may be a sound hole and no wood.

    Plain ticks stand on both rims of each, in line with the seam: they stay when the window is cut out.
    """
    seam = layout.neck.seam if layout.neck else None
    if seam is None or high - low < 30.0:
        return []
    read = sorted(p.x for name, p in layout.points.items() if name.startswith("seam.") and low <= p.x <= high)
    places = {read[0], read[-1]} if read else set[float]()
    for wanted in (low + 0.95 * (high - low), low + 0.15 * (high - low)):
        if len(places) < 2 and all(abs(wanted - x) > 30.0 for x in places):
            places.add(wanted)
    ux, uy = seam.direction
    marks = []
    for x in sorted(places):
        at = seam.at_x(x)
        rims, tips = ([(at[0] + s * r * ux, at[1] + s * r * uy) for s in (-1, 1)] for r in (WINDOW, WINDOW + TICK))
        ticks = [Line(rim, tip) for rim, tip in zip(rims, tips, strict=True)]
        marks += [
            Mark(shape=Circle(at, WINDOW), purpose="cut", of=SEAM),
            *(Mark(shape=tick, purpose="lay", of=SEAM, weight=2.0) for tick in ticks),
            Mark(shape=Text(at, "cut out", 2.1, 0.0, "mm"), purpose="note", of="waste"),
            Mark(shape=_beside(rims[1]), purpose="note"),
        ]
    return marks


def cut_through(drawn: Sequence[Mark], shown: Sequence[Mark]) -> bool:
    """Whether words that are `drawn` lie in a window of what is `shown`, or so near that the knife may take of them."""
    windows = [mark.shape for mark in shown if mark.purpose == "cut" and isinstance(mark.shape, Circle)]
    for text in (mark.shape for mark in drawn if isinstance(mark.shape, Text)):
        one, other, _, last = (complex(*corner) for corner in text_corners(text))
        wide, high, turn = abs(other - one), abs(last - one), (other - one) / abs(other - one)
        for window in windows:
            at = (complex(*window.centre) - one) / turn
            nearest = complex(min(max(at.real, 0.0), wide), min(max(at.imag, 0.0), high))
            if abs(at - nearest) < window.radius + OFF_CUT:
                return True
    return False


def _beside(rim: XY) -> Text:
    """The seam's word along its tick, on the side away from the neck centre line."""
    if rim[1] >= 0.0:
        return Text((rim[0] + 1.2, rim[1] + 1.2), "seam", 2.1, 0.0, "sb")
    return Text((rim[0] + 1.2, rim[1] - 1.2), "seam", 2.1, 0.0, "st")


def nut_arrow(job: Job, at: XY) -> list[Mark]:
    """The hand, and the arrow to the nut, its head at `at`."""
    x, y = at
    return [
        *arrow((x + 28.0, y), (x, y), "note", scale=0.6, of="arrow"),
        Mark(shape=Text((x + 31.0, y), TO_THE_NUT, 3.0, 0.0, "sm"), purpose="note", of="arrow"),
        Mark(shape=Text((x, y + 5.0), f"{job.hand}-handed", 3.0, 0.0, "sb"), purpose="note", of="arrow"),
    ]


def tape_tabs(start: Start, neck: Neck, front: float) -> list[Mark]:
    """Where a strip of tape goes on either side, clear of every line: a small frame with its word.

    They stand halfway, or behind the arrow to the nut where that reaches so far, and are narrower where the word for
    the side then leaves no more room; on a sheet too short for that the arrow takes the left side's place.
    """
    arrow_end = start.front + ARROW_AT + 31.0 + width(TO_THE_NUT, 3.0)
    side_word = front - 6.0 - width("TREBLE", 6.5, bold=True)
    halfway = (start.front + front) / 2
    tried = ((max(halfway, arrow_end + 2.0 + half), half) for half in TABS)
    both = next(((at, half) for at, half in tried if at + half <= side_word - 2.0), None)
    at, half = both or (halfway, TABS[0])
    marks = []
    sides = [(1.0, neck.left_edge, start.left), (-1.0, neck.right_edge, start.right)]
    for side, ray, corner in sides if both else sides[1:]:
        edge = corner[1] + (at - corner[0]) * ray.direction[1] / ray.direction[0]
        low, high = edge + side * 8.0, edge + side * 16.0
        ring = [(at - half, low), (at + half, low), (at + half, high), (at - half, high)]
        word = Text((at, (low + high) / 2), "tape", 2.1, 0.0, "mm")
        marks.append(Mark(shape=polyline(ring, closed=True), purpose="register", of="tape"))
        marks.append(Mark(shape=word, purpose="note", of="tape"))
    return marks
