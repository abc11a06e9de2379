"""Figures to DXF, for a CNC or a laser: true circles and arcs, one named layer and colour for each operation.

R2010, units mm, lower left origin with nothing negative; where the datum lies is said in a note. No splines, ellipses
or hatches: many readers drop them without a word.
"""

import io
import logging
import math
from collections.abc import Sequence
from typing import assert_never

from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from export.drawing import typeface
from export.drawing.flatten import path_points
from export.drawing.marks import Arc, Circle, Line, Mark, Path, Purpose, Text
from export.drawing.pens import PENS, width_of
from export.machine.machine_file import WORDS, MachineDrawing, MachineSettings, layer_of

COLOURS: dict[Purpose, int] = {
    "cut": 1,
    "drill": 5,
    "route": 3,
    "mark": 6,
    "lay": 8,
    "centre": 4,
    "hidden": 9,
    "before": 30,
    "metal": 12,
    "dimension": 8,
    "note": 7,
    "register": 8,
    "measured": 7,
    "body": 8,
}
LINE_TYPES: dict[Purpose, str] = {
    "centre": "LONG_DASH_DOT",
    "before": "LONG_DASH_DOUBLE_DOT",
    "hidden": "DASHED_MM",
    "metal": "DASHED_MM",
}
ALIGN = {
    "sb": TextEntityAlignment.LEFT,
    "mb": TextEntityAlignment.CENTER,
    "eb": TextEntityAlignment.RIGHT,
    "sm": TextEntityAlignment.MIDDLE_LEFT,
    "mm": TextEntityAlignment.MIDDLE_CENTER,
    "em": TextEntityAlignment.MIDDLE_RIGHT,
    "st": TextEntityAlignment.TOP_LEFT,
    "mt": TextEntityAlignment.TOP_CENTER,
    "et": TextEntityAlignment.TOP_RIGHT,
}


def data(drawing: MachineDrawing, machine: MachineSettings, mark: str = "") -> bytes:
    """What is to be cut, already in file coordinates, as a DXF file's bytes; `mark` is a comment at its head.

    R12 knows no units: the file's name should say mm. Without bulges arcs within outlines become chords, no farther
    than 0.01 mm from them.
    """
    document = new("R2010")
    document.header["$INSUNITS"] = 4
    document.header["$MEASUREMENT"] = 1
    _tables(document, drawing.marks)
    space = document.modelspace()
    for each in drawing.marks:
        _entity(space, each, machine.bulges)
    low, high = (drawing.box.x0, drawing.box.y0, 0.0), (drawing.box.x1, drawing.box.y1, 0.0)
    document.header["$EXTMIN"], document.header["$EXTMAX"] = low, high
    space.reset_extents(low, high)
    whole = f"999\n{mark}\n{_text_of(document, machine)}"  # 999 is the group code of a comment
    return whole.encode() if machine.release == "R2010" else whole.encode("cp1252", errors="dxfreplace")


def _text_of(document: Document, machine: MachineSettings) -> str:
    stream = io.StringIO()
    if machine.release == "R2010":
        document.write(stream)
        return stream.getvalue()
    from ezdxf.addons import r12export

    log = logging.getLogger("ezdxf")
    level = log.level
    log.setLevel(logging.ERROR)  # ezdxf warns each time that R12 knows no units; our note in the file says so
    try:
        r12export.write(document, stream)
    finally:
        log.setLevel(level)
    return stream.getvalue()


def _tables(document: Document, marks: Sequence[Mark]) -> None:
    for purpose, name in LINE_TYPES.items():
        if name not in document.linetypes:
            dashes = PENS[purpose].dashes
            signed = [length if i % 2 == 0 else -length for i, length in enumerate(dashes)]
            document.linetypes.add(name, [sum(dashes), *signed])
    document.styles.add("OFFSQUARE", font="SourceSansPro-Regular.ttf")
    layers = {layer_of(mark): mark for mark in marks}
    for name, mark in layers.items():
        line_type = LINE_TYPES.get(mark.purpose, "Continuous") if name != WORDS else "Continuous"
        document.layers.add(name, color=7 if name == WORDS else COLOURS[mark.purpose], linetype=line_type)


def _entity(space: Modelspace, mark: Mark, bulges: bool) -> None:
    shape = mark.shape
    look: dict[str, object] = {
        "layer": layer_of(mark),
        "color": 7 if layer_of(mark) == WORDS else COLOURS[mark.purpose],
        "lineweight": _lineweight(mark),
    }
    match shape:
        case Line(a, b):
            space.add_line(a, b, look)
        case Arc(centre, radius, start, sweep):
            low, high = sorted((start, start + sweep))
            space.add_arc(centre, radius, math.degrees(low), math.degrees(high), True, look)
        case Circle(centre, radius):
            space.add_circle(centre, radius, look)
        case Path(vertices, closed):
            if bulges:
                space.add_lwpolyline(vertices, "xyb", close=closed, dxfattribs=look)
            else:
                space.add_lwpolyline(path_points(shape, 0.01), "xy", close=closed, dxfattribs=look)
        case Text(at, text, height, angle, anchor):
            look |= {"style": "OFFSQUARE", "rotation": math.degrees(angle)}
            space.add_text(typeface.shown(text), height=height, dxfattribs=look).set_placement(at, align=ALIGN[anchor])
        case _:
            assert_never(shape)


def _lineweight(mark: Mark) -> int:
    """The nearest of the line widths DXF knows, in hundredths of a mm."""
    known = (13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100)
    return min(known, key=lambda width: abs(width - 100 * width_of(mark)))
