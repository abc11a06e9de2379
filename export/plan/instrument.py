"""The instrument itself on the plan: body, hole, board, frets, strings, centre line and seam.

Where the body of a job whose bridge is glued was not measured, a faint outline suggests one; it is ours, belongs to no
instrument, and says so. Under another bridge may be a skin or a plank: there nothing is drawn that nobody read.
"""

import math

from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Path, Shape
from export.drawing.smooth import closed_curve
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.layout import Layout, StringPlan
from geometry.rings import numbered

OWN_NUT = 6.0
"""How wide the small nut of a string that begins at a fret is drawn, mm; its length is the maker's."""
_LONG, _WIDE = 0.75, 0.3
"""The suggested body's length and its half width before the ends and the waist take from it, in shares of the scale."""


def _half_width(share: float) -> float:
    """The suggested body's half width at a share of its length from the neck joint, in shares of the scale.

    Ours, and no instrument's: a rounded box (the end's curve of the third power) that widens to the tail and is drawn
    in by a fifth at two fifths of its length. All figures are round ones of our own.
    """
    ends = math.cbrt(1 - abs(2 * share - 1) ** 3)
    waist = 0.2 * math.exp(-(((share - 0.4) / 0.15) ** 2))
    return _WIDE * ends * (0.85 + 0.15 * share - waist)


_SHARES = [(1 - math.cos(math.pi * k / 18)) / 2 for k in range(19)]
_HALF = tuple((_LONG * share, _half_width(share)) for share in _SHARES)
"""The suggested body's half outline: (along from the neck joint, half width), in shares of the scale."""


def instrument(layout: Layout, *, hollow: bool = True) -> tuple[list[Mark], list[Label]]:
    """The marks from the ground up, and the labels they ask for; `hollow`: a body with a hole may be suggested."""
    marks: list[Mark] = []
    labels: list[Label] = []
    body = measured_body(layout)
    if body is not None:
        marks.append(Mark(shape=body, purpose="body", of="body", filled=True))
    elif layout.neck is not None and hollow:
        more, label = _suggested(layout)
        marks += more
        labels += label
    if layout.neck is not None:
        marks += _board(layout)
        reach = extent(layout)
        marks.append(Mark(shape=Line((-18.0, 0.0), (reach + 18.0, 0.0)), purpose="centre", of="neck", tone="quiet"))
        labels.append(
            Label(at=(reach + 10.0, 0.0), words="neck centre line", of="neck", tone="quiet", prefer=-145, clear=0.2)
        )
    return marks, labels


def measured_body(layout: Layout) -> Path | None:
    """The body's outline through its measured points, in the order of their numbers; None under four."""
    ring = tuple((layout.points[name].x, layout.points[name].y) for name in numbered(layout.points, "body"))
    return closed_curve(ring) if len(ring) >= 4 else None


def extent(layout: Layout) -> float:
    """How far to the tail the plan reaches."""
    reach = [p.x for p in layout.points.values()]
    reach += [scale_of(layout) * 1.32] if layout.neck else []
    return max(reach, default=100.0)


def scale_of(layout: Layout) -> float:
    """The scale, or a guess from the board's end while it is not known."""
    if layout.frets is not None:
        return layout.frets.scale
    end = layout.neck.end if layout.neck else None
    return max(x for x, _ in end) / 0.7 if end else 640.0


def _suggested(layout: Layout) -> tuple[list[Mark], list[Label]]:
    scale = scale_of(layout)
    end = layout.neck.end if layout.neck else None
    board = max(x for x, _ in end) if end else 0.7 * scale
    joint = scale * (1 - 2 ** (-14 / 12)) if board > 0.66 * scale else scale / 2
    half = [(joint + along * scale, wide * scale) for along, wide in _HALF]
    body = closed_curve((*half, *((x, -y) for x, y in half[-2:0:-1])))
    radius = 0.075 * scale
    hole = Circle((board + radius + 0.008 * scale, 0.0), radius)
    ring = Circle(hole.centre, radius * 1.1)
    marks = [
        Mark(shape=body, purpose="body", of="body", filled=True, tone="quiet", weight=0.8),
        Mark(shape=ring, purpose="body", of="ring", tone="quiet", weight=0.8),
        Mark(shape=hole, purpose="body", of="hole", filled=True, tone="quiet", weight=0.8),
    ]
    at = (joint + 0.745 * scale, -0.205 * scale)
    return marks, [Label(at=at, words="body: only a suggestion", of="body", tone="quiet", prefer=-45)]


def on_board(left: XY, right: XY, end: tuple[XY, XY] | None) -> Line | None:
    """A fret as far as it lies before the board's end, which may be askew; None where none of it does."""
    if end is None:
        return Line(left, right)
    (ax, ay), (bx, by) = end
    past_left, past_right = (((x - ax) * (ay - by) - (y - ay) * (ax - bx)) for x, y in (left, right))
    if past_left > 0 and past_right > 0:
        return None
    if past_left <= 0 and past_right <= 0:
        return Line(left, right)
    part = past_left / (past_left - past_right)
    cut = (left[0] + part * (right[0] - left[0]), left[1] + part * (right[1] - left[1]))
    return Line(cut, right) if past_left > 0 else Line(left, cut)


def _board(layout: Layout) -> list[Mark]:
    neck, frets = layout.neck, layout.frets
    assert neck is not None
    (nl, nr) = neck.nut
    marks: list[Mark] = []
    if neck.end is not None:
        left, right = neck.end
        marks.append(Mark(shape=polyline([nl, nr, right, left], True), purpose="body", of="board", filled=True))
    nut_back = [(nl[0] - 4.5, nl[1]), (nr[0] - 4.5, nr[1])]
    marks.append(Mark(shape=polyline([nl, nr, nut_back[1], nut_back[0]], True), purpose="body", of="nut", weight=1.2))
    for fret in frets.lines if frets else ():
        shown = on_board(fret.left, fret.right, neck.end)
        if fret.fret and shown is not None:
            heavy = 2.2 if fret.fret == 12 else 1.4
            marks.append(
                Mark(
                    shape=shown,
                    purpose="body",
                    of=f"fret:{fret.fret}",
                    weight=heavy,
                    tone="quiet",
                )
            )
    return marks


def strings(layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Each string from where it begins to its end at its thickness, never thinner than can be seen; and the small nut
    of one that begins at a fret.
    """
    marks, labels = _each_string(layout, view), []
    for string in layout.strings:
        if string.starts_at:
            of = f"string:{string.name}"
            marks.append(Mark(shape=small_nut(string), purpose="body", of=of, weight=2.2, tone="measured"))
            words = f"{string.name} starts at fret {string.starts_at}"
            away = 90 if string.nut_xy[1] > 0 else -90
            labels.append(Label(at=string.nut_xy, words=words, of=of, tone="measured", prefer=away, clear=1.0))
    return marks, labels


def small_nut(string: StringPlan) -> Line:
    """The front of a string's own small nut, square to the string."""
    at, end = complex(*string.nut_xy), complex(*string.end)
    half = (end - at) / abs(end - at) * 1j * OWN_NUT / 2
    return Line(((at + half).real, (at + half).imag), ((at - half).real, (at - half).imag))


def _each_string(layout: Layout, view: PlanView) -> list[Mark]:
    return [
        Mark(
            shape=Line(string.nut_xy, string.end),
            purpose="body",
            of=f"string:{string.name}",
            weight=max(0.8, (string.diameter or 0.5) * view.scale / 0.18),
            tone="measured",
        )
        for string in layout.strings
    ]


def edges_carried_on(layout: Layout) -> list[Mark]:
    """The edge lines past the board's end, to beyond the bridge."""
    neck = layout.neck
    if neck is None or neck.end is None:
        return []
    reach = max((x for x, _, _ in layout.bridge.outline), default=0.0) + 30.0 if layout.bridge else scale_of(layout)
    if layout.separate is not None:
        reach = max(x for x, _ in layout.separate.corners) + 30.0
    return [
        Mark(shape=Line(corner, ray.at_x(reach)), purpose="lay", of=f"edge:{side}", tone="measured")
        for side, ray, corner in (("left", neck.left_edge, neck.end[0]), ("right", neck.right_edge, neck.end[1]))
    ]


def seam_line(layout: Layout, body: Shape | None) -> tuple[list[Mark], list[Label]]:
    """The seam as a line from the board's end to the tail."""
    seam = layout.neck.seam if layout.neck else None
    if seam is None:
        return [], []
    read = [p.x for name, p in layout.points.items() if name.startswith("seam.")]
    end = layout.neck.end if layout.neck else None
    start = max(x for x, _ in end) + 8.0 if end else min(read)
    stop = around([v[:2] for v in body.vertices]).x1 if isinstance(body, Path) else extent(layout) - 8.0
    a, b = seam.at_x(min([start, *read])), seam.at_x(max([stop, *read]))
    word = Label(at=seam.at_x(b[0] - 24.0), words="seam", of="seam", tone="measured", prefer=90, clear=0.2)
    return [Mark(shape=Line(a, b), purpose="centre", of="seam", tone="measured")], [word]
