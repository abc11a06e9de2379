"""Writing all files of a job into a folder, each whole or not at all."""

import os
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path as File

from export.errors import CannotWrite, ExportError
from export.sheets import Stamp
from geometry.job import Job
from geometry.layout import Layout

Progress = Callable[[int, int, str], None]
KINDS = ("pdf", "dxf", "svg")


def write_all(
    job: Job,
    layout: Layout,
    stamp: Stamp,
    folder: File,
    only: Sequence[str] = KINDS,
    progress: Progress | None = None,
) -> tuple[File, ...]:
    """Write the stamp's templates into `folder` and return the files written. Raises `ExportError`."""
    from export.templates import TEMPLATES, sheets

    for kind in only:
        if kind not in KINDS:
            raise ExportError(f"“{kind}” is not a kind of file that can be written; use {', '.join(KINDS)}")
    pages = sheets(job, layout, stamp)
    written: list[File] = []
    names = [name for name in stamp.templates if "pdf" in only or name in TEMPLATES]
    total = len(names) * len(only)
    for name in names:
        for kind in only:
            if progress:
                progress(len(written), total, f"{name}.{kind}")
            target = folder / f"{name}.{kind}"
            if kind == "pdf":
                from export import pdf

                own = [page for page in pages if page.template == name]
                whole(target, lambda file, own=own: pdf.write(own, file, job.title))  # type: ignore[misc]
                written.append(target)
            elif kind == "dxf":
                from export import dxf
                from export.machine import datum_place, ready

                figure = TEMPLATES[name].draw(job, layout)
                cut = ready(
                    figure.marks, datum_place(layout, job.sheets.datum), job.sheets.datum, (), mirror=figure.mirror
                )
                whole(target, lambda file, cut=cut: dxf.write(cut, file))  # type: ignore[misc]
                written.append(target)
    if progress:
        progress(total, total, "")
    return tuple(written)


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
