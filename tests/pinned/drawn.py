"""What is drawn of a job, group by group: of the marks that stand for one thing and have one purpose how many there
are, how many numbers they hold and the sum of these, each with a weight of its own; and all words as they stand there.
"""

import datetime
import re
import zlib
from collections.abc import Iterable
from typing import Any

import msgspec

from export import templates
from export.drawing.marks import Mark, Text
from export.errors import ExportError
from export.machine import dxf, svg
from export.machine.machine_file import MachineDrawing, MachineSettings, machine_drawing
from export.records import Stamp
from export.templates import Template, warnings_of
from geometry.job import Job
from geometry.layout import Layout
from tests.pinned.changes import numbers_in, weighted

STAMP = Stamp(date=datetime.date(2026, 11, 28), fingerprint="4F2A-91", paper="A3")
STOCK = templates.STOCK
ALL: dict[str, Template] = templates.TEMPLATES | {STOCK.name: STOCK}


def marks_of(marks: Iterable[Mark]) -> dict[str, Any]:
    """Groups of marks, and words with where they stand."""
    groups = dict[str, list[float]]()
    counts = dict[str, int]()
    found = dict[str, Any]()
    for mark in marks:
        name = f"{mark.purpose} {re.sub(r'[0-9]+', '#', mark.of) or 'of nothing'}"
        numbers = list(numbers_in(msgspec.to_builtins(mark)))
        groups.setdefault(name, []).extend(numbers)
        counts[name] = counts.get(name, 0) + 1
        if isinstance(mark.shape, Text):
            found[f"word {len(found) + 1}"] = mark.shape.text
    return found | {name: [counts[name], len(given), weighted(given)] for name, given in groups.items()}


def template_of(template: Template, job: Job, layout: Layout) -> dict[str, Any]:
    """A template's figure, or its written pages; what is said where it cannot be made."""
    try:
        if template.draw is None:
            assert template.pages is not None
            pages = template.pages(job, layout, STAMP)
            return {
                f"{page.name}, {line}": what for page in pages for line, what in marks_of(page.drawing.marks).items()
            }
        figure = template.draw(job, layout, STAMP)
    except ExportError as error:
        return {"not made": str(error)}
    rest = msgspec.to_builtins(msgspec.structs.replace(figure, marks=()))
    return marks_of(figure.marks) | {"figure": [figure.title, *figure.notes], "rest": weighted(list(numbers_in(rest)))}


def machine_file_of(template: Template, job: Job, layout: Layout, settings: MachineSettings) -> dict[str, Any]:
    """The drawing for a machine, and what DXF and SVG make of it; what is said where it cannot be made."""
    assert template.draw is not None
    try:
        figure = template.draw(job, layout, STAMP)
        drawing = machine_drawing(figure, layout, settings, job.title, warnings_of(job, layout))
    except ExportError as error:
        return {"not made": str(error)}
    return _drawing(drawing) | {
        "svg": text_of(svg.data(drawing, "offsquare:0").decode()),
        "dxf": text_of(
            _entities(
                dxf.data(drawing, settings, "offsquare:0").decode("cp1252" if settings.release == "R12" else "utf-8")
            )
        ),
    }


def _drawing(drawing: MachineDrawing) -> dict[str, Any]:
    where = [*drawing.size, *drawing.datum, drawing.box.x0, drawing.box.y0, drawing.box.x1, drawing.box.y1]
    return marks_of(drawing.marks) | {"where": [round(at, 4) for at in where], "kept": list(drawing.kept)}


def text_of(text: str) -> list[float]:
    """A file as how many numbers it holds, their sum, and a check of all that is no number."""
    numbers = [float(found) for found in re.findall(r"-?\d+(?:\.\d+)?", text)]
    return [len(numbers), weighted(numbers), zlib.crc32(re.sub(r"-?\d+(?:\.\d+)?", "#", text).encode())]


def _entities(text: str) -> str:
    """The lines of a DXF that say what is drawn, without the names that the library gives to everything."""
    lines = [line.strip() for line in text.splitlines()]
    pairs = list(zip(lines[::2], lines[1::2], strict=False))
    starts = next(at for at, pair in enumerate(pairs) if pair == ("2", "ENTITIES"))
    return "\n".join(" ".join(pair) for pair in pairs[starts:] if pair[0] not in ("5", "330", "360"))


MACHINES: dict[str, MachineSettings] = {
    "as usual": MachineSettings(),
    "kerf": MachineSettings(kerf=0.3, edge=None, datum="saddle centre"),
    "cutter": MachineSettings(cutter=3.0, edge=None, pin_holes="finished", datum="lower left"),
    "cutters": MachineSettings(
        cutters={"outline": 6.0, "window": 2.0, "slot": 1.0, "holes": 1.5}, edge=None, small_end=4.6, bulges=False
    ),
    "old reader": MachineSettings(release="R12", edge=12.0, pilot=1.5, bulges=False),
    "letters as lines": MachineSettings(text="outlines"),
    "drills only": MachineSettings(purposes=frozenset({"drill", "cut"}), edge=None, small_end=4.6, inch_drills=True),
}
"""Settings of which each asks for something else."""
