"""What every sheet carries beside its drawing: title block, scales both ways, legend of line types, the word STOP.

Each **block** is drawn with its lower left corner at (0, 0), in paper mm.
"""

import datetime
import math
from collections.abc import Iterable, Sequence
from functools import cache

import msgspec

from export.correction import Correction
from export.drawing.flatten import Box, box, union
from export.drawing.marks import XY, Anchor, Circle, Line, Mark, Path, Purpose, Shape, Text
from export.drawing.pens import PENS, dashes_of
from export.drawing.shrinking import shrunk
from export.drawing.transform import Transform
from export.drawing.typeface import text_box
from export.paper.wrapping import wrapped
from export.records import PrintOrder
from geometry.units import INCH, Unit

CELL = 2.0
"""The side of the cells in which free places are looked for, mm."""
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class Block(msgspec.Struct, frozen=True):
    """Marks that stay together, and the room they need. `last_resort`: taken only where no other finds room; `worse`:
    as how much worse it counts than its size alone, in shares of the sheet.
    """

    marks: tuple[Mark, ...]
    width: float
    height: float
    last_resort: bool = False
    worse: float = 0.0

    def at(self, corner: XY) -> tuple[Mark, ...]:
        """The block with its lower left corner there."""
        return Transform(shift=corner).marks(self.marks)

    def ground(self, corner: XY) -> Box:
        """What it covers with its lower left corner there."""
        return Box(*corner, corner[0] + self.width, corner[1] + self.height)


def words(at: XY, text: str, height: float, *, bold: bool = False, anchor: Anchor = "sb", angle: float = 0.0) -> Mark:
    """Words as a note."""
    return Mark(shape=Text(at, text, height, angle, anchor, bold), purpose="note")


def marks_box(marks: Sequence[Mark]) -> Box:
    """The upright box around marks, words included."""
    return union([text_box(m.shape) if isinstance(m.shape, Text) else box(m.shape) for m in marks])


def block(marks: Sequence[Mark]) -> Block:
    """A block of marks, shifted so that its lower left corner is at (0, 0)."""
    around = marks_box(marks)
    return Block(Transform(shift=(-around.x0, -around.y0)).marks(tuple(marks)), around.width, around.height)


def day(date: datetime.date) -> str:
    """A date without ambiguity: 25 Nov 2026."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"


LEADING = 1.95
"""From line to line, of the capital height."""


WordLine = tuple[str, float, bool]
"""A line's words, their capital height, and whether they are bold."""


def in_lines(said: str, height: float, room: float, *, bold: bool = False) -> list[WordLine]:
    """Words in as many lines as they need where there is so much room; none for no words. No dot between two things is
    left over at a line's end.
    """
    return [(line.removesuffix(" ·"), height, bold) for line in wrapped(said, height, room, bold)]


def paragraph(lines: Sequence[WordLine]) -> Block:
    """Lines one under the other."""
    marks, y = [], 0.0
    for text, height, bold in lines:
        y -= height * LEADING
        if text:
            marks.append(words((0.0, y), text, height, bold=bold))
    return block(marks)


NAME = 24
"""The most signs of a printer's name that a sheet has room for."""


def correction_words(printer: str, correction: Correction) -> str:
    """How the sheet says for which printer it is and what correction it carries."""
    said = correction.says()
    if not printer:
        return said or "no printer correction"
    name = printer if len(printer) <= NAME else f"{printer[: NAME - 1]}…"
    return f"printer “{name}”: {said or 'no correction known'}"


def purposes_of(marks: tuple[Mark, ...]) -> tuple[Purpose, ...]:
    """The line purposes a drawing uses, in the order of the legend; of dashed ones those that are dashed anywhere, and
    not only so short that they are continuous, such as a hole's cross.
    """
    wanted: tuple[Purpose, ...] = ("cut", "route", "drill", "mark", "lay", "centre", "hidden", "before", "metal")
    used: set[Purpose] = set()
    for mark in marks:
        if mark.purpose not in used and (not PENS[mark.purpose].dashes or dashes_of(mark)):
            used.add(mark.purpose)
    return tuple(purpose for purpose in wanted if purpose in used)


def has_assumed(marks: Iterable[Mark]) -> bool:
    """Whether a drawing has an old hole that is crossed out, because nobody read it."""
    return any(
        mark.purpose == "before" and mark.of.startswith("old pin:") and isinstance(mark.shape, Line) for mark in marks
    )


def legends_of(marks: tuple[Mark, ...]) -> tuple[Block, ...]:
    """The legend of a drawing, and what stands for it where there is less and less room."""
    wanted, edge = dict.fromkeys((has_assumed(marks), False)), _dashes_its_edge(marks)
    return tuple(
        legend(purposes_of(marks), assumed=assumed, edge=edge, tight=tight)
        for assumed in wanted
        for tight in (False, True)
    )


def _dashes_its_edge(marks: Iterable[Mark]) -> bool:
    """Whether all that a drawing dashes is the bridge's edge, which is there to be seen."""
    return {mark.of for mark in marks if mark.purpose == "hidden"} == {"bridge"}


NARROW = 0.7
"""The rows and samples of a key on a full sheet, of their usual size; its letters keep theirs."""


@cache
def legend(purposes: tuple[Purpose, ...], *, assumed: bool = False, edge: bool = False, tight: bool = False) -> Block:
    """A sample of each line type that the sheet uses, with what it means, and of a hole that is crossed out
    (`assumed`); `edge`: what is dashed is the bridge's edge; `tight`: for a sheet that is full.
    """
    marks: list[Mark] = []
    for row, purpose in enumerate(purposes):
        y = -5.2 * row
        solid = purpose == "metal"
        marks += [
            Mark(shape=shape, purpose=purpose, of="legend", filled=solid and isinstance(shape, Path))
            for shape in _sample(purpose, y)
        ]
        says = "the bridge’s edge" if edge and purpose == "hidden" else PENS[purpose].says
        marks.append(words((25.0, y), says, 2.1, anchor="sm"))
    if assumed:
        marks += _crossed_out(-5.2 * len(purposes), "old hole, assumed" if tight else "old hole, assumed: not read")
    return block(shrunk(tuple(marks), NARROW, (0.0, 0.0))) if tight else block(marks)


def _crossed_out(y: float, says: str) -> list[Mark]:
    """An old hole that nobody read, as the sheet draws it, and what it is called."""
    ends = (((9.2, y - 1.8), (12.8, y + 1.8)), ((9.2, y + 1.8), (12.8, y - 1.8)))
    shapes: list[Shape] = [Circle((11.0, y), 2.1), *(Line(a, b) for a, b in ends)]
    marks = [Mark(shape=shape, purpose="before", of="legend", weight=0.8) for shape in shapes]
    return [*marks, words((25.0, y), says, 2.1, anchor="sm")]


def _sample(purpose: Purpose, y: float) -> list[Shape]:
    """A line as the sheet draws it; what is drilled or routed looks like a hole and a slot, metal like a bolt."""
    if purpose == "drill":
        return [Circle((11.0, y), 1.6), Line((8.4, y), (13.6, y)), Line((11.0, y - 2.4), (11.0, y + 2.4))]
    if purpose == "route":
        low, high = y - 0.8, y + 0.8
        return [Path(((2.0, low, 0.0), (20.0, low, 0.0), (20.0, high, 0.0), (2.0, high, 0.0)), True)]
    if purpose == "metal":
        (x0, x1), (low, high) = (10.1, 11.9), (y - 0.9, y + 0.9)
        return [Circle((11.0, y), 2.2), Path(((x0, low, 0.0), (x1, low, 0.0), (x1, high, 0.0), (x0, high, 0.0)), True)]
    return [Line((0.0, y), (22.0, y))]


@cache
def scale_block(length: int, inches: int, upright: bool, *, trusted: bool = False, unit: Unit = "mm") -> Block:
    """A rule to lay a rule on: mm on one side of the line, inches on the other, from one zero.

    The units stand behind the last numbers; over them on an upright scale, which is narrower so. `trusted`: it lies
    along the strings, and says what it must read for the sheet to be used, in inches where the job's `unit` is.
    """
    marks: list[Mark] = []

    def put(along: float, across: float) -> XY:
        return (across, along) if upright else (along, across)

    def tick(along: float, reach: float, weight: float) -> None:
        marks.append(Mark(shape=Line(put(along, 0.0), put(along, reach)), purpose="register", weight=weight))

    side = -1.0 if upright else 1.0
    longest = max(float(length), inches * INCH)
    marks.append(Mark(shape=Line(put(0.0, 0.0), put(longest, 0.0)), purpose="register", weight=1.4))
    for mm in range(0, length + 1, 5):
        tick(mm, side * (4.5 if mm % 50 == 0 else 3.2 if mm % 10 == 0 else 1.8), 1.4 if mm % 50 == 0 else 0.8)
    for quarter in range(inches * 4 + 1):
        tick(quarter * INCH / 4, -side * (4.5 if quarter % 4 == 0 else 2.6 if quarter % 2 == 0 else 1.8), 1.0)
    step = min(length, 50)
    rows: tuple[tuple[float, int, int, float, Anchor, str], ...] = (
        (float(step), length // step, step, side, "em" if upright else "mb", "mm"),
        (INCH, inches, 1, -side, "sm" if upright else "mt", "in"),
    )
    for apart, count, each, way, edge, named in rows:
        for k in range(count + 1):
            says = f"{k * each} {named}" if k == count and not upright else str(k * each)
            marks.append(words(put(k * apart, way * 5.3), says, 2.1, anchor=edge))
        if upright:
            marks.append(words(put(longest + 3.2, way * 5.3), named, 2.1, bold=True, anchor=edge))
    if trusted:
        marks += _trusted(must_read(length, inches, unit), longest, upright=upright)
    worse = SHORT_SCALE if upright and length == TELLS else 0.0
    return msgspec.structs.replace(block(marks), last_resort=length < TELLS, worse=worse)


def must_read(length: int, inches: int, unit: Unit) -> str:
    """What a rule must read on a scale for its sheet to be used: 0.2 mm, half a 64th (derived: 25.4 / 128 = 0.198)."""
    return f"{inches} in within half a 64th" if unit == "in" else f"{length} ± 0.2 mm"


def _trusted(read: str, longest: float, *, upright: bool) -> list[Mark]:
    """What the scale along the strings must read, beside it."""
    says = f"lay a rule on it: {read}, or do not use this sheet"
    if upright:
        return [words((-13.5, longest / 2), says, 2.1, bold=True, anchor="mb", angle=math.pi / 2)]
    return [words((longest / 2, 9.5), says, 2.1, bold=True, anchor="mb")]


SCALES = ((200, 8), (150, 6), (100, 4), (50, 2), (30, 1))
"""The lengths offered for the scales, longest first."""
TELLS = 50
"""A shorter scale, mm, shows a printer's error badly, and stands only where no longer one finds room (common practice,
no source)."""


SHORT_SCALE = 0.15
"""As how much worse an upright scale of `TELLS` counts: one twice as long a little farther off is the better one."""


def scales(*, upright: bool, trusted: bool, unit: Unit = "mm") -> tuple[Block, ...]:
    """The scales to choose from, longest first; along the strings (`trusted`) none is shorter than 100 mm."""
    return tuple(
        scale_block(*each, upright=upright, trusted=trusted, unit=unit)
        for each in SCALES
        if not trusted or each[0] >= TRUSTED
    )


TRUSTED = 100
"""No scale along the strings is shorter, mm: 0.2 mm on it are 1.3 mm on a whole string at most."""


def long_scale(room: float, *, upright: bool, trusted: bool, unit: Unit = "mm") -> Block:
    """A scale for a taped sheet: the longest that the room allows."""
    blocks = (*scales(upright=upright, trusted=trusted, unit=unit), *scales(upright=upright, trusted=False))
    fits = (each for each in blocks if (each.height if upright else each.width) <= room)
    return next(fits, blocks[-1])


def stop_block(reasons: Sequence[str], room: float) -> Block:
    """The word STOP, and why in plain words."""
    return _large("STOP", 9.0, reasons, room)


def look_block(reasons: Sequence[str], room: float) -> Block:
    """That something is to be looked at first, and what."""
    return _large("LOOK AGAIN", 6.0, reasons, room)


def _large(word: str, height: float, reasons: Sequence[str], room: float) -> Block:
    lines = [(word, height, True), ("", 0.8, False)]
    for reason in reasons:
        lines += in_lines(reason, 2.6, room, bold=True)
    return paragraph(lines)


def stop_lines(order: PrintOrder, room: float) -> list[WordLine]:
    """STOP large, with its reasons, and what is to be looked at first, among the words of a sheet."""
    lines: list[WordLine] = []
    for word, reasons in (("STOP", order.stops), ("LOOK AGAIN", order.looks)):
        lines += [(word, 6.0, True)] if reasons else []
        for reason in reasons:
            lines += in_lines(reason, 2.3, room, bold=True)
    return lines


def whose(order: PrintOrder) -> str:
    """Which job a sheet is of, its day and its file."""
    return f"{order.title or 'Untitled job'} · {day(order.stamp.date)} · file {order.stamp.fingerprint}"
