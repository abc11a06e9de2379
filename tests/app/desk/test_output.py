"""What leaves the desk: files in a folder, with the cautions said first."""

from pathlib import Path

from PySide6.QtWidgets import QProgressDialog

from app.desk import output
from app.desk.desk import Desk
from export.templates import TEMPLATES
from tests.app.desk.conftest import OpenDesk, sample


def test_the_chosen_templates_are_written(desk: Desk, tmp_path: Path) -> None:
    output.export(desk, tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["placement.dxf", "placement.pdf", "placement.svg"]
    assert desk.notice.words.text().startswith(f"Written to {tmp_path}: ")


def test_what_would_spoil_the_work_is_said_and_nothing_is_written(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(sample("turned-left-old-slot"))
    output.export(desk, tmp_path)
    assert desk.notice.words.text().startswith("This would spoil the work: ")
    assert list(tmp_path.iterdir()) == []
    desk.notice.buttons[0].click()
    assert (tmp_path / "placement.pdf").exists()


def test_a_folder_that_cannot_be_written_is_said(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "a file"
    file.write_text("", encoding="utf-8")
    output.export(desk, file)
    assert desk.notice.isVisible()
    assert "nothing" in desk.notice.words.text().lower()


def test_a_cancelled_export_leaves_nothing(desk: Desk, tmp_path: Path, monkeypatch: object) -> None:
    monkeypatch.setattr(QProgressDialog, "wasCanceled", lambda _self: True)  # type: ignore[attr-defined]
    output.export(desk, tmp_path)
    assert list(tmp_path.iterdir()) == []
    assert desk.notice.words.text() == "The export was cancelled; nothing was written."


def test_a_printer_that_is_not_there_is_said(desk: Desk) -> None:
    for print_it in (output.print_sheets, output.print_check_sheet):
        print_it(desk)
        assert desk.notice.words.text().startswith("No printer is known here.")


def test_the_check_sheet_is_one_of_the_templates() -> None:
    assert output.CHECK_SHEET in TEMPLATES
