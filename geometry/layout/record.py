"""What all records of the layout share, and the names that they use."""

from typing import Literal

import msgspec

BOARD_CORNERS = ("nut.left", "nut.right", "end.left", "end.right")
"""The names of the points at the board's four corners."""
TWO_SIDED_95 = 1.959963984540054
"""Standard deviations in a `pm95`: the normal distribution's 97.5 % point (Abramowitz & Stegun 1964, table 26.1 gives
1.960).
"""
XY = tuple[float, float]
Vertex = tuple[float, float, float]
"""x, y and the bulge of the piece that follows: tan(sweep / 4), positive counter-clockwise."""
Verdict = Literal["loose", "either side", "swapped", "one of these", "misread", "unchecked", "coarse", "clean"]
LINES = ("edge:left", "edge:right", "neck", "seam", "saddle")
"""The straight lines of an instrument, as a mark's `of` names them."""
Where = Literal["nut", "fret 12", "board end"]
"""Where along the board a margin is told with its ±."""
PLACES: dict[Where, str] = {"nut": "nut", "fret 12": "fret12", "board end": "end"}
"""What a check's code, as a point's name, calls these places."""


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """What all records of the layout share: frozen, by keyword."""
