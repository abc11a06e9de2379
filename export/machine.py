"""Figures made ready for a machine: moved to a lower left origin, with the datum where a machine's zero can be set."""

import math
from typing import Literal

import msgspec

from export.drawing.dimension import cross
from export.drawing.flatten import Box, box, union
from export.drawing.marks import XY, Mark, Text
from export.drawing.placing import Placing
from export.furniture import marks_box
from geometry.layout import Layout

Datum = Literal["board end", "saddle centre", "lower left"]


class Cut(msgspec.Struct, frozen=True, kw_only=True):
    """Marks in file mm: lower left origin, nothing negative. `datum` in file mm, `box` of all that is drawn.

    `placing` takes instrument mm to file mm; `says` is the note that stands in the file.
    """

    marks: tuple[Mark, ...]
    box: Box
    datum: XY
    placing: Placing
    says: tuple[str, ...] = ()


def datum_place(layout: Layout, datum: Datum) -> XY | None:
    """Where the datum lies on the instrument; None for the lower left corner, or where it is not known."""
    if datum == "board end" and layout.neck is not None and layout.neck.end is not None:
        (ax, ay), (bx, by) = layout.neck.end
        return ax - ay * (bx - ax) / (by - ay), 0.0
    if datum == "saddle centre" and layout.saddle is not None:
        (ax, ay), (bx, by) = layout.saddle.at_strings
        return (ax + bx) / 2, (ay + by) / 2
    return None


NOTE_HEIGHT = 2.5


def ready(marks: tuple[Mark, ...], datum: XY | None, says: str, notes: tuple[str, ...], *, mirror: bool = False) -> Cut:
    """Move marks to a lower left origin, notes below them; the datum lands on whole tens of mm, marked by a cross.

    `datum` in instrument mm, called what `says`; None: the lower left corner of all that is drawn.
    """
    flat = Placing(mirror=mirror)
    if datum is not None:
        marks = (*marks, *cross(datum, 4.0, "register", turn=math.pi / 4, of="datum"))
    marks = flat.marks(marks)
    around = marks_box(marks)
    low = (around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * (len(notes) + 1))
    if datum is None:
        shift = (-low[0], -low[1])
        where = "lower left corner, X 0 Y 0"
    else:
        at = flat.xy(datum)
        shift = (10 * math.ceil((at[0] - low[0]) / 10) - at[0], 10 * math.ceil((at[1] - low[1]) / 10) - at[1])
        where = f"{says}, X {at[0] + shift[0]:g} Y {at[1] + shift[1]:g}"
    lines = (f"Units mm. Datum: {where}.", *notes)
    words = [
        Mark(
            shape=Text((around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * i), line, NOTE_HEIGHT, anchor="st"),
            purpose="note",
        )
        for i, line in enumerate(lines)
    ]
    moved = Placing(shift=shift).marks((*marks, *words))
    drawn = union([box(m.shape) for m in moved if not isinstance(m.shape, Text)])
    placing = Placing(shift=shift, mirror=mirror)
    return Cut(marks=moved, box=drawn, datum=placing.xy(datum) if datum else (0.0, 0.0), placing=placing, says=lines)
