"""What is typed after a click into a box takes the place of what stood there; a second click places the cursor."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractItemView, QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.measure.table.readings_model import VALUE_AT
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.strings.strings_model import DIAMETER
from app.desk.widgets.inputs.fields import LONG, Field, TypedLine
from tests.app.desk.conftest import OpenDesk, sample

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    window = QWidget()
    qtbot.addWidget(window)
    window.setLayout(QVBoxLayout())
    return window


def first_of_two(window: QWidget, wide: int) -> TypedLine:
    """The line of the first of two fields; the second has the focus."""
    column = window.layout()
    assert column is not None
    fields = [Field(name, lambda *_: None, wide=wide, parent=window) for name in ("Across", "Along")]
    for field in fields:
        field.show_text("12 1/2")
        column.addWidget(field)
    window.show()
    window.activateWindow()
    QApplication.processEvents()
    fields[1].line.setFocus()
    return fields[0].line


@pytest.mark.parametrize(("wide", "selects"), [(112, True), (LONG, False)])
def test_a_click_that_gives_the_focus_selects_a_short_value_whole(window: QWidget, wide: int, selects: bool) -> None:
    line = first_of_two(window, wide)
    QTest.mouseClick(line, LEFT)
    assert line.hasFocus()
    assert line.selectedText() == ("12 1/2" if selects else "")
    QTest.mouseClick(line, LEFT)
    assert line.selectedText() == ""


def test_what_is_typed_after_the_click_takes_its_place(window: QWidget) -> None:
    line = first_of_two(window, 112)
    QTest.mouseClick(line, LEFT)
    QTest.keyClicks(line, "1/16")
    assert line.text() == "1/16"


def test_what_is_selected_by_dragging_stays(window: QWidget) -> None:
    line = first_of_two(window, 112)
    right, middle = QPoint(line.width() - 10, line.height() // 2), line.height() // 2
    QTest.mousePress(line, LEFT, pos=right)
    QTest.mouseMove(line, QPoint(line.width() - 25, middle))
    QTest.mouseRelease(line, LEFT, pos=QPoint(line.width() - 25, middle))
    assert line.selectedText()
    assert line.selectedText() != line.text()


def test_a_drag_back_to_where_it_began_selects_nothing(window: QWidget) -> None:
    line = first_of_two(window, 112)
    middle = line.height() // 2
    began, away = QPoint(line.width() - 10, middle), QPoint(line.width() - 40, middle)
    QTest.mousePress(line, LEFT, pos=began)
    for place in (away, began):
        QTest.mouseMove(line, place)
    QTest.mouseRelease(line, LEFT, pos=began)
    assert line.hasFocus()
    assert line.selectedText() == ""


def test_a_hand_that_trembles_still_clicks(window: QWidget) -> None:
    line = first_of_two(window, 112)
    began = QPoint(line.width() - 10, line.height() // 2)
    QTest.mousePress(line, LEFT, pos=began)
    QTest.mouseMove(line, began - QPoint(1, 1))
    QTest.mouseRelease(line, LEFT, pos=began - QPoint(1, 1))
    assert line.selectedText() == "12 1/2"


@pytest.mark.parametrize("button", [Qt.MouseButton.RightButton, Qt.MouseButton.MiddleButton])
def test_other_buttons_select_nothing(window: QWidget, button: Qt.MouseButton) -> None:
    line = first_of_two(window, 112)
    line.setFocus(Qt.FocusReason.MouseFocusReason)  # they give it on some desktops, if not on all
    QTest.mouseClick(line, button)
    assert line.selectedText() == ""


@pytest.mark.parametrize("step", ["Measure", "Strings"])
def test_a_cell_that_is_clicked_is_typed_over(open_desk: OpenDesk, step: str) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.cards.open(step)
    card = desk.card
    assert isinstance(card, MeasureCard | StringsCard)
    table, model = card.table, card.table.model()
    column = VALUE_AT if step == "Measure" else DIAMETER
    rows = [model.index(row, column) for row in range(model.rowCount())]
    index = [one for one in rows if one.data() and one.flags() & Qt.ItemFlag.ItemIsEditable][1]
    click = QTest.mouseClick if step == "Measure" else QTest.mouseDClick
    for _ in range(2):  # one click takes the line in hand, one opens its cell
        if table.state() != QAbstractItemView.State.EditingState:
            click(table.viewport(), LEFT, pos=table.visualRect(index).center())
    line = next(line for line in table.findChildren(TypedLine) if line.isVisible())
    assert line.selectedText() == line.text() != ""
