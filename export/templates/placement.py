"""The placement template: taped on the top with its notch against the board's end, it shows where everything goes."""

import math

from export.drawing.dimension import arrow, dimension
from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.errors import ExportError
from export.records import Figure
from export.templates import parts
from geometry.job import Job
from geometry.layout import Check, Layout, Neck
from geometry.units import show

NOTCH = 16.0
"""How far the notch reaches back over the board, mm."""
WINDOW = 9.0
"""A seam window's radius, mm."""
STUB = 25.0
"""How far the strings are shown before the bridge, mm."""

NOTES = (
    "Lay a rule on both scales before you use the sheet.",
    "Probe for metal with a magnet before you drill or rout.",
    "Check both edge distances before the glue.",
)


def draw(job: Job, layout: Layout) -> Figure:
    """The template in instrument mm. Raises `ExportError` where neck, board end, saddle or bridge are missing."""
    neck, saddle, bridge = layout.neck, layout.saddle, layout.bridge
    if neck is None or neck.end is None or saddle is None or bridge is None:
        raise ExportError(
            "The placement template needs the neck with its board end, the saddle and the bridge; "
            "go on measuring, or fill in what the findings name"
        )
    back = max(x for x, _, _ in bridge.outline)
    front = min((*(x for x, _ in bridge.corners), *(x for x, _ in layout.old.outline)))
    marks = [
        *_notch(neck.end, neck),
        *_edges(job, neck, neck.end, back + 14.0),
        *_strings(layout, neck.end, front),
        Mark(shape=Line((min(x for x, _ in neck.end) + 3.0, 0.0), (back + 20.0, 0.0)), purpose="centre"),
        *_seam(layout, neck, neck.end, front),
        *parts.old_work(layout),
        *parts.bridge_work(layout),
        *_distances(job, layout),
        *_sides(job, layout, front),
        *_nut_arrow(job, neck.end),
    ]
    keep = around([(x, y) for x, y, _ in bridge.outline]).grown(3.0)
    return Figure(title="Placement template", marks=tuple(marks), keep=(keep,), notes=NOTES, kept=("bridge",))


def notch_corners(end: tuple[XY, XY], neck: Neck) -> tuple[XY, XY, XY, XY]:
    """The notch: the board end's own two corners, and two farther back along its edges."""
    (left, right), (lu, ru) = end, (neck.left_edge.direction, neck.right_edge.direction)
    return (
        left,
        (left[0] - NOTCH * lu[0], left[1] - NOTCH * lu[1]),
        (right[0] - NOTCH * ru[0], right[1] - NOTCH * ru[1]),
        right,
    )


def _notch(end: tuple[XY, XY], neck: Neck) -> list[Mark]:
    corners = notch_corners(end, neck)
    middle = (sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4)
    return [
        Mark(shape=polyline(corners, closed=True), purpose="cut", of="notch"),
        Mark(
            shape=Text((middle[0] - 1.5, middle[1]), "cut out: sits", 2.1, math.pi / 2, "mb"),
            purpose="note",
            of="notch",
        ),
        Mark(
            shape=Text((middle[0] + 1.5, middle[1]), "against the board end", 2.1, math.pi / 2, "mt"),
            purpose="note",
            of="notch",
        ),
    ]


def _edges(job: Job, neck: Neck, end: tuple[XY, XY], reach: float) -> list[Mark]:
    marks = []
    for side, ray, corner in (("left", neck.left_edge, end[0]), ("right", neck.right_edge, end[1])):
        length = (reach - corner[0]) / ray.direction[0]
        stop = (corner[0] + length * ray.direction[0], corner[1] + length * ray.direction[1])
        outer = 1.0 if side == "left" else -1.0
        angle = math.atan2(ray.direction[1], ray.direction[0])
        at = (corner[0] + 0.42 * length * ray.direction[0], corner[1] + 0.42 * length * ray.direction[1] + outer * 1.2)
        says = f"{parts.side_name(job, side)} edge of the board"
        marks += [
            Mark(shape=Line(corner, stop), purpose="lay", of=f"edge:{side}"),
            Mark(shape=Text(at, says, 2.1, angle, "mb" if outer > 0 else "mt"), purpose="note"),
        ]
    return marks


def _strings(layout: Layout, end: tuple[XY, XY], front: float) -> list[Mark]:
    """A stub of each string at the board's end and before the saddle: enough to sight by, and no more."""
    marks = []
    start = max(x for x, _ in end)
    for string in layout.strings:
        (ax, ay), (bx, by) = string.nut_xy, string.end
        for x0, x1 in ((start + 2.0, start + 12.0), (front - STUB, string.break_point[0])):
            ends = [(x, ay + (by - ay) * (x - ax) / (bx - ax)) for x in (x0, x1)]
            marks.append(Mark(shape=Line(ends[0], ends[1]), purpose="lay", of=f"string:{string.name}", weight=0.75))
    return marks


def _seam(layout: Layout, neck: Neck, end: tuple[XY, XY], front: float) -> list[Mark]:
    """Two windows over the seam, where it was read if it can be, as far apart as the sheet allows."""
    if neck.seam is None:
        return []
    low, high = max(x for x, _ in end) + WINDOW + 4.0, front - STUB - WINDOW - 6.0
    read = sorted(p.x for name, p in layout.points.items() if name.startswith("seam.") and low <= p.x <= high)
    places = {min(read), max(read)} if read else set()
    for wanted in (low + 0.2 * (high - low), low + 0.95 * (high - low)):
        if len(places) < 2 and all(abs(wanted - x) > 30.0 for x in places):
            places.add(wanted)
    (px, py), (ux, uy) = neck.seam.at, neck.seam.direction
    marks = []
    for x in sorted(places):
        at = (x, py + (x - px) * uy / ux)
        tips = [(at[0] + s * 13.0 * ux, at[1] + s * 13.0 * uy) for s in (-1, 1)]
        marks += [
            Mark(shape=Circle(at, WINDOW), purpose="cut", of="seam"),
            Mark(shape=Line(tips[0], tips[1]), purpose="centre", of="seam"),
            Mark(shape=Text((x, at[1] - WINDOW - 1.6), "window: the seam", 2.1, 0.0, "mt"), purpose="note"),
        ]
    return marks


def edge_checks(layout: Layout) -> dict[str, Check]:
    """The distance from the board's end to the bridge's front along each edge, by bass and treble."""
    return {c.code.rsplit(".", 1)[1]: c for c in layout.checks if c.code.startswith("end.bridge.")}


def _distances(job: Job, layout: Layout) -> list[Mark]:
    marks = []
    for name, check in edge_checks(layout).items():
        says = f"{name} edge {show(check.distance, job.unit)} ± {show(check.pm95, job.unit, 1)} {job.unit}"
        off = 6.5 if name == parts.side_name(job, "right") else -6.5
        marks += dimension(
            check.from_xy, check.to_xy, says, off=off, height=3.0, extended=False, of=f"check:{check.code}"
        )
    return marks


def _sides(job: Job, layout: Layout, front: float) -> list[Mark]:
    bridge, saddle = layout.bridge, layout.saddle
    assert bridge is not None
    assert saddle is not None
    marks = []
    for side, sign in (("left", 1.0), ("right", -1.0)):
        name = parts.side_name(job, side)
        tip = sign * min(abs(y) for _, y in bridge.corners)
        at = (front - 6.0, tip - sign * 4.0)
        marks.append(Mark(shape=Text(at, name.upper(), 6.5, 0.0, "et" if sign > 0 else "eb", True), purpose="note"))
        if saddle.longer == name and saddle.slant > 0.05:
            at = (front - 6.0, tip - sign * 14.0)
            says = f"saddle {show(saddle.slant, job.unit)} {job.unit} farther"
            marks.append(Mark(shape=Text(at, says, 2.3, 0.0, "et" if sign > 0 else "eb"), purpose="note"))
    return marks


def _nut_arrow(job: Job, end: tuple[XY, XY]) -> list[Mark]:
    x, y = max(x for x, _ in end), max(y for _, y in end) + 20.0
    return [
        *arrow((x + 34.0, y), (x + 6.0, y), "note", scale=0.6, of="arrow"),
        Mark(shape=Text((x + 37.0, y), "to the nut", 3.0, 0.0, "sm"), purpose="note"),
        Mark(shape=Text((x + 6.0, y + 5.0), f"{job.hand}-handed", 3.0, 0.0, "sb"), purpose="note"),
    ]
