"""Two holes beside a part, in the stock it is cut from, to turn it over on: pins through both put it back in its place.

They stand on the part's middle line along its length, as far from one end as from the other, so that it may be turned
over end for end or front to back.
"""

import math
from collections.abc import Sequence

from export.drawing.dimension import cross
from export.drawing.marks import XY, Circle, Mark
from geometry.layout import Hole

BESIDE, DIAMETER = 8.0, 5.0
"""From the part's end to a hole's middle, and how wide it is, mm (common practice, no source)."""
NAME = "turning"
"""What such a hole stands for."""


def turning_holes(outline: Sequence[XY], turn: float) -> tuple[Hole, Hole]:
    """The holes left and right of a part; `outline` are points all round it, `turn` its angle to square, in radians."""
    cos, sin = math.cos(turn), math.sin(turn)
    along, across = zip(*((x * cos + y * sin, y * cos - x * sin) for x, y in outline), strict=True)
    middle = (min(along) + max(along)) / 2

    def hole(name: str, y: float) -> Hole:
        return Hole(name=name, at=(middle * cos - y * sin, middle * sin + y * cos), diameter=DIAMETER)

    return hole("left", max(across) + BESIDE), hole("right", min(across) - BESIDE)


def marks(holes: Sequence[Hole]) -> list[Mark]:
    """The holes to drill, with their crosses."""
    drawn: list[Mark] = []
    for hole in holes:
        drawn.append(Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="drill", of=NAME))
        drawn += cross(hole.at, hole.diameter / 2 + 1.4, "centre", of=NAME, weight=0.75)
    return drawn
