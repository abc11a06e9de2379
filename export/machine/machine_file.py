"""Figures made ready for a machine: offset for its kerf or cutter, moved to a lower left origin with a datum.

The **datum** is where the machine's zero can be set: it comes to lie on whole tens of millimetres, marked by a cross.
An **edge** is the line the work must end on; a **path** is where the middle of the beam or the cutter runs.
"""

import math
from typing import Literal

import msgspec

from export.drawing.dimension import cross
from export.drawing.flatten import Box, box, union
from export.drawing.marks import XY, Mark, Purpose, Text
from export.drawing.transform import Transform
from export.errors import ExportError
from export.hole_table import file_lines
from export.machine.layers import order_words, ordered, pen_words, size_words
from export.machine.no_double_lines import without_doubled_lines
from export.machine.pin_holes import PinHoles, drilled, pin_hole_words
from export.machine.tools import fitted, tool_words
from export.paper.furniture import has_assumed, marks_box
from export.records import Figure
from geometry.job import Job
from geometry.job.sheets import Operation
from geometry.layout import Layout
from geometry.units import mm

Datum = Literal["own", "board end", "saddle centre", "lower left"]
DATUM = "datum"
"""What the cross at the datum stands for."""
ON_THE_NECK = ("board end", "saddle centre")
"""The datums that lie on the neck's centre line of an instrument."""
ENLARGED = "enlarged"
"""What a mark stands for that is a picture only, larger than the thing."""
NOTE_HEIGHT = 2.5
STAND_IN = 1.3
"""As many times as long words may run in a typeface that stands in for ours: the page has room for such notes."""


class MachineSettings(msgspec.Struct, frozen=True, kw_only=True):
    """How files for machines are made. `purposes`: those to write; None: all. A cutter outranks `kerf` (all in mm).

    `cutters`: for single operations, in place of `cutter`. `edge` and `pilot`: a placement template's outer edge and
    its pilot holes. `pin_holes` elsewhere: undersize, to be reamed, or finished; undersize is below the pins'
    `small_end` where that is known, by an inch drill or a metric one. `bulges` False: arcs within outlines become
    chords, for readers that ignore bulges. `release` of DXF.
    """

    datum: Datum = "own"
    kerf: float = 0.0
    cutter: float | None = None
    cutters: dict[Operation, float] = {}
    edge: float | None = 8.0
    pilot: float = 1.0
    pin_holes: PinHoles = "to ream"
    small_end: float | None = None
    inch_drills: bool = False
    text: Literal["text", "outlines"] = "text"
    purposes: frozenset[Purpose] | None = None
    bulges: bool = True
    release: Literal["R2010", "R12"] = "R2010"


def machine_settings_of(job: Job) -> MachineSettings:
    """What the job says of its files."""
    asked, pins = job.sheets, job.bridge.pins if job.bridge else None
    return MachineSettings(
        datum=asked.datum,
        kerf=mm(asked.kerf),
        cutter=mm(asked.cutter) if asked.cutter is not None else None,
        cutters={operation: mm(cutter) for operation, cutter in asked.cutters.items()},
        edge=mm(asked.edge) if asked.edge is not None else None,
        pilot=mm(asked.pilot),
        pin_holes=asked.pin_holes,
        small_end=mm(pins.small_end) if pins is not None and pins.small_end is not None else None,
        inch_drills=job.unit == "in",
        text=asked.text,
        purposes=None if asked.purposes is None else frozenset(asked.purposes),
        bulges=asked.arcs == "bulges",
        release=asked.dxf,
    )


class MachineDrawing(msgspec.Struct, frozen=True, kw_only=True):
    """Marks in file mm, in the order of work: lower left origin, nothing negative.

    `box` is that of all lines, `size` holds words as well. `datum` in file mm. `transform` takes instrument mm to file
    mm. `says` are the notes that stand in the file. `kept` names the outlines (`of`) that are cut round.
    """

    title: str
    marks: tuple[Mark, ...]
    box: Box
    size: XY
    datum: XY
    transform: Transform
    says: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()


def datum_place(layout: Layout, datum: Datum) -> XY | None:
    """Where the datum lies on the instrument; None for the lower left corner, or where it is not known."""
    if datum in ("own", "board end") and layout.neck is not None and layout.neck.end is not None:
        (ax, ay), (bx, by) = layout.neck.end
        return ax - ay * (bx - ax) / (by - ay), 0.0
    if datum == "saddle centre" and layout.saddle is not None:
        (ax, ay), (bx, by) = layout.saddle.at_strings
        return (ax + bx) / 2, (ay + by) / 2
    return None


def made_as(figure: Figure, machine: MachineSettings) -> Figure:
    """The figure as a machine is to make it: without what is only for paper, of the purposes wanted, a template with
    its edge, pin holes as they are drilled. Raises `ExportError` where a pilot hole is larger than its hole.
    """
    if _with_edge(figure, machine):
        from export.machine.template_edge import as_part

        assert machine.edge is not None
        figure = as_part(figure, machine.edge, machine.pilot)
    else:
        figure = msgspec.structs.replace(figure, marks=tuple(drilled(figure.marks, machine)))
    wanted = machine.purposes
    marks = tuple(
        mark
        for mark in figure.marks
        if mark.of not in ("tape", "waste", DATUM, ENLARGED) and (wanted is None or mark.purpose in wanted)
    )
    return msgspec.structs.replace(figure, marks=marks)


def _with_edge(figure: Figure, machine: MachineSettings) -> bool:
    """Whether it is a template that is cut out itself, rather than worked from on the instrument."""
    return figure.is_template and machine.edge is not None


def machine_drawing(
    figure: Figure, layout: Layout, machine: MachineSettings, title: str, warnings: tuple[str, ...] = ()
) -> MachineDrawing:
    """A figure for a machine; `warnings` are written beside it. Raises `ExportError` where a kerf or a pilot hole does
    not fit or nothing is left to write.
    """
    ready = made_as(figure, machine)
    marks, misfits = fitted(ready.marks, ready.kept, machine)
    if not marks:
        raise ExportError("Nothing is left to write; choose at least one purpose that it has")
    lines = [*tool_words(marks, ready.kept, machine), *(f"Left out: {misfit.says}." for misfit in misfits)]
    lines += warnings
    if has_assumed(marks):
        lines.append("Old holes that are crossed out are assumed: nobody read them.")
    lines.append(_seen(figure))
    as_template = _with_edge(figure, machine)
    drills = machine.purposes is None or "drill" in machine.purposes
    if drills and not as_template:
        lines += pin_hole_words(figure.marks, machine)
    lines += order_words(marks, ready.kept, is_template=as_template)
    if machine.release == "R12":
        lines.append(pen_words(marks, ready.kept))
    datum = datum_of(ready, layout, machine.datum)
    if drills:
        lines += file_lines(figure.bored, datum[1], mirror=figure.mirror, shown=as_template)
    drawing = _moved(ordered(without_doubled_lines(marks), ready.kept), datum, tuple(lines), ready)
    if machine.text == "outlines":
        from export.machine.letter_outlines import outlined

        drawing = msgspec.structs.replace(drawing, marks=outlined(drawing.marks))
        drawing = msgspec.structs.replace(drawing, box=union([box(m.shape) for m in drawing.marks]))  # type: ignore[arg-type]  # no words are left
    return msgspec.structs.replace(drawing, title=title)


def _seen(figure: Figure) -> str:
    """Which face a file shows, and that it is not to be mirrored."""
    if figure.mirror:
        return f"Mirrored already: seen from {figure.seen}. Do not mirror it again."
    return f"As seen from {figure.seen}: do not mirror it." if figure.seen else "Do not mirror it."


def datum_of(figure: Figure, layout: Layout, wanted: Datum) -> tuple[str, XY]:
    """The datum's name and its place on the instrument: where it is wanted, or at the part's own lower left corner."""
    if figure.datum is not None:
        return figure.datum
    if figure.own_datum is not None and wanted == "own":
        return figure.own_datum
    own_corner = figure.loose and wanted == "own"
    at = None if own_corner else datum_place(layout, wanted)
    if at is not None:
        return ("board end" if wanted == "own" else wanted), at
    flat = Transform(mirror=figure.mirror)
    drawn = [mark for mark in figure.marks if not isinstance(mark.shape, Text)] or list(figure.marks)
    parts = [mark for mark in drawn if mark.of in figure.kept] or drawn
    around = marks_box(flat.marks(tuple(parts)))
    return "lower left corner", flat.back((around.x0, around.y0))


def _moved(marks: tuple[Mark, ...], datum: tuple[str, XY], lines: tuple[str, ...], figure: Figure) -> MachineDrawing:
    """Marks at a lower left origin with the notes below them, the datum on whole tens of millimetres."""
    flat = Transform(mirror=figure.mirror)
    called, place = datum
    marks = flat.marks((*cross(place, 4.0, "register", turn=math.pi / 4, of=DATUM), *marks))
    around = marks_box(marks)
    low = (around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * (len(lines) + 2))
    at = flat.xy(place)
    shift = (10 * math.ceil((at[0] - low[0]) / 10) - at[0], 10 * math.ceil((at[1] - low[1]) / 10) - at[1])
    along = "; X runs along the neck’s centre line to the tail" if called in ON_THE_NECK else ""
    units = f"Units mm. Datum: {called}, X {at[0] + shift[0]:g} Y {at[1] + shift[1]:g}{along}."
    says = tuple(filter(None, (units, size_words(marks, figure.kept), *lines)))
    words = [
        Mark(
            shape=Text((around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * i), line, NOTE_HEIGHT, anchor="st"),
            purpose="note",
            of="file note",
        )
        for i, line in enumerate(says)
    ]
    moved = Transform(shift=shift).marks((*words, *marks))
    notes = marks_box(words)
    whole = union([around, Box(notes.x0, notes.y0, notes.x0 + STAND_IN * notes.width, notes.y1)])
    transform = Transform(shift=shift, mirror=figure.mirror)
    return MachineDrawing(
        title=figure.title,
        marks=moved,
        box=union([box(m.shape) for m in moved if not isinstance(m.shape, Text)]),
        size=(float(math.ceil(whole.x1 + shift[0] + 1)), float(math.ceil(whole.y1 + shift[1] + 1))),
        datum=transform.xy(place),
        transform=transform,
        says=says,
        kept=figure.kept,
    )
