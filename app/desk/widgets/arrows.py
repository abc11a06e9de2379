"""Arrows for the buttons that Qt draws in black, as those of its dialog of files: black cannot be seen on dark."""

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QIcon, QPainter, QPalette, QPixmap, QPolygonF
from PySide6.QtWidgets import QFileDialog, QToolButton

from app.desk.widgets.inputs.choice import USUAL, pen

ARROWS = {
    "backButton": ((2, -4), (-2, 0), (2, 4)),
    "forwardButton": ((-2, -4), (2, 0), (-2, 4)),
    "toParentButton": ((-4, 2), (0, -2), (4, 2)),
}
"""The corners of each arrow about its middle, pixels at text scale 1, by the button's name in Qt."""
SIDE = 16
"""How large an icon is, in the same pixels."""


def draw_arrows(dialog: QFileDialog) -> None:
    """Give the buttons of a dialog of files arrows in the palette's colours, as large as its text."""
    scale = dialog.fontMetrics().height() / USUAL
    side = round(SIDE * scale)
    for button in dialog.findChildren(QToolButton):
        button.setIconSize(QSize(side, side))
    for name, corners in ARROWS.items():
        found = dialog.findChild(QToolButton, name)
        if isinstance(found, QToolButton):
            found.setIcon(_arrow(found, corners, scale))


def _arrow(button: QToolButton, corners: tuple[tuple[int, int], ...], scale: float) -> QIcon:
    """An arrow, and a paler one for while there is nowhere to go."""
    made, ratio = QIcon(), button.devicePixelRatioF()
    for mode, group in (
        (QIcon.Mode.Normal, QPalette.ColorGroup.Active),
        (QIcon.Mode.Disabled, QPalette.ColorGroup.Disabled),
    ):
        picture = QPixmap(button.iconSize() * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        ink = pen(button, QPalette.ColorRole.WindowText, 1.6 * scale)
        ink.setColor(button.palette().color(group, QPalette.ColorRole.WindowText))
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(ink)
        half = SIDE * scale / 2
        painter.drawPolyline(QPolygonF([QPointF(half + x * scale, half + y * scale) for x, y in corners]))
        painter.end()
        made.addPixmap(picture, mode)
    return made
