"""What a person should know of cutters before files are written for them: what is left out, what stays round.

The same of a kerf, which is only ever too wide, and of a template's pilot holes.
"""

from export.drawing.marks import Mark, Path
from export.errors import ExportError
from export.machine.machine_file import MachineSettings, machine_settings_of, made_as
from export.machine.tools import Tool, fitted, has_cutter, operation_of, tool_for
from export.records import Figure, Stamp
from export.templates import TEMPLATES
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.job.sheets import CUTS, Operation
from geometry.layout import Layout


def job_tool_findings(job: Job, layout: Layout, stamp: Stamp) -> tuple[Finding, ...]:
    """Those of all the stamp's templates that can be drawn, each once."""
    machine = machine_settings_of(job)
    found: dict[str, Finding] = {}
    there: set[Operation] = set()
    for name in stamp.templates:
        template = TEMPLATES.get(name)
        if template is None or template.draw is None:
            continue
        try:
            figure = template.draw(job, layout, stamp)
        except ExportError:
            continue
        found |= {finding.text: finding for finding in tool_findings(figure, machine)}
        there |= _operations(figure, machine)
    lacking = [operation for operation in machine.cutters if operation not in there]
    return (*found.values(), *(_needless(operation) for operation in lacking if there))


def _operations(figure: Figure, machine: MachineSettings) -> set[Operation]:
    """What is done in a figure as it is made."""
    try:
        made = made_as(figure, machine)
    except ExportError:
        return set()
    return {operation for mark in made.marks if (operation := operation_of(mark, made.kept)) is not None}


def _needless(operation: Operation) -> Finding:
    text = f"A cutter is named for {CUTS[operation]}, but no chosen template has any; choose one that has, or empty it."
    return look("cutter.no_such_work", text, f"field:sheets.cutters.{operation}")


def tool_findings(figure: Figure, machine: MachineSettings) -> tuple[Finding, ...]:
    """A `stop` for a kerf or a pilot hole that does not fit, a `look` for what a cutter leaves out and for corners that
    stay round.
    """
    try:
        made = made_as(figure, machine)
    except ExportError as error:
        return (Finding(grade="stop", code="pilot.too_large", text=f"{error}.", where="field:sheets.pilot"),)
    found = []
    for mark in made.marks:
        operation = operation_of(mark, made.kept)
        tool = tool_for(operation, machine) if operation else None
        if operation is None or tool is None:
            continue
        where = _where(operation, machine)
        try:
            _, misfits = fitted((mark,), made.kept, machine)
        except ExportError as error:
            return (Finding(grade="stop", code="kerf.too_large", text=f"{error}.", where=where),)
        for misfit in misfits:
            text = f"Left out of DXF and SVG: {misfit.says}. Name a smaller one for {CUTS[operation]}."
            found.append(look("cutter.too_large", text, where, room_mm=misfit.room, cutter_mm=misfit.cutter))
        if tool.is_cutter and not misfits and operation != "outline":
            found += _round_corners(mark, tool, where)
    return tuple({finding.text: finding for finding in found}.values())


def _where(operation: Operation, machine: MachineSettings) -> str:
    if not has_cutter(machine):
        return "field:sheets.kerf"
    return f"field:sheets.cutters.{operation}" if operation in machine.cutters else "field:sheets.cutter"


def _round_corners(mark: Mark, tool: Tool, where: str) -> list[Finding]:
    from export.machine.offset import round_corners

    if not isinstance(mark.shape, Path) or not mark.shape.closed:
        return []
    corners = round_corners(mark.shape, tool.width)
    if not corners:
        return []
    text = (
        f"{corners} corners of the {mark.of or mark.purpose} stay round with a cutter of {tool.width:g} mm: square "
        "them by hand, or round what goes into them."
    )
    return [look("cutter.round_corners", text, where, corners=float(corners), radius_mm=tool.width / 2)]
