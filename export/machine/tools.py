"""Which tool works where: an **operation** (outline, window, slot, holes) has one cutter or beam, or none.

A beam burns its kerf at every edge. A cutter runs round outlines and inside windows and slots; holes are drilled to
their size, unless a cutter is named to mill them. What a cutter is too large for is left out and named.
"""

from collections.abc import Sequence
from typing import NamedTuple, Protocol

import msgspec

from export.drawing.marks import Circle, Mark, Path
from export.errors import ExportError
from geometry.job.sheets import CUTS, Operation


class Tool(NamedTuple):
    """A tool's width in mm: a cutter's diameter or a beam's kerf."""

    width: float
    is_cutter: bool


class Tools(Protocol):
    """What is known of tools, mm; see `MachineSettings`."""

    @property
    def kerf(self) -> float: ...
    @property
    def cutter(self) -> float | None: ...
    @property
    def cutters(self) -> dict[Operation, float]: ...


def operation_of(mark: Mark, kept: Sequence[str]) -> Operation | None:
    """What is done along a closed outline to cut, rout or drill; None for all else."""
    shape = mark.shape
    if not (isinstance(shape, Circle) or (isinstance(shape, Path) and shape.closed)):
        return None
    if mark.purpose == "cut":
        return "outline" if mark.of in kept else "window"
    return {"route": "slot", "drill": "holes"}.get(mark.purpose)  # type: ignore[return-value]  # both are operations


def has_cutter(tools: Tools) -> bool:
    """Whether any cutter is named; a kerf then counts for nothing."""
    return tools.cutter is not None or bool(tools.cutters)


def tool_for(operation: Operation, tools: Tools) -> Tool | None:
    """What works there; None where lines stay the edges themselves."""
    if not has_cutter(tools):
        return Tool(tools.kerf, False) if tools.kerf else None
    own = tools.cutters.get(operation, None if operation == "holes" else tools.cutter)
    return Tool(own, True) if own is not None else None


class Misfit(msgspec.Struct, frozen=True):
    """What is left out because its cutter is too large: what it is, how wide (mm), for which operation and cutter."""

    name: str
    room: float
    operation: Operation
    cutter: float

    @property
    def says(self) -> str:
        """What it is and why it is left out, without a full stop."""
        return f"{self.name}, {self.room:.2f} mm wide, where the cutter of {self.cutter:g} mm does not fit"


def fitted(marks: Sequence[Mark], kept: Sequence[str], tools: Tools) -> tuple[tuple[Mark, ...], tuple[Misfit, ...]]:
    """The marks with each closed outline offset for its tool, and what is left out. Raises `ExportError` for a kerf
    that is too wide.
    """
    from export.machine.offset import TooLarge, offset_mark

    made: list[Mark] = []
    misfits: dict[str, Misfit] = {}
    for mark in marks:
        operation = operation_of(mark, kept)
        tool = tool_for(operation, tools) if operation else None
        if operation is None or tool is None:
            made.append(mark)
            continue
        try:
            made.append(offset_mark(mark, kept, tool.width, is_cutter=tool.is_cutter))
        except TooLarge as error:
            if not tool.is_cutter:
                raise
            misfit = Misfit(_called(mark, operation), error.room, operation, tool.width)
            misfits[misfit.says] = misfit
    return tuple(made), tuple(misfits.values())


def _called(mark: Mark, operation: Operation) -> str:
    if operation == "holes":
        return hole_called(mark.of)[1]
    return f"the {mark.of or mark.purpose}{' window' if mark.of == 'seam' else ''}"


PILOT = "pilot hole"
"""What a pilot hole stands for, before the number of the hole that it is in."""
HOLES = {
    PILOT: ("pilot hole {}", "the pilot holes"),
    "pin": ("the hole of pin {}", "the pin holes"),
    "dowel": ("a dowel’s hole", "the dowels’ holes"),
    "screw": ("the hole of screw {}", "the screw holes"),
    "through": ("the hole of string {}", "the holes through the body"),
    "ferrule": ("the ferrule of string {}", "the ferrules’ holes"),
    "post": ("the hole of post {}", "the posts’ holes"),
    "strip": ("a post’s hole", "the posts’ holes"),
    "tie": ("tie hole {}", "the tie holes"),
    "side marker": ("the hole of side marker {}", "the markers’ holes"),
    "face marker": ("the hole of face marker {}", "the markers’ holes"),
}
"""What a hole is called, one by its number and all of a kind, by what its mark stands for."""


def hole_called(of: str) -> tuple[str, str]:
    """What a hole's mark stands for, such as `screw:2`, in words: the hole itself, and all of its kind."""
    kind, _, number = of.partition(":") if ":" in of else of.partition(" ")
    one, several = HOLES.get(kind, ("a hole", "the holes"))
    return one.format(number).rstrip(), several


def tool_words(marks: Sequence[Mark], kept: Sequence[str], tools: Tools) -> tuple[str, ...]:
    """What the file says of its tools; `marks` as they are made, without what is left out."""
    there = {operation for mark in marks if (operation := operation_of(mark, kept)) is not None}
    if not has_cutter(tools):
        if not tools.kerf:
            return ("Lines are the edges themselves.",)
        return (f"Edges to cut, rout and drill are offset for a kerf of {tools.kerf:g} mm: set no further offset.",)
    by_width: dict[float, list[str]] = {}
    for operation, words in CUTS.items():
        tool = tool_for(operation, tools)
        if operation in there and tool is not None:
            by_width.setdefault(tool.width, []).append(words)
    named = [f"{width:g} mm ({', '.join(which)})" for width, which in by_width.items()]
    said = [f"Edges are offset for a cutter of {', of '.join(named)}: set no further offset."] if named else []
    untouched = [words for operation, words in CUTS.items() if operation in there and not tool_for(operation, tools)]
    if untouched:
        said.append(f"Not offset, to their true size: {', '.join(untouched)}.")
    return tuple(said)


def check_pilot(holes: Sequence[tuple[str, float]], pilot: float) -> None:
    """Raise `ExportError` where a pilot hole is larger than the hole it stands for: (name, diameter in mm)."""
    for name, diameter in holes:
        if pilot > diameter + 1e-9:
            raise ExportError(
                f"The pilot holes of {pilot:g} mm are larger than {name}, which is {diameter:g} mm; choose smaller ones"
            )
