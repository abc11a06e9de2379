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
from export.machine.no_double_lines import without_doubled_lines
from export.paper.furniture import marks_box
from export.records import Figure
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm

Datum = Literal["board end", "saddle centre", "lower left"]
WORDS = "WORDS"
"""The layer all words are on, so that none lies on a layer to cut."""
NOTE_HEIGHT = 2.5


class MachineSettings(msgspec.Struct, frozen=True, kw_only=True):
    """How files for machines are made. `purposes`: those to write; None: all. `cutter` outranks `kerf` (both mm).

    `bulges` False: arcs within outlines become chords, for readers that ignore bulges. `release` of DXF.
    """

    datum: Datum = "board end"
    kerf: float = 0.0
    cutter: float | None = None
    text: Literal["text", "outlines"] = "text"
    purposes: frozenset[Purpose] | None = None
    bulges: bool = True
    release: Literal["R2010", "R12"] = "R2010"


def machine_settings_of(job: Job) -> MachineSettings:
    """What the job says of its files."""
    asked = job.sheets
    return MachineSettings(
        datum=asked.datum,
        kerf=mm(asked.kerf),
        cutter=mm(asked.cutter) if asked.cutter is not None else None,
        text=asked.text,
        purposes=None if asked.purposes is None else frozenset(asked.purposes),
        bulges=asked.arcs == "bulges",
        release=asked.dxf,
    )


class MachineDrawing(msgspec.Struct, frozen=True, kw_only=True):
    """Marks in file mm: lower left origin, nothing negative. `box` is that of all lines, `size` holds words as well.

    `datum` in file mm. `transform` takes instrument mm to file mm. `says` are the notes that stand in the file.
    """

    title: str
    marks: tuple[Mark, ...]
    box: Box
    size: XY
    datum: XY
    transform: Transform
    says: tuple[str, ...] = ()


def layer_of(mark: Mark) -> str:
    """The layer's name: the purpose in capitals, words and their outlines on their own."""
    return WORDS if isinstance(mark.shape, Text) or mark.purpose == "note" else mark.purpose.upper()


def datum_place(layout: Layout, datum: Datum) -> XY | None:
    """Where the datum lies on the instrument; None for the lower left corner, or where it is not known."""
    if datum == "board end" and layout.neck is not None and layout.neck.end is not None:
        (ax, ay), (bx, by) = layout.neck.end
        return ax - ay * (bx - ax) / (by - ay), 0.0
    if datum == "saddle centre" and layout.saddle is not None:
        (ax, ay), (bx, by) = layout.saddle.at_strings
        return (ax + bx) / 2, (ay + by) / 2
    return None


def machine_drawing(
    figure: Figure, layout: Layout, machine: MachineSettings, title: str, warnings: tuple[str, ...] = ()
) -> MachineDrawing:
    """A figure for a machine; `warnings` are written beside it. Raises `ExportError` where the cutter does not fit or
    nothing is left to write.
    """
    marks = tuple(mark for mark in figure.marks if mark.of != "tape")
    if machine.purposes is not None:
        marks = tuple(mark for mark in marks if mark.purpose in machine.purposes)
    if not marks:
        raise ExportError("Nothing is left to write; choose at least one purpose that it has")
    tool = machine.cutter if machine.cutter is not None else machine.kerf
    lines = ["Lines are the edges themselves." if not tool else _tool_words(machine, tool)]
    if tool:
        from export.machine.offset import offset_marks

        marks = offset_marks(marks, figure.kept, tool, machine.cutter is not None)
    lines += warnings
    if figure.mirror:
        lines.append("Mirrored: seen from inside.")
    at = None if figure.loose else datum_place(layout, machine.datum)
    ready = _moved(without_doubled_lines(marks), at, machine.datum, tuple(lines), figure)
    if machine.text == "outlines":
        from export.machine.letter_outlines import outlined

        ready = msgspec.structs.replace(ready, marks=outlined(ready.marks))
        ready = msgspec.structs.replace(ready, box=union([box(m.shape) for m in ready.marks]))  # type: ignore[arg-type]  # no words are left
    return msgspec.structs.replace(ready, title=title)


def _tool_words(machine: MachineSettings, tool: float) -> str:
    name = "cutter" if machine.cutter is not None else "kerf"
    return f"Edges to cut, rout and drill are offset for a {name} of {tool:g} mm: set no further offset."


def _moved(
    marks: tuple[Mark, ...], datum: XY | None, called: str, lines: tuple[str, ...], figure: Figure
) -> MachineDrawing:
    """Marks at a lower left origin with the notes below them."""
    flat = Transform(mirror=figure.mirror)
    if datum is not None:
        marks = (*marks, *cross(datum, 4.0, "register", turn=math.pi / 4, of="datum"))
    marks = flat.marks(marks)
    around = marks_box(marks)
    low = (around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * (len(lines) + 1))
    if datum is None:
        shift = (-low[0], -low[1])
        where = "lower left corner, X 0 Y 0"
    else:
        at = flat.xy(datum)
        shift = (10 * math.ceil((at[0] - low[0]) / 10) - at[0], 10 * math.ceil((at[1] - low[1]) / 10) - at[1])
        where = f"{called}, X {at[0] + shift[0]:g} Y {at[1] + shift[1]:g}"
    says = (f"Units mm. Datum: {where}.", *lines)
    words = [
        Mark(
            shape=Text((around.x0, around.y0 - 4.0 - 2 * NOTE_HEIGHT * i), line, NOTE_HEIGHT, anchor="st"),
            purpose="note",
        )
        for i, line in enumerate(says)
    ]
    moved = Transform(shift=shift).marks((*marks, *words))
    whole = marks_box(moved)
    transform = Transform(shift=shift, mirror=figure.mirror)
    return MachineDrawing(
        title=figure.title,
        marks=moved,
        box=union([box(m.shape) for m in moved if not isinstance(m.shape, Text)]),
        size=(float(math.ceil(whole.x1 + 1)), float(math.ceil(whole.y1 + 1))),
        datum=transform.xy(datum) if datum else (0.0, 0.0),
        transform=transform,
        says=says,
    )
