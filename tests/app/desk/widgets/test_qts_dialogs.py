"""Qt's own dialogs, where the platform has none: their boxes show what they are, and they fit the screen
(text sizes: our own, no source).
"""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtGui import QColor, QIcon, QImage
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QFileDialog,
    QPushButton,
    QRadioButton,
    QSpinBox,
    QToolButton,
    QTreeView,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.desk.widgets.look import DARK, LIGHT, Look, Palette
from app.desk.widgets.qts_dialogs import chosen, dress
from app.desk.widgets.style_sheet import apply_look


def shot(widget: QWidget) -> QImage:
    widget.resize(200, 32)
    return widget.grab().toImage()


def has_ink(image: QImage, columns: range) -> bool:
    """Whether anything dark, or pale on the filled box of a tick, stands in these columns of pixels."""
    rows = range(10, image.height() - 10)
    return len({image.pixelColor(x, y).lightness() // 64 for x in columns for y in rows}) > 1


@pytest.mark.parametrize("dressed", [True, False])
@pytest.mark.parametrize("kind", [QComboBox, QCheckBox, QRadioButton])
def test_a_box_of_a_dialog_that_is_not_ours_shows_what_it_is(qtbot: QtBot, kind: type[QWidget], dressed: bool) -> None:
    """The style sheet leaves a box no arrow, no tick and no circle."""
    dialog = QDialog()
    qtbot.addWidget(dialog)
    box = kind(dialog)
    if isinstance(box, QComboBox):
        box.addItems(["Printer", "Another"])
    else:
        assert isinstance(box, QCheckBox | QRadioButton)
        box.setChecked(True)
    if dressed:
        dress(dialog)
    image = shot(box)
    where = range(image.width() - 26, image.width() - 6) if kind is QComboBox else range(7, 17)
    assert has_ink(image, where) == dressed


def test_how_many_is_seen_with_its_arrows(qtbot: QtBot) -> None:
    """A box with a border of our style sheet would lose them."""
    apply_look(Look(LIGHT))
    copies = QSpinBox()
    qtbot.addWidget(copies)
    copies.setValue(8)
    image = shot(copies)
    assert has_ink(image, range(4, 24))
    assert has_ink(image, range(image.width() - 14, image.width() - 4))


@pytest.fixture
def to_print(qtbot: QtBot) -> Callable[[float], QPrintDialog]:
    """Shows the dialog to print with, dressed, in such a size of text: into a file, for there is no printer."""
    printer = QPrinter()  # Qt's dialog does not keep it
    printer.setOutputFileName("sheets.pdf")

    def shown(text: float) -> QPrintDialog:
        apply_look(Look(LIGHT, text))
        dialog = QPrintDialog(printer)
        qtbot.addWidget(dialog)
        dress(dialog)
        dialog.show()
        return dialog

    return shown


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_where_the_sheets_go_is_seen_whole(to_print: Callable[[float], QPrintDialog], text: float) -> None:
    dialog = to_print(text)
    (box,) = (each for each in dialog.findChildren(QComboBox) if each.isVisible() and "PDF" in each.currentText())
    arrow = 30 * text  # derived from the style sheet: 8 + 12 a size of text, and 8 at either side of the words
    assert box.fontMetrics().horizontalAdvance(box.currentText()) < box.width() - arrow


def test_what_opens_out_of_the_dialog_to_print_is_dressed_and_fits_the_screen(
    to_print: Callable[[float], QPrintDialog],
) -> None:
    dialog = to_print(2.0)
    found: list[tuple[bool, bool]] = []

    def look() -> None:
        opened = QApplication.activeModalWidget()
        assert isinstance(opened, QDialog)
        room = opened.screen().availableSize()
        image = opened.findChildren(QComboBox)[0].grab().toImage()
        marked = has_ink(image, range(image.width() - 26, image.width() - 6))
        found.append((opened.height() <= room.height() and opened.width() <= room.width(), marked))
        opened.reject()

    QTimer.singleShot(300, look)
    next(button for button in dialog.findChildren(QPushButton) if "roperties" in button.text()).click()
    assert found == [(True, True)]


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_dates_and_sizes_of_files_are_not_cut(
    qtbot: QtBot, scale: float, tmp_path_factory: pytest.TempPathFactory
) -> None:
    apply_look(Look(LIGHT, scale))
    folder = tmp_path_factory.mktemp("jobs")
    for name in ("one.job.json", "another.job.json"):
        (folder / name).write_text("{}")
    dialog = QFileDialog(None, "Open a job", str(folder))
    qtbot.addWidget(dialog)
    files = dialog.findChild(QTreeView)
    assert isinstance(files, QTreeView)
    seen: list[bool] = []

    def look() -> None:
        head = files.header()
        wide = [head.sectionSize(column) >= files.sizeHintForColumn(column) for column in (1, 2, 3)]
        seen.append(all(wide) and dialog.width() <= dialog.screen().availableSize().width())
        dialog.reject()

    QTimer.singleShot(600, look)
    assert chosen(dialog) == ""
    assert seen == [True]


@pytest.mark.parametrize("palette", [LIGHT, DARK])
@pytest.mark.parametrize("name", ["backButton", "forwardButton", "toParentButton"])
def test_the_arrows_among_files_are_seen_on_their_ground(qtbot: QtBot, palette: Palette, name: str) -> None:
    """In the ink of the words beside them, and as large as these (derived: an icon is 16 pixels at text scale 1)."""
    apply_look(Look(palette, 2.0))
    dialog = QFileDialog()
    dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
    qtbot.addWidget(dialog)
    dress(dialog)
    button = dialog.findChild(QToolButton, name)
    assert isinstance(button, QToolButton)
    drawn = button.icon().pixmap(button.iconSize(), QIcon.Mode.Normal).toImage()
    inks = {drawn.pixelColor(x, y).name() for x in range(drawn.width()) for y in range(drawn.height())}
    assert QColor(palette.ink).name() in inks
    assert button.iconSize().width() >= 30
