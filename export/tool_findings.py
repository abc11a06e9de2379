"""What a person should know of a cutter before files are written for it: where it does not fit, what stays round.

The same of a kerf, which is only ever too wide.
"""

from export.drawing.marks import Mark, Path
from export.errors import ExportError
from export.machine.machine_file import MachineSettings, machine_settings_of
from export.records import Figure, Stamp
from export.templates import TEMPLATES
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Layout


def job_tool_findings(job: Job, layout: Layout, stamp: Stamp) -> tuple[Finding, ...]:
    """Those of all the stamp's templates that can be drawn, each once. Where the job names no tool there are none."""
    machine = machine_settings_of(job)
    if machine.cutter is None and not machine.kerf:
        return ()
    found: dict[str, Finding] = {}
    for name in stamp.templates:
        template = TEMPLATES.get(name)
        if template is None or template.draw is None:
            continue
        try:
            figure = template.draw(job, layout, stamp)
        except ExportError:
            continue
        found |= {finding.text: finding for finding in tool_findings(figure, machine)}
    return tuple(found.values())


def tool_findings(figure: Figure, machine: MachineSettings) -> tuple[Finding, ...]:
    """A `stop` for each outline the cutter or the kerf does not fit, a `look` for each that keeps round corners."""
    from export.machine.offset import OFFSET_PURPOSES, offset_marks

    called = "kerf" if machine.cutter is None else "cutter"
    tool = machine.kerf if machine.cutter is None else machine.cutter
    if not tool:
        return ()
    where = f"field:sheets.{called}"
    found = []
    for mark in figure.marks:
        if mark.purpose not in OFFSET_PURPOSES or (
            machine.purposes is not None and mark.purpose not in machine.purposes
        ):
            continue
        try:
            offset_marks((mark,), figure.kept, tool, is_cutter=called == "cutter")
        except ExportError as error:
            found.append(Finding(grade="stop", code=f"{called}.too_large", text=f"{error}.", where=where))
            continue
        if called == "cutter" and mark.of not in figure.kept:
            found += _round_corners(mark, tool, where)
    return tuple(found)


def _round_corners(mark: Mark, tool: float, where: str) -> list[Finding]:
    from export.machine.offset import round_corners

    if not isinstance(mark.shape, Path) or not mark.shape.closed:
        return []
    corners = round_corners(mark.shape, tool)
    if not corners:
        return []
    name = mark.of or mark.purpose
    text = (
        f"{corners} corners of the {name} stay round with a cutter of {tool:g} mm: square them by hand, or "
        "round what goes into them."
    )
    values = {"corners": float(corners), "radius_mm": tool / 2}
    return [Finding(grade="look", code="cutter.round_corners", text=text, values=values, where=where)]
