"""A menu whose marks grow with its text: Qt's own stay as small as they are at the usual size."""

from PySide6.QtCore import QPointF, QRect, QRectF
from PySide6.QtGui import QAction, QPainter, QPaintEvent, QPalette, QPolygonF
from PySide6.QtWidgets import QMenu, QMenuBar

from app.desk.widgets.inputs.choice import USUAL, pen

BEFORE_KEYS = 20
"""What stays free between the longest words and the keys behind them, beside what Qt leaves there, pixels."""
TICK = ((0.08, 0.55), (0.36, 0.82), (0.92, 0.2))
"""The corners of a tick in a square of side 1."""


class Menu(QMenu):
    """A tick before each command that is on, a dot where it is one of several; a corner after what opens a menu."""

    _parted_at = 0

    def part_keys(self) -> None:
        """Let no words run up to the keys behind them. Qt's own width is asked for once in each size of text: a menu
        that has been wider stays so.
        """
        height = self.fontMetrics().height()
        if self._parted_at != height and any(not action.shortcut().isEmpty() for action in self.actions()):
            self._parted_at = height
            self.setMinimumWidth(0)
            self.setMinimumWidth(self.sizeHint().width() + BEFORE_KEYS)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for action in self.actions():
            if action.isVisible() and event.rect().intersects(self.actionGeometry(action)):
                self._paint_marks(painter, action, self.actionGeometry(action))
        painter.end()

    def _paint_marks(self, painter: QPainter, action: QAction, line: QRect) -> None:
        s, middle = self.fontMetrics().height() / USUAL, line.center().y() + 0.5
        painter.setPen(pen(self, QPalette.ColorRole.WindowText, 1.8 * s))
        if action.isChecked():
            side = 11 * s
            box = QRectF(line.x() + 10 + 2 * s, middle - side / 2, side, side)
            group = action.actionGroup()
            if group is not None and group.isExclusive():
                painter.setBrush(painter.pen().color())
                painter.drawEllipse(box.center(), 2.6 * s, 2.6 * s)
            else:
                corners = [QPointF(box.x() + x * side, box.y() + y * side) for x, y in TICK]
                painter.drawPolyline(QPolygonF(corners))
        if action.menu() is not None:
            x = min(line.right(), self.width()) - 14 - 6 * s
            corners = [QPointF(x + dx * s, middle + dy * s) for dx, dy in ((0, -4), (4, 0), (0, 4))]
            painter.drawPolyline(QPolygonF(corners))


def add_menu(to: QMenu | QMenuBar, name: str) -> Menu:
    """A menu of its own in a menu or in the menu bar."""
    made = Menu(name, to)
    made.aboutToShow.connect(made.part_keys)
    to.addMenu(made)
    return made
