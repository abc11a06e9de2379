"""The document: every change is undone by name, and undoing all of it gives the first job back, byte for byte."""

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

from app import edits, jobfile
from app.desk.document import Document
from geometry.job import Job, Reading
from geometry.layout import Layout, Survey


def nothing(_job: Job) -> Layout:
    return Layout(frame="straightedge", points={}, readings=(), survey=Survey(verdict="unchecked", why=""))


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
    with pytest.raises(jobfile.JobFileError):
        doc.open(bad)
    assert doc.job == FIRST


class Edits(RuleBasedStateMachine):
    """Random edits, undo, redo, save and load."""

    folder: Path

    @initialize()
    def begin(self) -> None:
        self.doc = document()
        self.past = [FIRST]
        self.future: list[Job] = []
        self.count = 0

    def changed(self, job: Job) -> None:
        if job != self.doc.job:
            self.count += 1
            self.doc.edit(f"change {self.count}", job, f"visit {self.count}")
            self.past.append(job)
            self.future = []

    @rule(which=st.sampled_from(["r1", "r2"]), value=st.integers(30, 60))
    def set_value(self, which: str, value: int) -> None:
        if any(r.id == which for r in self.doc.job.readings):
            self.changed(edits.set_value(self.doc.job, which, f"{value} mm"))

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
    def save_and_read_back(self) -> None:
        assert jobfile.decode(jobfile.encode(self.doc.job)) == self.doc.job

    @invariant()
    def the_job_is_the_one_expected(self) -> None:
        assert self.doc.job == self.past[-1]

    def teardown(self) -> None:
        while self.doc.stack.canUndo():
            self.doc.stack.undo()
        assert jobfile.encode(self.doc.job) == jobfile.encode(FIRST)


@pytest.mark.usefixtures("qapp")
def test_random_edits_undo_to_the_first_job_byte_for_byte() -> None:
    run_state_machine_as_test(Edits, settings=settings(max_examples=40, stateful_step_count=25, deadline=None))
