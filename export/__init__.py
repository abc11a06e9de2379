"""Paper and file formats: what is worked out, drawn once and written as PDF, DXF, SVG and PNG."""

from collections.abc import Callable, Sequence
from pathlib import Path as File
from typing import TYPE_CHECKING, Literal

from export.errors import ExportError

if TYPE_CHECKING:  # the window draws the plan long before anything is written, and starts without all this
    from export.machine.machine_file import MachineSettings
    from export.records import Stamp
    from geometry.job import Job
    from geometry.layout import Layout

__all__ = ["FILE_KINDS", "USUAL_KINDS", "ExportError", "FileKind", "write_all"]

FileKind = Literal["pdf", "dxf", "svg", "png"]
FILE_KINDS: tuple[FileKind, ...] = ("pdf", "dxf", "svg", "png")
"""The kinds of file that can be written, by their endings."""
USUAL_KINDS: tuple[FileKind, ...] = ("pdf", "dxf", "svg")
"""Those that are written unless others are asked for."""


def write_all(
    job: "Job",
    layout: "Layout",
    stamp: "Stamp",
    folder: File,
    only: Sequence[str] = USUAL_KINDS,
    *,
    machine: "MachineSettings | None" = None,
    progress: Callable[[int, int, str], None] | None = None,
    left_out: Callable[[str], None] | None = None,
    owner: str = "",
) -> tuple[File, ...]:
    """Write the stamp's templates into `folder`: see `export.writing.write_all`. Raises `ExportError`."""
    from export.writing import write_all as write

    return write(job, layout, stamp, folder, only, machine=machine, progress=progress, left_out=left_out, owner=owner)
