"""What a card hides until it is asked for is made when it is first shown, so that the card opens sooner.

Who hides something gives the function that **fills** it: a fold its rows, a form the rows that only some jobs need, a
part what it has a use for. It is filled once, right before it comes into sight and before anything in it is looked for;
from then on it stays, seen or not, with what is typed in it. Filled, it shows the document's values in the colours and
the size of text that are chosen; until then there is nothing in it to refresh.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from app.desk.widgets.tab_order import tab_down_again


class MadeLater(QObject):
    """What stands `inside` a widget, made by `fill` the first time that `now` is called; without one it is there."""

    def __init__(self, inside: QWidget, fill: Callable[[], object] | None = None) -> None:
        super().__init__(inside)
        self._inside, self._fill = inside, fill

    @property
    def is_made(self) -> bool:
        """Whether it is there, or is just being made."""
        return self._fill is None

    def now(self) -> None:
        """Make it, if that was not done before; in a card that is seen the tab key finds it in its place."""
        fill, self._fill = self._fill, None
        if fill is not None:
            fill()
            tab_down_again(self._inside)
