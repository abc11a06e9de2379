"""Laying figures on paper: a **figure** is a template's drawing in instrument mm, a **sheet** one printed page.

A sheet's drawing is in paper mm from the page's lower left corner, true to size; the printer's correction is applied
about the middle of the page by whoever prints it.
"""

import datetime
import math
from typing import Literal

import msgspec

from export import furniture
from export.drawing.flatten import Box
from export.drawing.marks import XY, Drawing, Mark, Purpose
from export.drawing.placing import Placing
from export.errors import ExportError, PaperTooSmall
from export.free_places import Ground
from export.furniture import Block, marks_box
from export.papers import Paper, paper_named

Turn = Literal["either", "portrait", "landscape"]


class Stamp(msgspec.Struct, frozen=True, kw_only=True):
    """What the sheets of one print carry. `correction`: by how much this printer's pages are stretched (x, y) first.

    `margin` in mm. `templates` by name, in the order printed.
    """

    date: datetime.date
    fingerprint: str
    correction: tuple[float, float] = (1.0, 1.0)
    printer: str = ""
    paper: str = "A4"
    turn: Turn = "either"
    margin: float = 8.0
    templates: tuple[str, ...] = ("placement",)

    def __post_init__(self) -> None:
        for axis, factor in zip(("across", "up"), self.correction, strict=True):
            if not 0.95 <= factor <= 1.05:
                raise ExportError(
                    f"The printer correction {axis} is {factor:g}; no printer is out by more than 5 %. "
                    "Was the page printed with “fit to page”? Print the check sheet at 100 % and read it again"
                )


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """A template's drawing in instrument mm. `keep` are the places no seam between sheets should cross.

    `notes` are what the title block says below the cautions common to all. `mirror`: seen from inside.
    """

    title: str
    marks: tuple[Mark, ...]
    keep: tuple[Box, ...] = ()
    notes: tuple[str, ...] = ()
    mirror: bool = False


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """One page: its drawing in paper mm, and how instrument mm came to lie on it (None: nothing is laid out)."""

    name: str
    template: str
    drawing: Drawing
    paper: Paper
    margin: float
    correction: tuple[float, float] = (1.0, 1.0)
    placing: Placing | None = None


def page_ground(paper: Paper, margin: float, correction: tuple[float, float]) -> Box:
    """The ground inside the margins, so that nothing leaves it after the correction. Raises `PaperTooSmall`."""
    half_w, half_h = (
        (side / 2 - margin) / max(1.0, factor)
        for side, factor in zip((paper.width, paper.height), correction, strict=True)
    )
    if half_w < 20 or half_h < 20:
        raise PaperTooSmall(
            f"Paper {paper.name} is {paper.width:g} by {paper.height:g} mm and leaves no room between margins of "
            f"{margin:g} mm; choose larger paper or a smaller margin"
        )
    x, y = paper.width / 2, paper.height / 2
    return Box(x - half_w, y - half_h, x + half_w, y + half_h)


def turned(paper: Paper, turn: Turn) -> list[Paper]:
    """The ways a paper may lie."""
    wide = Paper(paper.name, paper.height, paper.width, paper.roll)
    return {"portrait": [paper], "landscape": [wide], "either": [wide, paper]}[turn]


def lay(figure: Figure, template: str, title: str, stamp: Stamp, stops: tuple[str, ...]) -> tuple[Sheet, ...]:
    """A figure on as few sheets as it needs."""
    for paper in turned(paper_named(stamp.paper), stamp.turn):
        sheet = on_one(figure, template, title, stamp, paper, stops)
        if sheet is not None:
            return (sheet,)
    raise ExportError(f"The {template} template does not fit on {stamp.paper}")


def on_one(
    figure: Figure, template: str, title: str, stamp: Stamp, paper: Paper, stops: tuple[str, ...]
) -> Sheet | None:
    """A figure with all its blocks on one sheet, or None where there is no room."""
    ground = page_ground(paper, stamp.margin, stamp.correction)
    turn = 0.0 if paper.width >= paper.height else -math.pi / 2
    laid = Placing(turn=turn, mirror=figure.mirror).marks(figure.marks)
    size = marks_box(laid)
    if size.width > ground.width or size.height > ground.height:
        return None
    for share in ((0.0, 0.5), (0.5, 0.5), (1.0, 0.5), (0.0, 1.0), (0.0, 0.0), (1.0, 1.0)):
        shift = (
            ground.x0 - size.x0 + share[0] * (ground.width - size.width),
            ground.y0 - size.y0 + share[1] * (ground.height - size.height),
        )
        marks = Placing(shift=shift).marks(laid)
        around = blocks_around(marks, ground, _blocks(figure, title, stamp, paper, stops))
        if around is not None:
            return Sheet(
                name=template,
                template=template,
                drawing=Drawing(title=figure.title, marks=marks + around),
                paper=paper,
                margin=stamp.margin,
                correction=stamp.correction,
                placing=Placing(shift=shift, turn=turn, mirror=figure.mirror),
            )
    return None


def _blocks(
    figure: Figure, title: str, stamp: Stamp, paper: Paper, stops: tuple[str, ...]
) -> list[tuple[tuple[Block, ...], tuple[float, float]]]:
    """The blocks to find room for: each as choices, largest first, and where it is wanted."""
    blocks: list[tuple[tuple[Block, ...], tuple[float, float]]] = []
    if stops:
        blocks.append((tuple(furniture.stop_block(stops, room) for room in (110, 80, 60)), (0.3, 0.75)))
    blocks.append(((title_block(figure, title, stamp, paper, "sheet 1 of 1"),), (0.0, 0.0)))
    blocks.append((tuple(furniture.scale_block(mm, inch, upright=False) for mm, inch in furniture.SCALES), (1.0, 0.0)))
    blocks.append((tuple(furniture.scale_block(mm, inch, upright=True) for mm, inch in furniture.SCALES), (1.0, 0.5)))
    blocks.append(((furniture.legend(purposes_of(figure.marks)),), (0.0, 1.0)))
    return blocks


def purposes_of(marks: tuple[Mark, ...]) -> tuple[Purpose, ...]:
    """The line purposes a drawing uses, in the order of the legend."""
    wanted: tuple[Purpose, ...] = ("cut", "route", "drill", "mark", "lay", "centre", "hidden", "before", "metal")
    used = {mark.purpose for mark in marks}
    return tuple(purpose for purpose in wanted if purpose in used)


def title_block(figure: Figure, title: str, stamp: Stamp, paper: Paper, sheet: str) -> Block:
    """Title, job, date and file, how to print it, and the cautions."""
    lines = [(figure.title, 5.2, True), ("", 0.5, False)]
    lines += [(line, 3.1, False) for line in furniture.wrapped(title or "Untitled job", 3.1, 95)]
    lines += [
        (f"{furniture.day(stamp.date)} · file {stamp.fingerprint} · {sheet} · {paper.name}", 2.3, False),
        (f"Print at 100 %, no fit to page · {furniture.correction_words(stamp.correction)}", 2.3, True),
        ("", 0.8, False),
        *((note, 2.1, False) for note in figure.notes),
    ]
    return furniture.paragraph(lines)


def blocks_around(
    marks: tuple[Mark, ...], ground: Box, blocks: list[tuple[tuple[Block, ...], tuple[float, float]]]
) -> tuple[Mark, ...] | None:
    """The blocks, each in a free place nearest to where it is wanted; None where one finds no room."""
    free = Ground(ground)
    free.take_marks(marks, 2.0)
    placed: tuple[Mark, ...] = ()
    for choices, wanted in blocks:
        found = _near(free, choices, wanted) or _anywhere(free, choices, wanted)
        if found is None:
            return None
        choice, corner = found
        free.take(Box(*corner, corner[0] + choice.width, corner[1] + choice.height).grown(3.0))
        placed += choice.at(corner)
    return placed


def _anywhere(free: Ground, choices: tuple[Block, ...], wanted: tuple[float, float]) -> tuple[Block, XY] | None:
    for choice in choices:
        corner = free.find(choice.width, choice.height, wanted)
        if corner is not None:
            return choice, corner
    return None


def _near(free: Ground, choices: tuple[Block, ...], wanted: tuple[float, float]) -> tuple[Block, XY] | None:
    """The largest choice that finds room within a quarter of the ground of where it is wanted."""
    ground = free.ground
    for choice in choices:
        corner = free.find(choice.width, choice.height, wanted)
        if corner is not None:
            off_x = abs(corner[0] - ground.x0 - wanted[0] * (ground.width - choice.width))
            off_y = abs(corner[1] - ground.y0 - wanted[1] * (ground.height - choice.height))
            if off_x < ground.width / 4 and off_y < ground.height / 4:
                return choice, corner
    return None
