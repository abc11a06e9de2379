"""Several small parts on one piece of stock, for a machine: those of bridge, plate and nut strip that are asked for.

Where the stock's grain is given, each part lies with its length along it and is never turned from it (common practice,
no source); where it is not, a part may lie either way.
"""

import math
from typing import NamedTuple

import msgspec

from export.drawing.flatten import Box, polyline
from export.drawing.marks import Mark, Text
from export.drawing.room.shelf_packing import Laid, packed
from export.drawing.transform import Transform
from export.errors import ExportError
from export.hole_table import Bored
from export.machine.machine_file import machine_settings_of
from export.paper.furniture import marks_box
from export.records import Figure, Stamp
from export.templates.blanks import nut
from export.templates.glued import bridge, plate
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm

PARTS = {"bridge": bridge.draw, "plate": plate.draw, "nut-slots": nut.draw}
"""The templates whose parts are laid on stock."""
GAP = 5.0
"""What stays between parts beside the cutter's own width, and to the stock's edge, mm (common practice, no source)."""
MADE = ("cut", "route", "drill", "mark")
NAMES = {"nut-slots": "nut strip"}
SEEN = {"plate": "plate seen from inside"}


class Part(NamedTuple):
    """A part as it lies by itself, seen from where it is cut: its marks, the box of what is made, its holes."""

    name: str
    figure: Figure
    marks: tuple[Mark, ...]
    ground: Box


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """The stock with those of its parts that the job can give, from its lower left corner, in mm. Raises `ExportError`
    where it is too small, and where no part is asked for or can be drawn.
    """
    assert job.sheets.stock is not None
    wanted = [name for name in PARTS if name in stamp.templates]
    if not wanted:
        raise ExportError("Stock holds the bridge, the plate or the nut strip; choose one of them")
    parts = _parts(wanted, job, layout, stamp)
    sheet = mm(job.sheets.stock[0]), mm(job.sheets.stock[1])
    laid = packed(
        [(part.ground.width, part.ground.height) for part in parts], sheet, _gap(job), [_turns(job, p) for p in parts]
    )
    if laid is None:
        raise ExportError(_too_small(job, parts, sheet))
    ring = polyline([(0.0, 0.0), (sheet[0], 0.0), sheet, (0.0, sheet[1])], closed=True)
    marks = [Mark(shape=ring, purpose="lay", of="stock")]
    bored: list[Bored] = []
    for part, place in zip(parts, laid, strict=True):
        put = _placing(part, place)
        marks += put.marks(part.marks)
        high = part.ground.width if place.turned else part.ground.height
        label = Text((place.x, place.y + high + 0.8), SEEN.get(part.name, part.name), 2.0)
        marks.append(Mark(shape=label, purpose="note"))
        flat = Transform(mirror=part.figure.mirror)
        bored += [
            msgspec.structs.replace(
                one, name=f"{SEEN.get(part.name, part.name)}, {one.name}", at=put.xy(flat.xy(one.at))
            )
            for one in part.figure.bored
        ]
    return Figure(
        title="Stock",
        marks=tuple(marks),
        kept=tuple(name for part in parts for name in part.figure.kept),
        loose=True,
        nowhere=True,
        bored=tuple(bored),
        datum=("lower left corner of the stock", (0.0, 0.0)),
    )


def _parts(wanted: list[str], job: Job, layout: Layout, stamp: Stamp) -> list[Part]:
    """A tied bridge has no plate, and that is said of the plate's own file."""
    parts: list[Part] = []
    lacking: ExportError | None = None
    for name in wanted:
        try:
            parts.append(_part(name, PARTS[name](job, layout, stamp)))
        except ExportError as error:
            lacking = lacking or error
    if not parts and lacking is not None:
        raise lacking
    return parts


def _part(name: str, figure: Figure) -> Part:
    """The part's own lines and what stands within them; the plate's outline, elsewhere a proposal, is to be cut."""
    flat = Transform(mirror=figure.mirror).marks(figure.marks)
    marks = [
        msgspec.structs.replace(m, purpose="cut") if m.of in figure.kept and m.purpose == "mark" else m for m in flat
    ]
    made = [mark for mark in marks if mark.purpose in MADE and not isinstance(mark.shape, Text)]
    ground = marks_box(made)
    inside = [mark for mark in marks if mark.purpose == "note" and mark.of != "number" and _within(mark, ground)]
    return Part(NAMES.get(name, name), figure, (*made, *inside), ground)


def _within(mark: Mark, ground: Box) -> bool:
    own = marks_box([mark])
    return own.x0 >= ground.x0 and own.x1 <= ground.x1 and own.y0 >= ground.y0 and own.y1 <= ground.y1


def _gap(job: Job) -> float:
    machine = machine_settings_of(job)
    widest: float = max(machine.cutter or 0.0, machine.kerf, *machine.cutters.values(), 0.0)
    return GAP + widest


def _turns(job: Job, part: Part) -> tuple[bool, ...]:
    """Whether a part may be laid as it is or turned by a quarter; as it is, its length runs up unless it is wide."""
    upright = part.ground.height > part.ground.width
    if job.sheets.grain == "unknown":
        return (upright, not upright)
    return (upright,) if job.sheets.grain == "along width" else (not upright,)


def _placing(part: Part, place: Laid) -> Transform:
    """The part's lower left corner, turned or not, laid to its place."""
    ground = part.ground
    if not place.turned:
        return Transform(shift=(place.x - ground.x0, place.y - ground.y0))
    return Transform(turn=math.pi / 2, shift=(place.x + ground.y1, place.y - ground.x0))


def _too_small(job: Job, parts: list[Part], sheet: tuple[float, float]) -> str:
    names = [f"the {part.name}" for part in parts]
    who = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return (
        f"The stock of {sheet[0]:g} by {sheet[1]:g} mm is too small for {who}, {_gap(job):g} mm apart; "
        "give a larger piece, or fewer parts"
    )
