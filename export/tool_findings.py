"""What a person should know of a cutter before files are written for it: where it does not fit, what stays round."""

from export.drawing.marks import Path
from export.errors import ExportError
from export.machine import Making
from export.records import Figure
from geometry.findings import Finding

WHERE = "field:sheets.cutter"


def tool_findings(figure: Figure, making: Making) -> tuple[Finding, ...]:
    """A `stop` for each outline the cutter does not fit, a `look` for each that keeps round corners."""
    from export.offset import OFFSET, offset_marks, round_corners

    tool = making.cutter
    if tool is None:
        return ()
    found = []
    for mark in figure.marks:
        if mark.purpose not in OFFSET:
            continue
        name = mark.of or mark.purpose
        try:
            offset_marks((mark,), figure.kept, tool, is_cutter=True)
        except ExportError as error:
            found.append(Finding(grade="stop", code="cutter.too_large", text=f"{error}.", where=WHERE))
            continue
        if mark.of not in figure.kept and isinstance(mark.shape, Path) and mark.shape.closed:
            corners = round_corners(mark.shape, tool)
            if corners:
                text = (
                    f"{corners} corners of the {name} stay round with a cutter of {tool:g} mm: square them by hand, or "
                    "round what goes into them."
                )
                values = {"corners": float(corners), "radius_mm": tool / 2}
                found.append(Finding(grade="look", code="cutter.round_corners", text=text, values=values, where=WHERE))
    return tuple(found)
