"""A placement template as a part of its own, for a machine to cut out of sheet stock: its outer edge, its pilot holes.

The edge runs round all lines and words at a margin. At the notch it is open to the nut's side, so that the template
slides against the board's end and two arms lie beside the board. Pin holes become **pilot holes** to prick or drill
through; their full size, the slot and all else is engraved.
"""

from collections.abc import Sequence

import msgspec

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Mark, Path
from export.machine.tools import PILOT, check_pilot, hole_called
from export.paper.furniture import marks_box
from export.records import Figure

EDGE = "template"
"""What the outer edge stands for."""


def as_part(figure: Figure, margin: float, pilot: float) -> Figure:
    """The figure with its outer edge `margin` mm round it and pilot holes of that diameter. Raises `ExportError`."""
    notch = next((m.shape for m in figure.marks if m.of == "notch" and m.purpose == "cut"), None)
    rest = [mark for mark in figure.marks if mark.of != "notch"]
    around = marks_box([mark for mark in rest if mark.of != "tape"]).grown(margin)
    if isinstance(notch, Path):
        ring = _open_at_notch([vertex[:2] for vertex in notch.vertices], around)
    else:
        ring = [(around.x0, around.y1), (around.x0, around.y0), (around.x1, around.y0), (around.x1, around.y1)]
    edge = Mark(shape=polyline(ring, closed=True), purpose="cut", of=EDGE)
    marks = (*_engraved(rest, pilot), edge)
    return msgspec.structs.replace(figure, marks=marks, kept=(*figure.kept, EDGE))


def _open_at_notch(notch: Sequence[XY], around: tuple[float, float, float, float]) -> list[XY]:
    """The edge from the notch's left corner round to its right one; `notch` as `registration.notch_corners`."""
    left, left_back, right_back, right = notch
    _, y0, x1, y1 = around
    x0 = min(left_back[0], right_back[0])

    def at_back(front: XY, back: XY) -> XY:
        share = (x0 - front[0]) / (back[0] - front[0])
        return x0, front[1] + share * (back[1] - front[1])

    arms = at_back(left, left_back), at_back(right, right_back)
    return [left, arms[0], (x0, y1), (x1, y1), (x1, y0), (x0, y0), arms[1], right]


def _engraved(marks: Sequence[Mark], pilot: float) -> list[Mark]:
    """Slots and full holes as lines to mark, with a pilot hole in each."""
    made: list[Mark] = []
    for mark in marks:
        shape = mark.shape
        if mark.purpose == "drill" and isinstance(shape, Circle):
            check_pilot([(hole_called(mark.of)[0], 2 * shape.radius)], pilot)
            of = f"{PILOT}:{mark.of.partition(':')[2]}"
            made.append(msgspec.structs.replace(mark, shape=Circle(shape.centre, pilot / 2), of=of))
            if 2 * shape.radius > pilot:
                made.append(msgspec.structs.replace(mark, purpose="mark"))
        elif mark.purpose == "route":
            made.append(msgspec.structs.replace(mark, purpose="mark"))
        else:
            made.append(mark)
    return made
