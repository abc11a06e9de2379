"""Placements on the Bridge card: kept, laid beside, renamed, brought back and dropped, by the keys of a person.

derived: the sample's bridge is 154 mm long; one of 140 mm ends 7 mm nearer to the middle at either wing.
"""

import datetime

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QStyleOptionViewItem, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.place.placements_part import PlacementsPart
from app.desk.frame.desk import Desk
from geometry.job import Job
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, field, fill, let_rounds_pass, make_whole, press, sample, type_into


@pytest.fixture
def part(bridge: BridgeCard) -> PlacementsPart:
    return bridge.placements


def button(part: PlacementsPart, name: str) -> QAbstractButton:
    return next(found for found in part.findChildren(QAbstractButton) if found.accessibleName() == name)


def told(part: PlacementsPart) -> dict[str, str]:
    """What the table says of each place."""
    model = part.table.compared
    return {model.index(row, 0).data(): model.index(row, 2).data() for row in range(model.rowCount())}


def ghosts(desk: Desk) -> set[str]:
    """The kept placements that the plan shows."""
    drawing = desk.board.pictures.plan.drawing
    return {mark.of for mark in drawing.marks if mark.purpose == "kept"} if drawing is not None else set()


def keep_by_keys(part: PlacementsPart) -> None:
    if not part.fold.isChecked():
        press(part.fold, Qt.Key.Key_Space)
    press(part.keep_button, Qt.Key.Key_Space)


def test_it_is_folded_away_and_opens_by_a_key(part: PlacementsPart) -> None:
    make_whole(part)
    assert not part.keep_button.isVisible()
    press(part.fold, Qt.Key.Key_Space)
    assert part.keep_button.isVisible()
    assert not part.table.isVisible()


def test_kept_then_changed_then_compared(desk: Desk, bridge: BridgeCard, part: PlacementsPart) -> None:
    keep_by_keys(part)
    today = datetime.datetime.now().astimezone().date().isoformat()
    assert [(one.name, one.when) for one in desk.document.job.kept] == [("Placement 1", today)]
    assert part.which.currentText() == f"Placement 1, kept {today}"
    assert set(told(part).values()) == {"the same"}
    assert not part.back_button.isEnabled()
    fill(field(bridge, "Length, wing to wing"), "140")
    assert told(part)["Bridge, front bass corner"] == "7.0 mm to treble"
    assert told(part)["Slot front, bass end"] == "the same"
    assert part.back_button.isEnabled()
    model = part.table.compared
    kept = {model.index(row, 0).data(): part.table.columnSpan(row, 1) == 1 for row in range(model.rowCount())}
    assert kept["Nut to saddle line, bass"]
    assert not kept["Bridge, front bass corner"]
    at = list(kept).index("Bridge, front bass corner")  # with nothing kept, its words stand in both columns
    assert model.index(at, 1).data() == "7.0 mm to treble"
    assert part.table.cells.sizeHint(QStyleOptionViewItem(), model.index(at, 1)).width() > part.table.columnWidth(2)


def test_from_the_placements_a_link_leads_to_where_the_bridge_is_moved_by_hand(
    bridge: BridgeCard, part: PlacementsPart
) -> None:
    press(part.fold, Qt.Key.Key_Space)
    along = field(bridge, "Along, + to the tail")
    assert not along.isVisible()
    press(part.move_button, Qt.Key.Key_Space)
    assert along.line.hasFocus()
    let_rounds_pass()  # what was unfolded finds its place
    assert along.line.visibleRegion().boundingRect() == along.line.rect()


def test_places_and_placements_stand_before_the_proof_under_a_heading_of_their_own(bridge: BridgeCard) -> None:
    bridge.window().resize(1366, 2600)
    QApplication.processEvents()
    heads = [each for each in bridge.inside.findChildren(QWidget) if each.isVisible()]
    at = {
        text: each.mapTo(bridge.inside, QPoint(0, 0)).y()
        for each in heads
        if isinstance(each, QLabel | QAbstractButton) and (text := each.text())
    }
    order = [
        "Other places and sizes",
        "Another place for the bridge",
        "Placements",
        "Proof",
        "Before the glue",
        "As built",
    ]
    assert sorted(order, key=at.__getitem__) == order


def test_the_ghost_is_on_the_plan_and_the_plan_menu_hides_it(desk: Desk, part: PlacementsPart) -> None:
    keep_by_keys(part)
    assert ghosts(desk) == {"kept:Placement 1"}
    desk.board.pictures.toggle("placements")
    assert ghosts(desk) == set()


def test_every_edit_is_undone(desk: Desk, bridge: BridgeCard, part: PlacementsPart) -> None:
    before = desk.document.job
    keep_by_keys(part)
    fill(field(bridge, "Its name"), "As it was")
    assert desk.document.job.kept[0].name == "As it was"
    fill(field(bridge, "Length, wing to wing"), "140")
    press(part.back_button, Qt.Key.Key_Space)
    assert desk.document.job.bridge == before.bridge
    press(part.drop_button, Qt.Key.Key_Space)
    assert desk.document.job == before
    texts = [desk.document.stack.text(at) for at in range(desk.document.stack.count())]
    assert texts[0] == "keeping Placement 1"
    assert texts[-2:] == ["bringing back “As it was”", "dropping “As it was”"]
    while desk.document.stack.canUndo():
        desk.document.stack.undo()
    assert desk.document.job == before
    assert not part.table.isVisible()


def test_enter_after_the_name_rests_on_nothing_that_acts(desk: Desk, part: PlacementsPart) -> None:
    keep_by_keys(part)
    type_into(part.name.line, "As it was")
    press(part.name.line, Qt.Key.Key_Return)
    focused = desk.frame.focusWidget()
    assert focused is part.which
    press(focused, Qt.Key.Key_Return)
    assert [one.name for one in desk.document.job.kept] == ["As it was"]


@pytest.mark.parametrize("count", [1, 2])
def test_dropping_is_told_and_leaves_the_focus_here(desk: Desk, part: PlacementsPart, count: int) -> None:
    for _ in range(count):
        keep_by_keys(part)
    name = desk.document.job.kept[-1].name
    part.drop_button.setFocus()
    press(part.drop_button, Qt.Key.Key_Space)
    assert part.done.isVisible()
    assert part.done.text() == f"“{name}” was dropped. Undo brings it back."
    assert desk.frame.focusWidget() is (part.fold if count == 1 else part.which)
    desk.document.stack.undo()
    assert not part.done.isVisible()


def test_bringing_back_over_one_that_was_not_kept_says_what_undo_does(
    desk: Desk, bridge: BridgeCard, part: PlacementsPart
) -> None:
    keep_by_keys(part)
    fill(field(bridge, "Length, wing to wing"), "140")
    changed = desk.document.job
    part.back_button.click()
    assert part.done.isVisible()
    assert part.done.text() == "“Placement 1” was brought back. The one before was not kept: Undo brings that back."
    desk.document.stack.undo()
    assert desk.document.job == changed, "one undo brings it back"
    assert not part.done.isVisible()


def test_over_one_that_was_kept_it_says_nothing(desk: Desk, bridge: BridgeCard, part: PlacementsPart) -> None:
    keep_by_keys(part)
    fill(field(bridge, "Length, wing to wing"), "140")
    keep_by_keys(part)
    part._choose(0)
    part.back_button.click()
    assert desk.document.job.bridge == desk.document.job.kept[0].bridge
    assert not part.done.isVisible()


def test_what_undo_would_do_is_said_until_the_next_change(bridge: BridgeCard, part: PlacementsPart) -> None:
    keep_by_keys(part)
    part.drop_button.click()
    assert part.done.isVisible()
    fill(field(bridge, "Length, wing to wing"), "140")
    assert not part.done.isVisible(), "one undo would take this back now"


def test_what_is_told_of_a_dropped_one_moves_no_button(part: PlacementsPart) -> None:
    for _ in range(3):
        keep_by_keys(part)
    QApplication.processEvents()
    before = part.drop_button.mapTo(part, QPoint(0, 0)).y()
    part.drop_button.click()
    for _ in range(3):
        QApplication.processEvents()
    assert part.done.isVisible()
    assert part.drop_button.mapTo(part, QPoint(0, 0)).y() == before


def test_keeping_moves_nothing_over_the_button(qtbot: QtBot, bridge: BridgeCard, part: PlacementsPart) -> None:
    """What may be done now is told with what would change it, worked out a moment before: it is so still."""
    part.fold.setChecked(True)
    bridge.go.tell_changes()
    told = [line.finding.text for line in bridge.go.list.lines]
    assert "A trial saddle" in " ".join(told)

    def top() -> int:
        return part.keep_button.mapTo(bridge, QPoint(0, 0)).y()

    def in_sight() -> bool:
        bridge.area.ensureWidgetVisible(part.keep_button, 0, bridge.area.viewport().height() // 2)  # room for its name
        return top() + part.keep_button.height() < bridge.height()

    let_rounds_pass()
    qtbot.waitUntil(in_sight)
    let_rounds_pass()
    before = top()
    part.keep_button.click()
    assert [line.finding.text for line in bridge.go.list.lines] == told
    qtbot.waitUntil(lambda: part.table.isVisible() and top() == before)
    let_rounds_pass()
    assert top() == before


def test_kept_by_a_button_at_the_cards_foot_its_name_comes_wholly_into_sight(
    qtbot: QtBot, bridge: BridgeCard, part: PlacementsPart
) -> None:
    part.fold.setChecked(True)
    bar, viewport = bridge.area.verticalScrollBar(), bridge.area.viewport()

    def low(widget: QWidget) -> int:
        return widget.mapTo(viewport, QPoint(0, widget.height())).y()

    let_rounds_pass()
    bar.setValue(bar.value() + low(part.keep_button) - viewport.height() + 4)
    assert viewport.height() - 8 < low(part.keep_button) <= viewport.height()
    part.keep_button.click()
    qtbot.waitUntil(lambda: low(part.name) < viewport.height())
    let_rounds_pass(2)
    assert part.name.line.hasFocus()
    assert low(part.name) < viewport.height()


def test_of_several_one_is_laid_beside(desk: Desk, bridge: BridgeCard, part: PlacementsPart) -> None:
    keep_by_keys(part)
    fill(field(bridge, "Length, wing to wing"), "140")
    keep_by_keys(part)
    assert part.fold.text() == "Placements: 2 kept"
    assert told(part)["Bridge, front bass corner"] == "the same"
    part.which.setFocus()
    press(part.which, Qt.Key.Key_Up)
    assert told(part)["Bridge, front bass corner"] == "7.0 mm to treble"
    press(part.back_button, Qt.Key.Key_Space)
    assert told(part)["Bridge, front bass corner"] == "the same"
    assert [one.name for one in desk.document.job.kept] == ["Placement 1", "Placement 2"]


def test_a_name_that_is_taken_stays_with_its_reason(desk: Desk, bridge: BridgeCard, part: PlacementsPart) -> None:
    keep_by_keys(part)
    keep_by_keys(part)
    name = field(bridge, "Its name")
    fill(name, "Placement 1")
    assert "Two kept placements are called" in name.wrong.text()
    assert [one.name for one in desk.document.job.kept] == ["Placement 1", "Placement 2"]


def test_without_a_saddle_there_is_nothing_to_keep(lend_desk: LendDesk) -> None:
    desk = lend_desk(Job())
    desk.cards.open("Bridge")
    part = desk.cards.get_as("Bridge", BridgeCard).placements
    part.fold.setChecked(True)
    assert not part.keep_button.isEnabled()
    part.keep()  # as the Edit menu does from any card
    assert part.wrong.text() == "There is no placement to keep yet: the saddle has no place."


def test_the_edit_menu_keeps_from_any_card(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))  # where no card was open but this
    QApplication.processEvents()
    press(desk.frame, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert desk.cards.is_open("Bridge")
    assert len(desk.document.job.kept) == 1
    part = desk.cards.get_as("Bridge", BridgeCard).placements
    seen = part.table.visibleRegion().boundingRect()
    assert seen.height() > 100  # its first rows are in sight
    line = part.name.line
    assert line.hasFocus()
    assert not line.visibleRegion().isEmpty()
    assert line.selectedText() == "Placement 1"
    type_into(line, "As it was")
    press(line, Qt.Key.Key_Return)
    assert [one.name for one in desk.document.job.kept] == ["As it was"]


def test_in_large_words_the_name_is_in_sight_too(desk: Desk) -> None:
    desk.preferences.set_text(2.0)
    desk.frame.resize(1366, 768)
    desk.cards.open("Measure")
    QApplication.processEvents()
    desk.menu_actions["Keep this placement"].trigger()
    QApplication.processEvents()
    line = desk.cards.get_as("Bridge", BridgeCard).placements.name.line
    assert line.hasFocus()
    assert line.visibleRegion().boundingRect() == line.rect()
    desk.preferences.set_text(1.0)


def test_what_was_kept_by_its_button_is_named_at_once(part: PlacementsPart) -> None:
    keep_by_keys(part)
    assert part.name.line.hasFocus()
    assert part.name.line.selectedText() == "Placement 1"


def test_undo_shows_the_placements(desk: Desk, part: PlacementsPart) -> None:
    keep_by_keys(part)
    desk.cards.open("Measure")
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.words.text() == "Taken back: keeping Placement 1."
    assert desk.cards.is_open("Bridge")
    assert part.fold.hasFocus()


def test_another_job_brings_its_own(desk: Desk, part: PlacementsPart) -> None:
    keep_by_keys(part)
    desk.job_files.new(sample("small-four"))
    desk.cards.open("Bridge")
    assert part.fold.text() == "Placements"
    assert not part.fold.isChecked()
    assert not part.table.isVisible()


def test_a_job_that_keeps_some_shows_them_at_once(desk: Desk, part: PlacementsPart) -> None:
    keep_by_keys(part)
    kept = desk.document.job
    desk.job_files.new(sample("small-four"))
    desk.job_files.new(kept)
    desk.cards.open("Bridge")
    assert part.fold.isChecked()
    assert part.table.isVisible()


def test_the_table_is_as_high_as_its_rows_and_is_gone_through_by_keys(part: PlacementsPart) -> None:
    keep_by_keys(part)
    table = part.table
    assert table.compared.rowCount() >= 8
    last = table.visualRect(table.compared.index(table.compared.rowCount() - 1, 0))
    assert table.viewport().rect().contains(QPoint(1, last.bottom()))
    table.setFocus()
    table.setCurrentIndex(table.compared.index(0, 0))
    press(table, Qt.Key.Key_Down)
    assert table.currentIndex().row() == 1


def test_a_name_takes_one_line_where_the_figures_leave_it_room(part: PlacementsPart) -> None:
    keep_by_keys(part)
    QApplication.processEvents()
    table = part.table
    names = [str(table.compared.index(row, 0).data()) for row in range(table.compared.rowCount())]
    corner = names.index("Bridge, front bass corner")
    assert table.rowHeight(corner) < 1.5 * table.fontMetrics().lineSpacing() + 10
    shares = [table.columnWidth(column) for column in range(3)]
    assert sum(shares) == table.viewport().width()


def test_bringing_one_back_leaves_the_hands_off_what_drops_it(bridge: BridgeCard, part: PlacementsPart) -> None:
    """The button has done its work and cannot be pressed again: the focus must not go on to the next one."""
    keep_by_keys(part)
    fill(field(bridge, "Width at the wings"), "31")
    back = button(part, "Bring it back")
    back.setFocus(Qt.FocusReason.TabFocusReason)
    assert back.hasFocus()
    back.click()
    assert not back.isEnabled()
    assert part.which.hasFocus()
