"""Spoilt job files through reading, working out and export, whose files are opened again by other software."""

import datetime
import math
import random
import tempfile
import xml.etree.ElementTree as ET
from collections import Counter
from pathlib import Path

import ezdxf
import msgspec
import pypdfium2
import svgelements

from app.file import export_job, job_file
from app.say import terminal
from export import ExportError, write_all
from export.templates import TEMPLATES
from geometry.job import Job
from geometry.work_out import work_out
from tests.campaign.safe.outcome import HANGS, Outcome, no_longer, repeat
from tests.campaign.safe.spoiling import spoilt

DAY = datetime.date(2026, 1, 2)
EXPORTED = 0.1
"""The share of the jobs read that is exported as well: that takes a hundred times as long as to work them out."""


def run(count: int, seed: int, exported: float = EXPORTED) -> Outcome:
    return repeat(lambda chance, counted: one(chance, counted, exported), count, seed)


def one(chance: random.Random, counted: Counter[str], exported: float) -> None:
    with no_longer(HANGS):
        job = read(spoilt(chance), counted)
        if job is None:
            return
        again = job_file.decode(job_file.encode(job))
        assert again == job, "what is written is not what was read"
        layout = work_out(job)
    assert math.isfinite(sum(sum(abs(v) for v in (p.x, p.y)) for p in layout.points.values())), "a point is nowhere"
    counted["worked out"] += 1
    if chance.random() >= exported:
        return
    names = tuple(TEMPLATES) if chance.random() < 0.1 else tuple(chance.sample(tuple(TEMPLATES), 2))
    with tempfile.TemporaryDirectory() as folder:
        try:
            stamp = export_job.stamp(job, job_file.fingerprint(job))
            stamp = msgspec.structs.replace(stamp, templates=names, date=DAY)
            written = write_all(job, layout, stamp, Path(folder), left_out=lambda _: counted.update(["left out"]))
        except ExportError as error:
            counted["exports refused" if "\n" not in str(error) else "refused in more than one line"] += 1
            return
        counted["exported"] += 1
        for path in written:
            reopen(path)
            counted[f"{path.suffix[1:]} reopened"] += 1


def read(data: bytes, counted: Counter[str]) -> Job | None:
    """The job in a file, or None where it is refused in one short sentence."""
    try:
        job = job_file.decode(data, "spoilt.job.json")
    except job_file.JobFileError as error:
        said = str(error)
        assert len(said) <= terminal.LONGEST, f"{len(said)} signs: {said}"
        assert terminal.plain(said) == said, f"steers the terminal: {said!r}"
        assert "\n" not in said, said
        counted["refused"] += 1
        return None
    counted["read"] += 1
    return job


def reopen(path: Path) -> None:
    """Open a file with software that has no part in writing it; raises where that stumbles."""
    if path.suffix == ".pdf":
        document = pypdfium2.PdfDocument(path)
        assert len(document) > 0
        for page in document:
            page.get_textpage().get_text_bounded()
        document.close()
    elif path.suffix == ".dxf":
        found = ezdxf.readfile(path)  # type: ignore[attr-defined]  # it is there, but not among the names it exports
        assert not found.audit().errors
        assert len(found.modelspace()) > 0
        assert "nan" not in path.read_text(errors="replace").lower().split()
    else:
        ET.parse(path)
        assert list(svgelements.SVG.parse(str(path)).elements())
