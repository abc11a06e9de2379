"""What every taped sheet repeats where its figure leaves room: which side is bass, which treble, and its own key."""

from collections.abc import Sequence
from typing import NamedTuple

from export.drawing.flatten import Box
from export.drawing.flatten import box as shapes_box
from export.drawing.marks import XY, Circle, Mark, Text
from export.drawing.room.free_ground import FreeGround
from export.drawing.typeface import text_box
from export.paper import furniture
from export.paper.furniture import Block, words
from export.paper.work_ground import work_ground
from export.paper.wrapping import wrapped

SIDES = ("BASS", "TREBLE")
"""The words of the sides, which each sheet has for itself."""
CROSSED_OUT = "crossed out: old hole, assumed"
"""What is said where the key has no room for a sample of such a hole."""
APART = 7.0
"""How far a key stands from any hole of the work, which would pass for a sample of its, mm."""
LEVEL = 1.0
"""The words of both sides are level within so much, mm."""
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
    asked = []
    for side, at in sides.items():
        if any(isinstance(m.shape, Text) and m.shape.text == side for m in shown):
            continue
        axis = 0 if abs(at[0] - middle[0]) > abs(at[1] - middle[1]) else 1
        asked.append(_Side(side, axis, middle[axis], at[axis] > middle[axis]))
    for block, corner in _placed(asked, outside):
        marks += block.at(corner)
        outside.occupy(block.ground(corner).grown(3.0))
    marks += _key(shown, (outside,) if foot is None else (outside, foot))
    return [*marks, *_crossed_out(shown, marks, free)]


class _Side(NamedTuple):
    """A side's word: whether it stands left or right (`axis` 0) or below or above, and whether `beyond` the middle."""

    word: str
    axis: int
    middle: float
    beyond: bool

    def find(self, free: FreeGround, along: float = 0.5) -> tuple[Block, XY] | None:
        """The word as large as it finds room on its own side, and its corner: nearest to its edge of the sheet, at such
        a share along it.
        """
        wanted = (float(self.beyond), along) if self.axis == 0 else (along, float(self.beyond))
        for height in HEIGHTS:
            block = furniture.block([words((0.0, 0.0), self.word, height, bold=True)])
            corner = free.find(block.width, block.height, wanted)
            if corner is not None and self._holds(block.ground(corner), free.ground):
                return block, corner
        return None

    def _holds(self, word: Box, ground: Box) -> bool:
        """Whether a word lies wholly on this side of the middle, and toward its own edge of the ground."""
        low, high = word[self.axis], word[self.axis + 2]
        share = ((low + high) / 2 - ground[self.axis]) / (ground[self.axis + 2] - ground[self.axis])
        return low > self.middle and share > 1.0 - OWN_SIDE if self.beyond else high < self.middle and share < OWN_SIDE


def _placed(asked: Sequence[_Side], free: FreeGround) -> list[tuple[Block, XY]]:
    """The words where they find room: the one to the left and the one to the right level with each other where they
    can be.
    """
    found = [placed for side in asked if (placed := side.find(free)) is not None]
    if len(found) < 2 or any(side.axis for side in asked):
        return found
    levels = [corner[1] for _, corner in found]
    for level in levels if max(levels) - min(levels) > LEVEL else ():
        along = [(level - free.ground.y0) / (free.ground.height - block.height) for block, _ in found]
        again = [side.find(free, share) for side, share in zip(asked, along, strict=True)]
        there = [placed for placed in again if placed is not None and abs(placed[1][1] - level) <= LEVEL]
        if len(there) == len(found):
            return there
    return found


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
