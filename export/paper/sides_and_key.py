"""What every taped sheet repeats where its figure leaves room: which side is bass, which treble, and its own key."""

from collections.abc import Sequence

from export.drawing.flatten import Box
from export.drawing.marks import XY, Mark, Text
from export.drawing.occupied_cells import OccupiedCells
from export.paper import furniture
from export.paper.furniture import Block, words

OWN_SIDE = 0.25
"""How far from its own edge of a sheet a side's word may stand, as a share of the sheet."""


def repeated(figure: Sequence[Mark], shown: Sequence[Mark], free: OccupiedCells) -> list[Mark]:
    """What every sheet repeats where the figure leaves room: which side is bass, which treble, and the key to
    its own lines.
    """
    marks: list[Mark] = []
    large = [m.shape for m in figure if isinstance(m.shape, Text) and m.shape.text in ("BASS", "TREBLE")]
    middle = [sum(shape.at[axis] for shape in large) / len(large) for axis in (0, 1)] if large else []
    for shape in large:
        if any(isinstance(m.shape, Text) and m.shape.text == shape.text for m in shown):
            continue
        upright = abs(shape.at[0] - middle[0]) > abs(shape.at[1] - middle[1])
        share = 1.0 if shape.at[0 if upright else 1] > middle[0 if upright else 1] else 0.0
        block = furniture.block([words((0.0, 0.0), shape.text, 6.5, bold=True)])
        corner = free.find(block.width, block.height, (share, 0.5) if upright else (0.5, share))
        if corner is not None and _on_its_side(block, corner, free.ground, share, upright=upright):
            marks += block.at(corner)
            free.occupy(Box(*corner, corner[0] + block.width, corner[1] + block.height).grown(3.0))
    return [*marks, *_key(shown, free)]


def _key(shown: Sequence[Mark], free: OccupiedCells) -> tuple[Mark, ...]:
    """The key to a sheet's own lines, as much of it as finds room."""
    for blocks in furniture.legends_of(tuple(shown)) if furniture.purposes_of(tuple(shown)) else ():
        left, marks = free.copy(), list[Mark]()
        for block in blocks:
            corner = left.find(block.width, block.height, (1.0, 1.0))
            if corner is None:
                break
            marks += block.at(corner)
            left.occupy(Box(*corner, corner[0] + block.width, corner[1] + block.height).grown(2.0))
        else:
            return tuple(marks)
    return ()


def _on_its_side(block: Block, corner: XY, ground: Box, share: float, *, upright: bool) -> bool:
    """Whether a side's word lies toward its own edge of the ground and not in the midst of the work, or beyond it."""
    if upright:
        at = (corner[0] + block.width / 2 - ground.x0) / ground.width
    else:
        at = (corner[1] + block.height / 2 - ground.y0) / ground.height
    return abs(at - share) < OWN_SIDE
