"""The blocks around a figure on its sheet: each in a free place as near as can be to where it is wished."""

import math
from collections.abc import Iterable, Sequence

import msgspec

from export.drawing.marks import XY, Mark
from export.drawing.room.free_ground import FreeGround
from export.paper.furniture import Block

Wish = tuple[Iterable[Block], tuple[float, float]]
"""A block as choices, best first, and where it is wanted: shares of the ground, (0, 0) lower left."""
SMALLER = 0.12
"""As how much worse each smaller choice of a block counts."""
LEFT_OUT = 2.0
"""As how much worse a table counts of which only what must not be missing finds room: more than any place can be."""


class PlacedBlocks(msgspec.Struct, frozen=True):
    """The blocks around a figure with their corners, and how much worse than wished they lie (0: all as wished).
    `short`: which of those that were wished if there is room, by number, are left out or there as a last resort.
    """

    blocks: tuple[tuple[Block, XY], ...] = ()
    worse: float = 0.0
    short: frozenset[int] = frozenset()

    def marks(self) -> tuple[Mark, ...]:
        """All blocks where they lie."""
        return tuple(mark for block, corner in self.blocks for mark in block.at(corner))

    def instead(self, of: Block, other: Block) -> "PlacedBlocks":
        """The same with another block, as large, in the place of one."""
        blocks = tuple((other if block == of else block, corner) for block, corner in self.blocks)
        return msgspec.structs.replace(self, blocks=blocks)


NONE_YET = PlacedBlocks()


def blocks_around(
    free: FreeGround,
    wishes: Sequence[Wish],
    if_room: Sequence[Wish] = (),
    before: PlacedBlocks = NONE_YET,
    below: float = math.inf,
) -> PlacedBlocks | None:
    """The blocks, those laid `before` among them, each in a free place nearest to where it is wished; None where one
    finds no room, or where they would lie as bad as `below` or worse. Those `if_room`, most needed first, are left out
    where they find none.
    """
    placed, worse, short = list(before.blocks), before.worse, set[int]()
    for choices, wanted in wishes:
        found = _best(free, choices, wanted) if worse < below else None
        if found is None:
            return None
        worse += found[0]
        placed.append(_laid_on(free, *found[1:]))
    for number, (choices, wanted) in enumerate(if_room):
        if worse >= below:
            return None
        found = _best(free, choices, wanted)
        if found is None or found[1].last_resort:
            short.add(number)
            worse += (len(if_room) - number) * (2 * LEFT_OUT if found is None else LEFT_OUT)
        if found is not None:
            worse += found[0]
            placed.append(_laid_on(free, *found[1:]))
    return PlacedBlocks(tuple(placed), worse, frozenset(short)) if worse < below else None


def _laid_on(free: FreeGround, block: Block, corner: XY) -> tuple[Block, XY]:
    """A block where it lies, its ground and a little round it free no more."""
    free.occupy(block.ground(corner).grown(3.0))
    return block, corner


def _best(free: FreeGround, choices: Iterable[Block], wanted: tuple[float, float]) -> tuple[float, Block, XY] | None:
    """The choice that lies best: how far from where it is wished, in shares of the ground, and a little for size."""
    ground = free.ground
    best: tuple[float, Block, XY] | None = None
    for order, choice in enumerate(choices):
        corner = free.find(choice.width, choice.height, wanted)
        if corner is not None:
            away_x = abs(corner[0] - ground.x0 - wanted[0] * (ground.width - choice.width)) / ground.width
            away_y = abs(corner[1] - ground.y0 - wanted[1] * (ground.height - choice.height)) / ground.height
            worse = (
                math.hypot(away_x, away_y) + SMALLER * order + choice.worse + (LEFT_OUT if choice.last_resort else 0.0)
            )
            if best is None or worse < best[0]:
                best = (worse, choice, corner)
        if best is not None and best[0] <= SMALLER * (order + 1):
            break  # no place could make up for the size of the next
    return best
