"""A table that shows whole lines alone: none is cut at the top, and none is shown in half at the bottom."""

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QTableView, QWidget

from app.desk.widgets.look import Look, colour


class WholeLines(QTableView):
    """A table whose lines are all as high as its vertical heading has them."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setViewport(QWidget(self))
        self.look = look

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self._begin_with_a_whole_line()

    def updateGeometries(self) -> None:
        super().updateGeometries()
        self._begin_with_a_whole_line()

    def _begin_with_a_whole_line(self) -> None:
        """At the end Qt lets the last line stand at the bottom and cuts the first one: the last is whole all the same
        where a line less is shown.
        """
        head, high = self.verticalHeader(), self.verticalHeader().defaultSectionSize()
        if head.offset() % high:
            head.setOffset(head.offset() + high - head.offset() % high)
            self.viewport().update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """What is left under the last whole line stays empty."""
        super().paintEvent(event)
        high, room = self.verticalHeader().defaultSectionSize(), self.viewport().height()
        painter = QPainter(self.viewport())
        ground = colour(self.look.palette.card)
        painter.fillRect(0, room - room % high, self.viewport().width(), room % high, ground)
        painter.end()
