"""What may be glued and cut now, at the top of the Bridge card and in the strip, as a person meets it."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.findings_list import FindingLine, sign_of
from app.desk.frame.desk import Desk
from app.desk.widgets.signs import Sign
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, field, fill, press, sample


def lines(card: BridgeCard) -> list[str]:
    return [line.finding.text for line in card.go.list.lines if line.isVisibleTo(card)]


def test_it_leads_the_card_and_soon_says_what_would_change_it(bridge: BridgeCard, qtbot: QtBot) -> None:
    at_once = lines(bridge)
    assert any(
        line.startswith("Don’t cut the slot yet: the bass string’s place is known to ±2.2 mm (5.8 cents)")
        for line in at_once
    )
    assert any(line.startswith("Glue the bridge: its place is known to ±1.5 mm") for line in at_once)
    assert bridge.go.y() < bridge.findings.y()
    qtbot.waitUntil(lambda: any("A trial saddle brings the ± down" in line for line in lines(bridge)), timeout=5000)
    assert len(lines(bridge)) == len(at_once)


def test_a_thicker_saddle_lets_the_slot_be_cut(bridge: BridgeCard) -> None:
    """derived: string 2's ridge stands 1.2 mm behind the middle; of half of 6 mm less that and the wall 1.3 are left,
    of half of 8 mm 2.3
    """
    fill(field(bridge, "Thickness"), "6 mm")
    assert any("At string 2 the 6 mm saddle can be filed by ±1.2 mm only" in line for line in lines(bridge))
    fill(field(bridge, "Thickness"), "8 mm")
    assert any(line.startswith("Cut the slot: the bass string’s place is known to ±2.2 mm") for line in lines(bridge))


def test_the_strip_says_it_and_goes_to_the_card(desk: Desk) -> None:
    cell = next(cell for cell in desk.strip.cells if cell.figure.title == "Go or wait")
    assert (cell.figure.value, cell.figure.rest) == ("Slot: wait", "· Glue: go")
    cell.click()
    assert isinstance(desk.card, BridgeCard)


def test_without_a_bridge_there_is_no_block(lend_desk: LendDesk) -> None:
    from msgspec.structs import replace

    desk = lend_desk(replace(sample("leaning-neck"), bridge=None))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    assert not desk.card.go.isVisible()
    assert not any(cell.figure.title == "Go or wait" for cell in desk.strip.cells if cell.isVisible())


def test_that_no_bridge_is_chosen_leads_to_the_nearest_way_to_one(lend_desk: LendDesk) -> None:
    from msgspec.structs import replace

    desk = lend_desk(replace(sample("leaning-neck"), bridge=None))
    desk.go_to("step:bridge")  # as the finding does wherever it is pressed
    begin = desk.frame.focusWidget()
    assert isinstance(begin, QPushButton)
    assert begin.text() == "Take usual sizes as a start"
    desk.cards.open("Measure")
    desk.go_to("step:bridge")
    assert desk.frame.focusWidget() is begin


def test_go_or_wait_in_the_strip_leads_to_what_must_wait_first(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("turned-left-old-slot"), "Bridge")
    assert isinstance(desk.card, BridgeCard)
    bar = desk.card.area.verticalScrollBar()
    (cell,) = (one for one in desk.strip.cells if one.figure.title == "Go or wait")
    assert (cell.figure.mark, cell.figure.tone) == ("stop", "look")
    for card in ("Bridge", "Old work"):
        bar.setValue(bar.maximum())
        desk.cards.open(card)
        cell.click()
        assert desk.cards.is_open("Bridge")
        first = desk.frame.focusWidget()
        assert isinstance(first, FindingLine)
        assert first is desk.card.go.list.lines[0]
        assert sign_of(first.finding) is Sign.STOP
        assert first.visibleRegion().boundingRect() == first.rect()


def test_usual_sizes_taken_leave_the_card_where_it_is(lend_desk: LendDesk) -> None:
    """The button goes out of sight with the focus on it; a sentence below would take it, and scroll the card."""
    from msgspec.structs import replace

    desk = lend_desk(replace(sample("leaning-neck"), bridge=None))
    desk.frame.resize(1366, 768)
    desk.go_to("step:bridge")
    card = desk.card
    assert isinstance(card, BridgeCard)
    card.area.verticalScrollBar().setValue(0)
    press(card.glued.begin, Qt.Key.Key_Space)
    for _ in range(4):
        QApplication.processEvents()
    assert desk.document.job.bridge is not None
    assert desk.frame.focusWidget() is card.held
    assert card.area.verticalScrollBar().value() == 0


def test_what_would_change_it_does_not_move_the_field_in_hand(bridge: BridgeCard) -> None:
    bridge.refresh()  # as it stands at once
    QApplication.processEvents()
    line = field(bridge, "Thickness").line
    line.setFocus()
    bridge.area.ensureWidgetVisible(line)
    QApplication.processEvents()
    before = line.mapTo(bridge.area, QPoint(0, 0)).y()
    high = bridge.go.height()
    bridge.go.tell_changes()
    QApplication.processEvents()
    assert bridge.go.height() > high  # its sentences have grown
    assert abs(line.mapTo(bridge.area, QPoint(0, 0)).y() - before) <= 1
