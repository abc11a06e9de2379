"""Figures to DXF, for a CNC or a laser: true circles and arcs, one named layer and colour for each operation.

R2010, units mm, lower left origin with nothing negative; where the datum lies is said in a note. No splines, ellipses
or hatches: many readers drop them without a word.
"""

import io
import logging
import math
import re
from functools import lru_cache
from typing import assert_never

from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from export.drawing import typeface
from export.drawing.flatten import path_points
from export.drawing.marks import Arc, Circle, Line, Mark, Path, Purpose, Text
from export.drawing.pens import PENS, width_of
from export.machine.layers import COLOURS, NOTES, WORDS, layer_of
from export.machine.machine_file import MachineDrawing, MachineSettings

LINE_TYPES: dict[Purpose, str] = {
    "centre": "CENTER",
    "before": "DIVIDE",
    "hidden": "DASHED",
    "metal": "DASHED",
}
"""The standard line types' names; their dashes are the sheet's own."""
TOLD = {"%%": "%" * 6, "±": "%%p", "°": "%%d"}
"""Signs as every release tells them: %%p for ±, and so on; %%% is a per cent sign."""
SIGNS = re.compile("|".join(TOLD))
PLAIN = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "−": "-", "–": "-", "…": "..."})
"""Signs of print that the stroke fonts of CAD programs lack and drop without a word, and the typewriter's for them."""


def data(drawing: MachineDrawing, machine: MachineSettings, mark: str = "") -> bytes:
    """What is to be cut, already in file coordinates, as a DXF file's bytes; `mark` is a comment at its head.

    R12 knows no units: the file's name should say mm. Without bulges arcs within outlines become chords, no farther
    than 0.01 mm from them.
    """
    document = new("R2010")
    document.header["$INSUNITS"] = 4
    document.header["$MEASUREMENT"] = 1
    _tables(document, drawing)
    space = document.modelspace()
    for each in drawing.marks:
        _entity(space, each, layer_of(each, drawing.kept), machine.bulges)
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


def _tables(document: Document, drawing: MachineDrawing) -> None:
    for purpose, name in LINE_TYPES.items():
        if name not in document.linetypes:
            dashes = PENS[purpose].dashes
            signed = [length if i % 2 == 0 else -length for i, length in enumerate(dashes)]
            document.linetypes.add(name, [sum(dashes), *signed])
    document.styles.add("OFFSQUARE", font="SourceSansPro-Regular.ttf")
    layers = {layer_of(mark, drawing.kept): mark for mark in drawing.marks}
    for name, mark in layers.items():
        line_type = "Continuous" if name in (WORDS, NOTES) else LINE_TYPES.get(mark.purpose, "Continuous")
        document.layers.add(name, color=COLOURS[name], linetype=line_type)


def _entity(space: Modelspace, mark: Mark, layer: str, bulges: bool) -> None:
    shape = mark.shape
    look: dict[str, object] = {"layer": layer, "color": COLOURS[layer], "lineweight": _lineweight(mark)}
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
        case Text(_, text, height, angle):
            # from the left end of its baseline: that place holds in programs that ignore how words are aligned
            look |= {"style": "OFFSQUARE", "rotation": math.degrees(angle), "insert": typeface.baseline(shape)}
            space.add_text(_told(text), height=height, dxfattribs=look)
        case _:
            assert_never(shape)


def _told(words: str) -> str:
    """Words with the signs that DXF tells in its own way, and no others than every font has."""
    return SIGNS.sub(lambda found: TOLD[found[0]], typeface.shown(words).translate(PLAIN))


def _lineweight(mark: Mark) -> int:
    return _nearest_weight(width_of(mark))


@lru_cache
def _nearest_weight(width: float) -> int:
    """The nearest of the line widths DXF knows, in hundredths of a mm."""
    known = (13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100)
    return min(known, key=lambda weight: abs(weight - 100 * width))
