"""What every taped sheet repeats where its figure leaves room: which side is bass, which treble, and its own key."""

from collections.abc import Sequence
from typing import NamedTuple

from export.drawing.flatten import Box
from export.drawing.flatten import box as shapes_box
from export.drawing.free_ground import FreeGround
from export.drawing.marks import XY, Circle, Mark, Text
from export.paper import furniture
from export.paper.furniture import Block, words
from export.paper.wrapping import wrapped

SIDES = ("BASS", "TREBLE")
"""The words of the sides, which each sheet has for itself."""
CROSSED_OUT = "crossed out: old hole, assumed"
"""What is said where the key has no room for a sample of such a hole."""
APART = 7.0
"""How far a key stands from any hole of the work, which would pass for a sample of its, mm."""
LEVEL = 1.0
"""The words of both sides are level within so much, mm."""
OWN_SIDE = 0.25
"""How far from its own edge of a sheet a side's word may stand, as a share of the sheet."""


def repeated(figure: Sequence[Mark], shown: Sequence[Mark], free: FreeGround, keep: Sequence[Box]) -> list[Mark]:
    """What every sheet repeats where the figure leaves room: which side is bass, which treble, and the key to its own
    lines. They stand outside the work itself (`keep`), where the key's samples would pass for holes and lines of it.
    """
    outside = free.copy()
    for box in keep:
        outside.occupy(box)
    marks: list[Mark] = []
    sides = _sides(figure)
    middle = [sum(at[axis] for at in sides.values()) / len(sides) for axis in (0, 1)] if sides else []
    asked = []
    for side, at in sides.items():
        if any(isinstance(m.shape, Text) and m.shape.text == side for m in shown):
            continue
        upright = abs(at[0] - middle[0]) > abs(at[1] - middle[1])
        share = 1.0 if at[0 if upright else 1] > middle[0 if upright else 1] else 0.0
        asked.append(_Side(furniture.block([words((0.0, 0.0), side, 6.5, bold=True)]), share, upright))
    for block, corner in _placed(asked, outside):
        marks += block.at(corner)
        outside.occupy(block.ground(corner).grown(3.0))
    marks += _key(shown, outside)
    return [*marks, *_crossed_out(shown, marks, free)]


class _Side(NamedTuple):
    """A side's word, toward which end of the sheet it stands (0 or 1), and whether that is to its left or right."""

    block: Block
    share: float
    upright: bool

    def find(self, free: FreeGround, along: float = 0.5) -> XY | None:
        """Its corner nearest to its edge of the sheet, at such a share along it; None where that is not on its side."""
        wanted = (self.share, along) if self.upright else (along, self.share)
        corner = free.find(self.block.width, self.block.height, wanted)
        on_side = corner is not None and _on_its_side(self.block, corner, free.ground, self.share, upright=self.upright)
        return corner if on_side else None


def _placed(asked: Sequence[_Side], free: FreeGround) -> list[tuple[Block, XY]]:
    """The words where they find room: the one to the left and the one to the right level with each other where they
    can be.
    """
    found = [(side.block, corner) for side in asked if (corner := side.find(free)) is not None]
    if len(found) < 2 or not all(side.upright for side in asked):
        return found
    levels = [corner[1] for _, corner in found]
    for level in levels if max(levels) - min(levels) > LEVEL else ():
        along = [(level - free.ground.y0) / (free.ground.height - side.block.height) for side in asked]
        corners = [side.find(free, share) for side, share in zip(asked, along, strict=True)]
        there = [corner for corner in corners if corner is not None and abs(corner[1] - level) <= LEVEL]
        if len(there) == len(asked):
            return [(side.block, corner) for side, corner in zip(asked, there, strict=True)]
    return found


def _sides(figure: Sequence[Mark]) -> dict[str, XY]:
    """Where the figure says BASS and where TREBLE; of several views that each say so, their middle."""
    found: dict[str, list[XY]] = {}
    for mark in figure:
        if isinstance(mark.shape, Text) and mark.shape.text in SIDES:
            found.setdefault(mark.shape.text, []).append(mark.shape.at)
    return {
        side: (sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places))
        for side, places in found.items()
    }


def _key(shown: Sequence[Mark], free: FreeGround) -> tuple[Mark, ...]:
    """The key to a sheet's own lines, as much of it as finds room."""
    for shape in (mark.shape for mark in shown):
        if isinstance(shape, Circle):
            free.occupy(shapes_box(shape).grown(APART))
    for key in furniture.legends_of(tuple(shown)) if furniture.purposes_of(tuple(shown)) else ():
        corner = free.find(key.width, key.height, (1.0, 1.0))
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


def _on_its_side(block: Block, corner: XY, ground: Box, share: float, *, upright: bool) -> bool:
    """Whether a side's word lies toward its own edge of the ground and not in the midst of the work, or beyond it."""
    if upright:
        at = (corner[0] + block.width / 2 - ground.x0) / ground.width
    else:
        at = (corner[1] + block.height / 2 - ground.y0) / ground.height
    return abs(at - share) < OWN_SIDE
