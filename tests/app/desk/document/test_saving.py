"""Saving: no file is written over that the person did not mean, whatever its name and whoever changed it meanwhile."""

from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from app.desk.document.open_and_save import Dialogs, question, say_changed_outside
from app.desk.frame.desk import Desk
from app.file import job_file, samples
from app.say.terminal import LONGEST
from geometry.job import Job
from tests.app.desk.conftest import Answers, sample

OTHER = Job(title="another job")


def test_a_job_is_always_saved_under_its_ending(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    for typed, name in (
        ("neck", "neck.job.json"),
        ("J. 1920", "J. 1920.job.json"),
        ("neck.json", "neck.job.json"),
        ("neck.job", "neck.job.json"),
        ("neck.job.json", "neck.job.json"),
        ("neck.txt", "neck.txt.job.json"),
    ):
        folder = tmp_path / f"typed {typed}"
        folder.mkdir()
        desk.job_files.new(sample("leaning-neck"))
        answers.save, answers.asked = folder / typed, []
        assert desk.job_files.save_as()
        assert [path.name for path in folder.iterdir()] == [name]
        assert answers.asked == ["save Leaning neck.job.json"]


@pytest.mark.parametrize(
    ("title", "suggested"), [("", "Untitled.job.json"), ("The blue one’s job", "The blue one’s.job.json")]
)
def test_a_suggested_name_does_not_say_job_twice(desk: Desk, answers: Answers, title: str, suggested: str) -> None:
    desk.job_files.new(Job(title=title))
    assert not desk.job_files.save_as()
    assert answers.asked[-1] == f"save {suggested}"


def test_it_is_asked_about_the_name_with_its_ending(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    theirs = tmp_path / "neck.job.json"
    job_file.write(OTHER, theirs)
    answers.save, answers.over = tmp_path / "neck", False
    assert not desk.job_files.save_as()
    assert "replace neck.job.json" in answers.asked
    assert job_file.read(theirs) == OTHER
    answers.save, answers.over = tmp_path / "neck", True
    assert desk.job_files.save_as()
    assert job_file.read(theirs) == desk.document.job


def test_a_title_is_made_fit_for_a_file(desk: Desk, answers: Answers) -> None:
    desk.job_files.new(Job(title='a/b: "c"?' + "x" * 300))
    desk.job_files.save_as()
    assert answers.asked[-1] == f"save a-b- -c-{'x' * 72}.job.json"  # 80 characters, and none that a system forbids


@pytest.fixture
def kept(desk: Desk, tmp_path: Path) -> Path:
    """The desk's job in its file, edited since."""
    path = tmp_path / "neck.job.json"
    desk.document.save(path)
    desk.measure.commands.strike_or_bring_back()
    return path


def test_a_file_that_nobody_touched_is_saved_without_a_question(desk: Desk, answers: Answers, kept: Path) -> None:
    kept.touch()
    assert desk.job_files.save()
    assert answers.asked == []


def test_a_file_that_was_changed_outside_is_asked_about(desk: Desk, answers: Answers, kept: Path) -> None:
    job_file.write(OTHER, kept)
    answers.outside = "stay"
    assert not desk.job_files.save()
    assert answers.asked == ["outside neck.job.json True"]
    assert job_file.read(kept) == OTHER
    assert not desk.document.saved


def test_both_can_be_kept(desk: Desk, answers: Answers, kept: Path) -> None:
    job_file.write(OTHER, kept)
    (kept.with_name("neck 2.job.json")).write_text("mine")
    answers.outside = "both"
    assert desk.job_files.save()
    assert job_file.read(kept) == OTHER
    assert desk.document.path == kept.with_name("neck 3.job.json")
    assert job_file.read(desk.document.path) == desk.document.job
    assert desk.notice.words.text() == (
        "Saved as “neck 3.job.json”; “neck.job.json” stays as the other program left it."
    )


def test_it_can_be_written_over_and_is_then_known(desk: Desk, answers: Answers, kept: Path) -> None:
    job_file.write(OTHER, kept)
    assert desk.job_files.save()
    desk.measure.commands.strike_or_bring_back()
    assert desk.job_files.save()
    assert answers.asked == ["outside neck.job.json True"]


def test_saving_under_the_same_name_asks_just_the_same(desk: Desk, answers: Answers, kept: Path) -> None:
    job_file.write(OTHER, kept)
    answers.save, answers.outside = kept.with_name("neck"), "stay"
    assert not desk.job_files.save_as()
    assert answers.asked == ["save neck.job.json", "outside neck.job.json True"]


def test_a_file_that_is_gone_is_written_anew(desk: Desk, answers: Answers, kept: Path) -> None:
    kept.unlink()
    assert desk.job_files.save()
    assert answers.asked == []
    assert job_file.read(kept) == desk.document.job


def test_a_file_that_was_opened_is_known(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    path = tmp_path / "by hand.job.json"
    path.write_text('{"offsquare": 1}')
    desk.job_files.open_path(path)
    desk.document.edit("title", Job(title="x"))
    assert desk.job_files.save()
    assert [asked for asked in answers.asked if asked.startswith("outside")] == []


def test_the_question_says_both_times() -> None:
    said, more = say_changed_outside("neck.job.json", 86400.0 * 400, 86400.0 * 300)
    assert said.startswith("“neck.job.json” was changed by another program or another window (1971-02-05 at ")
    assert "after it was opened or saved here (1970-10-2" in said
    assert "beside it, under another name" in more


@pytest.mark.usefixtures("qapp")
def test_a_title_in_a_question_is_no_markup() -> None:
    window = QWidget()
    box = question(window, "“<b>bold</b>” has changes", "Save them first?")
    assert box.textFormat() == Qt.TextFormat.PlainText


@pytest.mark.usefixtures("qapp")
def test_a_title_without_end_leaves_its_question_short() -> None:
    window = QWidget()
    box = question(window, f"“{'many words ' * 400}” has changes that are not saved.", "Save them first?")
    assert len(box.text()) <= LONGEST
    assert box.text().endswith("” has changes that are not saved.")


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    ("button", "answer"), [("Keep both", "both"), ("Write over it", "overwrite"), ("Cancel", "stay")]
)
def test_the_answers_are_those_of_the_buttons(button: str, answer: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def pressed(box: QMessageBox) -> int:
        next(each for each in box.buttons() if each.text().replace("&", "") == button).click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", pressed)
    dialogs = Dialogs(QWidget())
    assert dialogs.changed_outside("neck.job.json", 2.0, None) == answer
    if answer == "stay":
        assert dialogs.replace("neck.job.json", Path("/x")) is False


def test_a_new_job_in_which_nothing_was_typed_is_left_without_a_question(desk: Desk, answers: Answers) -> None:
    desk.job_files.new(Job())
    desk.commands.next_unit()
    assert desk.job_files.new(sample("one-slip"))
    job = desk.document.job
    ticked = msgspec.structs.replace(job.sheets, templates=("placement", "job-sheet"), paper="A3")
    desk.document.edit("templates", msgspec.structs.replace(job, sheets=ticked))
    assert desk.job_files.new(Job())
    assert answers.asked == []


def test_what_was_done_and_taken_back_by_hand_is_no_change(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    desk.document.save(tmp_path / "neck.job.json")
    desk.measure.commands.strike_or_bring_back()
    assert desk.frame.windowTitle().startswith("Leaning neck*")
    desk.measure.commands.strike_or_bring_back()
    assert desk.frame.windowTitle().startswith("Leaning neck ")
    assert desk.job_files.new(Job())
    assert answers.asked == []


def test_a_ticked_template_of_a_job_with_a_file_is_asked_about(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    desk.document.save(tmp_path / "neck.job.json")
    job = desk.document.job
    ticked = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, paper="A3"))
    desk.document.edit("paper", ticked)
    desk.job_files.new(Job())
    assert answers.asked == ["keep Leaning neck"]


def test_a_sample_is_never_written_over_however_it_was_opened(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    path = samples.find("one-slip")
    assert path is not None
    before = path.read_bytes()
    link = tmp_path / "mine.job.json"
    link.symlink_to(path)
    answers.open = path
    ways = (desk.job_files.open, lambda: desk.commands.open_recent(str(path)), lambda: desk.job_files.open_path(link))
    for way in ways:
        way()
        assert desk.document.path is None
        desk.measure.commands.strike_or_bring_back()
        answers.save = tmp_path / "saved.job.json"
        assert desk.job_files.save()
    answers.save = path
    desk.job_files.save_as()
    assert desk.notice.isVisible()
    assert path.read_bytes() == before
    assert str(path) not in desk.preferences.settings.recent
