"""One of several that are all seen, with a circle of our own that is round at every text size."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QRadioButton, QStyle, QWidget

from app.desk.widgets.inputs.choice import part_of, pen


class OneOf(QRadioButton):
    """One of several that are all seen; its circle is round at every text size."""

    def __init__(self, text: str, says: str, parent: QWidget | None = None, *, name: str = "") -> None:
        super().__init__(text, parent)
        self.setAccessibleName(name or text)
        self.setAccessibleDescription(says)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        paint_circle(self)


def paint_circle(button: QRadioButton) -> None:
    """The circle of one of several: the style sheet leaves none."""
    box = QRectF(part_of(button, QStyle.SubElement.SE_RadioButtonIndicator))
    role = QPalette.ColorRole
    painter = QPainter(button)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if button.isChecked():
        painter.setPen(pen(button, role.Highlight, 0.3 * box.width()))
        inset = 0.15 * box.width()
    else:
        painter.setPen(pen(button, role.Mid, 1.0))
        inset = 0.5
    painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))
    painter.end()
