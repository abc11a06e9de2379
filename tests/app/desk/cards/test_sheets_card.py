"""The Sheets card, worked as a person works it."""

from pathlib import Path

import msgspec
import pdfplumber
import pytest
from PySide6.QtPrintSupport import QPrintDialog, QPrinterInfo

from app.desk.cards.sheets.sheets_card import PAPERS, SheetsCard
from app.desk.document import output, printing
from app.desk.frame.desk import Desk
from app.desk.widgets.choice import Tick
from app.file import job_file, settings
from export.correction import CheckSheet
from export.paper.lay_sheets import Sheet
from geometry.job import Job
from geometry.job.sheets import Sheets
from tests.app.desk.conftest import OpenDesk, choose, field, fill, sample


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


def undo_text(desk: Desk) -> str:
    return desk.document.stack.undoText()


# the pages


def test_the_pages_lie_over_the_plan_while_the_card_is_open(desk: Desk, sheets: SheetsCard) -> None:
    assert sheets.pages.text() == "1 sheet of A4."
    assert "sheets" in desk.board.wish.overlays
    desk.open_card("Measure")
    assert "sheets" not in desk.board.wish.overlays


def test_no_template_is_no_sheet(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=())
    assert sheets.pages.text() == "Nothing to print yet."


def test_one_sheet_leaves_nothing_to_choose(sheets: SheetsCard) -> None:
    assert not sheets.choice.isVisible()


def test_a_sheet_of_several_is_left_out_of_print_plan_and_file(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, templates=("full-length",))
    assert [tick.text() for tick in sheets.choice.ticks.values()] == [
        "full-length A1",
        "full-length A2",
        "full-length A3",
    ]
    sheets.choice.ticks["full-length A2"].click()
    assert sheets.pages.text() == "2 of 3 sheets of A4."
    assert len(desk.board.wish.sheets) == 2
    output.export(desk, tmp_path)
    with pdfplumber.open(tmp_path / "full-length.pdf") as pdf:
        said = [" ".join((page.extract_text() or "").split()) for page in pdf.pages]
    assert ["sheet A1, 1 of 3" in said[0], "sheet A3, 3 of 3" in said[1]] == [True, True]


def test_without_any_sheet_only_files_for_machines_are_written(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, templates=("full-length",))
    for tick in sheets.choice.ticks.values():
        tick.click()
    output.export(desk, tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["full-length.dxf", "full-length.svg"]


def test_another_job_has_all_its_sheets(desk: Desk, sheets: SheetsCard) -> None:
    asked(desk, templates=("full-length",))
    sheets.choice.ticks["full-length A2"].click()
    desk.document.start(desk.document.job)
    settle(desk)
    assert sheets.pages.text() == "3 sheets of A4."


@pytest.fixture
def sent(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What a printer that isn't there was sent, by the sheets' names."""
    got: list[str] = []

    def take(_printer: object, pages: tuple[Sheet, ...]) -> bool:
        got.extend(page.name for page in pages)
        return True

    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", staticmethod(lambda: ["Bench"]))
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(printing, "print_pages", take)
    return got


def test_only_the_wanted_sheets_are_printed(desk: Desk, sheets: SheetsCard, sent: list[str]) -> None:
    asked(desk, templates=("full-length", "plate"))
    sheets.choice.ticks["full-length A1"].click()
    output.print_sheets(desk)
    assert sent == ["full-length A2", "full-length A3", "plate"]
    assert desk.notice.words.text().startswith("Sent to ")


def test_no_sheet_wanted_is_said(desk: Desk, sheets: SheetsCard, sent: list[str]) -> None:
    asked(desk, templates=("full-length",))
    for tick in sheets.choice.ticks.values():
        tick.click()
    output.print_sheets(desk)
    assert sent == []
    assert desk.notice.words.text() == "No sheet is chosen; tick one at least."


NO_PLATE = "Left out: The plate template needs a bridge with pin holes; this one has none."


def test_what_cannot_be_made_is_said_and_the_rest_is_made(open_desk: OpenDesk, tmp_path: Path, sent: list[str]) -> None:
    desk = open_desk(sample("tie-bridge"))
    desk.open_card("Sheets")
    assert isinstance(desk.card, SheetsCard)
    asked(desk, templates=("plate", "placement"))
    assert desk.card.pages.text() == f"1 sheet of A4. {NO_PLATE}"
    output.export(desk, tmp_path)
    assert (tmp_path / "placement.pdf").exists()
    assert desk.notice.words.text().endswith(f"placement.svg. {NO_PLATE}")
    output.print_sheets(desk)
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
        "The sheet's margin is 3 mm, but must lie between 5 and 40 mm; look at the unit and the decimal point."
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


def test_the_ledge_of_the_finish_clearing(desk: Desk, sheets: SheetsCard) -> None:
    fill(field(sheets, "Ledge of finish"), "1/16 in")
    assert wish(desk).ledge == "1/16 in"
    assert undo_text(desk) == "ledge of finish 1/16 in"


# files for machines


def test_old_dxf_with_straight_lines(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    choose(sheets, "Release of DXF", "R12, older")
    assert undo_text(desk) == "release of DXF: R12, older"
    choose(sheets, "Arcs as", "short straight lines")
    assert (wish(desk).dxf, wish(desk).arcs) == ("R12", "chords")
    output.export(desk, tmp_path)
    assert "AC1009" in (tmp_path / "placement-mm.dxf").read_text(encoding="cp1252")


def test_only_lines_to_drill(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    for name, tick in sheets.purposes.ticks.items():
        if name != "drill":
            tick.click()
    assert wish(desk).purposes == ("drill",)
    assert undo_text(desk) == "words: no"
    output.export(desk, tmp_path)
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


def sign(desk: Desk) -> str:
    return desk.header.steps.buttons["Sheets"].sign.value


def lines(card: SheetsCard) -> list[str]:
    return [line.finding.text for line in card.findings.lines if line.isVisible()]


def test_pilot_holes_that_do_not_fit_are_said_marked_and_stop_the_files(
    desk: Desk, sheets: SheetsCard, tmp_path: Path
) -> None:
    assert (sign(desk), lines(sheets)) == ("done", [])
    fill(field(sheets, "Pilot holes"), "8")
    settle(desk)
    said = "The pilot holes of 8 mm are larger than the hole of pin 1, which is 5.2 mm; choose smaller ones."
    assert lines(sheets)[0] == said
    assert sign(desk) == "look again"
    output.export(desk, tmp_path)
    assert desk.notice.words.text() == f"This would spoil the work: {said} Nothing was written."
    assert list(tmp_path.iterdir()) == []
    fill(field(sheets, "Pilot holes"), "1")
    settle(desk)
    assert (sign(desk), lines(sheets)) == ("done", [])


def test_round_corners_are_said_and_stop_nothing(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    asked(desk, cutter="2 mm", templates=("bridge",))
    assert [text.partition(" stay")[0] for text in lines(sheets)] == ["4 corners of the slot"]
    assert sign(desk) == "done"
    output.export(desk, tmp_path)
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


def test_what_stops_the_work_stands_on_the_card(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("turned-left-old-slot"))
    desk.open_card("Sheets")
    assert isinstance(desk.card, SheetsCard)
    layout = desk.document.layout
    assert layout is not None
    assert lines(desk.card) == [f.text for f in layout.findings if f.grade == "stop"] != []
    assert sign(desk) == "look again"
    desk.card.findings.lines[0].click()
    assert desk.board.strong != frozenset()


# every control


def test_each_new_control_says_what_it_does(sheets: SheetsCard) -> None:
    for tick in (t for t in sheets.purposes.findChildren(Tick)):
        assert tick.accessibleDescription().startswith("Written to DXF and SVG, on the layer ")
    assert sheets.purposes.ticks["note"].accessibleDescription().endswith("WORDS")


# the printer


def test_what_the_rule_says_becomes_the_printers_correction(sheets: SheetsCard) -> None:
    part = sheets.printer
    part.printer.setEditText("Bench printer")
    fill(part.across, "179.1")
    fill(part.along, "180.5")
    kept = settings.load().printers["Bench printer"]
    assert kept.x == pytest.approx(180 / 179.1)
    assert kept.y == pytest.approx(180 / 180.5)
    assert part.carried.text() == "Sheets are stretched by 1.0050 across and 0.9972 along."


def test_the_square_is_one_of_millimetres_in_a_job_in_inches_too(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("turned-left"))
    assert desk.document.job.unit == "in"
    desk.open_card("Sheets")
    assert isinstance(desk.card, SheetsCard)
    part = desk.card.printer
    assert part.across.line.text() == "180 mm"
    part.printer.setEditText("Bench printer")
    fill(part.across, "179.1")
    assert settings.load().printers["Bench printer"].x == pytest.approx(180 / 179.1)


def test_a_square_that_is_far_off_is_refused_with_a_question(sheets: SheetsCard) -> None:
    sheets.printer.printer.setEditText("Bench printer")
    fill(sheets.printer.across, "170")
    assert "was the check sheet printed at 100 %" in sheets.printer.across.wrong.text()
    assert settings.load().printers == {}


def test_the_printer_is_named_first(sheets: SheetsCard) -> None:
    sheets.printer.printer.setEditText("")
    fill(sheets.printer.across, "179.5")
    assert sheets.printer.across.wrong.text() == "Name the printer first."


def test_an_empty_job_has_nothing_to_say(open_desk: OpenDesk) -> None:
    desk = open_desk(Job())
    desk.open_card("Sheets")
    assert sign(desk) == "empty"


def test_the_kinds_of_files_are_chosen_for_the_bench(desk: Desk, sheets: SheetsCard, tmp_path: Path) -> None:
    for kind in ("dxf", "svg"):
        sheets.kinds.ticks[kind].click()
    output.export(desk, tmp_path)
    assert {path.suffix for path in tmp_path.iterdir()} == {".pdf"}
    sheets.kinds.ticks["pdf"].click()  # one kind at least stays
    assert sheets.kinds.ticks["pdf"].isChecked()
    assert settings.load().files == ("pdf",)


def test_a_correction_that_another_window_measured_is_kept_and_used(sheets: SheetsCard, desk: Desk) -> None:
    there = settings.load()
    assert settings.save(there.with_printer("Laser upstairs", CheckSheet(across=181.09, up=179.46)), there)
    sheets.printer.printer.setEditText("Bench printer")
    fill(sheets.printer.across, "179.1")
    assert set(settings.load().printers) == {"Laser upstairs", "Bench printer"}
    assert output.stamp(desk, "Laser upstairs").correction == (0.994, 1.003)
