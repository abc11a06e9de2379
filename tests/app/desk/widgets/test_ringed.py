"""The ring of the focus lies round what has no edge of its own, which begins where all else on the card begins."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QPushButton, QStyle, QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.frame.desk import Desk
from app.desk.widgets.fold import FoldHead
from app.desk.widgets.inputs.choice import Tick, part_of
from app.desk.widgets.ringed import Ringed
from app.desk.widgets.words.signed_line import SignedLine
from tests.app.desk.conftest import OpenDesk, sample


def shown(desk: Desk) -> Ringed:
    """The inside of the Bridge card of a bridge that has ticks, links and folds."""
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    settle()
    inside = desk.card.inside
    assert isinstance(inside, Ringed)
    return inside


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


def left(widget: QWidget, inside: QWidget) -> int:
    return widget.mapTo(inside, QPoint(0, 0)).x()


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_ticks_links_and_folds_begin_where_headings_do(open_desk: OpenDesk, size: float) -> None:
    desk = open_desk(sample("floating-five"))
    desk.preferences.set_text(size)
    inside = shown(desk)
    heading = next(label for label in inside.findChildren(QLabel) if label.text() == "Crown")
    edge = left(heading, inside)
    ticks = [tick for tick in inside.findChildren(Tick) if tick.isVisible()]
    boxes = {left(tick, inside) + part_of(tick, QStyle.SubElement.SE_CheckBoxIndicator).x() for tick in ticks}
    assert boxes == {edge}
    assert {left(head, inside) for head in inside.findChildren(FoldHead) if head.isVisible()} == {edge}
    link = next(button for button in inside.findChildren(QPushButton) if button.text() == "Measure a mark")
    shot = link.grab().toImage()
    ground = shot.pixelColor(shot.width() - 1, 0)
    first = min(x for x in range(40) for y in range(shot.height()) if shot.pixelColor(x, y) != ground)
    assert left(link, inside) == edge
    assert first <= round(3 * size * shot.devicePixelRatio())  # what a letter itself keeps at its side


def test_the_ring_is_painted_beside_it_and_goes_with_the_focus(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("floating-five"))
    inside = shown(desk)
    tick = next(found for found in inside.findChildren(QCheckBox) if found.text() == "Each string lies in a notch")
    assert inside.ring().isEmpty()
    tick.setFocus(Qt.FocusReason.TabFocusReason)
    settle()
    ring = inside.ring()
    assert ring.left() < left(tick, inside)
    assert left(tick, inside) + tick.sizeHint().width() < ring.right() < inside.width()
    teal = QColor(desk.look.palette.worked_out)
    middle = QPoint(ring.left() + 1, ring.center().y())
    assert inside.grab().toImage().pixelColor(middle) == teal
    desk.board.plan.setFocus()
    settle()
    assert inside.grab().toImage().pixelColor(middle) != teal


def test_the_ring_goes_where_a_fold_pushes_what_it_rings(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    inside = shown(desk)
    head = next(found for found in inside.findChildren(FoldHead) if found.text() == "Placements")
    above = next(found for found in inside.findChildren(FoldHead) if found.text() == "Choice of saddle")
    head.setFocus(Qt.FocusReason.TabFocusReason)
    settle()
    before = inside.ring()
    above.setChecked(True)
    settle()
    inside.grab()
    assert inside.ring().top() > before.top() + 50
    assert inside._painted == inside.ring()


def test_the_ring_of_a_figure_and_of_what_was_found_is_closed_and_beside_the_words(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    inside = shown(desk)
    line = next(line for line in desk.card.findChildren(SignedLine) if line.isVisible())
    for widget, on in ((line, inside), (desk.strip.cells[0], desk.strip)):
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        settle()
        ring = on.ring()
        assert ring.left() == left(widget, on) - 6
        shot, teal = on.grab().toImage(), QColor(desk.look.palette.worked_out)
        middle = ring.center()
        edges = [(ring.left() + 1, middle.y()), (ring.right() - 1, middle.y()), (middle.x(), ring.top() + 1)]
        assert [shot.pixelColor(x, y) == teal for x, y in edges] == [True] * 3
