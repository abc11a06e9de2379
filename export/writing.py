"""Writing all files of a job into a folder, each whole or not at all."""

import os
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path as File

import msgspec

from export.errors import CannotWrite, ExportError
from export.machine import Making, make, making_of
from export.records import Stamp
from export.templates import sheets, stops_of, template_named
from geometry.job import Job
from geometry.layout import Layout

Progress = Callable[[int, int, str], None]
"""Told before each file: how many are done, how many there will be, and the name of the one begun."""
KINDS = ("pdf", "dxf", "svg")


def write_all(
    job: Job,
    layout: Layout,
    stamp: Stamp,
    folder: File,
    only: Sequence[str] = KINDS,
    *,
    making: Making | None = None,
    progress: Progress | None = None,
) -> tuple[File, ...]:
    """Write the stamp's templates into `folder`, which is made where it is missing; returns the files written.

    One PDF a template with all its pages; DXF and SVG of those that are drawings. `making` says how these are made;
    None: as the job says. Raises `ExportError`; files written before it stay, none is ever half written.
    """
    for kind in only:
        if kind not in KINDS:
            raise ExportError(f"“{kind}” is not a kind of file that can be written; use {', '.join(KINDS)}")
    tasks = [task for name in dict.fromkeys(stamp.templates) for task in _tasks(job, layout, stamp, name, only, making)]
    written: list[File] = []
    for name, write in tasks:
        if progress:
            progress(len(written), len(tasks), name)
        whole(folder / name, write)
        written.append(folder / name)
    if progress:
        progress(len(tasks), len(tasks), "")
    return tuple(written)


Task = tuple[str, Callable[[File], None]]


def _tasks(job: Job, layout: Layout, stamp: Stamp, name: str, only: Sequence[str], making: Making | None) -> list[Task]:
    """The files of one template, by name, each with what fills it."""
    template = template_named(name)
    tasks: list[Task] = []
    if "pdf" in only:
        from export import pdf

        pages = sheets(job, layout, msgspec.structs.replace(stamp, templates=(name,)))
        tasks.append((f"{name}.pdf", lambda file: pdf.write(pages, file, job.title)))
    if template.draw is None or not {"dxf", "svg"} & set(only):
        return tasks
    how = making or making_of(job)
    cut = make(template.draw(job, layout, stamp), layout, how, job.title, stops_of(layout))
    if "dxf" in only:
        from export import dxf

        suffix = "-mm" if how.release == "R12" else ""
        tasks.append((f"{name}{suffix}.dxf", lambda file: dxf.write(cut, file, how)))
    if "svg" in only:
        from export import svg

        tasks.append((f"{name}.svg", lambda file: svg.write(cut, file)))
    return tasks


def whole(target: File, write: Callable[[File], None]) -> None:
    """Let `write` fill a file beside the target, then put it in the target's place. Raises `CannotWrite`."""
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{target.stem}-", suffix=target.suffix, dir=target.parent)
    except OSError as error:
        raise CannotWrite(target, error) from error
    os.close(handle)
    beside = File(name)
    try:
        write(beside)
        beside.chmod(0o644)
        beside.replace(target)
    except OSError as error:
        raise CannotWrite(target, error) from error
    finally:
        beside.unlink(missing_ok=True)
