"""Words that no sheet of several holds whole, because a seam runs through them: each is moved to the nearest free place
of the sheet that holds most of what it belongs to, or of the next that has room.
"""

from collections.abc import Mapping, Sequence

import msgspec

from export.drawing.flatten import Box, union
from export.drawing.marks import Mark, Text
from export.drawing.room.free_ground import FreeGround
from export.drawing.typeface import text_box
from export.paper.furniture import marks_box
from export.paper.taped.tile_grid import OVERLAP, Grid

Cell = tuple[int, int]
CELL, CLEAR = 1.0, 0.8
"""The side of the cells in which a free place is looked for, and what stays free round it, mm."""


def torn(
    marks: Sequence[Mark], grid: Grid, keep: Sequence[Box], left_out: Sequence[str]
) -> Mapping[Cell, Sequence[int]]:
    """Which words of a figure, by their numbers, no window holds whole, by the sheet that each goes to. For words that
    are of what is `left_out`, or say that, every sheet finds a place for itself.
    """
    windows = {cell: grid.window(cell) for cell in grid.cells}
    found: dict[Cell, list[int]] = {}
    for number, mark in enumerate(marks):
        if not isinstance(mark.shape, Text) or mark.of in left_out or mark.shape.text in left_out:
            continue
        around = text_box(mark.shape)
        if not any(window.holds(around) for window in windows.values()):
            group = _belongs_to(marks, mark, grid)
            near = sorted(windows, key=lambda cell: -_shared(windows[cell], group))
            with_room = (cell for cell in near if made_whole([mark], windows[cell], marks, keep))
            found.setdefault(next(with_room, near[0]), []).append(number)
    return found


def _belongs_to(marks: Sequence[Mark], word: Mark, grid: Grid) -> Box:
    """What a word must be seen beside: all that stands for the same, such as an arrow, or itself where that is longer
    than a window.
    """
    own = marks_box([word])
    around = union([own, *(marks_box([mark]) for mark in marks if word.of and mark.of == word.of)])
    return around if around.width <= grid.width and around.height <= grid.height else own


def made_whole(words: Sequence[Mark], window: Box, taken: Sequence[Mark], keep: Sequence[Box]) -> list[Mark]:
    """These words within the seams of a sheet's window, off all that is `taken` and off the work (`keep`) unless they
    stand in it; level where they have no room as they were, and left out where they have none at all.
    """
    marks: list[Mark] = []
    for mark in words:
        assert isinstance(mark.shape, Text)
        free = FreeGround(window.grown(-OVERLAP / 2), CELL)
        free.occupy_marks((*taken, *marks), CLEAR)
        for box in keep:
            if not box.meets(text_box(mark.shape)):
                free.occupy(box)
        text = _moved(mark.shape, free) or _moved(msgspec.structs.replace(mark.shape, angle=0.0), free)
        marks += [msgspec.structs.replace(mark, shape=text)] if text is not None else []
    return marks


def _moved(text: Text, free: FreeGround) -> Text | None:
    """Words in the free place nearest to where they are."""
    home, window = text_box(text), free.ground
    room_x, room_y = window.width - home.width, window.height - home.height
    if min(room_x, room_y) <= 0.0:
        return None
    wanted = (min(max((home.x0 - window.x0) / room_x, 0.0), 1.0), min(max((home.y0 - window.y0) / room_y, 0.0), 1.0))
    corner = free.find(home.width, home.height, wanted)
    if corner is None:
        return None
    at = (text.at[0] + corner[0] - home.x0, text.at[1] + corner[1] - home.y0)
    return msgspec.structs.replace(text, at=at)


def _shared(one: Box, other: Box) -> float:
    """The area that two boxes share, mm²."""
    across = min(one.x1, other.x1) - max(one.x0, other.x0)
    up = min(one.y1, other.y1) - max(one.y0, other.y0)
    return max(across, 0.0) * max(up, 0.0)
