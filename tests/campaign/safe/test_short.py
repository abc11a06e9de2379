"""The campaigns in short, with seeds of their own; and that each can find something wrong."""

import random
from collections import Counter
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.desk.document.working_out import Thinking
from app.file import job_file
from geometry.job import Job
from tests.campaign.safe import acts, edits, full, jobs, kills, pasted, targets
from tests.campaign.safe.outcome import Outcome, repeat

QT = pytest.mark.usefixtures("qapp")


def nothing_wrong(outcome: Outcome) -> None:
    assert outcome.faults == ()


def test_spoilt_job_files() -> None:
    nothing_wrong(jobs.run(60, 11, exported=1.0))


def test_pasted_texts() -> None:
    nothing_wrong(pasted.run(150, 11))


def test_kills() -> None:
    nothing_wrong(kills.run(2, 11))


def test_targets_where_it_goes_wrong() -> None:
    nothing_wrong(targets.run(25, 11))


def test_a_disk_that_is_really_full() -> None:
    outcome = full.run(8, 11)
    if not outcome.tried:
        pytest.skip("no small disk can be mounted here")
    nothing_wrong(outcome)


@pytest.mark.qt_no_exception_capture
def test_acts_on_the_window(qapp: QApplication) -> None:
    before = qapp.styleSheet()
    nothing_wrong(acts.run(80, 11))
    qapp.setStyleSheet(before)


@QT
def test_edits_undo_redo_save_and_load() -> None:
    nothing_wrong(edits.run(3, 11))


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
    class Stale(Thinking):
        def work_out(self, job: Job) -> object:  # type: ignore[override]  # wrong on purpose
            self.once = getattr(self, "once", None) or super().work_out(job)
            return self.once

    first = [Stale()]
    monkeypatch.setattr(edits, "Thinking", lambda: first.pop() if first else Thinking())
    assert any("the layout is of another job" in fault for fault in edits.run(1, 12).faults)
