"""At every text size words have the room they need: no label, button or field is cut, none lies on another."""

from collections.abc import Iterator
from itertools import combinations, product

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QPushButton,
    QWidget,
)

from app.desk.document.preferences import TEXT_SIZES
from app.desk.frame.desk import Desk
from app.desk.widgets.words.signed_line import SignedLine
from app.edit.start.new_job import begin
from tests.app.desk.conftest import OpenDesk, let_rounds_pass, sample, unpainted
from tests.geometry.cranked import board, read

WORDED = (QLabel, QAbstractButton, QLineEdit, QComboBox)
CARDS = ["Start", "Measure", "Old work", "Strings", "Bridge", "Sheets"]


def shown(inside: QWidget) -> list[QWidget]:
    return [found for found in inside.findChildren(QWidget) if isinstance(found, WORDED) and found.isVisible()]


def cut(inside: QWidget) -> Iterator[str]:
    """The words that have too little room, with the room they need and have."""
    for widget in shown(inside):
        letters, room = widget.fontMetrics(), widget.contentsRect()
        text = widget.currentText() if isinstance(widget, QComboBox) else widget.text()  # type: ignore[attr-defined]
        need = letters.height() if text else 0
        if isinstance(widget, QLabel) and widget.wordWrap():
            need = widget.heightForWidth(widget.width())
            longest = max((letters.horizontalAdvance(word) for word in text.split()), default=0)
        else:
            longest = letters.horizontalAdvance(text) if isinstance(widget, QPushButton | QLabel) else 0
        if isinstance(widget, SignedLine):
            text, need = widget.words, widget.heightForWidth(widget.width())
        if room.height() < need or room.width() < longest:
            yield f"“{text}” needs {longest} by {need}, has {room.width()} by {room.height()}"


def crossed(inside: QWidget) -> Iterator[str]:
    """The widgets that lie on each other beside each other in one parent."""
    parents: dict[QWidget | None, list[QWidget]] = {}
    for widget in shown(inside):
        parents.setdefault(widget.parentWidget(), []).append(widget)
    for siblings in parents.values():
        for one, other in combinations(siblings, 2):
            both: QRect = one.geometry().intersected(other.geometry())
            if min(both.width(), both.height()) > 1:
                yield f"{one.accessibleName()!r} on {other.accessibleName()!r}"


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


def found_on_cards(desk: Desk) -> list[tuple[str, str]]:
    """What is cut, what lies on another, and what a screen of 1280 by 800 is too small for, whatever card is open."""
    found = []
    for card in CARDS:
        desk.cards.open(card)
        settle()
        found += [(card, fault) for fault in (*cut(desk.frame), *crossed(desk.frame))]
        needs = desk.frame.minimumSizeHint()
        if needs.width() > 1280 or needs.height() > 800:
            found.append((card, f"needs {needs.width()} by {needs.height()}"))
    return found


@pytest.mark.parametrize("size", TEXT_SIZES)
def test_nothing_on_a_card_is_cut_and_a_small_screen_has_room(
    desk: Desk, size: float, subtests: pytest.Subtests
) -> None:
    """The cards are made in text of this size; the jobs after the first have much to say."""
    unpainted(desk)
    desk.preferences.set_text(size)
    others = ("one-slip", "tie-bridge", "turned-left", "small-four", "bolted-left") if size <= 1.25 else ()
    for name in ("leaning-neck", *others):
        with subtests.test(name):
            if name != "leaning-neck":
                desk.document.start(sample(name))
            assert found_on_cards(desk) == []


def come_whole(desk: Desk) -> None:
    """Words that wrap find their height in rounds; by the last of them nothing is cut any more."""
    for _ in range(2):
        settle()
        if not list(cut(desk.frame)):
            return
        let_rounds_pass()
    assert list(cut(desk.frame)) == []


def test_findings_are_whole_again_after_large_text(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    for card in ("Strings", "Bridge"):
        desk.cards.open(card)
        for size in (2.0, 1.0):
            desk.preferences.set_text(size)
            come_whole(desk)


def test_findings_are_whole_where_the_text_was_made_small_behind_another_card(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    for card in ("Strings", "Bridge"):
        for size, shown_first in ((2.0, card), (1.0, "Start")):
            desk.cards.open(shown_first)
            desk.preferences.set_text(size)
            settle()
        desk.cards.open(card)
        come_whole(desk)


def test_nothing_in_a_dialog_is_cut(desk: Desk) -> None:
    for size, command in product((1.0, 2.0), ("About the job…", "Keys", "Before a bridge is moved")):
        desk.preferences.set_text(size)
        desk.menu_actions[command].trigger()
        settle()
        dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
        assert list(cut(dialog)) == [], (size, command)
        assert list(crossed(dialog)) == [], (size, command)
        dialog.close()


def test_nothing_is_cut_while_a_question_is_in_hand(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = open_desk(begin(measuring="neck and bridge"))
    desk.frame.resize(1280, 800)
    card = desk.measure
    for size in TEXT_SIZES:
        with subtests.test(f"text {size}"):
            desk.preferences.set_text(size)
            card.table.go_to(next(r.id for r in desk.document.job.readings if r.asked))
            settle()
            assert card.panel.yes_button.isVisible()
            assert list(cut(desk.frame)) == []
            assert list(crossed(desk.frame)) == []
            assert desk.frame.width() <= 1280


def test_nothing_is_cut_where_the_board_turns(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = open_desk(read(board(1.0)))
    desk.frame.resize(1280, 800)
    for size in TEXT_SIZES:
        with subtests.test(f"text {size}"):
            desk.preferences.set_text(size)
            settle()
            assert list(cut(desk.frame)) == []
            assert list(crossed(desk.frame)) == []
            assert desk.frame.height() == 800
            assert desk.measure.table.viewport().height() > desk.measure.table.rowHeight(0)
            desk.go_to("field:board.centre")
            settle()
            dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
            assert list(cut(dialog)) == []
            assert list(crossed(dialog)) == []
            dialog.close()
