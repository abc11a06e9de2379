"""Writing a job's templates from the command line: all the files that were asked for, or none.

The files are first written into a **tray**, a folder of their own inside the wanted one, and moved out when all are
there. A `stop` finding keeps them from being written at all, unless the person insists; the sheets then say STOP.
"""

import datetime
import re
import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path

from app import files
from app.settings import Correction
from export.errors import ExportError
from export.records import Stamp
from export.templates import LeftOut
from export.writing import KINDS, Progress, write_all
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Layout
from geometry.survey.words import listed
from geometry.units import mm


class NotExported(Exception):
    """Nothing was written; the message says why."""


class AlreadyThere(NotExported):
    """Files of the same names are in the folder, and they were not to be replaced."""


NOT_IN_NAMES = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')
"""What one system or another allows in no file's name."""


def folder_for(path: Path | None, name: str) -> Path:
    """The folder for a job's own files: beside its file, else with the person's documents."""
    home = Path.home()
    beside = path.parent if path else home / "Documents" if (home / "Documents").is_dir() else home
    return beside.absolute() / f"{NOT_IN_NAMES.sub('-', name).strip(' .')[:80] or 'job'} sheets"


def stamp(job: Job, fingerprint: str, printer: str = "", correction: Correction | None = None) -> Stamp:
    """What this print's sheets carry. `fingerprint` is that of the job as it stands in its file."""
    factors = correction or Correction()
    return Stamp(
        date=datetime.datetime.now().astimezone().date(),
        fingerprint=fingerprint,
        correction=(factors.x, factors.y),
        printer=printer,
        paper=job.sheets.paper,
        turn=job.sheets.turn,
        margin=mm(job.sheets.margin),
        templates=job.sheets.templates,
        ledge=mm(job.sheets.ledge),
    )


def tool_findings(job: Job, layout: Layout, carried: Stamp, only: Sequence[str] = KINDS) -> tuple[Finding, ...]:
    """What there is to say of the job's cutter or kerf; nothing where no file for a machine is written."""
    if not {"dxf", "svg"} & set(only) or (job.sheets.cutter is None and not mm(job.sheets.kerf)):
        return ()
    from export.tool_findings import job_tool_findings

    return job_tool_findings(job, layout, carried)


def refuse_stops(findings: Sequence[Finding]) -> None:
    """Raise `NotExported` where something would spoil the work."""
    stops = [finding.text for finding in findings if finding.grade == "stop"]
    if stops:
        raise NotExported(
            f"nothing was written, for this would spoil the work: {' Also: '.join(stops)} "
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
    replace: bool = True,
) -> tuple[Path, ...]:
    """Write the stamp's templates into `folder`, which is made where it is missing. Returns the files written.

    `left_out` is told why something cannot be made while other things can; without it that, too, is `NotExported`.
    Raises `NotExported`, with nothing written (`AlreadyThere` where files would take others' places and are not to
    `replace` them); what `progress` raises goes through, also with nothing written.
    """
    reasons: list[str] = []
    if not carried.templates:
        raise NotExported(
            "nothing was written, for the job names no template; choose some, or add --template placement"
        )
    made = tray = None
    try:
        made = _first_missing(folder)
        folder.mkdir(parents=True, exist_ok=True)
        tray = Path(tempfile.mkdtemp(prefix=".offsquare-", dir=folder))
        written = write_all(
            job, layout, carried, tray, only, progress=progress, left_out=reasons.append if left_out else None
        )
        if not written:
            raise NotExported(f"nothing was written. {'. '.join(reasons) or 'No sheet and no file was chosen'}")
        for path in written:
            if (folder / path.name).is_dir():
                raise NotExported(
                    f"nothing was written in {folder}: “{path.name}” is a folder there; rename that folder"
                )
        there = [path.name for path in written if (folder / path.name).exists()]
        if there and not replace:
            raise AlreadyThere(f"{folder} has {listed(there, 3)} already")
        done = tuple(path.replace(folder / path.name) for path in written)
    except ExportError as error:
        raise NotExported(str(error).replace(str(tray), str(folder))) from None
    except OSError as error:
        raise NotExported(f"nothing can be written in {folder}: {files.why(error)}; choose another folder") from None
    else:
        for reason in reasons:
            if left_out:
                left_out(reason)
    finally:
        if tray is not None:
            shutil.rmtree(tray, ignore_errors=True)
        _clear(folder, made)
    return done


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
