"""How each purpose is drawn: line width and dashes in paper mm, after ISO 128-2:2020 (line types and widths).

Continuous thick: edge to cut out. Continuous, less thick: line to mark. Continuous thin: line to lay on, dimension.
Long-dash dot: centre line. Dashed: hidden. Long-dash double-dot: as it was before.
Long-dash short-dash: a placement that was kept. Nothing is ever thinner than
`THINNEST`.
"""

import math

import msgspec

from export.drawing.flatten import length
from export.drawing.marks import Circle, Line, Mark, Path, Purpose, Text

THINNEST = 0.13
"""The thinnest line of ISO 128-2:2020; a line of width 0 is drawn at will or not at all by what prints it."""


class Pen(msgspec.Struct, frozen=True):
    """Line width, and dashes and gaps in turn (none: continuous)."""

    width: float
    dashes: tuple[float, ...] = ()
    says: str = ""


LONG_DASH_DOT = (9.0, 1.6, 0.6, 1.6)
LONG_DASH_DOUBLE_DOT = (9.0, 1.5, 0.6, 1.2, 0.6, 1.5)
LONG_DASH_SHORT_DASH = (6.0, 1.2, 2.0, 1.2)
"""No. 08 of ISO 128-2:2020, table 1: long-dashed short-dashed line."""
DASHED = (3.0, 1.5)

PENS: dict[Purpose, Pen] = {
    "cut": Pen(0.5, (), "cut along its middle"),
    "drill": Pen(0.35, (), "hole to drill"),
    "route": Pen(0.35, (), "slot to rout"),
    "mark": Pen(0.35, (), "mark round or along"),
    "lay": Pen(0.18, (), "line to lay on"),
    "centre": Pen(0.18, LONG_DASH_DOT, "centre line"),
    "hidden": Pen(0.25, DASHED, "hidden"),
    "before": Pen(0.18, LONG_DASH_DOUBLE_DOT, "as it was before"),
    "kept": Pen(0.18, LONG_DASH_SHORT_DASH, "a placement that was kept"),
    "metal": Pen(0.25, DASHED, "metal: keep out"),
    "dimension": Pen(0.18, (), "distance to check"),
    "note": Pen(0.25, (), "words"),
    "register": Pen(0.18, (), "sheet mark"),
    "measured": Pen(0.25, (), "what was read"),
    "body": Pen(0.18, (), "the instrument"),
}


SHORTENED = 0.4
"""As short as dashes get, of their usual length: the dot of a centre line is then still longer than it is wide."""


def dashes_of(mark: Mark) -> tuple[float, ...]:
    """A mark's dashes in paper mm. Round what is closed they are shortened so that at least three runs close evenly. A
    line begins and ends in a dash (ISO 128-2:2020), and a short centre line has one in its middle, where it is pricked;
    it is continuous where that would make them too short.
    """
    dashes = PENS[mark.purpose].dashes
    if not dashes or isinstance(mark.shape, Text):
        return dashes
    run, shape = sum(dashes), mark.shape
    long = math.dist(shape.a, shape.b) if isinstance(shape, Line) else length(shape)
    if not long:
        return ()
    if isinstance(shape, Circle) or (isinstance(shape, Path) and shape.closed):
        factor = long / (run * max(3, round(long / run)))
    else:
        runs = max(2 if mark.purpose == "centre" else 1, round((long - dashes[0]) / run))
        factor = long / (runs * run + dashes[0])
        if factor < SHORTENED:
            return ()
    return tuple(dash * factor for dash in dashes)


STEEL = ("straightedge", "rule")
"""What `of` names (before a colon) as laid down to read by."""
GROUNDS = ("bridge", "base", "saddle", "slot", "sheet", *STEEL)
"""What `of` names (before a colon) as a ground: filled, it covers what lies under it, white on paper, and its outline
is drawn.
"""


def is_ground(mark: Mark) -> bool:
    """Whether a filled mark is a ground that covers what lies under it, rather than solid ink."""
    return mark.filled and (mark.purpose == "body" or mark.of.partition(":")[0] in GROUNDS)


def width_of(mark: Mark) -> float:
    """A mark's line width in paper mm."""
    return max(THINNEST, PENS[mark.purpose].width * mark.weight)
