"""The foot of a taped sheet: what the sheet is, how to print and to join it, what to heed; and the level scale.

The scale stands **beside** the words, or on narrow paper, where the words would be a slender column, **below** them.
"""

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from export.drawing.marks import XY, Mark
from export.drawing.transform import Transform
from export.paper import furniture
from export.paper.furniture import Block
from export.paper.taped.framed_crosses import Far
from export.paper_sizes import Paper
from export.records import PrintOrder, printable_area

Setting = Literal["beside", "below"]
APART = 6.0
"""Between the words and the scale, mm."""


class Said(NamedTuple):
    """What differs from sheet to sheet: which it is of how many, what it shows, how it is joined, what lies far
    apart once all are taped, and how far the words stand in from where the sheet is cut at the left (mm).
    """

    called: str
    shown: Sequence[Mark]
    join: str = ""
    far: Far | None = None
    indent: float = 0.0


LONGEST = Said(
    "sheet A1, 1 of 10",
    (),
    "Cut this sheet at the left and at the top, through the crosses, and lay it on A1 and B1, their halves meeting.",
    Far(((0.0, 0.0), (999.9, 0.0)), ((0, 0), (1, 0))),
)
"""What the foot of a sheet may have to say of itself and of its neighbours."""
SIZES = (2.1, 1.95, 1.85)
"""The letters of the foot, and smaller ones where the words would be higher than there is room, mm."""


def lower(order: PrintOrder, paper: Paper, transform: Transform) -> tuple[Setting, float]:
    """How the scale is set so that the foot with the most to say is lower, and how high that is, mm."""
    said = LONGEST._replace(shown=order.figure.marks)
    settings: tuple[Setting, Setting] = ("beside", "below")
    high = {setting: _foot(order, paper, transform, setting, said, SIZES[0]).height for setting in settings}
    best = min(settings, key=lambda setting: high[setting])
    return best, high[best]


def foot(
    order: PrintOrder, paper: Paper, transform: Transform, setting: Setting, said: Said, room: float = math.inf
) -> Block:
    """The words at the foot of a sheet, and the scale, as wide as the sheet; in smaller letters where they would be
    higher than `room`, mm.
    """
    for size in SIZES:
        made = _foot(order, paper, transform, setting, said, size)
        if made.height <= room + 1e-6:
            break
    return made.block()


class _Foot(NamedTuple):
    """The words and the scale with their corners, and how large both are together."""

    words: tuple[Block, XY]
    scale: tuple[Block, XY]
    width: float
    height: float

    def block(self) -> Block:
        """Both as one."""
        return Block(
            tuple(mark for part, at in (self.words, self.scale) for mark in part.at(at)), self.width, self.height
        )


def _foot(order: PrintOrder, paper: Paper, transform: Transform, setting: Setting, said: Said, size: float) -> _Foot:
    wide, trusted = printable_area(paper, order.stamp.margin, order.stamp.correction).width, transform.turn == 0.0
    share = 1.0 if setting == "below" else 0.6 if trusted else 0.5
    scale = furniture.long_scale(share * wide, upright=False, trusted=trusted, unit=order.unit)
    at = (wide - scale.width, 0.0)
    if setting == "below":
        words = _words(order, paper, said, wide - said.indent, size)
        over = scale.height + APART
        return _Foot((words, (said.indent, over)), (scale, at), wide, words.height + over)
    words = _words(order, paper, said, at[0] - APART - said.indent, size)
    return _Foot((words, (said.indent, 0.0)), (scale, at), wide, max(words.height, scale.height))


def _words(order: PrintOrder, paper: Paper, said: Said, room: float, size: float) -> Block:
    """The words, no wider than `room`; what forbids the sheet's use as wide as the sheet."""
    stamp, far = order.stamp, said.far
    how = f"Print at 100 %, no fit to page · {furniture.correction_words(stamp.printer, stamp.correction)}"
    one = f"Tape only sheets of file {stamp.fingerprint}"  # one of the job as it was before would meet them too
    taped = f"{one}; the framed crosses are then {far.said(order.unit)} apart." if far else ""
    wide = printable_area(paper, stamp.margin, stamp.correction).width - said.indent
    doubt = furniture.in_lines(order.doubt, 2.3, room, bold=True)
    lines = [*furniture.stop_lines(order, wide), (order.figure.title, 3.6, True), *doubt]
    for text, bold in (
        (f"{furniture.whose(order)} · {said.called} · {paper.name}", False),
        (how, True),
        (" ".join(filter(None, (said.join, taped))), True),
        (" ".join(order.figure.notes_beside(said.shown)), False),
    ):
        lines += furniture.in_lines(text, size, room, bold=bold)
    return furniture.paragraph(lines)
