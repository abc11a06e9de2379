"""What a card hides is made when it is first shown; then nothing tells it from what was there from the beginning."""

from itertools import pairwise

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QPushButton, QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.separate_part import SeparatePart
from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.cards.table_of_cards import steps
from app.desk.frame.desk import Desk
from app.desk.widgets.fold import FoldHead
from app.desk.widgets.inputs.fields import Field
from app.desk.widgets.look import DARK
from app.edit.bridge import bridge_entries
from app.file import job_file, samples
from geometry.job import Tail
from tests.app.desk.conftest import OpenDesk, card_asked_for, choose, field, fill, press, sample


@pytest.fixture
def desk(open_desk: OpenDesk, request: pytest.FixtureRequest) -> Desk:
    """A window of its own for each test: in one that others had, rows are made already."""
    return open_desk(sample("leaning-neck"), card_asked_for(request))


def fields(card: QWidget) -> list[str]:
    return [found.name.text() for found in card.findChildren(Field)]


def shown(card: QWidget, name: str) -> list[str]:
    """What stands in the fields of that name that are seen; none is made to be looked at."""
    return [one.line.text() for one in card.findChildren(Field) if one.name.text() == name and one.isVisible()]


def unfold_all(card: QWidget) -> None:
    for head in card.findChildren(FoldHead):
        head.setChecked(True)


def tab_way(card: QWidget) -> list[QWidget]:
    """What of a card takes the focus and is seen, as the tab key comes to it."""
    found, widget = [], card.nextInFocusChain()
    while widget is not None and widget is not card:
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and card.isAncestorOf(widget) and widget.isVisible():
            found.append(widget)
        widget = widget.nextInFocusChain()
    return found


@pytest.mark.parametrize("name", [job_file.name_of(path) for path in samples.paths()])
def test_no_row_is_made_that_is_not_seen(open_desk: OpenDesk, name: str) -> None:
    desk = open_desk(sample(name))
    desk.frame.hide()  # what is made is asked, not how it lies or is painted
    for card in steps():
        desk.cards.open(card)
        QApplication.processEvents()  # ticks that others took the place of go
        rows = [row for kind in (Field, QComboBox, QCheckBox) for row in desk.card.findChildren(kind)]
        assert [row for row in rows if not row.isVisibleTo(desk.card)] == [], card


def test_a_finding_leads_to_a_row_that_is_not_made_yet(desk: Desk) -> None:
    for where, name in (
        ("field:choice.along", "Range along"),
        ("field:bridge.moved.turn", "Turned (°), + treble end to the nut"),
        ("field:sheets.stock", "Stock"),
        ("field:hardware.tuners.spacing", "From post to post"),
        ("field:board.radius", "Radius, at the nut"),
    ):
        desk.go_to(where)
        found = field(desk.card, name)
        assert found.line.hasFocus(), name
        assert found.isVisible()


def test_undo_shows_what_it_took_back_in_a_row_that_only_then_is_there(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("tie-bridge"), "Bridge")
    choose(desk.card, "How do the strings end?", "in pins")
    desk.cards.open("Strings")
    desk.menu_actions["Undo"].trigger()
    assert isinstance(desk.card, BridgeCard)
    assert field(desk.card, "Block behind the slot").isVisible()


def test_it_shows_the_values_at_once(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"), "Bridge")
    assert "Block behind the slot" not in fields(desk.card)
    desk.document.edit("a tie block", bridge_entries.put_ends(desk.document.job, "tie"))
    bridge = desk.document.job.bridge
    assert bridge is not None
    assert bridge.tie is not None
    assert shown(desk.card, "Block behind the slot") == [f"{bridge.tie.behind_slot:g}"]
    desk.document.edit("a tail", replace(desk.document.job, tail=Tail(behind=88.0)))
    assert shown(desk.card, "Behind the break") == ["88"]


def test_what_is_typed_in_it_stays_while_it_is_not_seen(bridge: BridgeCard) -> None:
    choice = bridge.glued.choice
    choice.set_open(True)
    fill(field(choice, "Range along"), "far")
    choice.set_open(False)
    choice.set_open(True)
    assert field(choice, "Range along").line.text() == "far"
    choose(bridge, "Outline", "with a belly")
    fill(field(bridge, "Belly or middle stands out by"), "far")
    choose(bridge, "Outline", "straight")
    assert not field(bridge, "Belly or middle stands out by").isVisible()
    choose(bridge, "Outline", "with a belly")
    assert field(bridge, "Belly or middle stands out by").line.text() == "far"


def test_it_is_made_in_the_colours_and_the_size_of_text_that_are_chosen(desk: Desk, bridge: BridgeCard) -> None:
    desk.preferences.set_theme("dark")
    desk.preferences.set_text(1.5)
    bridge.glued.proofs[0].set_open(True)
    bridge.placements.keep()
    for look in (
        bridge.glued.proofs[0].whole.look,
        bridge.glued.proofs[0].whole.lines[0].look,
        bridge.placements.table.cells.look,
    ):
        assert look == desk.look
        assert (look.palette, look.text_scale) == (DARK, 1.5)


@pytest.mark.parametrize("card", ["Old work", "Strings", "Bridge", "Headstock", "Sheets"])
def test_the_tab_key_goes_down_what_was_unfolded_later(open_desk: OpenDesk, card: str) -> None:
    desk = open_desk(sample("redrilled-left"), card)
    before = len(tab_way(desk.card))
    unfold_all(desk.card)
    QApplication.processEvents()
    found = tab_way(desk.card)
    assert len(found) > before
    tops = [(each.accessibleName(), each.mapTo(desk, QPoint(0, 0)).y()) for each in found]
    assert [b for (_, high), (b, low) in pairwise(tops) if low < high - 12] == []  # 12: they stand in one row


def test_the_tab_key_goes_on_to_rows_that_the_job_has_come_to_need(bridge: BridgeCard) -> None:
    choose(bridge, "How do the strings end?", "in a tie block")
    way = [each.accessibleName() for each in tab_way(bridge)]
    at = way.index("How do the strings end?")
    assert way[at + 1 : at + 3] == ["Block behind the slot", "Block, front to back"]


def test_the_tab_key_comes_to_another_hole_before_the_button_under_it(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"), "Headstock")
    unfold_all(desk.card)
    add = next(button for button in desk.card.findChildren(QPushButton) if button.text() == "Add a hole")
    for many in (1, 2):
        add.click()
        QApplication.processEvents()
        way = [each.accessibleName() for each in tab_way(desk.card)]
        assert way.index(f"Hole {many}, where") < way.index("Add a hole"), many


def test_the_tab_key_comes_to_what_a_proof_says_before_its_distances(bridge: BridgeCard) -> None:
    choose(bridge, "How is it held?", "by screws, a saddle for each string")
    assert isinstance(bridge.part, SeparatePart)
    proof = bridge.part.stage
    proof.set_open(True)
    QApplication.processEvents()
    way = [each for each in tab_way(bridge) if proof.isAncestorOf(each)]
    assert way[:2] == [proof.head, proof.whole.lines[0]]


def test_a_fold_is_filled_once(desk: Desk) -> None:
    desk.cards.open("Sheets")
    assert isinstance(desk.card, SheetsCard)
    for _ in range(2):
        press(desk.card.stock.head, Qt.Key.Key_Space)
        press(desk.card.stock.head, Qt.Key.Key_Space)
        assert fields(desk.card.stock) == ["Stock", "Cutter for outlines", "Cutter for windows"]


def test_each_kind_of_old_work_is_made_alone(desk: Desk) -> None:
    desk.cards.open("Old work")
    assert isinstance(desk.card, OldWorkCard)
    desk.card.sections["pins"].fold.set_open(True)
    filled = [kind for kind, section in desk.card.sections.items() if section.fold.is_filled]
    assert filled == ["pins"]
