"""The cards one behind the other: the open one is in front, each is made when it is first asked for."""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QScrollArea, QStackedWidget, QWidget

from app.desk.cards.card import Card, keep_still
from app.desk.widgets.look import Look
from app.desk.widgets.tab_order import tab_down

CardKind = TypeVar("CardKind", bound=Card)


class CardStack(QStackedWidget):
    """Signals: `turning` before another card comes to the front; `opened` with the name when a card was opened."""

    turning = Signal()
    opened = Signal(str)

    def __init__(self, make: Callable[[str], Card], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._make = make
        self.cards: dict[str, Card] = {}

    @property
    def card(self) -> Card | None:
        """The card that is open; None before the first one is."""
        found = self.currentWidget()
        return found if isinstance(found, Card) else None

    def get(self, name: str) -> Card:
        """The card of that name, whether it has been opened or not."""
        if name not in self.cards:
            self.cards[name] = made = self._make(name)
            made.hide()  # one that is never opened is not seen when the stack is
        return self.cards[name]

    def get_as(self, name: str, kind: type[CardKind]) -> CardKind:
        """The card of that name, which is of this kind."""
        card = self.get(name)
        assert isinstance(card, kind)
        return card

    def open(self, name: str) -> None:
        """Bring a card to the front."""
        card = self.get(name)
        if self.indexOf(card) < 0:
            self.addWidget(card)
        if card is not self.currentWidget():
            self.turning.emit()
        bars = [(area.verticalScrollBar(), area.verticalScrollBar().value()) for area in card.findChildren(QScrollArea)]
        self.setCurrentWidget(card)
        card.refresh()
        tab_down(card)
        card.opened()
        for bar, value in bars:
            bar.setValue(value)  # a field that was hidden has handed the focus on, which scrolls
        self.opened.emit(name)

    def is_open(self, name: str) -> bool:
        return name in self.cards and self.cards[name] is self.currentWidget()

    def refresh(self) -> None:
        """Let the open card take over the document."""
        card = self.card
        if card is not None:
            keep_still(card, card.refresh)

    def touched(self, of: str) -> None:
        """Something on the plan was clicked."""
        for card in self.cards.values():
            card.touched(of)

    def show_look(self, look: Look) -> None:
        for card in self.cards.values():
            card.show_look(look)

    def to_the_top(self) -> None:
        """Another job is read from the top of each card."""
        for card in self.cards.values():
            for area in card.findChildren(QScrollArea):
                area.verticalScrollBar().setValue(0)
