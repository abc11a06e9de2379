"""The document: every change is undone by name, and undoing all of it gives the first job back, byte for byte."""

import gc
import tempfile
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import settings
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from app.desk.document.document import Document
from app.edit import edits
from app.file import job_file
from geometry.job import Job, Reading
from geometry.layout import Laid, Layout, Survey, Why


def nothing(_job: Job) -> Laid:
    return Laid(
        Layout(frame="straightedge", points={}, readings=(), survey=Survey(verdict="unchecked", why=Why(what="")))
    )


FIRST = edits.add_reading(
    edits.add_reading(Job(title="first"), Reading(id="r1", kind="distance", of=("nut.left", "nut.right"), value=43.0)),
    Reading(id="r2", kind="distance", of=("end.left", "end.right")),
)


def document() -> Document:
    made = Document(nothing, FIRST)
    made.wake()
    return made


@pytest.mark.usefixtures("qapp")
def test_an_edit_is_undone_by_name() -> None:
    doc = document()
    doc.edit("nut width 46.2", edits.set_value(doc.job, "r1", "46.2"))
    assert doc.stack.undoText() == "nut width 46.2"
    doc.stack.undo()
    assert doc.job == FIRST


@pytest.mark.usefixtures("qapp")
def test_edits_of_one_visit_are_one_step() -> None:
    doc = document()
    for text in ("4", "46", "46.2"):
        if text != "4":
            doc.edit(f"nut width {text}", edits.set_value(doc.job, "r1", text), "visit 1")
    assert doc.stack.count() == 1
    assert doc.stack.undoText() == "nut width 46.2"
    doc.stack.undo()
    assert doc.job == FIRST


@pytest.mark.usefixtures("qapp")
def test_edits_of_two_visits_are_two_steps() -> None:
    doc = document()
    doc.edit("nut width 46", edits.set_value(doc.job, "r1", "46"), "visit 1")
    doc.edit("nut width 47", edits.set_value(doc.job, "r1", "47"), "visit 2")
    assert doc.stack.count() == 2


@pytest.mark.usefixtures("qapp")
def test_an_edit_that_changes_nothing_is_no_step() -> None:
    doc = document()
    doc.edit("nothing", FIRST)
    assert doc.stack.count() == 0


@pytest.mark.usefixtures("qapp")
def test_typing_back_to_the_start_leaves_nothing_to_undo() -> None:
    doc = document()
    doc.edit("nut width 46", edits.set_value(doc.job, "r1", "46"), "visit 1")
    doc.edit("nut width 43", edits.set_value(doc.job, "r1", "43"), "visit 1")
    assert doc.job == FIRST
    assert doc.stack.count() == 0


@pytest.mark.usefixtures("qapp")
def test_the_layout_waits_until_the_desk_is_awake() -> None:
    doc = Document(nothing, FIRST)
    assert doc.layout is None
    doc.wake()
    assert doc.layout is not None


@pytest.mark.usefixtures("qapp")
def test_a_saved_document_says_so(tmp_path: Path) -> None:
    doc = document()
    doc.edit("nut width 46", edits.set_value(doc.job, "r1", "46"))
    doc.save(tmp_path / "a.job.json")
    saved = doc.saved
    doc.stack.undo()
    assert (saved, doc.saved) == (True, False)


@pytest.mark.usefixtures("qapp")
def test_a_file_that_is_no_job_leaves_the_document_alone(tmp_path: Path) -> None:
    doc = document()
    bad = tmp_path / "bad.job.json"
    bad.write_text("{", encoding="utf-8")
    with pytest.raises(job_file.JobFileError):
        doc.open(bad)
    assert doc.job == FIRST


@pytest.mark.usefixtures("qapp")
def test_a_job_opened_after_unsaved_work_was_put_away_is_saved(tmp_path: Path) -> None:
    job_file.write(FIRST, tmp_path / "a.job.json")
    doc = document()
    doc.start(FIRST, changed_since=True)
    assert not doc.saved
    doc.open(tmp_path / "a.job.json")
    assert doc.saved


@pytest.mark.usefixtures("qapp")
def test_keys_that_are_one_step_leave_no_jobs_behind() -> None:
    doc = document()
    for number in range(200):
        doc.edit(f"title {number}", edits.replace(doc.job, title=f"kept {number}"), "visit")
    doc.start(FIRST)
    gc.collect()
    left = [one for one in gc.get_objects() if type(one) is Job and one.title.startswith("kept ")]
    assert left == []


class Edits(RuleBasedStateMachine):
    """Random edits, single and in visits, given up or not; undo, redo, save and open.

    `past`: the jobs from the first to the one in hand, each with the visit that led to it; `clean`: which is saved.
    """

    @initialize()
    def begin(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name) / "a.job.json"
        self.doc = document()
        self.count = 0
        self.begun(FIRST)

    def begun(self, job: Job, clean: int | None = 0) -> None:
        self.first, self.clean = job, clean
        self.kept = None if clean is None else job
        self.past: list[tuple[Job, str]] = [(job, "")]
        self.future: list[tuple[Job, str]] = []

    @property
    def at(self) -> int:
        return len(self.past) - 1

    def changed(self, job: Job, visit: str = "") -> None:
        """Edit, and work out what the undo stack should hold then."""
        if job != self.doc.job:
            self.count += 1
            self.doc.edit(f"change {self.count}", job, visit)
            self.future = []
            self.forget_lost_mark()
            if visit and visit == self.past[-1][1] and self.clean != self.at:
                self.past.pop()
            if job != self.past[-1][0] or not visit:
                self.past.append((job, visit))
            self.forget_lost_mark()

    def forget_lost_mark(self) -> None:
        """The saved job is out of reach once its step is gone."""
        if self.clean is not None and self.clean > self.at:
            self.clean = None

    @rule(which=st.sampled_from(["r1", "r2"]), value=st.integers(30, 60))
    def set_value(self, which: str, value: int) -> None:
        if any(r.id == which for r in self.doc.job.readings):
            self.changed(edits.set_value(self.doc.job, which, f"{value} mm"))

    @rule(value=st.integers(42, 43), visit=st.sampled_from(["visit 1", "visit 2"]))
    def type_in_a_visit(self, value: int, visit: str) -> None:
        """Values that come back now and then, the first among them."""
        if any(r.id == "r1" for r in self.doc.job.readings):
            self.changed(edits.set_value(self.doc.job, "r1", f"{value} mm"), visit)

    @rule(visit=st.sampled_from(["visit 1", "visit 2"]))
    def give_up(self, visit: str) -> None:
        self.doc.give_up(visit)
        if not self.future and self.past[-1][1] == visit:
            self.past.pop()
            self.forget_lost_mark()

    @rule(which=st.sampled_from(["r1", "r2"]))
    def strike(self, which: str) -> None:
        if any(r.id == which for r in self.doc.job.readings):
            self.changed(edits.strike(self.doc.job, which))

    @rule(unit=st.sampled_from(["mm", "in", "cm"]))
    def unit(self, unit: str) -> None:
        self.changed(edits.set_unit(self.doc.job, unit))  # type: ignore[arg-type]  # one of the three

    @rule()
    def add(self) -> None:
        self.changed(edits.add(self.doc.job, "distance", ("nut.left", "end.left")))

    @precondition(lambda self: len(self.past) > 1)
    @rule()
    def undo(self) -> None:
        self.future.append(self.past.pop())
        self.doc.stack.undo()

    @precondition(lambda self: bool(self.future))
    @rule()
    def redo(self) -> None:
        self.past.append(self.future.pop())
        self.doc.stack.redo()

    @rule()
    def save(self) -> None:
        self.doc.save(self.path)
        self.clean, self.kept = self.at, self.doc.job
        assert job_file.read(self.path) == self.doc.job

    @precondition(lambda self: self.path.exists())
    @rule()
    def open(self) -> None:
        wanted = job_file.read(self.path)
        self.doc.open(self.path)
        self.begun(wanted)

    @rule()
    def open_what_is_no_job(self) -> None:
        bad = self.path.with_name("bad.job.json")
        bad.write_text("{", encoding="utf-8")
        with pytest.raises(job_file.JobFileError):
            self.doc.open(bad)

    @rule()
    def bring_back_unsaved_work(self) -> None:
        job = self.doc.job
        self.doc.start(job, None, changed_since=True)
        self.begun(job, clean=None)

    @invariant()
    def the_job_is_the_one_expected(self) -> None:
        assert self.doc.job == self.past[-1][0]

    @invariant()
    def the_saved_mark_is_the_one_expected(self) -> None:
        assert self.doc.saved == (self.doc.job == self.kept)

    @invariant()
    def there_are_as_many_steps_as_expected(self) -> None:
        assert (self.doc.stack.index(), self.doc.stack.count()) == (self.at, self.at + len(self.future))

    def teardown(self) -> None:
        while self.doc.stack.canUndo():
            self.doc.stack.undo()
        assert job_file.encode(self.doc.job) == job_file.encode(self.first)
        self.doc.stack.clear()  # the binding may stumble over changes that are collected together with their stack
        self.folder.cleanup()


@pytest.mark.usefixtures("qapp")
def test_random_edits_undo_to_the_first_job_byte_for_byte() -> None:
    run_state_machine_as_test(Edits, settings=settings(max_examples=60, stateful_step_count=30, deadline=None))
