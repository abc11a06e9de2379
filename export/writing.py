"""Writing all files of a job into a folder, each whole or not at all."""

import hashlib
import re
import zlib
from collections.abc import Callable, Sequence
from pathlib import Path as File

import msgspec

from export import FILE_KINDS, USUAL_KINDS, files
from export.drawing.marks import Purpose
from export.errors import CannotWrite, ExportError
from export.machine.machine_file import MachineDrawing, MachineSettings, machine_drawing, machine_settings_of
from export.records import Figure, Sheet, Stamp
from export.templates import STOCK, LeftOut, Template, all_sheets, asked_for, chosen, figure_of, template_named
from export.templates.to_be_read_first import warnings_of
from geometry.go_or_wait import Work
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job
from geometry.layout import Layout

Progress = Callable[[int, int, str], None]
"""Told before each file: how many are done, how many there will be, and the name of the one begun."""


def write_all(
    job: Job,
    layout: Layout,
    stamp: Stamp,
    folder: File,
    only: Sequence[str] = USUAL_KINDS,
    *,
    machine: MachineSettings | None = None,
    progress: Progress | None = None,
    left_out: LeftOut | None = None,
    owner: str = "",
) -> tuple[File, ...]:
    """Write the stamp's templates into `folder`, which is made where it is missing; returns the files written.

    One PDF a template with its pages, those that the stamp chooses, or a PNG a page; DXF and SVG of drawings. `machine`
    says how these are made; None: as the job says. Where a file cannot be made of this layout, `left_out` is told and
    the others are written. `owner` names the job in the files' marks (see `is_ours`). Raises `ExportError` for all
    else, and for that too without `left_out`; files written before it stay, none is ever half written.
    """
    for kind in only:
        if kind not in FILE_KINDS:
            raise ExportError(f"“{kind}” is not a kind of file that can be written; use {', '.join(FILE_KINDS)}")
    told = _once(left_out) if left_out else None
    pages = chosen(all_sheets(job, layout, stamp, told), stamp.only) if {"pdf", "png"} & set(only) else ()
    tasks: list[Task] = []
    in_mm = told_of(job, layout).in_mm  # as a machine file's own numbers are
    for template in asked_for(job, stamp, told):
        own = tuple(page for page in pages if page.template == template.name)
        tasks += _pdf(own, template.name, job.title) if own and "pdf" in only else []
        tasks += _pictures(own, job.title) if "png" in only else []
        tasks += _machine_files(template, in_mm, layout, stamp, only, machine or machine_settings_of(job), told)
    if job.sheets.stock is not None:
        bridge = template_named("bridge")
        on_it = msgspec.structs.replace(STOCK, does=bridge.does if bridge.name in stamp.templates else ())
        tasks += _machine_files(on_it, in_mm, layout, stamp, only, machine or machine_settings_of(job), told)
    mark = _blank(owner)
    written: list[File] = []
    for name, write in tasks:
        if progress:
            progress(len(written), len(tasks), name)
        _put(folder / name, marked(write(mark), mark))
        written.append(folder / name)
    if progress:
        progress(len(tasks), len(tasks), "")
    return tuple(written)


MADE_BY: dict[Work, Purpose] = {"pins": "drill", "screws": "drill", "through": "drill", "slot": "route"}
"""What a machine makes for a step, where that can be lacking."""
Task = tuple[str, Callable[[str], bytes]]
"""A file's name, and what makes its bytes with a mark in them."""


def _once(left_out: LeftOut) -> LeftOut:
    """The same, told each sentence once."""
    said: set[str] = set()

    def tell(sentence: str) -> None:
        if sentence not in said:
            said.add(sentence)
            left_out(sentence)

    return tell


def _pdf(pages: tuple[Sheet, ...], name: str, title: str) -> list[Task]:
    from export.paper import pdf

    return [(f"{name}.pdf", lambda mark: pdf.data(pages, title, mark))]


def _pictures(pages: tuple[Sheet, ...], title: str) -> list[Task]:
    from functools import partial

    from export.paper import png

    return [(f"{files.safe_name(page.name)}.png", partial(png.data, page, title)) for page in pages]


def _machine_drawing(
    template: Template, figure: Figure, job: Job, layout: Layout, machine: MachineSettings
) -> MachineDrawing:
    try:
        warnings = warnings_of(job, layout, template.name, _done(template, figure, machine))
        return machine_drawing(figure, layout, machine, job.title, warnings)
    except ExportError as error:
        raise ExportError(f"{template.title}, DXF and SVG: {error}") from error


def _done(template: Template, figure: Figure, machine: MachineSettings) -> tuple[Work, ...]:
    """The steps that a machine does on the wood by a template's file: none by one that it makes for the hand to work
    by, and none whose holes or slot the file lacks.
    """
    if figure.is_template and machine.edge is not None:
        return ()
    there = {mark.purpose for mark in figure.marks if machine.purposes is None or mark.purpose in machine.purposes}
    return tuple(work for work in template.does if work not in MADE_BY or MADE_BY[work] in there)


def _machine_files(
    template: Template,
    job: Job,
    layout: Layout,
    stamp: Stamp,
    only: Sequence[str],
    machine: MachineSettings,
    left_out: LeftOut | None,
) -> list[Task]:
    """DXF and SVG of one template, by name, each with what fills it; the job in mm."""
    if template.draw is None or not {"dxf", "svg"} & set(only):
        return []
    try:
        drawing = _machine_drawing(template, figure_of(template, job, layout, stamp), job, layout, machine)
    except ExportError as error:
        if left_out is None:
            raise
        left_out(str(error))
        return []
    tasks: list[Task] = []
    if "dxf" in only:
        from export.machine import dxf

        suffix = "-mm" if machine.release == "R12" else ""
        tasks.append((f"{template.name}{suffix}.dxf", lambda mark: dxf.data(drawing, machine, mark)))
    if "svg" in only:
        from export.machine import svg

        tasks.append((f"{template.name}.svg", lambda mark: svg.data(drawing, mark)))
    return tasks


def _put(file: File, data: bytes) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        files.replace(file, data)
    except OSError as error:
        raise CannotWrite(file, error) from error


# The mark: which job a file was made for, and what else stands in it, so that one knows it again as it was written.

MARK = re.compile(rb"offsquare:([0-9a-f]{16}):([0-9a-f]{32})")


def _blank(owner: str) -> str:
    """The mark of an owner's files while the rest of the file is not known yet."""
    return f"offsquare:{hashlib.sha256(owner.encode(errors='replace')).hexdigest()[:16]}:{'0' * 32}"


def marked(data: bytes, blank: str) -> bytes:
    """The same bytes, the blank mark filled with what they come to."""
    start = blank.encode()[:-32]
    return _sealed(data.replace(blank.encode(), start + _come_to(data)))


def _come_to(data: bytes) -> bytes:
    return hashlib.sha256(data).hexdigest()[:32].encode()


def _sealed(data: bytes) -> bytes:
    """The same bytes; in a PNG the checksum of the piece that holds the mark made true again (PNG, third edition, 5.3:
    each piece is its length, its name, what it holds, and the checksum of name and holding).
    """
    name = data.find(b"tEXtKeywords\0offsquare:") if data.startswith(b"\x89PNG") else -1
    if name < 0:
        return data
    stop = name + 4 + int.from_bytes(data[name - 4 : name], "big")
    return data[:stop] + zlib.crc32(data[name:stop]).to_bytes(4, "big") + data[stop + 4 :]


def is_ours(file: File, owner: str) -> bool:
    """Whether this is a file that was written for that owner, just as it was written. Raises `OSError`."""
    data = file.read_bytes()
    blank = _blank(owner)
    found = MARK.search(data)
    if found is None or not blank.encode().startswith(b"offsquare:" + found[1]):
        return False
    return _come_to(_sealed(data.replace(found[0], blank.encode()))) == found[2]
