"""The window as a whole: steps, what comes in and goes out, what is said when something is wrong."""

import tempfile
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from pytestqt.qtbot import QtBot

from app.desk.document.crash_guard import CrashGuard
from app.desk.document.preferences import Preferences
from app.desk.document.working_out import WorkingOut
from app.desk.frame.desk import Desk
from app.desk.frame.window import Frame, open_on
from app.edit import edits
from app.file import job_file, samples, settings
from geometry.job import Job
from tests.app.desk.conftest import Answers, OpenDesk, press, sample


@pytest.fixture
def bench_file(tmp_path: Path) -> Path:
    path = tmp_path / "bench.job.json"
    job_file.write(sample("leaning-neck"), path)
    return path


def test_every_sample_opens_with_plan_and_detail(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = open_desk(None)
    for path in samples.paths():
        with subtests.test(path.name):
            desk.job_files.open_path(path)
            assert desk.document.job == sample(path.name.partition(".")[0])
            for plan in (desk.board.plan, desk.board.detail):
                assert plan.drawing is not None
                assert any(mark.of in ("bridge", "base") for mark in plan.drawing.marks)


def test_every_card_opens(desk: Desk) -> None:
    for name in ("Measure", "Old work", "Strings", "Bridge", "Sheets"):
        desk.cards.open(name)
        assert desk.card.title == name


def test_the_steps_are_walked_with_the_arrow_keys(desk: Desk) -> None:
    buttons = desk.header.steps.buttons
    buttons["Measure"].setFocus()
    press(desk.header.steps, Qt.Key.Key_Right)
    assert desk.card.title == "Old work"
    assert buttons["Old work"].hasFocus()


def test_no_step_stays_underlined_under_a_new_job(desk: Desk) -> None:
    desk.cards.open("Bridge")
    desk.menu_actions["New job"].trigger()
    assert desk.cards.is_open("Start")
    assert [name for name, button in desk.header.steps.buttons.items() if button.isChecked()] == []


def test_a_job_without_a_name_is_called_as_on_its_sheets(desk: Desk) -> None:
    desk.menu_actions["New job"].trigger()
    assert desk.document.name == "Untitled job"
    assert desk.frame.windowTitle() == "Untitled job – Offsquare"


def test_a_step_that_is_open_stays_underlined_when_it_is_pressed(desk: Desk) -> None:
    button = desk.header.steps.buttons["Measure"]
    button.click()
    assert desk.cards.is_open("Measure")
    assert button.isChecked()


def test_the_title_bears_the_name_and_the_unsaved_mark(open_desk: OpenDesk, bench_file: Path) -> None:
    desk = open_desk(bench_file)
    assert desk.frame.windowTitle() == "Leaning neck – Offsquare"
    desk.measure.commands.strike_or_bring_back()
    assert desk.frame.windowTitle() == "Leaning neck* – Offsquare"


def test_saving_writes_the_file_and_takes_the_mark_away(open_desk: OpenDesk, bench_file: Path) -> None:
    desk = open_desk(bench_file)
    desk.measure.commands.strike_or_bring_back()
    desk.menu_actions["Save"].trigger()
    assert desk.frame.windowTitle() == "Leaning neck – Offsquare"
    assert job_file.read(bench_file) == desk.document.job


def test_a_new_job_is_saved_under_a_name_that_is_asked_for(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    answers.save = tmp_path / "neck"
    desk.menu_actions["Save as…"].trigger()
    assert answers.asked == ["save Leaning neck.job.json"]
    assert job_file.read(tmp_path / "neck.job.json") == desk.document.job


def test_what_cannot_be_written_is_said_and_nothing_is_lost(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    before = desk.document.job
    answers.save = tmp_path / "no such folder" / "neck.job.json"
    desk.menu_actions["Save as…"].trigger()
    assert desk.notice.isVisible()
    assert "cannot be written" in desk.notice.words.text()
    assert desk.document.job == before


def test_a_foreign_file_is_refused_in_one_sentence_and_the_job_stays(
    desk: Desk, answers: Answers, tmp_path: Path
) -> None:
    before = desk.document.job
    answers.open = tmp_path / "letter.txt"
    answers.open.write_text("Dear sir", encoding="utf-8")
    desk.menu_actions["Open…"].trigger()
    assert desk.notice.isVisible()
    assert desk.notice.words.text().count(".") <= 3
    assert desk.document.job == before


def test_leaving_unsaved_work_asks_first(desk: Desk, answers: Answers) -> None:
    desk.measure.commands.strike_or_bring_back()
    answers.keep = "stay"
    assert not desk.frame.close()
    assert answers.asked == ["keep Leaning neck"]
    answers.keep = "discard"
    assert desk.frame.close()


def drag_in(desk: Desk, *paths: Path) -> bool:
    """Carry files over the desk; whether it would take them."""
    carried = QMimeData()
    carried.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    action, button, keys = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    event = QDragEnterEvent(QPoint(10, 10), action, carried, button, keys)
    event.ignore()
    desk.dragEnterEvent(event)
    return event.isAccepted()


def test_a_job_file_that_is_carried_over_the_window_is_welcome(desk: Desk, bench_file: Path) -> None:
    assert desk.acceptDrops()
    assert drag_in(desk, bench_file)


def test_two_files_at_once_are_not_taken(desk: Desk, bench_file: Path) -> None:
    assert not drag_in(desk, bench_file, bench_file.with_name("other.job.json"))


def test_a_dropped_job_file_is_opened(desk: Desk, bench_file: Path) -> None:
    dropped = QMimeData()
    dropped.setUrls([QUrl.fromLocalFile(str(bench_file))])
    action, button, keys = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    desk.dropEvent(QDropEvent(QPointF(10, 10), action, dropped, button, keys))
    assert desk.document.path == bench_file


def test_opened_jobs_are_remembered(desk: Desk, bench_file: Path) -> None:
    desk.job_files.open_path(bench_file)
    assert desk.preferences.settings.recent[0] == str(bench_file.resolve())


def test_a_sample_is_opened_as_a_new_job(desk: Desk) -> None:
    path = samples.find("tie-bridge")
    assert path is not None
    desk.commands.open_sample(str(path))
    assert desk.document.path is None
    assert desk.document.name == "Tie bridge come loose"


def test_a_click_on_the_strip_goes_to_the_reading(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"), "Bridge")
    suspect = next(r.id for r in desk.document.job.readings if r.id in desk.document.layout.survey.suspects)  # type: ignore[union-attr]  # awake
    next(cell for cell in desk.strip.cells if cell.figure.title == "Readings").click()
    assert desk.card.title == "Measure"
    assert desk.measure.table.chosen == suspect


def test_the_strip_says_what_a_rule_can_check(desk: Desk) -> None:
    said = [cell.accessibleName() for cell in desk.strip.cells]
    assert said[0].startswith("Fret 12 to slot front, bass edge: 32")
    assert "±" in said[0]
    assert "cents" in said[0]


def test_dark_and_light_are_changed_while_running(desk: Desk) -> None:
    desk.preferences.set_theme("dark")
    assert desk.board.plan.look.palette.dark
    assert desk.header.look.palette.dark
    desk.preferences.set_theme("light")
    assert not desk.board.plan.look.palette.dark


def test_the_unit_turns_and_what_was_typed_stays(desk: Desk) -> None:
    before = desk.document.job.readings[0].value
    desk.header.unit.click()
    assert desk.document.job.unit == "in"
    assert desk.document.job.readings[0].value == before
    assert desk.board.plan.unit == "in"


def test_the_view_from_inside_is_mirrored_and_says_so(desk: Desk) -> None:
    desk.menu_actions["From inside (mirrored)"].trigger()
    plan = desk.board.plan
    assert plan.view.inside
    assert plan.to_pixels((100.0, 20.0)).y() > plan.to_pixels((100.0, -20.0)).y()


def test_an_overlay_is_shown_and_put_away(desk: Desk) -> None:
    desk.menu_actions["Error ellipses (95 %)"].trigger()
    assert "ellipses" in desk.board.pictures.options.overlays
    desk.menu_actions["Error ellipses (95 %)"].trigger()
    assert "ellipses" not in desk.board.pictures.options.overlays


def test_a_fault_of_the_program_is_one_sentence_and_the_work_is_kept(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    desk.measure.commands.strike_or_bring_back()
    safety = CrashGuard(lambda: desk)
    error = ZeroDivisionError("division by zero")
    safety.caught(ZeroDivisionError, error, None)
    assert desk.notice.words.text().startswith("A fault of the program, not of your job (division by zero).")
    assert desk.recovery.copy.exists()


def test_an_edit_that_breaks_the_working_out_leaves_the_job_in_place(desk: Desk, qtbot: QtBot) -> None:
    def fails(_job: Job) -> None:
        raise RuntimeError("no layout")

    desk.document._lay_places = fails  # type: ignore[assignment]
    job = edits.strike(desk.document.job, "r1")
    with qtbot.capture_exceptions() as caught:
        desk.document.edit("striking out", job)
    assert [str(error) for _, error, _ in caught] == ["no layout"]
    assert desk.document.job == job
    assert desk.document.layout is None  # the last one is of another job
    desk.document._lay_places = WorkingOut().lay_places
    desk.document.stack.undo()
    assert desk.document.layout == WorkingOut().work_out(desk.document.job)


def test_the_hand_is_turned_over_and_bass_and_treble_change_sides(desk: Desk) -> None:
    desk.cards.open("Strings")
    before = desk.card
    desk.document.edit("left-handed", edits.replace(desk.document.job, hand="left"))
    assert desk.card is before  # its fields are called by the other sides, nothing else of it is lost


def test_the_menu_on_a_point_leads_to_the_readings_that_hold_it(desk: Desk) -> None:
    menu = desk.plan_menu.made_for("point:end.right")
    texts = [action.text() for action in menu.actions()]
    assert texts[0].startswith("board end, bass, ±")
    assert "Go to “Board end, edge to edge”" in texts
    next(action for action in menu.actions() if action.text() == "Go to “Board end, edge to edge”").trigger()
    assert desk.measure.table.chosen == "r2"


def test_the_plan_as_printed_is_black_on_white_and_the_rest_stays(desk: Desk) -> None:
    desk.menu_actions["As printed, black on white"].trigger()
    assert desk.board.plan.look.palette.paper == "#FFFFFF"
    assert desk.board.plan.look.palette.worked_out == "#000000"
    assert desk.header.look.palette.worked_out != "#000000"


def test_the_focus_is_shown_on_the_plan_when_it_comes_by_a_key(desk: Desk) -> None:
    desk.board.plan.setFocus(Qt.FocusReason.MouseFocusReason)
    by_mouse = desk.board.plan.grab().toImage()
    desk.measure.table.setFocus()
    desk.board.plan.setFocus(Qt.FocusReason.TabFocusReason)
    assert desk.board.plan.grab().toImage() != by_mouse


def test_the_card_is_painted_even_where_the_first_layout_fails(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails() -> None:
        raise RuntimeError("whatever")

    monkeypatch.setattr(desk.document, "wake", fails)
    with pytest.raises(RuntimeError):
        desk.start()
    assert all(part.updatesEnabled() for part in (desk.header, desk.cards, desk.strip))


def test_a_file_with_a_slip_opens_on_it(qtbot: QtBot, answers: Answers) -> None:
    """As the program starts on a file: it is worked out only once the window is on the screen."""
    path = samples.find("one-slip")
    assert path is not None
    frame = Frame(Preferences(settings.load()), lambda made: open_on(Desk(made, made.preferences, answers), path))
    qtbot.addWidget(frame)
    frame.furnish()
    desk = frame.desk
    assert desk is not None
    assert desk.document.layout is not None
    assert desk.measure.table.chosen in desk.document.layout.survey.suspects
