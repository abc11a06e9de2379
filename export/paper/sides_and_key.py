"""What every taped sheet repeats where its figure leaves room: which side is bass, which treble, and its own key."""

from collections.abc import Sequence

from export.drawing.flatten import Box
from export.drawing.flatten import box as shapes_box
from export.drawing.free_ground import FreeGround
from export.drawing.marks import XY, Circle, Mark, Text
from export.drawing.typeface import text_box
from export.paper import furniture
from export.paper.furniture import words
from export.paper.work_ground import work_ground
from export.paper.wrapping import wrapped

SIDES = ("BASS", "TREBLE")
"""The words of the sides, which each sheet has for itself."""
CROSSED_OUT = "crossed out: old hole, assumed"
"""What is said where the key has no room for a sample of such a hole."""
APART = 7.0
"""How far a key stands from any hole of the work, which would pass for a sample of its, mm."""
HEIGHTS = (6.5, 5.0, 4.0)
"""How high a side's word is set, mm: the smaller where there is no room for the larger."""
OWN_SIDE = 0.25
"""How far from its own edge of a sheet a side's word may stand, as a share of the sheet."""


def repeated(
    figure: Sequence[Mark], shown: Sequence[Mark], free: FreeGround, keep: Sequence[Box], foot: FreeGround | None = None
) -> list[Mark]:
    """What every sheet repeats where the figure leaves room: which side is bass, which treble, and the key to its own
    lines. Both stand outside the work (`keep`, outlines, the board), where the key's samples would pass for holes and
    lines of it; the key in the window, or else where the sheet's `foot` is free. A side's word stands on its own side
    of the middle, or not at all.
    """
    outside = free.copy()
    for box in keep:
        outside.occupy(box)
    outside.occupy_boxes(work_ground(figure))
    marks: list[Mark] = []
    sides = _sides(figure)
    middle = [sum(at[axis] for at in sides.values()) / len(sides) for axis in (0, 1)] if sides else []
    for side, at in sides.items():
        if any(isinstance(m.shape, Text) and m.shape.text == side for m in shown):
            continue
        axis = 0 if abs(at[0] - middle[0]) > abs(at[1] - middle[1]) else 1
        placed = _side(side, outside, axis, middle[axis], beyond=at[axis] > middle[axis])
        marks += placed
        outside.occupy_marks(placed, 2.0)
    marks += _key(shown, (outside,) if foot is None else (outside, foot))
    return [*marks, *_crossed_out(shown, marks, free)]


def _side(side: str, free: FreeGround, axis: int, middle: float, *, beyond: bool) -> tuple[Mark, ...]:
    """A side's word, as large as it finds room, `beyond` the middle or before it; none where it finds none there."""
    wanted = (float(beyond), 0.5) if axis == 0 else (0.5, float(beyond))
    for height in HEIGHTS:
        block = furniture.block([words((0.0, 0.0), side, height, bold=True)])
        corner = free.find(block.width, block.height, wanted)
        if corner is not None and _on_its_side(block.ground(corner), free.ground, axis, middle, beyond=beyond):
            return block.at(corner)
    return ()


def _sides(figure: Sequence[Mark]) -> dict[str, XY]:
    """Where the figure says BASS and where TREBLE, by the words' middles; of several views that each say so, their
    middle.
    """
    found: dict[str, list[XY]] = {}
    for mark in figure:
        if isinstance(mark.shape, Text) and mark.shape.text in SIDES:
            around = text_box(mark.shape)
            found.setdefault(mark.shape.text, []).append(((around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2))
    return {
        side: (sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places))
        for side, places in found.items()
    }


def _key(shown: Sequence[Mark], grounds: Sequence[FreeGround]) -> tuple[Mark, ...]:
    """The key to a sheet's own lines, as much of it as finds room on the first of these grounds that has any."""
    for shape in (mark.shape for mark in shown):
        if isinstance(shape, Circle):
            grounds[0].occupy(shapes_box(shape).grown(APART))
    for ground in grounds:
        for key in furniture.legends_of(tuple(shown)) if furniture.purposes_of(tuple(shown)) else ():
            corner = ground.find(key.width, key.height, (1.0, 1.0))
            if corner is not None:
                return key.at(corner)
    return ()


def _crossed_out(shown: Sequence[Mark], told: Sequence[Mark], free: FreeGround) -> tuple[Mark, ...]:
    """What a hole means that is crossed out, in words wherever there is room, where the key does not say it."""
    words_told = [mark.shape.text for mark in (*shown, *told) if isinstance(mark.shape, Text)]
    if not furniture.has_assumed(shown) or any("assumed" in text for text in words_told):
        return ()
    free.occupy_marks(told, 2.0)
    for room in (60.0, 26.0, 14.0):
        block = furniture.paragraph([(line, 2.1, False) for line in wrapped(CROSSED_OUT, 2.1, room)])
        corner = free.find(block.width, block.height, (1.0, 1.0))
        if corner is not None:
            return block.at(corner)
    return ()


def _on_its_side(word: Box, ground: Box, axis: int, middle: float, *, beyond: bool) -> bool:
    """Whether a side's word lies wholly on its own side of the middle, and toward its own edge of the ground."""
    low, high = word[axis], word[axis + 2]
    share = ((low + high) / 2 - ground[axis]) / (ground[axis + 2] - ground[axis])
    return low > middle and share > 1.0 - OWN_SIDE if beyond else high < middle and share < OWN_SIDE
