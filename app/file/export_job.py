"""Writing a job's templates into a folder: all the files that were asked for, or none.

The files are first written into a tray inside the wanted folder, and moved out when all are there; should one not be
able to take its place, those before it go back. A `stop` finding keeps them from being written at all, unless the
person insists; the sheets then say STOP.
"""

import datetime
import os
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from export import USUAL_KINDS, files
from export.correction import NONE, Correction
from export.errors import ExportError
from export.records import Stamp
from export.templates import LeftOut
from export.writing import Progress, is_ours, write_all
from geometry import words
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm


class NotExported(Exception):
    """The export failed; the message says why, and that nothing was written or what was."""


class AlreadyThere(NotExported):
    """Files of the same names are in the folder, and they were not to be replaced."""


Replace = Literal["all", "own", "none"]
"""Which files of the same names may be written over; own: those written for the same job, and as they were written."""


def folder_for(path: Path | None, name: str) -> Path:
    """The folder for a job's own files: beside its file, else with the person's documents."""
    home = Path.home()
    beside = path.parent if path else home / "Documents" if (home / "Documents").is_dir() else home
    return beside.absolute() / f"{files.safe_name(name)} sheets"


def stamp(job: Job, fingerprint: str, printer: str = "", correction: Correction = NONE) -> Stamp:
    """What this print's sheets carry. `fingerprint` is that of the job as it stands in its file."""
    return Stamp(
        date=datetime.datetime.now().astimezone().date(),
        fingerprint=fingerprint,
        correction=correction,
        printer=printer,
        paper=job.sheets.paper,
        turn=job.sheets.turn,
        margin=mm(job.sheets.margin),
        templates=job.sheets.templates,
        ledge=mm(job.sheets.ledge),
    )


def tool_findings(job: Job, layout: Layout, carried: Stamp, only: Sequence[str] = USUAL_KINDS) -> tuple[Finding, ...]:
    """What there is to say of cutters, kerf and pilot holes; nothing where no file for a machine is written."""
    if not {"dxf", "svg"} & set(only) or not job.sheets.names_tool:
        return ()
    from export.tool_findings import job_tool_findings

    return job_tool_findings(job, layout, carried)


def refuse_stops(findings: Sequence[Finding]) -> None:
    """Raise `NotExported` where something would spoil the work."""
    stops = [finding.text for finding in findings if finding.grade == "stop"]
    if stops:
        more = f"There are {len(stops) - 1} more; work-out names them. " if len(stops) > 1 else ""
        raise NotExported(
            f"nothing was written, for this would spoil the work: {stops[0]} {more}"
            "To have the sheets all the same, marked STOP, add --despite-stops"
        )


def export(
    job: Job,
    layout: Layout,
    carried: Stamp,
    folder: Path,
    only: Sequence[str],
    *,
    progress: Progress | None = None,
    left_out: LeftOut | None = None,
    replace: Replace = "all",
    owner: str = "",
) -> tuple[Path, ...]:
    """Write the stamp's templates into `folder`, which is made where it is missing. Returns the files written.

    `left_out` is told why something cannot be made while other things can; without it that, too, is `NotExported`.
    `owner` (see `owner_of`) is who the files are marked for. Raises `NotExported`, with nothing written and every old
    file in its place (`AlreadyThere` where files would take others' places and are not to `replace` them); what
    `progress` raises goes through, also with nothing written.
    """
    reasons: list[str] = []
    _refuse_name(folder)
    if not carried.templates:
        raise NotExported(
            "nothing was written, for the job names no template; choose some, or add --template placement"
        )
    made = tray = None
    try:
        made = _first_missing(folder)
        folder.mkdir(parents=True, exist_ok=True)
        files.sweep(folder)
        tray = files.tray_in(folder)
        told = reasons.append if left_out else None
        written = write_all(job, layout, carried, tray, only, progress=progress, left_out=told, owner=owner)
        if not written:
            raise NotExported(f"nothing was written. {'. '.join(reasons) or 'No sheet and no file was chosen'}")
        names = tuple(path.name for path in written)
        _look_round(folder, names, replace, owner)
        files.move_out(tray, folder, names)
    except ExportError as error:
        raise NotExported(str(error).replace(str(tray), str(folder))) from None
    except files.HalfMoved as error:
        raise NotExported(
            f"only some files were written in {folder}: {words.several(error.names, 3)} took their places and could "
            f"not be taken back; those from before are in “{error.kept.name}” there. Look at that folder and export "
            "again"
        ) from None
    except OSError as error:
        raise NotExported(_why_not(folder, tray, error)) from None
    else:
        for reason in reasons:
            if left_out:
                left_out(reason)
    finally:
        if tray is not None:
            files.throw_away(tray)
        _clear(folder, made)
    return tuple(folder / name for name in names)


def _refuse_name(folder: Path) -> None:
    """Raise `NotExported` for what no system takes as a folder's name."""
    try:
        ok = b"\0" not in os.fsencode(folder)
    except UnicodeEncodeError:
        ok = False
    if not ok:
        raise NotExported("nothing was written: the folder’s name holds a sign that no folder’s can; type it again")


def owner_of(job: Job, path: Path | None) -> str:
    """What tells one job's files from another's: its title and its file's name."""
    return f"{job.title}\n{path.name if path else ''}"


def _look_round(folder: Path, names: Sequence[str], replace: Replace, owner: str) -> None:
    """Raise `NotExported` where files of these names in the folder must stay."""
    for name in names:
        if (folder / name).is_dir():
            raise NotExported(f"nothing was written in {folder}: “{name}” is a folder there; rename that folder")
    there = [name for name in names if os.path.lexists(folder / name)] if replace != "all" else []
    if replace == "own":
        there = [name for name in there if not is_ours(folder / name, owner)]
    if there:
        raise AlreadyThere(f"{folder} has {words.several(there, 3)} already")


def _why_not(folder: Path, tray: Path | None, error: OSError) -> str:
    """Why nothing was written; it was one file's fault where the error names one beside the tray."""
    reason = files.why(error)
    name = Path(os.fsdecode(error.filename)) if isinstance(error.filename, str | bytes) else None
    if tray is not None and name is not None and name.parent == folder and name != tray:
        return (
            f"nothing was written in {folder}, for “{name.name}” there cannot be replaced: {reason}; close the "
            "program that has it open, or choose another folder"
        )
    return f"nothing can be written in {folder}: {reason}; choose another folder"


def _first_missing(folder: Path) -> Path | None:
    """The uppermost of the folders that are still to be made."""
    missing = [path for path in (folder, *folder.parents) if not path.exists()]
    return missing[-1] if missing else None


def _clear(folder: Path, made: Path | None) -> None:
    """Take away the folders that were made for files which then were not written."""
    while made is not None and folder.is_relative_to(made):
        try:
            folder.rmdir()
        except OSError:
            return
        folder = folder.parent
