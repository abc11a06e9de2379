"""A table that shows whole lines alone: none is cut at the top, and none is shown in half at the bottom."""

from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QTableView, QWidget

from app.desk.widgets.look import Look, colour


class WholeLines(QTableView):
    """A table whose lines are as high as its vertical heading has them."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setViewport(QWidget(self))
        self.look = look

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.viewport().update()  # the ring round the line in hand comes and goes with the focus

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()

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
        head = self.verticalHeader()
        first = head.logicalIndexAt(0)
        if first >= 0 and head.sectionPosition(first) < head.offset():
            head.setOffset(head.sectionPosition(first) + head.sectionSize(first))
            self.updateEditorGeometries()  # the line that is typed into goes with its row
            self.viewport().update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """What is left under the last whole line stays empty."""
        super().paintEvent(event)
        room = self.viewport().height()
        last = self.rowAt(room - 1)
        top = self.rowViewportPosition(last)
        if last < 0 or top + self.rowHeight(last) <= room:
            return
        painter = QPainter(self.viewport())
        painter.fillRect(0, top, self.viewport().width(), room - top, colour(self.look.palette.card))
        painter.end()
