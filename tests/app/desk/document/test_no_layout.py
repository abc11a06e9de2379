"""A layout that fails by a fault of the program: nothing of the job before is shown or leaves, and the work goes on."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrinterInfo
from pytestqt.qtbot import QtBot

from app.desk.frame.desk import Desk
from app.desk.output import output_told
from app.desk.plan.painting.two_pictures import NO_DRAWING, NO_LAYOUT
from app.edit import edits
from app.file import job_file
from geometry.job import Job
from tests.app.desk.conftest import sample

Caught = list[str]


def worked_out(desk: Desk) -> bool:
    return desk.document.layout is not None


@pytest.fixture
def caught(desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> Iterator[Caught]:
    """A job for which `work_out` fails is in hand; the faults that were told."""
    from geometry import work_out as stages

    lay_places = stages.lay_places

    def fails(job: Job, surveyed: object) -> object:
        if job.title == "bad":
            raise RuntimeError("no layout")
        return lay_places(job, surveyed)  # type: ignore[arg-type]  # passed on as it came

    monkeypatch.setattr(stages, "lay_places", fails)
    told: Caught = []
    with qtbot.capture_exceptions() as faults:
        desk.document.edit("a bad title", edits.replace(desk.document.job, title="bad"))
        told += [str(error) for _, error, _ in faults]
        yield told


def test_the_plan_says_so_and_shows_nothing_of_the_job_before(desk: Desk, caught: Caught) -> None:
    assert caught == ["no layout"]
    assert desk.document.layout is None
    for plan in (desk.board.plan, desk.board.detail):
        assert plan.drawing is None
        assert plan._says == NO_LAYOUT
    assert not desk.board.detail.isVisible()
    assert desk.board.answers.place_of("nut.left") is None


@pytest.mark.usefixtures("caught")
def test_nothing_is_exported_or_printed(desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: ["Laser"])
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text() == output_told.NOT_WORKED_OUT
    for print_it in (desk.printer.print_sheets, desk.printer.print_check_sheet):
        desk.notice.say("")
        print_it()
        assert desk.notice.words.text() == output_told.NOT_WORKED_OUT
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("caught")
def test_the_work_goes_on(desk: Desk, tmp_path: Path) -> None:
    for card in ("Strings", "Bridge", "Sheets", "Measure"):
        desk.cards.open(card)
    desk.document.save(tmp_path / "bad.job.json")
    assert job_file.read(tmp_path / "bad.job.json").title == "bad"
    desk.document.edit("a good title", edits.replace(desk.document.job, title="good"))
    assert worked_out(desk)
    assert desk.board.plan.drawing is not None
    assert desk.board.detail.isVisible()
    desk.exporter.export(tmp_path / "sheets")
    assert (tmp_path / "sheets" / "placement.pdf").exists()
    desk.document.stack.undo()
    assert not worked_out(desk)
    desk.document.stack.undo()
    assert worked_out(desk)


@pytest.mark.usefixtures("caught")
def test_a_job_that_cannot_be_worked_out_can_be_opened(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "bad.job.json"
    job_file.write(edits.replace(sample("one-slip"), title="bad"), path)
    assert desk.job_files.open_path(path)
    assert desk.document.path == path
    assert str(path) in desk.preferences.settings.recent
    assert desk.document.layout is None


def test_a_drawing_that_fails_leaves_no_old_one(desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise RuntimeError("no drawing")

    for picture in desk.board.pictures.caches:
        monkeypatch.setattr(picture, "_compose", fails)
    with qtbot.capture_exceptions() as faults:
        desk.document.edit("title", edits.replace(desk.document.job, title="other"))
    assert {str(error) for _, error, _ in faults} == {"no drawing"}
    assert desk.board.plan.drawing is None
    assert desk.board.plan._says == NO_DRAWING
    assert desk.frame.windowTitle().startswith("other*")
