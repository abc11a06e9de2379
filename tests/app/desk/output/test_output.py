"""What leaves the desk: files in a folder, with the cautions said first."""

import platform
from pathlib import Path

import msgspec
import pdfplumber
import pytest
from PySide6.QtCore import QPoint, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtPrintSupport import QPrintDialog, QPrinterInfo
from PySide6.QtWidgets import QApplication, QProgressDialog, QPushButton

from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.frame.desk import Desk
from app.desk.output import job_pages, print_pages
from app.file import job_file
from export import cautions
from export.drawing.marks import Text
from export.paper.lay_sheets import Sheet
from export.templates import TEMPLATES
from tests.app.desk.conftest import OpenDesk, sample


def test_the_chosen_templates_are_written(desk: Desk, tmp_path: Path) -> None:
    desk.exporter.export(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["placement.dxf", "placement.pdf", "placement.svg"]
    assert desk.notice.words.text().startswith(f"Written to {tmp_path}: ")
    assert desk.notice.words.text().endswith(cautions.MACHINE)


def test_what_was_written_is_opened_from_the_notice(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []

    def open_it(url: QUrl) -> bool:
        opened.append(Path(url.toLocalFile()))
        return True

    monkeypatch.setattr(QDesktopServices, "openUrl", open_it)
    for name, path in (("Open the PDF", tmp_path / "placement.pdf"), ("Open the folder", tmp_path)):
        desk.exporter.export(tmp_path, replace=True)
        next(button for button in desk.notice.buttons if button.text() == name).click()
        assert opened.pop() == path
        assert path.exists()


def test_where_no_program_opens_it_the_place_is_said(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda _url: False)
    desk.exporter.export(tmp_path)
    desk.notice.buttons[0].click()
    assert desk.notice.isVisible()
    assert str(tmp_path / "placement.pdf") in desk.notice.words.text()


def test_where_no_pdf_was_written_none_is_offered(desk: Desk, tmp_path: Path) -> None:
    desk.preferences.keep(msgspec.structs.replace(desk.preferences.settings, files=("dxf",)))
    desk.exporter.export(tmp_path)
    assert [button.text() for button in desk.notice.buttons if button.isVisible()] == ["Open the folder", "Close"]


def test_what_was_pressed_stays_under_the_pointer(desk: Desk, tmp_path: Path) -> None:
    desk.cards.open("Sheets")
    QApplication.processEvents()
    assert isinstance(desk.card, SheetsCard)
    desk.card.into.line.setText(str(tmp_path))
    button = next(found for found in desk.card.findChildren(QPushButton) if found.text() == "Export files")
    before = button.mapTo(desk, QPoint(0, 0))
    button.click()
    QApplication.processEvents()
    assert desk.notice.isVisible()
    assert button.mapTo(desk, QPoint(0, 0)) == before


def test_sheets_for_paper_say_nothing_of_machines(desk: Desk, tmp_path: Path) -> None:
    desk.preferences.keep(msgspec.structs.replace(desk.preferences.settings, files=("pdf",)))
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text().startswith(f"Written to {tmp_path}: ")
    assert cautions.MACHINES.text not in desk.notice.words.text()


@pytest.mark.parametrize(("template", "told"), [("placement", True), ("nut-slots", False)])
def test_metal_in_the_wood_is_told_with_files_for_a_machine(
    open_desk: OpenDesk, tmp_path: Path, template: str, told: bool
) -> None:
    """The nut is cut from other wood."""
    job = sample("bolted-left")
    sheets = msgspec.structs.replace(job.sheets, templates=(template, "job-sheet"))
    desk = open_desk(msgspec.structs.replace(job, sheets=sheets))
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text().endswith(cautions.MACHINE)
    assert (cautions.METAL_HERE in desk.notice.words.text()) is told


def test_what_would_spoil_the_work_is_said_and_nothing_is_written(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(sample("turned-left-old-slot"))
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text().startswith("This would spoil the work: ")
    assert list(tmp_path.iterdir()) == []
    desk.notice.buttons[0].click()
    assert (tmp_path / "placement.pdf").exists()


def test_a_folder_that_cannot_be_written_is_said(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "a file"
    file.write_text("", encoding="utf-8")
    desk.exporter.export(file)
    assert desk.notice.isVisible()
    assert "nothing" in desk.notice.words.text().lower()


def test_a_cancelled_export_leaves_nothing(desk: Desk, tmp_path: Path, monkeypatch: object) -> None:
    monkeypatch.setattr(QProgressDialog, "wasCanceled", lambda _self: True)  # type: ignore[attr-defined]
    desk.exporter.export(tmp_path)
    assert list(tmp_path.iterdir()) == []
    assert desk.notice.words.text() == "The export was cancelled; nothing was written."


def test_where_no_printer_is_known_the_sheets_are_printed_into_a_file(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the system's own dialog does: “Print to File (PDF)”."""
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: [])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    desk.printer.print_sheets()
    file = tmp_path / "Leaning neck.pdf"
    says = f"Written to {file}: print it at 100 %, with no fit to page. No correction is known"
    assert desk.notice.words.text().startswith(says)
    assert file.read_bytes().startswith(b"%PDF")
    opened: list[str] = []

    def open_it(url: QUrl) -> bool:
        opened.append(url.toLocalFile())
        return True

    monkeypatch.setattr(QDesktopServices, "openUrl", open_it)
    assert [button.text() for button in desk.notice.buttons] == ["Open the PDF", "Open the folder", "Close"]
    desk.notice.buttons[0].click()
    assert opened == [str(file)]


def test_what_a_printer_took_is_not_offered_to_be_opened(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: ["Bench"])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(print_pages, "print_pages", lambda _printer, _pages: True)
    desk.printer.print_sheets()
    assert [button.text() for button in desk.notice.buttons if button.isVisible()] == ["Close"]


def test_a_file_that_cannot_be_written_is_said(desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: [])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(print_pages, "print_pages", lambda _printer, _pages: False)
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    desk.printer.print_check_sheet()
    assert desk.notice.words.text() == f"{tmp_path / 'check-sheet.pdf'} could not be written; choose another place."


def test_a_printer_that_is_not_there_is_said(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: [])
    monkeypatch.setattr(platform, "system", lambda: "Windows")
    for print_it in (desk.printer.print_sheets, desk.printer.print_check_sheet):
        print_it()
        assert desk.notice.words.text().startswith("No printer is known here.")


def test_the_check_sheet_is_one_of_the_templates() -> None:
    assert job_pages.CHECK_SHEET in TEMPLATES


def test_files_of_the_same_names_are_replaced_only_when_the_person_says_so(desk: Desk, tmp_path: Path) -> None:
    mine = tmp_path / "placement.pdf"
    mine.write_bytes(b"mine")
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text() == f"{tmp_path} has placement.pdf already. Nothing was written yet."
    assert [path.name for path in tmp_path.iterdir()] == ["placement.pdf"]
    assert mine.read_bytes() == b"mine"
    desk.notice.buttons[0].click()
    assert mine.read_bytes().startswith(b"%PDF")


def sheets_card(desk: Desk) -> SheetsCard:
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    return desk.card


def test_the_files_go_into_a_folder_of_the_jobs_own_beside_its_file(desk: Desk, tmp_path: Path) -> None:
    desk.document.save(tmp_path / "Old parlour.job.json")
    card = sheets_card(desk)
    desk.document.edit("title", msgspec.structs.replace(desk.document.job, title=""))
    desk.document.save()
    assert card.into.line.text() == str(tmp_path / "Old parlour sheets")
    desk.commands.export()
    assert (tmp_path / "Old parlour sheets" / "placement.pdf").exists()


def test_a_folder_that_was_typed_stays_and_is_made(desk: Desk, tmp_path: Path) -> None:
    desk.document.save(tmp_path / "a.job.json")
    card = sheets_card(desk)
    card.into.line.setText("for the laser/first")
    desk.document.save(tmp_path / "b.job.json")
    desk.commands.export()
    assert (tmp_path / "for the laser" / "first" / "placement.dxf").exists()


def test_exporting_is_one_thing_from_whichever_card(desk: Desk, tmp_path: Path) -> None:
    desk.document.save(tmp_path / "Old parlour.job.json")
    for name in ("Bridge", "Sheets"):
        desk.cards.open(name)
        desk.menu_actions["Export files"].trigger()
        assert isinstance(desk.card, SheetsCard)
        written = desk.card.into.folder / "placement.pdf"
        assert written.exists()
        written.unlink()
        for left in written.parent.iterdir():
            left.unlink()


def test_a_job_without_a_title_goes_by_its_file_on_paper(desk: Desk, tmp_path: Path) -> None:
    desk.document.edit("title", msgspec.structs.replace(desk.document.job, title=""))
    desk.document.save(tmp_path / "Old parlour.job.json")
    desk.exporter.export(tmp_path)
    with pdfplumber.open(tmp_path / "placement.pdf") as pdf:
        words = pdf.pages[0].extract_text()
    assert "Old parlour" in words
    assert job_file.fingerprint(job_file.read(tmp_path / "Old parlour.job.json")) in words


def test_files_that_are_older_than_the_job_are_said_to_be_so(desk: Desk, tmp_path: Path) -> None:
    """What moves a line makes them older, until it is taken back; a title or a choice of sheets does not."""
    desk.exporter.export(tmp_path)
    job, notice, document = desk.document.job, desk.notice, desk.document
    written = notice.words.text()
    document.edit("title", msgspec.structs.replace(job, title="Another"))
    document.edit("sheets", msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, paper="A3")))
    assert (notice.words.text(), notice.wrong) == (written, False)
    assert job.saddle is not None
    saddle = msgspec.structs.replace(job.saddle, slot_length=70.0)
    document.edit("slot", msgspec.structs.replace(job, saddle=saddle))
    assert notice.isVisible()
    assert (notice.words.text(), notice.wrong) == (older(tmp_path), True)
    shown = [button for button in notice.buttons if button.isVisible()]
    assert [button.text() for button in shown] == ["Open the PDF", "Open the folder", "Close"]
    assert {button.accessibleDescription() for button in shown} == {notice.words.accessibleName()} == {older(tmp_path)}
    document.stack.undo()
    assert (notice.words.text(), notice.wrong) == (written, False)
    shown[-1].click()  # that they were written was read, not that they are older
    assert not notice.isVisible()
    document.stack.redo()
    assert (notice.isVisible(), notice.words.text()) == (True, older(tmp_path))
    shown[-1].click()
    document.edit("slot", msgspec.structs.replace(job, saddle=msgspec.structs.replace(saddle, slot_length=71.0)))
    assert not notice.isVisible()


def slot_of(desk: Desk, length: float) -> None:
    """An edit that moves a line: the slot so long, mm."""
    job = desk.document.job
    assert job.saddle is not None
    saddle = msgspec.structs.replace(job.saddle, slot_length=length)
    desk.document.edit(f"slot length {length:g}", msgspec.structs.replace(job, saddle=saddle))


def older(folder: Path) -> str:
    return f"The files in {folder} are older than the job now. Export them again before you use them."


def test_undo_does_not_hide_that_the_files_are_older(desk: Desk, tmp_path: Path) -> None:
    slot_of(desk, 71.0)
    desk.exporter.export(tmp_path)
    written, undo = desk.notice.words.text(), desk.menu_actions["Undo"]
    slot_of(desk, 72.0)
    undo.trigger()
    assert (desk.notice.words.text(), desk.notice.wrong) == ("Taken back: slot length 72.", False)
    undo.trigger()
    said = f"Taken back: slot length 71. {older(tmp_path)}"
    assert (desk.notice.words.text(), desk.notice.wrong) == (said, True)
    slot_of(desk, 73.0)
    assert desk.notice.isVisible()
    assert (desk.notice.words.text(), desk.notice.wrong) == (older(tmp_path), True)
    buttons = [button.text() for button in desk.notice.buttons if button.isVisible()]
    assert buttons == ["Open the PDF", "Open the folder", "Close"]
    desk.exporter.export(tmp_path, replace=True)
    assert desk.notice.words.text() == written


def test_older_files_are_told_of_beside_whatever_else_is_said(desk: Desk, tmp_path: Path) -> None:
    desk.exporter.export(tmp_path)
    desk.notice.say("No copy can be kept.", lasting=True)
    slot_of(desk, 70.0)
    assert desk.notice.words.text() == f"No copy can be kept. {older(tmp_path)}"
    desk.job_files.new(sample("one-slip"))
    assert desk.notice.words.text() == "No copy can be kept."


def test_older_files_are_told_of_when_what_was_said_last_is_over(desk: Desk, tmp_path: Path) -> None:
    desk.exporter.export(tmp_path)
    desk.recovery.keeps.emit(False)
    slot_of(desk, 70.0)
    desk.recovery.keeps.emit(True)
    assert desk.notice.isVisible()
    assert desk.notice.words.text() == older(tmp_path)


def test_each_folder_grows_old_by_itself(desk: Desk, tmp_path: Path) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    desk.exporter.export(first)
    slot_of(desk, 70.0)
    desk.exporter.export(second)
    assert desk.notice.words.text().startswith(f"Written to {second}: ")
    assert desk.notice.words.text().endswith(older(first))
    slot_of(desk, 71.0)
    assert desk.notice.words.text() == f"{older(first)} {older(second)}"
    desk.notice.close_it()
    slot_of(desk, 72.0)
    assert not desk.notice.isVisible()


def test_to_open_what_was_written_is_not_to_have_done_with_it(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda _url: True)
    desk.exporter.export(tmp_path)
    desk.notice.buttons[0].click()
    assert not desk.notice.isVisible()
    slot_of(desk, 70.0)
    assert desk.notice.isVisible()
    assert desk.notice.words.text() == older(tmp_path)


def test_printed_sheets_grow_old_and_a_check_sheet_does_not(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A check sheet tells of the printer alone."""
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: [])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(print_pages, "print_pages", lambda _printer, _pages: True)
    job = desk.document.job
    assert job.saddle is not None
    changed = msgspec.structs.replace(job, saddle=msgspec.structs.replace(job.saddle, slot_length=70.0))
    for print_it, says in (
        (desk.printer.print_sheets, "The sheets in "),
        (desk.printer.print_check_sheet, f"Written to {Path.home() / 'check-sheet.pdf'}: "),
    ):
        print_it()
        desk.document.edit("slot", changed)
        assert desk.notice.words.text().startswith(says)
        desk.document.stack.undo()
        assert desk.notice.words.text().startswith("Written to")


def test_a_check_sheet_in_a_file_bears_the_name_that_was_typed(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    printed: list[str] = []

    def take(_printer: object, pages: tuple[Sheet, ...]) -> bool:
        printed.extend(mark.shape.text for mark in pages[0].drawing.marks if isinstance(mark.shape, Text))
        return True

    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: [])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(print_pages, "print_pages", take)
    desk.printer.print_check_sheet("Laser")
    assert any("printer: Laser ·" in text for text in printed)
