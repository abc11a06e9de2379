"""The Sheets card, worked as a person works it."""

from pathlib import Path

import msgspec
import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinterInfo
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QScrollArea, QStyle

from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.cards.sheets.templates_part import FOLDS
from app.desk.frame.desk import Desk
from app.desk.output import print_pages
from app.desk.widgets.inputs.choice import Tick, UnderTick, part_of
from app.edit import sheet_entries
from app.edit.sheet_entries import PAPERS
from app.edit.start import first_questions
from app.file import job_file, samples, settings
from export import cautions
from export.correction import CheckSheet
from export.errors import ExportError
from export.paper.lay_sheets import Sheet
from export.records import called
from export.templates import TEMPLATES
from geometry.job import Job
from geometry.job.sheets import Sheets
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose, field, fill, press, sample


def asked(desk: Desk, **changes: object) -> None:
    """The job with other wishes for its sheets, and the pages worked out."""
    job = desk.document.job
    desk.document.edit("sheets", msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **changes)))
    settle(desk)


def settle(desk: Desk) -> None:
    """What is done when the hands are idle, done now."""
    desk.card.show_pages.click()  # type: ignore[attr-defined]  # the Sheets card is open
    desk.card.show_pages.click()  # type: ignore[attr-defined]


def wish(desk: Desk) -> Sheets:
    return desk.document.job.sheets


def unfold(sheets: SheetsCard) -> None:
    """Show the templates of every part."""
    for fold, _ in sheets.templates.folds.values():
        fold.set_open(True)


def box(sheets: SheetsCard, text: str) -> Tick:
    """The box to tick of a template, where it is in sight."""
    (found,) = (tick for tick in sheets.findChildren(Tick) if tick.text() == text and tick.isVisibleTo(sheets))
    return found


def undo_text(desk: Desk) -> str:
    return desk.document.stack.undoText()


# the pages


def test_the_pages_lie_over_the_plan_while_the_card_is_open(desk: Desk, sheets: SheetsCard) -> None:
    assert sheets.pages.text() == "Placement template: 1 sheet of A4."
    assert "sheets" in desk.board.pictures.options.overlays
    desk.cards.open("Measure")
    assert "sheets" not in desk.board.pictures.options.overlays


def test_of_a_long_folder_its_end_is_seen(sheets: SheetsCard) -> None:
    line = sheets.into.line
    line.setText("/somewhere/far/away/" + "where/jobs/are/kept/" * 9 + "One slip of the rule")
    assert line.shown.startswith("…")
    assert line.shown.endswith("One slip of the rule")


def test_no_template_is_no_sheet(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=())
    assert sheets.pages.text() == "Nothing to print yet."


def test_one_sheet_leaves_nothing_to_choose(sheets: SheetsCard) -> None:
    assert not sheets.choice.isVisible()


def test_a_sheet_of_several_is_left_out_of_print_plan_and_file(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, templates=("full-length",))
    assert [tick.text() for tick in sheets.choice.ticks.values()] == [
        "Full length A1",
        "Full length B1",
        "Full length C1",
        "Full length D1",
    ]
    sheets.choice.ticks["full-length B1"].click()
    assert sheets.pages.text() == "Placement full length: 3 of 4 sheets of A4."
    assert len(desk.board.pictures.options.sheets) == 3
    desk.exporter.export(tmp_path)
    with pdfplumber.open(tmp_path / "full-length.pdf") as pdf:
        said = [" ".join((page.extract_text() or "").split()) for page in pdf.pages]
    assert ["sheet A1, 1 of 4" in said[0], "sheet C1, 3 of 4" in said[1]] == [True, True]


def test_without_any_sheet_only_files_for_machines_are_written(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, templates=("full-length",))
    for tick in sheets.choice.ticks.values():
        tick.click()
    desk.exporter.export(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["full-length.dxf", "full-length.svg"]


def test_another_job_has_all_its_sheets(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=("full-length",))
    sheets.choice.ticks["full-length B1"].click()
    desk.document.start(desk.document.job)
    settle(desk)
    assert sheets.pages.text() == "Placement full length: 4 sheets of A4."


def test_pages_are_drawn_once_until_something_changes_that_stands_on_them(desk: Desk) -> None:
    def drawn(printer: str | None = None) -> tuple[Sheet, ...]:
        return desk.pages.all_pages(printer, lambda _: None)

    first = drawn()
    assert drawn() is first
    settings.save(settings.Settings().with_printer("Bench printer", CheckSheet(across=179.1, up=180.5)))
    desk.preferences.freshen()
    corrected = drawn("Bench printer")
    assert corrected != first
    assert drawn() == first
    job = desk.document.job
    assert job.bridge is not None
    desk.document.edit("width", msgspec.structs.replace(job, bridge=msgspec.structs.replace(job.bridge, width=31.0)))
    wider = drawn()
    assert wider != first
    desk.document.edit("title", msgspec.structs.replace(desk.document.job, title="Another"))
    assert drawn() != wider


@pytest.fixture
def sent(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What a printer that isn't there was sent, by the sheets' names."""
    got: list[str] = []

    def take(_printer: object, pages: tuple[Sheet, ...]) -> bool:
        got.extend(page.name for page in pages)
        return True

    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", staticmethod(lambda: ["Bench"]))
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(print_pages, "print_pages", take)
    return got


def test_only_the_wanted_sheets_are_printed(desk: Desk, sheets: SheetsCard, sent: list[str]) -> None:
    asked(desk, templates=("full-length", "plate"))
    sheets.choice.ticks["full-length A1"].click()
    desk.printer.print_sheets()
    assert sent == ["full-length B1", "full-length C1", "full-length D1", "plate"]
    assert desk.notice.words.text().startswith("Sent to ")


def test_no_sheet_wanted_is_said(desk: Desk, sheets: SheetsCard, sent: list[str]) -> None:
    asked(desk, templates=("full-length",))
    for tick in sheets.choice.ticks.values():
        tick.click()
    desk.printer.print_sheets()
    assert sent == []
    assert desk.notice.words.text() == "No sheet is chosen; tick one at least."


NO_PLATE = "Left out: The plate template needs a bridge with pin holes; this one has none."


def test_what_cannot_be_made_is_said_and_the_rest_is_made(lend_desk: LendDesk, tmp_path: Path, sent: list[str]) -> None:
    desk = lend_desk(sample("tie-bridge"), "Sheets")
    assert isinstance(desk.card, SheetsCard)
    asked(desk, templates=("plate", "placement"))
    assert desk.card.pages.text() == f"Placement template: 1 sheet of A4. {NO_PLATE}"
    desk.exporter.export(tmp_path)
    assert (tmp_path / "placement.pdf").exists()
    assert desk.notice.words.text().endswith(f"placement.svg. {cautions.MACHINE} {NO_PLATE}")
    desk.printer.print_sheets()
    assert sent == ["placement"]
    assert desk.notice.words.text().endswith(NO_PLATE)
    asked(desk, templates=("plate",))
    assert desk.card.pages.text() == NO_PLATE


# paper and templates


def test_turn_and_margin_are_undone_by_name(desk: Desk, sheets: SheetsCard) -> None:
    choose(sheets, "Turn", "landscape")
    assert wish(desk).turn == "landscape"
    assert undo_text(desk) == "turn: landscape"
    fill(field(sheets, "Margin"), "1/2 in")
    assert wish(desk).margin == "1/2 in"
    assert undo_text(desk) == "margin 1/2 in"
    desk.document.stack.undo()
    assert wish(desk).margin == 8


def test_a_margin_within_the_printers_edge_is_refused(desk: Desk, sheets: SheetsCard) -> None:
    margin = field(sheets, "Margin")
    fill(margin, "3")
    assert margin.wrong.text() == (
        "The sheet’s margin is 3 mm, but must lie between 5 and 40 mm; look at the unit and the decimal point."
    )
    assert wish(desk).margin == 8


def test_paper_of_another_size(desk: Desk, sheets: SheetsCard) -> None:
    own = field(sheets, "Another size")
    fill(own, "roll 610")
    assert wish(desk).paper == "roll 610"
    fill(own, "papyrus")
    assert own.wrong.text().startswith("The paper “papyrus” is not known; use one of A0, A1")
    assert wish(desk).paper == "roll 610"
    fill(own, "")
    assert wish(desk).paper == PAPERS[0]


def test_sides_typed_in_a_job_in_inches_are_inches(desk: Desk, sheets: SheetsCard) -> None:
    desk.document.edit("inches", msgspec.structs.replace(desk.document.job, unit="in"))
    fill(field(sheets, "Another size"), "13x19")
    assert wish(desk).paper == "13x19 in"
    fill(field(sheets, "Another size"), "320x450 mm")
    assert wish(desk).paper == "320x450 mm"
    fill(field(sheets, "Another size"), "roll 24")
    assert wish(desk).paper == "roll 24 in"


def test_a_new_job_begins_with_the_paper_chosen_last(desk: Desk, sheets: SheetsCard) -> None:
    choose(sheets, "Size", "Letter")
    desk.preferences.freshen()
    assert desk.preferences.settings.paper == "Letter"
    desk.commands.new()
    press(desk.card, Qt.Key.Key_Return)
    assert wish(desk).paper == "Letter"
    desk.cards.open("Sheets")
    fill(field(desk.card, "Another size"), "320x450")
    assert desk.preferences.settings.paper == "320x450"


def test_a_paper_that_is_none_is_not_begun_with() -> None:
    assert first_questions.on_paper(Job(), "papyrus") == Job()


def test_the_ledge_of_the_finish_clearing(desk: Desk, sheets: SheetsCard) -> None:
    fill(field(sheets, "Ledge of finish"), "1/16 in")
    assert wish(desk).ledge == "1/16 in"
    assert undo_text(desk) == "ledge of finish 1/16 in"


# templates


def test_placement_job_sheet_and_what_is_written_are_seen_at_once(desk: Desk, sheets: SheetsCard) -> None:
    """In the low window of a small screen with a bar along its foot."""
    desk.frame.resize(1366, 690)
    for _ in range(4):
        QApplication.processEvents()
    box(sheets, "Job sheet").click()
    settle(desk)
    assert sheets.pages.text().startswith("Placement template and job sheet: ")
    area = sheets.findChild(QScrollArea)
    assert isinstance(area, QScrollArea)
    assert area.verticalScrollBar().value() == 0
    export = next(button for button in sheets.findChildren(QPushButton) if button.text() == "Export files")
    for widget in (box(sheets, "Placement template"), box(sheets, "Job sheet"), sheets.pages, export):
        assert widget.visibleRegion().boundingRect() == widget.rect()


def test_the_buttons_say_the_sheets_of_all_that_is_ticked(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=("placement", "job-sheet", "headstock-back"))
    made = [page.template for page in desk.pages.all_pages(None, lambda _: None)]
    assert set(made) == {"placement", "job-sheet"}  # and the third cannot be made
    assert sheets.pages.text().startswith(f"Placement template and job sheet: {len(made)} sheets of A4. Left out: ")


def test_a_fold_says_what_of_it_is_ticked(desk: Desk, sheets: SheetsCard) -> None:
    said = {part: fold.under for part, (fold, _) in sheets.templates.folds.items()}
    assert not any(label.text() for label in said.values())
    asked(desk, templates=("placement", "full-length", "plate", "job-sheet", "check-sheet"))
    assert said["bridge"].text() == "Ticked: placement full length and plate."
    assert said["owner and printer"].text() == "Ticked: check sheet."
    assert not said["nut and saddle"].text()


def test_a_tick_in_an_open_fold_puts_no_line_above_the_boxes(desk: Desk, sheets: SheetsCard) -> None:
    fold, _ = sheets.templates.folds["bridge"]
    fold.set_open(True)
    asked(desk, templates=("placement", "full-length", "plate", "job-sheet"))
    assert fold.under.isHidden()
    fold.set_open(False)
    assert not fold.under.isHidden()
    assert fold.under.text() == "Ticked: placement full length and plate."


def test_every_template_has_its_box_in_sight_or_in_a_fold() -> None:
    assert {template.part for template in TEMPLATES.values()} == set(FOLDS)


def test_a_new_job_begins_with_the_written_pages_chosen_last_and_with_no_other(desk: Desk, sheets: SheetsCard) -> None:
    unfold(sheets)
    for text in ("Job sheet", "Plate", "Before and after"):
        box(sheets, text).click()
    box(sheets, "Placement template").click()
    assert desk.document.job.sheets.templates == ("job-sheet", "plate", "before-and-after")
    assert settings.load().records == ("job-sheet", "before-and-after")
    desk.document.start(desk.document.job)
    desk.commands.new()
    press(desk.card, Qt.Key.Key_Return)
    assert wish(desk).templates == ("placement", "job-sheet", "before-and-after")
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    box(desk.card, "Job sheet").click()
    assert settings.load().records == ("before-and-after",)


def test_what_a_job_has_ticked_already_does_not_go_into_the_next(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=("placement", "job-sheet"))  # as in a file that came from elsewhere
    assert box(sheets, "Job sheet").isChecked()
    assert settings.load().records == ()


def test_written_pages_that_cannot_be_made_are_not_begun_with() -> None:
    records = ("job-sheet", "before-and-after", "papyrus")
    held = first_questions.begin(hand="left", string_set="6", measuring="bridge only", held="screws")
    assert first_questions.with_records(held, records).sheets.templates == ("saddle-bases", "job-sheet")
    glued = first_questions.with_records(Job(), records).sheets.templates
    assert glued == ("placement", "job-sheet", "before-and-after")
    assert job_file.fingerprint(first_questions.with_records(Job(), records)) == job_file.fingerprint(Job())


# files for machines


def test_old_dxf_with_straight_lines(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    choose(sheets, "Release of DXF", "R12, older")
    assert undo_text(desk) == "release of DXF: R12, older"
    choose(sheets, "Arcs as", "short straight lines")
    assert (wish(desk).dxf, wish(desk).arcs) == ("R12", "chords")
    desk.exporter.export(tmp_path)
    assert "AC1009" in (tmp_path / "placement-mm.dxf").read_text(encoding="cp1252")


def test_only_lines_to_drill(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    for name, tick in sheets.purposes.ticks.items():
        if name != "drill":
            tick.click()
    assert wish(desk).purposes == ("drill",)
    assert undo_text(desk) == "words: no"
    desk.exporter.export(tmp_path)
    svg = (tmp_path / "placement.svg").read_text()
    assert 'id="DRILL"' in svg
    assert 'id="CUT"' not in svg


def test_one_sort_of_line_stays(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, purposes=("drill",))
    sheets.purposes.ticks["drill"].click()
    assert sheets.wrong.text() == "One sort of line must stay, or the files would be empty."
    assert sheets.purposes.ticks["drill"].isChecked()
    assert wish(desk).purposes == ("drill",)
    sheets.purposes.ticks["cut"].click()
    assert not sheets.wrong.isVisible()
    assert wish(desk).purposes == ("cut", "drill")


def test_all_sorts_are_the_jobs_own_silence(desk: Desk, sheets: SheetsCard) -> None:
    before = job_file.encode(desk.document.job)
    sheets.purposes.ticks["metal"].click()
    sheets.purposes.ticks["metal"].click()
    assert job_file.encode(desk.document.job) == before


# what is found


WAITS = "Wait with the pin holes, the slot and the saddle: the Bridge card says what for."
"""What the sample is told: the ± of its saddle is too wide for these."""


def sign(desk: Desk) -> str:
    return desk.header.steps.buttons["Sheets"].sign.value


WAITS = "Wait with the pin holes, the slot and the saddle: the Bridge card says what for."


def lines(card: SheetsCard) -> list[str]:
    return [line.finding.text for line in card.findings.lines if line.isVisible()]


def test_pilot_holes_that_do_not_fit_are_said_marked_and_stop_the_files(
    desk: Desk, sheets: SheetsCard, tmp_path: Path
) -> None:
    assert (sign(desk), lines(sheets)) == ("estimated or unchecked", [WAITS])
    fill(field(sheets, "Pilot holes"), "8")
    settle(desk)
    said = "The pilot holes of 8 mm are larger than the hole of pin 1, which is 5.2 mm; choose smaller ones."
    assert lines(sheets)[0] == said
    assert sign(desk) == "stop"
    desk.exporter.export(tmp_path)
    assert desk.notice.words.text() == f"This would spoil the work: {said} Nothing was written."
    assert list(tmp_path.iterdir()) == []
    fill(field(sheets, "Pilot holes"), "1")
    settle(desk)
    assert (sign(desk), lines(sheets)) == ("estimated or unchecked", [WAITS])


def test_round_corners_are_said_and_stop_nothing(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, cutter="2 mm", templates=("bridge",))
    assert [text.partition(" stay")[0] for text in lines(sheets)] == ["4 corners of the slot", WAITS]
    assert sign(desk) == "look again"
    desk.exporter.export(tmp_path)
    assert (tmp_path / "bridge.dxf").exists()


def test_a_finding_of_a_cutter_leads_to_its_field(desk: Desk, sheets: SheetsCard) -> None:
    for sort, changes in (("Cutter", {"cutter": 8.0}), ("Cutter for slots", {"cutter": 1.0, "cutters": {"slot": 8.0}})):
        asked(desk, templates=("bridge",), **changes)
        next(line for line in sheets.findings.lines if "Left out" in line.finding.text).click()
        assert desk.focusWidget() is field(sheets, sort).line


def test_a_cutter_of_its_own_is_kept_and_emptied(desk: Desk, sheets: SheetsCard) -> None:
    fill(field(sheets, "Cutter for holes"), "1/8 in")
    assert desk.document.job.sheets.cutters == {"holes": "1/8 in"}
    fill(field(sheets, "Cutter for holes"), "")
    assert desk.document.job.sheets.cutters == {}


def test_what_stops_the_work_stands_on_the_card(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("turned-left-old-slot"), "Sheets")
    assert isinstance(desk.card, SheetsCard)
    layout = desk.document.layout
    assert layout is not None
    stops = [f.text for f in layout.findings if f.grade == "stop"]
    assert stops
    assert lines(desk.card)[: len(stops)] == stops
    assert sign(desk) == "stop"
    desk.card.findings.lines[0].click()
    assert desk.board.pictures.strong != frozenset()


# every control


def test_each_new_control_says_what_it_does(sheets: SheetsCard) -> None:
    for tick in (t for t in sheets.purposes.findChildren(Tick)):
        assert tick.accessibleDescription().startswith("Written to DXF and SVG, on the layer ")
    assert sheets.purposes.ticks["note"].accessibleDescription().endswith("WORDS")


# the printer


def test_what_the_rule_says_becomes_the_printers_correction(sheets: SheetsCard) -> None:
    part = sheets.printer
    part.printer.setEditText("Bench printer")
    fill(part.fields["across"], "179.1")
    fill(part.fields["up"], "180.5")
    assert settings.load().printers["Bench printer"] == CheckSheet(across=179.1, up=180.5)
    # derived: 180 / 179.1 and 180 / 180.5
    carry = "Sheets and PDFs for “Bench printer” carry: short side × 1.0050, long side × 0.9972."
    said = f"{carry} A DXF or SVG is never stretched."
    assert part.carried.text() == said


def test_four_that_do_not_go_together_are_asked_about(sheets: SheetsCard) -> None:
    part = sheets.printer
    part.printer.setEditText("Bench printer")
    for key, read in (("across", "179.1"), ("up", "180.5"), ("rising", "254.9"), ("falling", "257.0")):
        fill(part.fields[key], read)
    assert "one of the four is misread" in part.fields["falling"].wrong.text()
    assert settings.load().printers["Bench printer"] == CheckSheet(across=179.1, up=180.5, rising=254.9)


def test_a_job_in_inches_reads_its_printer_in_inches(desk: Desk, sheets: SheetsCard) -> None:
    part = sheets.printer
    part.printer.setEditText("Bench printer")
    desk.document.edit("unit", msgspec.structs.replace(desk.document.job, unit="in"))
    for key, read in (("across", "6 1/32"), ("up", "6"), ("rising", "8 1/2"), ("falling", "215.5")):
        fill(part.fields[key], read)
    assert [field.hint.text() for field in part.fields.values()] == [
        "= 6 1/32 in",
        "= 6 in",
        "= 8 1/2 in",
        "= 215.5 mm",
    ]
    # derived: 6 1/32 of 25.4 mm; 215.5 mm are 8.484 in, which no rule of 64ths shows
    kept = settings.load().printers["Bench printer"]
    assert (kept.across, kept.up, kept.rising, kept.falling) == pytest.approx((153.19375, 152.4, 215.9, 215.5))
    part.printer.setEditText("Another")
    part.printer.setEditText("Bench printer")
    assert [field.line.text() for field in part.fields.values()] == ["6 1/32 in", "6 in", "8 1/2 in", "8.484 in"]
    desk.document.edit("unit", msgspec.structs.replace(desk.document.job, unit="mm"))
    assert [field.line.text() for field in part.fields.values()] == ["153.194 mm", "152.4 mm", "215.9 mm", "215.5 mm"]


def test_the_systems_printers_are_offered_and_another_by_name(
    lend_desk: LendDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", staticmethod(lambda: ["Office", "Bench"]))
    settings.save(settings.Settings().with_printer("Laser upstairs", CheckSheet(across=179.2)))
    desk = lend_desk(sample("leaning-neck"))
    desk.preferences.freshen()
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    box = desk.card.printer.printer
    assert [box.itemText(i) for i in range(box.count())] == ["Office", "Bench", "Laser upstairs", "Another, by name…"]
    box.setCurrentText("Bench")
    assert "No correction is known for “Bench”" in desk.card.printer.carried.text()
    box.setCurrentText("Another, by name…")
    assert box.currentText() == ""
    assert "No printer is chosen" in desk.card.printer.carried.text()


def test_files_carry_the_correction_that_the_card_shows(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    part = sheets.printer
    part.printer.setEditText("Bench printer")
    fill(part.fields["across"], "179.1")
    desk.exporter.export(tmp_path)
    with pdfplumber.open(tmp_path / "placement.pdf") as pdf:
        said = " ".join((pdf.pages[0].extract_text() or "").split())
    assert "printer “Bench printer”: short side × 1.0050, long side × 1.0000" in said


def test_a_printer_known_by_another_name_gets_its_correction(desk: Desk, sheets: SheetsCard) -> None:
    part = sheets.printer
    part.printer.setEditText("Laser upstairs")
    fill(part.fields["across"], "179.1")
    assert desk.pages.whose_correction("OFFICE_7", ["OFFICE_7"]) == "Laser upstairs"
    part.printer.setEditText("OFFICE_7")
    assert desk.pages.whose_correction("OFFICE_7", ["OFFICE_7"]) == "OFFICE_7"


def test_the_square_is_one_of_millimetres_in_a_job_in_inches_too(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("turned-left"))
    assert desk.document.job.unit == "in"
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    part = desk.card.printer
    part.printer.setEditText("Bench printer")
    fill(part.fields["across"], "179.1")
    assert settings.load().printers["Bench printer"].across == 179.1


def test_a_square_that_is_far_off_is_refused_with_a_question(sheets: SheetsCard) -> None:
    sheets.printer.printer.setEditText("Bench printer")
    fill(sheets.printer.fields["across"], "170")
    assert "was the check sheet printed at 100 %" in sheets.printer.fields["across"].wrong.text()
    assert settings.load().printers == {}


def test_the_printer_is_named_first(sheets: SheetsCard) -> None:
    sheets.printer.printer.setEditText("")
    fill(sheets.printer.fields["across"], "179.5")
    assert sheets.printer.fields["across"].wrong.text() == "Name the printer first."


def test_an_empty_job_has_nothing_to_say(lend_desk: LendDesk) -> None:
    desk = lend_desk(Job())
    desk.cards.open("Sheets")
    assert sign(desk) == "empty"


def test_the_kinds_of_files_are_chosen_for_the_bench(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    for kind in ("dxf", "svg"):
        sheets.kinds.ticks[kind].click()
    desk.exporter.export(tmp_path)
    assert {path.suffix for path in tmp_path.iterdir()} == {".pdf"}
    sheets.kinds.ticks["pdf"].click()  # one kind at least stays
    assert sheets.kinds.ticks["pdf"].isChecked()
    assert settings.load().files == ("pdf",)


def test_a_correction_that_another_window_measured_is_kept_and_used(sheets: SheetsCard, desk: Desk) -> None:
    there = settings.load()
    assert settings.save(there.with_printer("Laser upstairs", CheckSheet(across=181.09, up=179.46)), there)
    sheets.printer.printer.setEditText("Bench printer")
    fill(sheets.printer.fields["across"], "179.1")
    assert set(settings.load().printers) == {"Laser upstairs", "Bench printer"}
    # derived: 180 / 181.09 and 180 / 179.46
    found = desk.pages.stamp("Laser upstairs").correction
    assert (found.short, found.long) == pytest.approx((0.99398, 1.00301), abs=1e-5)


# which templates there are to choose from


def test_templates_of_bridges_held_otherwise_are_not_asked_about(
    desk: Desk, sheets: SheetsCard, subtests: pytest.Subtests
) -> None:
    """And none of them could be made of this job."""
    for path in samples.paths():
        name = job_file.name_of(path)
        desk.document.start(sample(name))
        unfold(sheets)
        with subtests.test(name):
            _is_asked_about_its_own_kind_alone(desk, sheets)


def _is_asked_about_its_own_kind_alone(desk: Desk, sheets: SheetsCard) -> None:
    job, layout = desk.document.job, desk.document.layout
    boxes = [tick.text() for tick in sheets.findChildren(Tick) if tick.isVisibleTo(sheets)]
    shown = set(boxes)
    assert len(shown) == len(boxes)  # none stands in sight and in a fold as well
    others = [template for template in TEMPLATES.values() if template.held not in (None, job.held)]
    assert len(others) in (4, 7)
    assert shown.isdisjoint(template.title for template in others)
    own = [template for template in TEMPLATES.values() if template not in others]
    assert shown >= {template.title for template in own if not sheet_entries.is_twice(job, template.name)}
    assert ("Placement template" in shown) == (job.held != "strings")  # a floating bridge's place has a name of its own
    ledges = [found for found in sheets.findChildren(QLabel) if found.text() == "Ledge of finish"]
    assert any(found.isVisibleTo(sheets) for found in ledges) == (job.held == "glue")
    assert ("Bridge’s place as a window" in shown) == (job.held == "glue")
    assert layout is not None
    for template in others:
        assert template.draw is not None
        with pytest.raises(ExportError):
            template.draw(job, layout, desk.pages.stamp())


def test_a_floating_bridges_place_is_ticked_by_either_of_its_names(desk: Desk, sheets: SheetsCard) -> None:
    desk.document.start(sample("floating-five"))
    asked(desk, templates=("placement", "job-sheet"))
    unfold(sheets)
    (place,) = [t for t in sheets.findChildren(Tick) if t.text() == "Bridge’s place" and t.isVisibleTo(sheets)]
    assert place.isChecked()
    assert "lacement template" not in sheet_entries.ticked_of(desk.document.job, "bridge")
    place.click()
    chosen = [desk.document.job.sheets.templates]
    place.click()
    chosen.append(desk.document.job.sheets.templates)
    assert chosen == [("job-sheet",), ("job-sheet", "bridge-place")]


def test_one_that_was_ticked_can_be_taken_away(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=("placement", "crown"))
    unfold(sheets)
    crown = next(tick for tick in sheets.findChildren(Tick) if tick.text() == "Crown")
    assert crown.isVisibleTo(sheets)
    crown.click()
    assert desk.document.job.sheets.templates == ("placement",)
    assert not crown.isVisibleTo(sheets)


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_what_explains_a_tick_stands_under_its_words(desk: Desk, sheets: SheetsCard, size: float) -> None:
    desk.preferences.set_text(size)
    unfold(sheets)
    settle(desk)
    for _ in range(4):
        QApplication.processEvents()
    shown = [under for under in sheets.findChildren(UnderTick) if under.isVisibleTo(sheets)]
    assert len(shown) > 10
    for under in shown:
        words = part_of(under._tick, QStyle.SubElement.SE_CheckBoxContents).x()
        assert under.contentsMargins().left() == words > 20 * size
        assert under.x() == under._tick.x()
        assert 0 <= under.y() - under._tick.geometry().bottom() <= 2


def test_a_sheet_is_called_in_words() -> None:
    assert called("saddle-bases-back") == "saddle bases back"
    assert called("placement A1") == "placement A1"
    assert called("placement T") == "placement, table"
    assert called("placement T2") == "placement, table 2"
