"""A box to choose one of several from, and one to tick, with signs of our own that keep to the palette."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QPolygonF, QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QStyle, QStyledItemDelegate, QStyleOptionButton, QWidget

USUAL = 18.0
"""How high a line of text is at text scale 1, pixels."""
BESIDE = 32
"""What a list's border, its padding and its scroll bar take beside the words, pixels."""


def pen(widget: QWidget, role: QPalette.ColorRole, width: float) -> QPen:
    """A pen with round ends, in a colour of the palette."""
    made = QPen(widget.palette().color(role), width)
    made.setCapStyle(Qt.PenCapStyle.RoundCap)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return made


MOST_LINES, SHARE = 16, 0.8
"""How many lines of a list are seen at once at most, and what of the screen's height they take."""


class Choice(QComboBox):
    """Turns of the wheel over it scroll the card, they never change the choice."""

    def __init__(self, name: str, says: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        # begins with the name: where it has no label, some systems take what is chosen for the name of such a box
        self.setAccessibleDescription(f"{name}: {says[:1].lower()}{says[1:]}" if says else name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumContentsLength(6)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setItemDelegate(QStyledItemDelegate(self))  # Qt's own for this list knows nothing of our row heights
        self.setMaxVisibleItems(MOST_LINES)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        s = self.fontMetrics().height() / USUAL
        painter.setPen(pen(self, QPalette.ColorRole.WindowText, 1.6 * s))
        x, y = self.width() - 11.0 - 4 * s, self.height() / 2
        corners = ((-4, -2), (0, 2), (4, -2))
        painter.drawPolyline(QPolygonF([QPointF(x + dx * s, y + dy * s) for dx, dy in corners]))
        painter.end()

    def showPopup(self) -> None:
        self.widen_list()
        super().showPopup()

    def widen_list(self) -> None:
        """Make the list as wide as its words (cut short, many would look alike), and no higher than the screen."""
        view = self.view()
        line = max(view.sizeHintForRow(0), 1)
        self.setMaxVisibleItems(max(3, min(MOST_LINES, int(SHARE * self.screen().availableSize().height() / line))))
        view.setMinimumWidth(min(view.sizeHintForColumn(0) + BESIDE, self.screen().availableSize().width()))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class Tick(QCheckBox):
    """A box to tick."""

    def __init__(self, text: str, says: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setAccessibleName(text)
        self.setAccessibleDescription(says or text)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self.isChecked():
            return
        option = QStyleOptionButton()
        self.initStyleOption(option)
        found = self.style().subElementRect(QStyle.SubElement.SE_CheckBoxIndicator, option, self)
        box = QRectF(found)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(pen(self, QPalette.ColorRole.Window, 2.0))
        corners = ((0.24, 0.54), (0.43, 0.72), (0.78, 0.3))
        points = [QPointF(box.x() + x * box.width(), box.y() + y * box.height()) for x, y in corners]
        painter.drawPolyline(QPolygonF(points))
        painter.end()
