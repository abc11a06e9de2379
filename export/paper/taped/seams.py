"""Where sheets meet: crosses whose halves meet, where to cut, and which sheet joins there.

A **seam** runs in the middle of what two windows share. The sheet to its right, or below it, is cut along it and laid
on the other. Crosses and cuts keep 3 mm clear of what a template is registered by: the board's end, fret 12, its edges,
the neck centre line. Where holes are drilled, crosses keep off the work if they can: one among dots would be pricked
with them.
"""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from export.drawing.clip import clip_line
from export.drawing.dimension import cross
from export.drawing.flatten import Box, box
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.drawing.room.clear_words import first_clear, lines_of
from export.drawing.room.free_ground import Boxes, boxes_under
from export.paper.furniture import CELL, marks_box, words
from export.paper.taped.tile_grid import OVERLAP, Grid
from export.paper.work_ground import work_ground

ARM = 4.0
"""How far a cross reaches from its middle, mm."""
AWAY = 3.0
"""How far crosses and cuts keep from what a sheet is registered by, mm."""
CLEAR = 1.5
"""How far crosses keep from words and windows, and a name from all that is drawn where it can, mm."""
NAME, SMALL_NAME = 2.6, 2.1
"""The letters of a joining sheet's name, mm."""
SHARES = (0.5, 0.15, 0.85)
"""Where along a seam its crosses stand."""
ASIDE = (0.0, *(sign * share / 100 for share in (5, 10, 15, 20, *range(1, 20)) for sign in (1, -1)))
"""How far along the seam a cross may stand aside where its place is taken: in few steps, or else wherever it can."""
BETWEEN = 0.5
"""How far crosses keep off lines where there is no more room, mm: between two strings."""
LINES = ("dimension", "lay", "centre", "before")
"""The purposes of the lines that crosses keep off where they can."""
APART = 5 * ARM
"""How far one more cross stands from the others, mm: room for the joining sheet's name."""
ENOUGH = 2
"""How many crosses join two sheets."""
ACROSS = ("fret:12", "board end", "notch", "nut")


def registers(marks: Iterable[Mark]) -> list[Box]:
    """What a template is registered by and no seam may cut: lines across the neck."""
    return [marks_box([mark]).grown(AWAY) for mark in marks if mark.of in ACROSS and mark.purpose != "note"]


def _kept_clear(marks: Iterable[Mark]) -> list[Box]:
    """The same and what seams do cross: the board's edges, the centre line, and close to words and windows."""
    found = []
    for mark in marks:
        if isinstance(mark.shape, Text) or (isinstance(mark.shape, Circle) and mark.purpose == "cut"):
            found.append(marks_box([mark]).grown(CLEAR))
        elif mark.purpose != "note" and (mark.of in (*ACROSS, "neck") or mark.of.startswith("edge")):
            found.append(marks_box([mark]).grown(AWAY))
    return found


def _off_the_work(marks: Sequence[Mark]) -> list[Box]:
    """What crosses keep off as well, where there are other places: holes, and on a sheet to drill by the outlines of
    the work, and the board where it has its frets.
    """
    holes = [marks_box([mark]).grown(AWAY) for mark in marks if mark.purpose == "drill"]
    if not holes:
        return []
    on_board = len({mark.of for mark in marks if mark.of.startswith("fret:")}) > 1
    return [*holes, *(Box(*strip) for strip in work_ground(marks, between_edges=on_board).tolist())]


class Seam(NamedTuple):
    """One side of a window that another sheet joins, called `name`: `upright` or level, at `at` on the page, from `low`
    to `high`; `cut`: this sheet is the one to cut. `inward`: the way to the window's middle.
    """

    side: str
    name: str
    upright: bool
    at: float
    low: float
    high: float
    cut: bool
    inward: float

    def place(self, share: float) -> XY:
        """A place on the seam."""
        along = self.low + share * (self.high - self.low)
        return (self.at, along) if self.upright else (along, self.at)

    def beyond(self, window: Box) -> Box:
        """The strip of the window past the seam, and close to it: it is cut off, or the other sheet is laid on it."""
        near = self.at + self.inward * CLEAR
        low, high = (window.x0, window.x1) if self.upright else (window.y0, window.y1)
        a, b = (low, near) if self.inward > 0 else (near, high)
        return Box(a, self.low, b, self.high) if self.upright else Box(self.low, a, self.high, b)


def seams_of(grid: Grid, cell: tuple[int, int], window: Box) -> list[Seam]:
    """The seams of one window: left, right, top and bottom, where there is a neighbour."""
    column, row = cell
    half = OVERLAP / 2
    wanted = (
        ("left", (column - 1, row), True, window.x0 + half, True, 1.0),
        ("right", (column + 1, row), True, window.x1 - half, False, -1.0),
        ("top", (column, row - 1), False, window.y1 - half, True, -1.0),
        ("bottom", (column, row + 1), False, window.y0 + half, False, 1.0),
    )
    return [
        Seam(
            side,
            cell_name(other),
            upright,
            at,
            window.y0 if upright else window.x0,
            window.y1 if upright else window.x1,
            cut,
            inward,
        )
        for side, other, upright, at, cut, inward in wanted
        if other in grid.cells
    ]


def cell_name(cell: tuple[int, int]) -> str:
    """Row letter and column number: A1 is top left."""
    return f"{chr(ord('A') + cell[1])}{cell[0] + 1}"


def drawn(seams: Sequence[Seam], figure: Sequence[Mark], shown: Sequence[Mark]) -> list[Mark]:
    """Crosses, cuts and names. `figure`: all of the figure's marks on this page, in the window or not, so that both
    sheets at a seam have their crosses at the same places; `shown`: those in the window.
    """
    clear = _kept_clear(figure)
    lines = [mark.shape for mark in figure if mark.purpose in LINES and isinstance(mark.shape, Line)]
    strict = [*clear, *_off_the_work(figure)] if seams else clear
    at_seams = [(seam, _enough(_crosses(seam, strict, lines), seam, clear, lines)) for seam in seams]
    marks = [mark for _, places in at_seams for place in places for mark in cross(place, ARM, "register", of="cross")]
    under = boxes_under((*shown, *marks), CLEAR, CELL)
    names: list[Mark] = []
    for seam, places in at_seams:
        taken = np.concatenate((under, boxes_under(names, CLEAR, CELL)))
        names += _named(seam, places, taken, (*shown, *marks, *names))
    off_crosses = [_around(place, ARM + CLEAR) for _, places in at_seams for place in places]
    return [*marks, *names, *(mark for seam in seams if seam.cut for mark in _cuts(seam, [*clear, *off_crosses]))]


def _enough(found: list[XY], seam: Seam, clear: Sequence[Box], lines: Sequence[Line]) -> list[XY]:
    """These crosses, or where they are too few to join two sheets, those off what is to be kept `clear` and no more."""
    return found if len(found) >= ENOUGH else _crosses(seam, clear, lines)


def _crosses(seam: Seam, clear: Sequence[Box], lines: Sequence[Line]) -> list[XY]:
    """Off what is to be kept `clear`, and off the lines of the work where there is such a place."""
    found: list[XY] = []
    near = _near(seam, lines)
    for share in SHARES:
        tried = (_around(seam.place(share + aside), ARM) for aside in ASIDE)
        within = (around for around in tried if _beside(seam, around))
        places = (around for around in within if not any(around.meets(taken) for taken in clear))
        best = _off_lines(places, near)
        found += [((best.x0 + best.x1) / 2, (best.y0 + best.y1) / 2)] if best is not None else []
    return found + _one_more(seam, clear, near, found) if len(found) == ENOUGH else found


def _one_more(seam: Seam, clear: Sequence[Box], lines: Sequence[Line], found: Sequence[XY]) -> list[XY]:
    """The place on a seam for one more cross where a third of it is taken: farthest from those found, off lines if it
    can be; none where all places are too close to them.
    """
    tried = [place for share in range(1, 100) if _beside(seam, _around(place := seam.place(share / 100), ARM))]
    apart = {place: min(math.dist(place, other) for other in found) for place in tried}
    places = sorted((place for place in tried if apart[place] > APART), key=lambda place: -apart[place])
    arounds = (_around(place, ARM) for place in places)
    best = _off_lines((around for around in arounds if not any(around.meets(taken) for taken in clear)), lines)
    return [((best.x0 + best.x1) / 2, (best.y0 + best.y1) / 2)] if best is not None else []


def _near(seam: Seam, lines: Sequence[Line]) -> list[Line]:
    """The lines that come so near to a seam that a cross there can meet them."""
    way, reach = 0 if seam.upright else 1, ARM + CLEAR
    low, high = seam.at - reach, seam.at + reach
    past = ((line, line.a[way], line.b[way]) for line in lines)
    return [line for line, a, b in past if not (a < low and b < low) and not (a > high and b > high)]


def _off_lines(places: Iterable[Box], lines: Sequence[Line]) -> Box | None:
    """The first place that no line comes close to, or at least crosses, or the first of all."""
    seen = []
    for place in places:
        if not _on_lines(place.grown(CLEAR), lines):
            return place
        seen.append(place)
    return next((place for place in seen if not _on_lines(place.grown(BETWEEN), lines)), seen[0] if seen else None)


def _on_lines(place: Box, lines: Sequence[Line]) -> bool:
    return any(clip_line(line.a, line.b, place) for line in lines)


def _cuts(seam: Seam, clear: Sequence[Box]) -> list[Mark]:
    """Strokes at both ends and between the crosses: enough to lay the knife along, and no line of the work."""
    marks = []
    for start, stop in ((0.0, 0.08), (0.28, 0.36), (0.64, 0.72), (0.92, 1.0)):
        line = Line(seam.place(start), seam.place(stop))
        if not any(box(line).meets(taken) for taken in clear):
            marks.append(Mark(shape=line, purpose="register", of="cut here"))
    return marks


def _named(seam: Seam, places: Sequence[XY], taken: Boxes, shown: Sequence[Mark]) -> list[Mark]:
    """The joining sheet's name in the first place that is well clear of all that is shown and so `taken`: beside a
    cross, or else elsewhere along the seam; or else in the first, in smaller letters at last, that is just clear. Where
    there is none it is left out, for the map and the foot tell it too.
    """
    by_crosses, along = places, [seam.place(share / 20) for share in range(1, 20)]
    for tried in (by_crosses, along):
        for name in _names(seam, tried):
            if not _meets_any(marks_box([name]), taken):
                return [name]
    lines = lines_of(shown)
    for height in (NAME, SMALL_NAME):
        names = _names(seam, [*by_crosses, *along], height)
        first = first_clear([name.shape for name in names if isinstance(name.shape, Text)], lines)
        if first is not None:
            return [names[first]]
    return []


def _names(seam: Seam, places: Sequence[XY], height: float = NAME) -> list[Mark]:
    """The joining sheet's name beside each of these places, the nearest to them first."""
    says, off = f"joins {seam.name}", ARM + 2.0
    names = []
    for far, (x, y) in ((far, place) for far in (0.0, 4.5, 9.0) for place in places):
        if seam.upright:
            at = x + seam.inward * off
            tried = [((at, y + up), "sm" if seam.inward > 0 else "em") for up in (2.5 + far, -2.5 - far)]
        else:
            beside = y + seam.inward * (3.5 + far)
            tried = [((x + off, beside), "sm"), ((x - off, beside), "em")]
        names += [words(at, says, height, bold=True, anchor=anchor) for at, anchor in tried]  # type: ignore[arg-type]
    return [name for name in names if _beside(seam, marks_box([name]))]


def _beside(seam: Seam, a: Box) -> bool:
    """Whether it stands beside the seam and not past its ends."""
    low, high = (a.y0, a.y1) if seam.upright else (a.x0, a.x1)
    return seam.low <= low and high <= seam.high


def how_to_join(seams: Sequence[Seam]) -> str:
    """What to do with this sheet, and no more."""
    cut = [seam for seam in seams if seam.cut]
    if not cut:
        return "Cut no edge off this sheet: the others are laid on it."
    sides = " and ".join(f"at the {seam.side}" for seam in cut)
    onto = " and ".join(seam.name for seam in cut)
    return f"Cut this sheet {sides}, through the crosses, and lay it on {onto} so that their halves meet."


def _around(place: XY, reach: float) -> Box:
    return Box(place[0] - reach, place[1] - reach, place[0] + reach, place[1] + reach)


def _meets_any(a: Box, taken: Boxes) -> bool:
    x0, y0, x1, y1 = taken.T
    return bool(((a.x0 < x1) & (x0 < a.x1) & (a.y0 < y1) & (y0 < a.y1)).any())
