"""Closed lines of a DXF file, and how long its unit is. Lines and arcs that meet end to end are joined."""

import io

from ezdxf import recover
from ezdxf.disassemble import recursive_decompose
from ezdxf.lldxf.const import DXFError
from ezdxf.path import make_path

from export.errors import ExportError

PER_UNIT = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0}
"""mm in the units of $INSUNITS: inches, feet, mm, cm, m (the DXF reference's table; others are taken as not told)."""
READ_AS_OUTLINES = ("LWPOLYLINE", "POLYLINE", "LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE")
FINE = 2e-4
"""Arcs are followed by chords that lie no farther from them than this share of the drawing's size."""
JOINS = 1e-3
"""Ends nearer to each other than this share of the drawing's size are one."""


def closed_lines(data: bytes) -> tuple[list[list[complex]], float | None]:
    """Every closed line in the file's unit, and how many mm that is: None where the file does not say.

    Raises `ExportError` for what is no DXF file.
    """
    try:
        document, _ = recover.read(io.BytesIO(data))
    except (DXFError, OSError, ValueError, IndexError, KeyError):
        raise ExportError(
            "It is no DXF file that can be read; save the outline as DXF again, in release R2010"
        ) from None
    paths = [make_path(one) for one in recursive_decompose(document.modelspace()) if one.dxftype() in READ_AS_OUTLINES]
    ends = [complex(v.x, v.y) for path in paths if len(path) for v in path.control_vertices()]
    if not ends:
        return [], PER_UNIT.get(document.header.get("$INSUNITS", 0))
    size = max(
        max(z.real for z in ends) - min(z.real for z in ends), max(z.imag for z in ends) - min(z.imag for z in ends)
    )
    lines = [[complex(v.x, v.y) for v in path.flattening(max(size, 1e-9) * FINE)] for path in paths if len(path)]
    return _joined(lines, size * JOINS), PER_UNIT.get(document.header.get("$INSUNITS", 0))


def _joined(lines: list[list[complex]], near: float) -> list[list[complex]]:
    """The lines that are closed, and those that are once they are joined end to end."""
    closed = [line[:-1] for line in lines if len(line) > 3 and abs(line[0] - line[-1]) <= near]
    open_ = [line for line in lines if len(line) > 1 and abs(line[0] - line[-1]) > near]
    while open_:
        line = open_.pop()
        while abs(line[0] - line[-1]) > near:
            index, turned = _next(line[-1], open_, near)
            if index < 0:
                break
            piece = open_.pop(index)
            line = line + (piece[::-1] if turned else piece)[1:]
        else:
            closed.append(line[:-1])
    return [line for line in closed if len(line) > 2]


def _next(end: complex, lines: list[list[complex]], near: float) -> tuple[int, bool]:
    """The line that goes on from an end, and whether it does so the other way round; -1 where none does."""
    for index, line in enumerate(lines):
        for turned, at in ((False, line[0]), (True, line[-1])):
            if abs(at - end) <= near:
                return index, turned
    return -1, False
