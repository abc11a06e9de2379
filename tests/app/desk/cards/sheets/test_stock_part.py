"""What few jobs need of the Sheets card, folded away: stock, its grain, holes to turn parts over, other cutters."""

from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Tick
from app.edit import sheet_entries
from app.edit.edits import replace
from geometry.job.sheets import Sheets
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose, field, fill, press, sample
from tests.export import readers


def wish(desk: Desk) -> Sheets:
    return desk.document.job.sheets


@pytest.fixture
def part(desk: Desk, sheets: SheetsCard) -> SheetsCard:
    """The Sheets card with its folded rows shown by the keyboard."""
    assert desk.cards.is_open("Sheets")
    sheets.stock.head.setFocus()
    press(sheets.stock.head, Qt.Key.Key_Space)
    assert sheets.stock.is_open
    return sheets


def test_the_rows_are_hidden_until_they_are_asked_for(sheets: SheetsCard) -> None:
    assert not field(sheets, "Stock").isVisible()
    assert sheets.stock.under.text() == "None of it is in force."
    assert sheets.stock.head.accessibleName() == "Stock, turning over, other cutters"
    assert sheets.stock.head.accessibleDescription() == "Shows what is under it"
    sheets.stock.head.click()
    assert field(sheets, "Stock").isVisible()
    assert sheets.stock.head.accessibleDescription() == "Folds away what is under it"
    sheets.stock.head.click()
    assert not field(sheets, "Stock").isVisible()


def test_a_stock_typed_with_its_grain_becomes_a_file(desk: Desk, part: SheetsCard, tmp_path: Path) -> None:
    fill(field(part, "Stock"), "300 x 120")
    choose(part, "The stock’s grain", "along its width")
    assert wish(desk).stock == (300, 120)
    assert desk.document.stack.undoText() == "the stock’s grain: along its width"
    assert part.stock.under.text() == "In force: stock 300 mm by 120 mm, grain along its width."
    desk.document.edit("bridge alone", replace(desk.document.job, sheets=replace(wish(desk), templates=("bridge",))))
    desk.exporter.export(tmp_path)
    xs, ys = zip(*readers.all_points(readers.dxf_items(tmp_path / "stock.dxf")), strict=True)
    assert max(xs) - min(xs) >= 300.0  # the stock's own outline
    assert max(ys) - min(ys) >= 120.0


def test_a_stock_keeps_the_units_it_was_typed_in(desk: Desk, part: SheetsCard) -> None:
    stock = field(part, "Stock")
    fill(stock, "12 in × 120")
    assert wish(desk).stock == ("12 in", 120)
    fill(stock, "")
    assert wish(desk).stock is None


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("300", "The stock takes a width and a height, such as 300x120, not “300”"),
        ("300 x wood", "The stock: “wood” is not a length"),
        ("300 x 4", "The stock’s height is 4 mm, less than 10 mm"),
    ],
)
def test_a_stock_that_cannot_be_is_refused_in_a_sentence(desk: Desk, part: SheetsCard, typed: str, said: str) -> None:
    stock = field(part, "Stock")
    fill(stock, typed)
    assert said[:28] in stock.wrong.text()
    assert stock.wrong.text().count(". ") <= 1
    assert wish(desk).stock is None


def test_a_stock_too_small_is_said_beside_the_files(desk: Desk, part: SheetsCard, tmp_path: Path) -> None:
    fill(field(part, "Stock"), "60 x 20")
    desk.document.edit("bridge alone", replace(desk.document.job, sheets=replace(wish(desk), templates=("bridge",))))
    desk.exporter.export(tmp_path)
    assert not (tmp_path / "stock.dxf").exists()
    assert "stock" in desk.notice.words.text().lower()


def test_holes_to_turn_on_are_ticked(desk: Desk, part: SheetsCard) -> None:
    tick = next(t for t in part.findChildren(Tick) if t.text() == "Holes to turn the part over on")
    tick.click()
    assert wish(desk).turning
    assert part.stock.under.text() == "In force: holes to turn on."
    desk.document.stack.undo()
    assert not tick.isChecked()


def test_cutters_for_outlines_and_windows(desk: Desk, part: SheetsCard) -> None:
    fill(field(part, "Cutter for outlines"), "1/8 in")
    fill(field(part, "Cutter for windows"), "2")
    assert wish(desk).cutters == {"outline": "1/8 in", "window": 2}
    fill(field(part, "Cutter for windows"), "")
    assert wish(desk).cutters == {"outline": "1/8 in"}


def test_a_finding_opens_the_rows_and_goes_to_its_field(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    made = replace(job.sheets, cutters={"window": 8.0})
    desk = lend_desk(replace(job, sheets=made))
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    part = desk.card.stock
    before, found, after = part.is_open, desk.card.go_to("field:sheets.cutters.window"), part.is_open
    assert (before, found, after) == (False, True, True)
    focus = desk.card.focusWidget()
    assert focus is not None
    assert focus.accessibleName() == "Cutter for windows"


def test_what_is_not_among_the_rows_leaves_them_hidden(sheets: SheetsCard) -> None:
    assert not sheets.go_to("field:sheets.nothing")
    assert not sheets.stock.is_open


def test_each_control_says_what_it_does(part: SheetsCard) -> None:
    controls = [*part.stock.findChildren(Tick), *part.stock.findChildren(QComboBox)]
    lines = [field(part, name).line for name in ("Stock", "Cutter for outlines", "Cutter for windows")]
    for control in (*controls, *lines, part.stock.head):
        assert control.accessibleName()
        assert len(control.accessibleDescription()) > 10


def test_the_pins_small_end_sets_their_drill(desk: Desk, bridge: BridgeCard) -> None:
    small = field(bridge, "The pins’ small end")
    fill(small, "4.2")
    kept = desk.document.job.bridge
    assert kept is not None
    assert kept.pins is not None
    assert kept.pins.small_end == 4.2
    fill(small, "9")
    assert "thicker than their holes" in small.wrong.text()
    assert desk.document.job.bridge == kept
    fill(small, "")
    assert "small_end" not in msgspec.json.encode(desk.document.job).decode()


def test_what_is_typed_is_what_is_shown_again() -> None:
    """Also in a job in inches."""
    job = replace(sample("leaning-neck"), unit="in")
    put = sheet_entries.put_stock(job, "12 x 5 1/2")
    assert put.sheets.stock == ("12 in", "5 1/2 in")
    assert sheet_entries.stock_of(put) == "12 x 5 1/2"


def test_pin_holes_are_chosen_to_be_drilled_at_their_finished_size(desk: Desk, sheets: SheetsCard) -> None:
    choose(sheets, "Pin holes drilled", "finished size")
    assert wish(desk).pin_holes == "finished"
    assert desk.document.stack.undoText() == "pin holes drilled: finished size"
    desk.document.stack.undo()
    assert wish(desk).pin_holes == "to ream"
