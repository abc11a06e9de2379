"""What is drawn of the sample jobs, for either hand, as a few sums: of a template one a purpose and one of tables,
datum and the like, of its DXF, as other software reads it, one a layer. Of written pages only where words begin and
end from side to side, how large and how bold they are, and the numbers and sides that are said: what they say may be
put better.
"""

import datetime
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import msgspec
from msgspec.structs import replace

from app.edit.bridge import kept_places
from export import write_all
from export.drawing.marks import Mark, Text
from export.errors import ExportError
from export.records import Stamp
from export.templates import STOCK, TEMPLATES, Template, is_of_its_kind
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.export import readers
from tests.geometry.held.changed_jobs import CHANGED, FULLEST, GONE, NAMES, alike, as_made, changes
from tests.geometry.held.changed_sums import changed_job
from tests.geometry.held.sums import Sums, whole
from tests.geometry.held.sums import alike as near

STAMP = Stamp(
    date=datetime.date(2026, 11, 28), fingerprint="4F2A-91", templates=("placement", "bridge", "plate", "nut-slots")
)
ALL: dict[str, Template] = TEMPLATES | {STOCK.name: STOCK}
CUT = ("leaning-neck",)
"""Jobs of which the files for machines are held too."""
WHOLE = (FULLEST, "floating-five", "slanted-separate", "five-pairs")
"""Jobs of which those templates are held too that take long."""
LONG = ("full-length", "job-sheet", "before-and-after")
LOOSE = ("nut", "board.a", "separate.", "floating", "tail", "hardware.", "bridge.outline", "bridge.tie", "saddle.made")
FEW = (CHANGED, f'"{GONE}"')
"""How changes begin that change loose parts, and how those of them end that are not drawn: what numbers became."""
TURNED_OVER = ("floating-five", "slanted-separate", "slotted-neck-screw", FULLEST)
"""Jobs that are drawn for the other hand as well."""
HANDS = {"right": "left", "left": "right"}
TURNED = ", other hand"
FILE = Path(__file__).with_name("drawn.txt")


def names() -> list[str]:
    """The names of all that is held: a job and what is drawn of it."""
    jobs = (*NAMES, *(f"{name}{TURNED}" for name in TURNED_OVER))
    found = [f"{name}: {template}" for name in jobs for template in ALL if name in WHOLE or template not in LONG]
    of_changes = [
        change for change, *_ in alike() if change.partition(": ")[2].startswith(LOOSE) and not change.endswith(FEW)
    ]
    found += [f"{name}: {what}" for what, of in ((MACHINES, CUT), (NOTES, jobs)) for name in of]
    return [*found, *(f"{change}: {PARTS}" for change in of_changes)]


MACHINES, PARTS, NOTES = "for machines", "parts", "notes"


def sums_of(name: str) -> Sums:
    """The sums of what is drawn of a job, by its name."""
    job, _, what = name.rpartition(": ")
    if what == NOTES:
        return noted(job)
    return cut(job) if what == MACHINES else redrawn(job) if what == PARTS else drawn(job, ALL[what])


@lru_cache(maxsize=1)
def job_and_layout(name: str) -> tuple[Job, Layout]:
    """A sample job, or the same for the other hand, with its layout; the fullest one with a placement kept before its
    bridge was moved on.
    """
    job = as_made(name.removesuffix(TURNED))
    if name.endswith(TURNED):
        job = msgspec.convert(msgspec.to_builtins(job) | {"hand": HANDS[job.hand]}, Job, str_keys=True)
    if name.startswith(FULLEST):
        job = kept_places.keep(job, work_out(job), "2026-11-28")
        assert job.bridge is not None
        assert job.bridge.moved is not None
        job = replace(job, bridge=replace(job.bridge, moved=replace(job.bridge.moved, along=0.9)))
    return job, work_out(job)


def redrawn(change: str) -> Sums:
    """The sums of the loose parts of a job that a change to it changes, one a template."""
    job = changed_job(change)
    if job is None:
        return {}
    before, now = _parts_before(changes()[change][0]), _parts(job)
    return {name: one for name, one in now.items() if not near(one, before.get(name, -1.0))}


@lru_cache
def _parts_before(name: str) -> Sums:
    return _parts(as_made(name))


def _parts(job: Job) -> Sums:
    layout = work_out(job)
    drawings = {name: _drawn(job, layout, one) for name, one in ALL.items() if one.draw and name not in TAPED_ON}
    return {name: whole(found) for name, found in drawings.items() if found}


TAPED_ON = ("placement", "full-length", "bridge-place")
"""Templates that show the whole, which takes long."""


def drawn(name: str, template: Template) -> Sums:
    """The sums of a template of a job; nothing where it cannot be drawn."""
    return _drawn(*job_and_layout(name), template)


def noted(name: str) -> Sums:
    """The sums of the figures and the sides in the notes of all templates of a job that can be drawn."""
    job, layout = job_and_layout(name)
    found = {}
    for template in TEMPLATES.values():
        try:
            is_of_its_kind(template, job)
            figure = template.draw(job, layout, STAMP) if template.draw is not None else None
        except ExportError:
            continue
        if figure is not None:
            found[template.name] = whole(figure.notes)
    return found


def _drawn(job: Job, layout: Layout, template: Template) -> Sums:
    if template is STOCK and job.sheets.stock is None:
        return {}
    try:
        is_of_its_kind(template, job)
        if template.draw is not None:
            figure = template.draw(job, layout, STAMP)
            rest = replace(figure, title="", marks=(), notes=(), of_scales={})
            return _by_purpose(figure.marks) | {"rest": whole(rest)}
        assert template.pages is not None
        marks = [mark for page in template.pages(job, layout, STAMP) for mark in page.drawing.marks]
        return {"set": _set_out(marks), "said": whole([one.shape.text for one in marks if isinstance(one.shape, Text)])}
    except ExportError:
        return {}


def _by_purpose(marks: Iterable[Mark]) -> Sums:
    groups = dict[str, list[Any]]()
    for mark in marks:
        groups.setdefault(mark.purpose, []).append(mark)
    return {purpose: whole(group) for purpose, group in groups.items()}


def _set_out(marks: Iterable[Mark]) -> float:
    """The places across the page where words stand, each once, with how they stand there."""
    texts = [mark.shape for mark in marks if isinstance(mark.shape, Text)]
    return whole(sorted({(round(at.at[0], 2), at.anchor, round(at.height, 2), at.bold) for at in texts}))


def cut(name: str) -> Sums:
    """The sums of all DXF files of a job, by template and layer: how many lines, how long, and where, to 0.01 mm."""
    job, layout = job_and_layout(name)
    found: Sums = {}
    with TemporaryDirectory() as folder:
        stamp = replace(STAMP, templates=tuple(TEMPLATES))
        for file in write_all(job, layout, stamp, Path(folder), ("dxf",), left_out=_unsaid):
            found |= {f"{file.stem} {layer}": one for layer, one in _by_layer(readers.dxf_items(file)).items()}
    return found


def _unsaid(sentence: str) -> None:
    """What cannot be made is not there to be held."""
    del sentence


def _by_layer(items: Iterable[readers.Item]) -> Sums:
    layers = dict[str, list[readers.Item]]()
    for item in items:
        layers.setdefault(item.where, []).append(item)
    return {layer: _extent(group) for layer, group in layers.items()}


def _extent(items: list[readers.Item]) -> float:
    lines = [complex(*at) for item in items for at in item.points]
    long = sum(
        abs(complex(*b) - complex(*a)) for item in items for a, b in zip(item.points, item.points[1:], strict=False)
    )
    box = [f(getattr(at, axis) for at in lines) for f in (min, max) for axis in ("real", "imag")]
    return whole([len(items), sum(item.closed for item in items), long, *box])
