"""What was there before, as the plan and the templates draw it: the old footprint, old holes, and metal."""

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Mark, Tone
from geometry.layout import Hole, Metal


def footprint(outline: tuple[XY, ...], tone: Tone = "worked out") -> list[Mark]:
    """The old footprint; none where fewer than three of its corners are known."""
    if len(outline) < 3:
        return []
    return [Mark(shape=polyline(outline, closed=True), purpose="before", of="old", tone=tone)]


def old_hole(hole: Hole, of: str, tone: Tone = "worked out") -> Mark:
    """An old hole as wide as it is."""
    return Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="before", of=of, tone=tone)


def metal_marks(metal: Metal, half: float, tone: Tone = "worked out") -> list[Mark]:
    """Metal as a solid square, `half` its side in mm, with its keep-out round it."""
    (x, y), of = metal.at, f"metal:{metal.name}"
    square = [(x + i * half, y + j * half) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    marks = [Mark(shape=polyline(square, closed=True), purpose="metal", of=of, filled=True, tone=tone)]
    if metal.keep_out > 0:
        marks.append(Mark(shape=Circle(metal.at, metal.keep_out), purpose="metal", of=of, tone=tone))
    return marks
