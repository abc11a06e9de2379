"""What stands down a card keeps to one edge at the left and one at the right, and says what it says alike."""

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QGridLayout, QLabel, QPushButton, QScrollArea, QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.frame.desk import Desk
from app.desk.widgets.fold import FoldHead
from app.desk.widgets.inputs.fields import Field
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, sample


def unfolded(desk: Desk, card: str) -> QWidget:
    """All that a card has, unfolded."""
    desk.cards.open(card)
    for head in desk.card.findChildren(FoldHead):
        head.setChecked(True)
    for _ in range(4):
        QApplication.processEvents()
    inside = max(desk.card.findChildren(QScrollArea), key=lambda area: area.height()).widget()
    assert inside is not None
    return inside


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_a_line_for_much_to_type_is_as_wide_as_the_card(
    open_desk: OpenDesk, subtests: pytest.Subtests, size: float
) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_text(size)
    for name in ("one-slip", "floating-five", "slanted-separate"):
        desk.document.start(sample(name))
        inside = unfolded(desk, "Bridge")
        assert isinstance(desk.card, BridgeCard)
        desk.card.placements.keep()
        QApplication.processEvents()
        edges: dict[bool, set[int]] = {True: set(), False: set()}
        for field in inside.findChildren(Field):
            if field.isVisibleTo(inside):
                edges[field.long].add(field.line.mapTo(inside, QPoint(0, 0)).x())
        with subtests.test(name):
            assert len(edges[False]) == 1
            assert edges[True] == {desk.card.form.parent.layout().contentsMargins().left()}  # type: ignore[union-attr]


@pytest.mark.parametrize("card", ["Bridge", "Headstock", "Sheets"])
def test_a_button_is_as_wide_as_its_words(lend_desk: LendDesk, card: str) -> None:
    inside = unfolded(lend_desk(sample("one-slip")), card)
    outlined = [one for one in inside.findChildren(QPushButton) if one.property("role") in ("", "main")]
    shown = [one for one in outlined if one.isVisibleTo(inside)]
    assert shown
    assert [one.text() for one in shown if one.width() > one.sizeHint().width()] == []


@pytest.mark.parametrize("name", ["redrilled-left", "slotted-neck-screw"])
def test_what_explains_a_row_of_the_headstock_is_a_sentence(lend_desk: LendDesk, name: str) -> None:
    inside = unfolded(lend_desk(sample(name)), "Headstock")
    said = [one.text() for one in inside.findChildren(QLabel) if one.property("role") == "label" and one.text()]
    assert len(said) > 5
    assert [text for text in said if not text.endswith(".")] == []


def test_nothing_empty_takes_room_on_the_card(lend_desk: LendDesk) -> None:
    """But the corner of a table."""
    inside = unfolded(lend_desk(sample("one-slip")), "Bridge")
    empty = [one for one in inside.findChildren(QLabel) if not one.text() and one.isVisibleTo(inside)]
    assert [one.parentWidget() for one in empty if not _in_table(one)] == []


def _in_table(label: QLabel) -> bool:
    parent = label.parentWidget()
    layout = parent.layout() if parent is not None else None
    return any(grid.indexOf(label) >= 0 for grid in (layout.findChildren(QGridLayout) if layout else ()))
