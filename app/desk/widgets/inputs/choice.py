"""A box to choose one of several from, and one to tick, with signs of our own that keep to the palette."""

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QPolygonF, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QRadioButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionButton,
    QWidget,
)

from app.desk.widgets.ringed import ring_outside
from app.desk.widgets.words.wrapped_label import WrappedLabel

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


def paint_corner(box: QComboBox) -> None:
    """The corner that says that there is a list: the style sheet leaves no arrow in such a box."""
    painter = QPainter(box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    s = box.fontMetrics().height() / USUAL
    painter.setPen(pen(box, QPalette.ColorRole.WindowText, 1.6 * s))
    x, y = box.width() - 11.0 - 4 * s, box.height() / 2
    corners = ((-4, -2), (0, 2), (4, -2))
    painter.drawPolyline(QPolygonF([QPointF(x + dx * s, y + dy * s) for dx, dy in corners]))
    painter.end()


def part_of(box: QCheckBox | QRadioButton, part: QStyle.SubElement) -> QRect:
    """Where a part of a box to tick or a circle lies: its sign, its words."""
    option = QStyleOptionButton()
    box.initStyleOption(option)
    return box.style().subElementRect(part, option, box)


def paint_tick(box: QCheckBox) -> None:
    """The tick of a box that is ticked: the style sheet only fills it."""
    if not box.isChecked():
        return
    sign = QRectF(part_of(box, QStyle.SubElement.SE_CheckBoxIndicator))
    painter = QPainter(box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(pen(box, QPalette.ColorRole.Window, 2.0))
    corners = ((0.24, 0.54), (0.43, 0.72), (0.78, 0.3))
    points = [QPointF(sign.x() + x * sign.width(), sign.y() + y * sign.height()) for x, y in corners]
    painter.drawPolyline(QPolygonF(points))
    painter.end()


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
        paint_corner(self)

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
        ring_outside(self)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        paint_tick(self)


class UnderTick(WrappedLabel):
    """What explains a tick, under its words and as far in as they are."""

    def __init__(self, text: str, tick: Tick, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setProperty("role", "label")
        self._tick = tick

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Polish, QEvent.Type.StyleChange, QEvent.Type.FontChange):
            self._tick.ensurePolished()
            self.setContentsMargins(part_of(self._tick, QStyle.SubElement.SE_CheckBoxContents).x(), 0, 0, 0)
        return super().event(event)
