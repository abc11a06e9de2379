"""The campaigns in short, with seeds of their own; and that each can find something wrong."""

import random
import time
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.desk.document.document import Document
from app.desk.document.working_out import WorkingOut
from app.edit import edits as changes
from app.file import job_file, samples
from geometry.job import Job, NotAJob
from geometry.layout import Laid
from tests.campaign.safe import acts, edits, full, jobs, kills, pasted, targets
from tests.campaign.safe.outcome import Outcome, repeat

QT = pytest.mark.usefixtures("qapp")


def nothing_wrong(outcome: Outcome) -> None:
    assert outcome.faults == ()


def test_spoilt_job_files() -> None:
    nothing_wrong(jobs.run(30, 11, exported=1.0))


def test_pasted_texts() -> None:
    nothing_wrong(pasted.run(75, 11))


def test_kills() -> None:
    nothing_wrong(kills.run(2, 11))


def test_targets_where_it_goes_wrong() -> None:
    nothing_wrong(targets.run(12, 11))


def test_a_disk_that_is_really_full() -> None:
    outcome = full.run(8, 11)
    if not outcome.tried:
        pytest.skip("no small disk can be mounted here")
    nothing_wrong(outcome)
    assert outcome.counted["exports written"]
    assert outcome.counted["exports refused"]


@pytest.mark.qt_no_exception_capture
def test_acts_on_the_window(qapp: QApplication) -> None:
    before = qapp.styleSheet()
    nothing_wrong(acts.run(40, 11))
    qapp.setStyleSheet(before)


FEW_READINGS = tuple(filter(None, map(samples.find, ("tie-bridge", "small-four", "floating-five"))))
"""Where a survey takes little, however many readings disagree by then."""


@QT
def test_edits_undo_redo_save_and_load() -> None:
    assert len(FEW_READINGS) == 3
    nothing_wrong(edits.run(2, 11, FEW_READINGS))


# that they can find something


def test_what_raises_or_lasts_is_a_fault() -> None:
    def raises(chance: random.Random, counted: Counter[str]) -> None:
        counted["tries"] += 1
        assert chance.random() < 0

    assert len(repeat(raises, 3, 1).faults) == 3


@pytest.mark.parametrize("name", ["a.pdf", "a.dxf", "a.svg"])
def test_a_file_that_is_cut_off_is_not_opened_again(name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(b"%PDF-1.6 half")
    with pytest.raises(Exception):  # noqa: B017, PT011  # each reader has its own
        jobs.reopen(tmp_path / name)


def test_a_job_that_is_not_read_as_it_was_written_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(job_file, "encode", lambda _: b'{"offsquare": 1}')
    assert jobs.run(20, 11).faults


def test_an_export_that_leaves_half_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("export.files._put_back", lambda *_: [])
    assert any("not as it was before" in fault for fault in targets.run(12, 11).faults)


@QT
def test_a_layout_of_another_job_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    class Stale(WorkingOut):
        def lay_places(self, job: Job) -> Laid:
            self.once = getattr(self, "once", None) or super().lay_places(job)
            return self.once

    first = [Stale()]
    monkeypatch.setattr(edits, "WorkingOut", lambda: first.pop() if first else WorkingOut())
    assert any("the layout is of another job" in fault for fault in edits.run(1, 12).faults)


KILLED_LATE = 142
"""A seed whose first program is killed 2.7 s after its first edit, as long as there are thirteen sample jobs."""


def killed(monkeypatch: pytest.MonkeyPatch, spoilt: str) -> Outcome:
    """One program killed that is spoilt in a way, and whose window never saves."""
    at_work = kills.AT_WORK.replace("chance.random() < 0.1", "chance.random() < 0.0")
    assert at_work != kills.AT_WORK
    monkeypatch.setattr(kills, "AT_WORK", f"from app.desk.document import recovery\n{spoilt}\n{at_work}")
    return kills.run(1, KILLED_LATE)


@pytest.mark.parametrize(
    "spoilt",
    ["recovery.Recovery._written = lambda self: True", "recovery.WAIT = 30.0"],
    ids=["no copy at all", "a copy that comes too late"],
)
def test_lost_work_is_found(spoilt: str, monkeypatch: pytest.MonkeyPatch) -> None:
    (fault,) = killed(monkeypatch, spoilt).faults
    assert fault.endswith("s of work are lost")


def test_a_copy_that_is_cut_off_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    half = "recovery.files.replace = lambda path, data: path.write_bytes(data[: len(data) // 2])"
    (fault,) = killed(monkeypatch, half).faults
    assert "JobFileError" in fault


def fails(*_: object) -> Job:
    raise RuntimeError("wrong on purpose")


def test_a_paste_that_fails_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(changes, "set_value", fails)
    assert any("wrong on purpose" in fault for fault in pasted.run(10, 11).faults)


def test_a_refusal_of_a_paste_that_nobody_reads_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    def at_length(*_: object) -> Job:
        raise NotAJob("this is not a length " * 40)

    monkeypatch.setattr(changes, "set_value", at_length)
    monkeypatch.setattr("app.say.plain_words.shortened", lambda text: text)
    assert any("this is not a length" in fault for fault in pasted.run(10, 11).faults)


def test_a_paste_that_is_not_read_as_it_was_written_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    first = job_file.encode(Job())
    monkeypatch.setattr(job_file, "encode", lambda _: first)
    assert pasted.run(10, 11).faults


@pytest.mark.parametrize(
    ("what", "wrong", "said"),
    [
        ("replace", lambda path, data: path.write_bytes(data), "the file breaks off before its end"),
        ("throw_away", lambda _: None, "not as it was said"),
    ],
    ids=["a job file that breaks off", "an export that leaves its tray"],
)
def test_what_is_left_half_done_on_a_full_disk_is_found(
    what: str, wrong: Callable[..., object], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(f"export.files.{what}", wrong)
    outcome = full.run(8, 58)  # in two of these tries the disk is full just when the job is written
    if not outcome.tried:
        pytest.skip("no small disk can be mounted here")
    assert any(said in fault for fault in outcome.faults)


class Acting(acts.Acting):
    """Another job is opened, an edit made or undone, and looked at what came of it, and nothing else."""

    def __init__(self, chance: random.Random, folder: Path) -> None:
        super().__init__(chance, folder)
        self.acts = ((2, self.another_job), (2, self.strike), (1, self.undo), (2, self.check))

    def strike(self) -> None:
        document = self.desk.document
        if document.job.readings:
            document.edit("striking out", changes.strike(document.job, document.job.readings[0].id))


@pytest.fixture
def few_acts(qapp: QApplication, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    before = qapp.styleSheet()
    monkeypatch.setattr(acts, "Acting", Acting)
    yield
    qapp.setStyleSheet(before)


ACTS = pytest.mark.usefixtures("few_acts")


@ACTS
@pytest.mark.qt_no_exception_capture
def test_these_few_acts_find_nothing_where_nothing_is_wrong() -> None:
    nothing_wrong(acts.run(15, 11))


@ACTS
@pytest.mark.qt_no_exception_capture
def test_an_act_that_fails_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Document, "edit", fails)
    assert any("RuntimeError: wrong on purpose" in fault for fault in acts.run(15, 11).faults)


@ACTS
@pytest.mark.qt_no_exception_capture
def test_a_layout_that_fails_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    first = [WorkingOut.lay_places]
    monkeypatch.setattr(WorkingOut, "lay_places", lambda self, job: (first.pop() if first else fails)(self, job))
    assert any("RuntimeError: wrong on purpose" in fault for fault in acts.run(15, 11).faults)


@ACTS
@pytest.mark.qt_no_exception_capture
def test_a_window_that_hangs_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """It hangs once, while an edit is made, for a little longer than may be."""
    monkeypatch.setattr(acts, "HANGS", 1.0)
    edit, lasts = Document.edit, [1.1]

    def slow(document: Document, text: str, job: Job, merge: str = "") -> None:
        time.sleep(lasts.pop() if lasts else 0.0)
        edit(document, text, job, merge)

    monkeypatch.setattr(Document, "edit", slow)
    assert any("the window hangs for 1." in fault for fault in acts.run(15, 11).faults)


@ACTS
@pytest.mark.qt_no_exception_capture
def test_a_window_with_the_layout_of_another_job_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    class Stale(WorkingOut):
        def lay_places(self, job: Job) -> Laid:
            self.once = getattr(self, "once", None) or super().lay_places(job)
            return self.once

    monkeypatch.setattr("app.desk.frame.desk.WorkingOut", Stale)
    assert any("the layout is of another job" in fault for fault in acts.run(15, 11).faults)
