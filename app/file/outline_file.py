"""A bridge's outline from a file on the disk."""

from pathlib import Path

from export import files
from export.errors import ExportError
from export.machine.outline_in import LARGEST, TracedOutline, read_outline
from geometry.units import Unit


def read(path: Path, unit: Unit | None = None) -> TracedOutline:
    """The outline in a DXF or SVG file; `unit` counts where the file does not say its own.

    Raises `UnitUnknown`, and `ExportError` where there is no outline in it or the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise ExportError(f"“{path.name}” cannot be read: {files.why(error)}. Choose another file") from None
    return read_outline(data, path.name, unit)
