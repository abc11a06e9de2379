"""The tab key's way down a card: from the first field to the last, as they stand."""

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QScrollArea, QStackedWidget, QWidget


def tab_down(card: QWidget) -> None:
    """Let the tab key go down a card as its parts are laid out, whichever was made first."""
    for one, following in pairwise(_in_order(card)):
        QWidget.setTabOrder(one, following)


def tab_down_again(inside: QWidget) -> None:
    """Let it do so anew after something has come into a card, or a dialog, that is seen; one that is not seen yet gets
    its order when it is opened.
    """
    card = inside
    while not card.isWindow() and not isinstance(card.parentWidget(), QStackedWidget):
        card = card.parentWidget() or card
    if card.isVisible():
        tab_down(card)


def _in_order(inside: QWidget) -> Iterator[QWidget]:
    """What takes the focus inside a widget, in the order in which it is laid out."""
    layout = inside.layout()
    if layout is not None:
        yield from _laid_out(layout, inside.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly))


def _laid_out(layout: QLayout, among: list[QWidget]) -> Iterator[QWidget]:
    """What of a layout takes the focus; `among` are the widgets that it may lay out, and those that it does are taken
    off. (Its items are not asked for: the binding keeps each, and takes it for whatever stands in its place in memory
    once it is gone.)
    """
    inner = (each for each in layout.children() if isinstance(each, QLayout))
    parts: dict[int, QWidget | QLayout] = {layout.indexOf(each): each for each in inner}
    for each in tuple(among):
        if len(parts) == layout.count():
            break
        place = layout.indexOf(each)
        if place >= 0:
            parts[place] = each
            among.remove(each)
    for _, part in sorted(parts.items()):
        if isinstance(part, QLayout):
            yield from _laid_out(part, among)
            continue
        widget = part.widget() if isinstance(part, QScrollArea) else part
        if widget is not None and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            yield widget
        elif widget is not None:
            yield from _in_order(widget)
