"""Paper and file formats: what is worked out, drawn once and written as PDF, DXF and SVG."""

from export.errors import ExportError
from export.records import Stamp
from export.writing import write_all

__all__ = ["ExportError", "Stamp", "write_all"]
