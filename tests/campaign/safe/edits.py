"""Random edits, undo, redo, save and load of real jobs, with the layout worked out each time.

Whatever was done, undoing all of it gives the first job back byte for byte, redoing all of it the last; what was saved
is what is read; and the layout is the one that would be worked out of the job anew.
"""

import random
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from PySide6.QtWidgets import QApplication

from app.desk.document.document import Document
from app.desk.document.working_out import WorkingOut
from app.edit import edits
from app.edit.measure import pasting
from app.file import job_file, samples
from geometry.job import Job, NotAJob
from geometry.units import NotALength
from tests.campaign.safe.outcome import Outcome, repeat

STEPS = 40
VALUES = ("43.2", "43,5 mm", "1 11/16 in", "440", "0.1", "-3", "wide", "")


def run(count: int, seed: int, paths: Sequence[Path] = ()) -> Outcome:
    """So many jobs edited, of these files or of all samples."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert app is not None
    of = tuple(paths) or samples.paths()
    return repeat(lambda chance, counted: one(chance, counted, of), count, seed)


def one(chance: random.Random, counted: Counter[str], paths: Sequence[Path]) -> None:
    first = job_file.read(chance.choice(paths))
    document = Document(WorkingOut().lay_places, first)
    document.wake()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.job.json"
        for number in range(STEPS):
            kind = _act(document, path, chance, f"change {number}")
            counted[kind] += 1
            if kind == "loads":
                first = document.job
            if chance.random() < 0.1:
                assert document.layout == WorkingOut().work_out(document.job), "the layout is of another job"
    document._awake = False  # no layouts are asked for on the way back
    last = document.job
    ahead = document.stack.count() - document.stack.index()
    while document.stack.canUndo():
        document.stack.undo()
    assert job_file.encode(document.job) == job_file.encode(first), "undoing all does not lead back"
    while document.stack.count() - document.stack.index() > ahead:
        document.stack.redo()
    assert job_file.encode(document.job) == job_file.encode(last), "doing it again does not lead there"
    document.stack.clear()


def _act(document: Document, path: Path, chance: random.Random, name: str) -> str:
    match chance.randrange(12):
        case 0:
            document.stack.undo()
            return "undone"
        case 1:
            document.stack.redo()
            return "redone"
        case 2:
            document.save(path)
            assert job_file.read(path) == document.job, "what was saved is not what was there"
            return "saves"
        case 3 if path.exists():
            document.open(path)
            return "loads"
        case 4:
            document.give_up(chance.choice(("visit 1", "visit 2")))
            return "given up"
        case _:
            try:
                document.edit(name, _edited(document.job, chance), chance.choice(("", "", "visit 1", "visit 2")))
            except (NotAJob, NotALength):
                return "refused"
            return "edits"


def _edited(job: Job, chance: random.Random) -> Job:
    which = chance.choice([reading.id for reading in job.readings] or ["none"])
    match chance.randrange(8):
        case 0 | 1 | 2:
            return edits.set_value(job, which, chance.choice(VALUES))
        case 3:
            return edits.strike(job, which)
        case 4:
            return edits.set_unit(job, chance.choice(("mm", "in", "cm")))
        case 5:
            return edits.add(job, "distance", ("nut.left", chance.choice(("end.left", "seam.1", "nut.right"))))
        case 6:
            return edits.remove(job, which)
        case _:
            return pasting.paste(job, "\n".join(chance.choices(VALUES[:4], k=2)), which)
