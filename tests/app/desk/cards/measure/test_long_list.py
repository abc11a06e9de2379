"""A long list of readings: many in sight, in groups that fold, several chosen and changed at once."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QMenu

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.measure.reading_menu import fill_reading_menu
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.cards.measure.table.readings_model import TOOL
from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.start.new_job import begin
from geometry.job import Reading
from tests.app.desk.cards.measure.test_measure_card import type_value
from tests.app.desk.conftest import OpenDesk, press, sample

SHIFT, CTRL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier
KEY = Qt.Key


def whole(table: ReadingTable) -> int:
    """How many readings are in sight, not counting groups' lines nor what is cut."""
    room = table.viewport().rect()
    lines = range(table.readings.rowCount())
    boxes = [table.visualRect(table.readings.index(n, 0)) for n in lines if table.readings.row_at(n) is not None]
    return sum(room.contains(box) for box in boxes)


@pytest.mark.parametrize(
    ("wide", "high", "text", "least"),
    [(1366, 768, 1.0768, 10), (1366, 768, 1.0, 10), (1366, 768, 1.5, 5), (1280, 800, 2.0, 3), (1920, 1080, 1.25, 15)],
)
def test_so_many_readings_are_in_sight(  # the text as large as such a screen makes it by itself
    open_desk: OpenDesk, subtests: pytest.Subtests, wide: int, high: int, text: float, least: int
) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_text(text)
    desk.frame.resize(wide, high)
    table = desk.measure.table
    for name in ("one-slip", "leaning-neck", "tie-bridge"):
        desk.document.start(sample(name))
        desk.measure.start()
        if not desk.measure.notes.look_again.head.text():
            first = desk.document.job.readings[0]
            desk.measure.say_next("Seam 1 to seam 2: a slip there would show.", first, "Seam 1 to seam 2")
        for _ in range(4):
            QApplication.processEvents()
        with subtests.test(name):
            assert whole(table) >= min(least, len(table.readings.rows))
            assert table.verticalHeader().defaultSectionSize() >= 24  # WCAG 2.2, 2.5.8: target size


@pytest.mark.parametrize("text", [1.0, 1.5, 2.0])
def test_no_line_is_shown_in_half(open_desk: OpenDesk, text: float) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_text(text)
    desk.frame.resize(1366, 768)
    for _ in range(4):
        QApplication.processEvents()
    table = desk.measure.table
    table.verticalScrollBar().setValue(0)
    picture = table.viewport().grab().toImage()
    high = table.verticalHeader().defaultSectionSize()
    ground = picture.pixelColor(2, picture.height() - 1)
    ratio = picture.height() / table.viewport().height()
    left = range(round((table.viewport().height() // high * high + 1) * ratio), picture.height())
    assert {picture.pixelColor(x, y).name() for y in left for x in range(0, picture.width(), 3)} <= {ground.name()}


def test_each_group_says_how_many_are_taken(card: MeasureCard) -> None:
    lines = card.table.readings
    heads = [head for n in range(lines.rowCount()) if (head := lines.head_at(n)) is not None]
    assert [head.group for head in heads][:2] == ["Board", "Frets"]
    board = [row for row in lines.rows if row.group == "Board"]
    assert heads[0].counted == f"{len(board)} of {len(board)}"
    card.commands.strike_or_bring_back()
    head = lines.head_at(0)
    assert head is not None
    assert head.counted == f"{len(board) - 1} of {len(board) - 1}"


def test_a_group_folds_and_opens_by_keys(card: MeasureCard) -> None:
    before = card.table.readings.rowCount()
    board = sum(row.group == "Board" for row in card.table.readings.rows)
    press(card.table, KEY.Key_Left)
    assert card.table.group.startswith("Board, ")
    press(card.table, KEY.Key_Left)
    assert card.table.readings.rowCount() == before - board
    press(card.table, KEY.Key_Right)
    assert card.table.readings.rowCount() == before
    press(card.table, KEY.Key_Space)
    assert card.table.readings.rowCount() == before - board
    press(card.table, KEY.Key_Return)
    assert card.table.readings.rowCount() == before


def test_a_group_folds_by_a_click(card: MeasureCard) -> None:
    before = card.table.readings.rowCount()
    box = card.table.visualRect(card.table.readings.index(0, 0))
    QTest.mouseClick(card.table.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    assert card.table.readings.rowCount() < before


def test_what_is_gone_to_is_opened(card: MeasureCard) -> None:
    wanted = card.table.readings.rows[2].reading.id
    card.table.fold(0, away=True)
    card.table.go_to(wanted)
    assert card.table.chosen == wanted


def test_a_job_that_is_opened_again_has_its_groups_open(desk: Desk, card: MeasureCard) -> None:
    before = card.table.readings.rowCount()
    card.table.fold(0, away=True)
    desk.document.start(desk.document.job)
    assert card.table.readings.rowCount() == before


def test_enter_goes_into_a_group_that_is_folded(card: MeasureCard) -> None:
    rows = card.table.readings.rows
    frets = next(at for at, row in enumerate(rows) if row.group == "Frets")
    card.table.go(frets)
    card.table.fold(card.table.currentIndex().row(), away=True)
    card.table.go(next(at for at in reversed(range(frets)) if rows[at].takes_value))
    press(card.table, KEY.Key_Return)
    assert card.table.at == frets


def chosen_by_keys(card: MeasureCard, count: int) -> list[str]:
    for _ in range(count - 1):
        press(card.table, KEY.Key_Down, SHIFT)
    return card.table.all_chosen


def test_several_are_struck_out_and_taken_in_as_one_change(desk: Desk, card: MeasureCard) -> None:
    card.table.go(next(at for at, row in enumerate(card.table.readings.rows) if row.group == "Frets"))
    before, ids = desk.document.job, chosen_by_keys(card, 3)
    assert len(ids) == 3
    assert card.panel.called.text() == "3 readings chosen"
    assert card.under.text().endswith("done to all of them.")
    assert not card.picture.isVisible()
    card.commands.strike_or_bring_back()
    assert [r.id for r in desk.document.job.readings if r.struck] == ids
    assert desk.menu_actions["Undo"].text() == "Undo striking out 3 readings"
    assert card.table.all_chosen == ids
    card.commands.strike_or_bring_back()
    assert desk.document.job == before
    desk.document.stack.undo()
    desk.document.stack.undo()
    assert desk.document.job == before


def test_several_are_given_a_tool(desk: Desk, card: MeasureCard) -> None:
    ids = chosen_by_keys(card, 4)
    box = card.panel.with_
    box.setFocus()
    box.setCurrentIndex(box.findData("rule 1/64"))
    box.activated.emit(box.currentIndex())
    assert [r.id for r in desk.document.job.readings if r.with_ == "rule 1/64"] == ids
    assert desk.menu_actions["Undo"].text() == "Undo how finely 4 readings were read"


def test_they_are_moved_by_keys(desk: Desk, card: MeasureCard) -> None:
    rows = card.table.readings.rows
    frets = next(at for at, row in enumerate(rows) if row.group == "Frets")
    card.table.go(frets)
    ids = chosen_by_keys(card, 2)
    third = rows[frets + 2].reading.id
    desk.menu_actions["Move down"].trigger()
    now = [row.reading.id for row in card.table.readings.rows[frets : frets + 3]]
    assert now == [third, *ids]
    assert card.table.all_chosen == ids
    desk.menu_actions["Move up"].trigger()
    assert [row.reading.id for row in card.table.readings.rows[frets : frets + 3]] == [*ids, third]


def test_a_click_with_ctrl_adds_one(card: MeasureCard) -> None:
    far = card.table.readings.line_of(3)
    pos = card.table.visualRect(card.table.readings.index(far, 0)).center()
    QTest.mouseClick(card.table.viewport(), Qt.MouseButton.LeftButton, CTRL, pos)
    assert card.table.all_chosen == [card.table.readings.rows[at].reading.id for at in (0, 3)]


def test_read_with_opens_wherever_it_is_pressed(card: MeasureCard, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[bool] = []
    monkeypatch.setattr(card.panel.with_, "showPopup", lambda: opened.append(True))  # no lists on this platform
    line = card.panel.with_.lineEdit()
    assert line is not None
    for x in (3, line.width() // 2, line.width() - 3):
        QTest.mouseClick(line, Qt.MouseButton.LeftButton, pos=QPoint(x, line.height() // 2))
    assert len(opened) == 3


def test_a_readings_tool_is_pressed_in_its_row(card: MeasureCard) -> None:
    asked: list[QPoint] = []
    card.table.tool_pressed.disconnect()
    card.table.tool_pressed.connect(asked.append)
    line = card.table.readings.line_of(2)
    box = card.table.visualRect(card.table.readings.index(line, TOOL))
    QTest.mouseClick(card.table.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    assert len(asked) == 1
    assert card.table.at == 2


def test_the_full_list_leads_on(open_desk: OpenDesk) -> None:
    job = begin(measuring="bridge only")
    for reading in job.readings[:-1]:
        job = edits.set_value(job, reading.id, str(_about(reading)))
    desk = open_desk(job)
    card = desk.measure
    assert not card.notes.on_button.isVisible()
    card.table.go(len(job.readings) - 1)
    type_value(card, str(_about(job.readings[-1])))
    assert desk.document.job.readings[-1].taken
    assert desk.focusWidget() is card.table
    assert card.notes.on_button.text() == "All readings taken: on to Strings"
    press(card.table, KEY.Key_Return)
    assert desk.cards.is_open("Strings")


def test_striking_out_the_last_that_is_lacking_leads_on(open_desk: OpenDesk) -> None:
    job = begin(measuring="bridge only")
    for reading in job.readings[:-2]:
        job = edits.set_value(job, reading.id, str(_about(reading)))
    card = open_desk(job).measure
    for at, leads in ((len(job.readings) - 2, False), (len(job.readings) - 1, True)):
        card.table.go(at)
        card.commands.strike_or_bring_back()
        assert card.notes.on_button.isVisible() is leads


def test_striking_out_what_was_to_be_looked_at_again_leads_on(open_desk: OpenDesk) -> None:
    card = open_desk(sample("one-slip")).measure
    assert not card.notes.on_button.isVisible()
    card.notes.out_button.click()
    assert card.notes.on_button.isVisible()


def _about(reading: Reading) -> float:
    """A value that such a reading may have: a scale of 645, equal tempered, and a board 455 long (invented)."""
    if reading.kind == "fret" and reading.fret:
        return round(645 * (1 - 2 ** (-reading.fret / 12)), 1)
    widths: dict[tuple[str, ...], float] = {("nut.left", "nut.right"): 44.0, ("end.left", "end.right"): 56.0}
    return widths.get(reading.of, 455.0 if reading.of[0][-4:] == reading.of[1][-4:] else 457.7)


def test_what_was_typed_in_64ths_suggests_such_a_rule(desk: Desk, card: MeasureCard) -> None:
    assert not card.notes.tools_button.isVisible()
    at = next(n for n, row in enumerate(card.table.readings.rows) if (row.reading.with_ or "").startswith("rule"))
    card.table.go(at)
    name = card.table.chosen
    type_value(card, "17 41/64 in")
    assert card.notes.tools_button.text() == "1 reading in 64ths: say that a 64ths rule read it"
    card.notes.tools_button.click()
    assert edits.find(desk.document.job, str(name)).with_ == "rule 1/64"
    assert not card.notes.tools_button.isVisible()


def test_what_is_added_is_read_with_what_the_others_are(open_desk: OpenDesk) -> None:
    desk = open_desk(begin(measuring="bridge only", unit="in"))
    made = desk.measure.commands.add(Reading(id="new", kind="distance", of=("seam.1", "seam.2")))
    assert edits.find(desk.document.job, made).with_ == "rule 1/64"


def test_the_choice_of_a_tool_is_a_list_of_the_benchs_instruments(card: MeasureCard) -> None:
    box = card.panel.findChild(QComboBox)
    assert box is card.panel.with_
    assert box.accessibleName() == "Read with"


def test_the_menu_of_several_names_their_number(card: MeasureCard) -> None:
    chosen_by_keys(card, 3)
    menu = QMenu(card)
    fill_reading_menu(menu, card.commands, card.add)
    assert [action.text() for action in menu.actions()][:5] == [
        "Read 3 readings with",
        "Strike out 3 readings",
        "Move 3 readings up",
        "Move 3 readings down",
        "Remove 3 readings",
    ]
    tools = menu.findChild(QMenu)
    assert tools is not None
    assert [action.text() for action in tools.actions() if action.isChecked()] == ["Steel rule, half millimetres"]


def test_the_edit_menu_gives_a_tool(desk: Desk, card: MeasureCard) -> None:
    ids = chosen_by_keys(card, 2)
    tools = next(menu for menu in desk.frame.menuBar().findChildren(QMenu) if menu.title() == "Read &with")
    tools.aboutToShow.emit()
    next(action for action in tools.actions() if action.text().startswith("Tape")).trigger()
    assert [r.id for r in desk.document.job.readings if r.with_ == "tape 1/32"] == ids
