"""What is laid on paper: the **stamp** of one print, **figures** in instrument mm, **sheets** in paper mm.

A sheet's drawing is in mm from the page's lower left corner, true to size; the printer's correction is applied about
the middle of the page by whoever prints it.
"""

import datetime
from collections.abc import Iterable
from typing import Literal

import msgspec

from export.correction import NONE, Correction, Matrix
from export.drawing.flatten import Box
from export.drawing.marks import XY, Drawing, Mark
from export.drawing.transform import Transform
from export.errors import PaperTooSmall
from export.hole_table import Bored, Table
from export.paper_sizes import Paper
from geometry.units import Unit

Turn = Literal["either", "portrait", "landscape"]
SCALES, SCALES_FIRST = "Lay a rule on both scales before you use the sheet.", "Lay a rule on both scales first."
"""What a note says of a sheet's scales."""


class Stamp(msgspec.Struct, frozen=True, kw_only=True):
    """What the sheets of one print carry. `correction`: of the printer they are for, which is called `printer`.

    `margin` in mm. `templates` by name, in the order printed. `ledge`: how far the finish clearing stays within the
    bridge's outline, mm (common practice, no source). `only`: the sheets to print,
    by their names in full or by row and column; none: all.
    """

    date: datetime.date
    fingerprint: str
    correction: Correction = NONE
    printer: str = ""
    paper: str = "A4"
    turn: Turn = "either"
    margin: float = 8.0
    templates: tuple[str, ...] = ("placement",)
    ledge: float = 0.8
    only: tuple[str, ...] = ()


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """A template's drawing in instrument mm. `keep` are the places no seam between sheets should cross.

    `notes` are what the title block says below the cautions common to all; `notes_of`: what a note tells of (`of`): it
    stands only on sheets that show that; `of_scales`: notes that speak of scales and of more, with what stands of them
    on a sheet without scales. `seen`: from where, for a file to say; empty where a part is drawn from
    several sides. `mirror`: mirrored, as it then is.
    `kept`: the outlines (`of`) whose inside is the work itself; what other outlines to cut enclose is waste.
    `loose`: a part by itself, whose datum for a machine is its own lower left corner. `nowhere`: one that is drawn in
    no place of the instrument. `is_template`: laid on the top to show where things go; a machine makes the template,
    not what it shows. `bored`: what is listed in a file for a
    machine, `tables` what stands beside the drawing on paper. `datum`: its name and place, where it is neither the
    board's end nor a corner of the part; `own_datum`: the same, but only where no other datum is asked for.
    """

    title: str
    marks: tuple[Mark, ...]
    keep: tuple[Box, ...] = ()
    notes: tuple[str, ...] = ()
    notes_of: dict[str, str] = {}
    of_scales: dict[str, str] = {}
    mirror: bool = False
    seen: str = ""
    kept: tuple[str, ...] = ()
    loose: bool = False
    is_template: bool = False
    bored: tuple[Bored, ...] = ()
    tables: tuple[Table, ...] = ()
    datum: tuple[str, XY] | None = None
    own_datum: tuple[str, XY] | None = None
    nowhere: bool = False

    def notes_beside(self, shown: Iterable[Mark], *, scales: bool = True) -> tuple[str, ...]:
        """The notes of a sheet that shows these of its marks, with scales or without."""
        there = {mark.of for mark in shown}
        notes = tuple(note for note in self.notes if note not in self.notes_of or self.notes_of[note] in there)
        without = {SCALES: "", SCALES_FIRST: "", **self.of_scales}
        return notes if scales else tuple(filter(None, (without.get(note, note) for note in notes)))


class PrintOrder(msgspec.Struct, frozen=True, kw_only=True):
    """A figure to be printed: by which template, for which job, with which stamp, what forbids its use, what is to be
    looked at before it, and which readings make it doubtful. `unit`: the job's, for lengths that a sheet itself names.
    """

    figure: Figure
    template: str
    title: str
    stamp: Stamp
    unit: Unit = "mm"
    stops: tuple[str, ...] = ()
    looks: tuple[str, ...] = ()
    doubt: str = ""


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """One page: its drawing in paper mm, and how instrument mm came to lie on it (None: nothing is laid out).

    `nowhere`: its figure is drawn in no place of the instrument.
    """

    name: str
    template: str
    drawing: Drawing
    paper: Paper
    margin: float
    correction: Correction = NONE
    transform: Transform | None = None
    nowhere: bool = False

    @property
    def stretch(self) -> Matrix:
        """The correction as this page lies on its paper."""
        return self.correction.matrix(lies_along(self.paper))


def lies_along(paper: Paper) -> bool:
    """Whether the page's x runs along the paper's long side, as it does on a piece of a roll, however short."""
    return paper.roll or paper.width > paper.height


def printable_area(paper: Paper, margin: float, correction: Correction) -> Box:
    """The ground inside the margins, so that nothing leaves it after the correction. Raises `PaperTooSmall`."""
    (xx, xy), (yx, yy) = correction.matrix(lies_along(paper))
    slim = paper.height / paper.width
    half_w = (paper.width / 2 - margin) / max(1.0, abs(xx) + abs(xy) * slim)
    half_h = (paper.height / 2 - margin) / max(1.0, abs(yy) + abs(yx) / slim)
    if half_w < 20 or half_h < 20:
        raise PaperTooSmall(
            f"Paper {paper.name} is {paper.width:g} by {paper.height:g} mm and leaves no room between margins of "
            f"{margin:g} mm; choose larger paper or a smaller margin"
        )
    x, y = paper.width / 2, paper.height / 2
    return Box(x - half_w, y - half_h, x + half_w, y + half_h)


def called(name: str) -> str:
    """A sheet's name in words: “saddle bases back”, “placement A1”, “placement, table”."""
    template, _, page = name.partition(" ")
    of = template.replace("-", " ")
    return f"{of}, table {page[1:]}".rstrip() if page.startswith("T") else f"{of} {page}".rstrip()
