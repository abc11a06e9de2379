"""Dialogs that Qt draws itself where the platform has none of its own, such as the one to print with: in our dress, and
no larger than the screen. The style sheet leaves no arrow in a box, no tick and no circle; they are painted.
"""

from PySide6.QtCore import QChildEvent, QEvent, QObject, QSize
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QFileDialog,
    QHeaderView,
    QLayout,
    QRadioButton,
    QSplitter,
    QTreeView,
    QWidget,
)

from app.desk.widgets.arrows import draw_arrows
from app.desk.widgets.inputs.choice import USUAL, paint_corner, paint_tick
from app.desk.widgets.inputs.one_of import paint_circle
from app.desk.widgets.look import DARK, LIGHT, Look
from app.desk.widgets.style_sheet import style_sheet

SIZES = (1.75, 1.5, 1.3, 1.15, 1.0)
"""The factors on all text that are tried, one after the other, for a dialog that is larger than the screen."""
FILES = 820, 480
"""How large a dialog of files is, in pixels at text scale 1: a dozen files with their sizes and dates (tried)."""
SETTINGS = 520
"""How wide any other dialog is at least, pixels at text scale 1: a printer's name, or where a file goes (tried)."""
SCREEN = 0.94
"""What of the screen a dialog takes at most: the window's frame has the rest (common practice, no source)."""
PLACES = 0.22
"""What of its width the places at its left take."""


class Marks(QObject):
    """Paints the marks of a dialog's boxes; a dialog that opens out of it is dressed in its turn."""

    def __init__(self, dialog: QDialog) -> None:
        super().__init__(dialog)
        direct = [child for child in dialog.children() if isinstance(child, QWidget)]
        boxes = [box for kind in (QComboBox, QCheckBox, QRadioButton) for box in dialog.findChildren(kind)]
        for watched in (dialog, *direct, *boxes):
            watched.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QChildEvent) and event.type() == QEvent.Type.ChildPolished:
            child = event.child()
            if isinstance(child, QDialog):
                dress(child)
        if not isinstance(event, QPaintEvent):
            return False
        if isinstance(watched, QComboBox):
            watched.paintEvent(event)
            paint_corner(watched)
        elif isinstance(watched, QCheckBox):
            watched.paintEvent(event)
            paint_tick(watched)
        elif isinstance(watched, QRadioButton):
            watched.paintEvent(event)
            paint_circle(watched)
        else:
            return False
        return True


def dress(dialog: QDialog) -> None:
    """Dress a dialog of Qt's own before it is seen; one of the platform's has nothing to dress."""
    Marks(dialog)
    dialog.ensurePolished()
    if isinstance(dialog, QFileDialog):
        _give_files_room(dialog)
        return
    if _is_too_large(dialog):
        palette = DARK if dialog.palette().window().color().lightness() < 128 else LIGHT
        for scale in SIZES:
            dialog.setStyleSheet(style_sheet(Look(palette, scale)))
            if not _is_too_large(dialog):
                break
    wide = QSize(round(SETTINGS * dialog.fontMetrics().height() / USUAL), 0)
    dialog.resize(dialog.sizeHint().expandedTo(wide).boundedTo(_room(dialog)))


def _room(dialog: QDialog) -> QSize:
    return dialog.screen().availableSize() * SCREEN


def _is_too_large(dialog: QDialog) -> bool:
    """By what its parts need in the style sheet of now, which they otherwise ask for only when they are shown."""
    for part in dialog.findChildren(QWidget):
        part.ensurePolished()
    for layout in dialog.findChildren(QLayout):
        layout.invalidate()
    return dialog.minimumSizeHint().boundedTo(_room(dialog)) != dialog.minimumSizeHint()


def _give_files_room(dialog: QFileDialog) -> None:
    """Room for the files' names, and for what stands beside them; arrows that are seen."""
    draw_arrows(dialog)
    files, parts = dialog.findChild(QTreeView), dialog.findChild(QSplitter)
    if files is None or parts is None:
        return
    dialog.resize((QSize(*FILES) * (dialog.fontMetrics().height() / USUAL)).boundedTo(_room(dialog)))
    head = files.header()
    head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
    places = round(PLACES * dialog.width())
    parts.setSizes([places, dialog.width() - places])


def chosen(dialog: QFileDialog) -> str:
    """Ask which file or folder; empty where none was chosen."""
    dress(dialog)
    taken = dialog.exec() == QDialog.DialogCode.Accepted
    names = dialog.selectedFiles()
    dialog.deleteLater()
    return names[0] if taken and names else ""
