"""A bridge's outline out of a DXF or SVG file: the largest line that closes, checked, in mm, in the bridge's own frame.

The bridge is drawn as it lies on the top, seen from above: its front up, or, where it is drawn upright, to the left.
"""

import cmath

import msgspec

from export.errors import ExportError
from export.machine import outline_dxf, outline_svg
from geometry.job.crossing_itself import crosses_itself
from geometry.layout import XY
from geometry.units import MM_PER, Unit

LARGEST = 20_000_000
"""Bytes. A file of one outline is never larger (common practice, no source)."""
FINE = 0.02
"""Points that lie no farther from the line through the others than this, mm, are left out: no file is finer."""


class UnitUnknown(ExportError):
    """The file does not say what unit it is in; it is to be read again with one."""


class TracedOutline(msgspec.Struct, frozen=True, kw_only=True):
    """A closed outline in a bridge's own frame (mm), its length from wing to wing and its width from front to back."""

    points: tuple[XY, ...]
    length: float
    width: float


def read_outline(data: bytes, name: str, unit: Unit | None = None) -> TracedOutline:
    """The outline in a file's bytes; its `name` tells the format. `unit` counts where the file does not say its own.

    Raises `UnitUnknown`, and `ExportError` where there is no outline in it.
    """
    if len(data) > LARGEST:
        raise ExportError(f"{name} is too large for one outline; save only the bridge’s")
    kind = name.rpartition(".")[2].lower()
    if kind not in ("dxf", "svg"):
        raise ExportError(f"{name} is neither a DXF nor an SVG file; save the outline as one of these")
    try:
        lines, per_unit = (outline_dxf if kind == "dxf" else outline_svg).closed_lines(data)
    except ExportError as error:
        raise ExportError(f"{name} cannot be read. {error}") from None
    if not lines:
        raise ExportError(f"{name} has no line that closes; join the outline’s lines end to end and save it again")
    if not all(cmath.isfinite(z) for line in lines for z in line):
        raise ExportError(f"{name} has a line to a place that is no number; save the outline again")
    largest = max(lines, key=_extent)
    if per_unit is None and unit is None:
        raise UnitUnknown(f"{name} does not say what unit it is in; say whether it is mm, cm or inches")
    scale = per_unit if per_unit is not None else MM_PER[unit or "mm"]
    return _seated(name, [z * scale for z in largest])


def _extent(line: list[complex]) -> float:
    """The area of the upright box round a line."""
    x, y = [z.real for z in line], [z.imag for z in line]
    return (max(x) - min(x)) * (max(y) - min(y))


def _seated(name: str, line: list[complex]) -> TracedOutline:
    """The outline with its front at 0 and its middle between the wings' tips."""
    points = _thinned(line)
    if len(points) < 3 or _extent(points) < FINE:
        raise ExportError(f"The outline in {name} goes round nothing; draw it again")
    if crosses_itself([(z.real, z.imag) for z in points]):
        raise ExportError(f"The outline in {name} crosses itself; draw it as one line round the bridge")
    x, y = [z.real for z in points], [z.imag for z in points]
    wide, high = max(x) - min(x), max(y) - min(y)
    if wide > high:  # its front is up: back is down, and left is to the right
        middle = (max(x) + min(x)) / 2
        own = [(max(y) - z.imag, z.real - middle) for z in points]
    else:
        middle = (max(y) + min(y)) / 2
        own = [(z.real - min(x), z.imag - middle) for z in points]
    return TracedOutline(
        points=tuple((round(back, 4), round(left, 4)) for back, left in own),
        length=round(max(wide, high), 4),
        width=round(min(wide, high), 4),
    )


def _thinned(line: list[complex]) -> list[complex]:
    """The outline without the points that it does not need, none of them twice."""
    from shapely import LineString

    if len(line) < 3:
        return line
    thin = LineString([(z.real, z.imag) for z in (*line, line[0])]).simplify(FINE, preserve_topology=False)
    points = [complex(x, y) for x, y in thin.coords[:-1]]
    return [z for k, z in enumerate(points) if k == 0 or z != points[k - 1]]
