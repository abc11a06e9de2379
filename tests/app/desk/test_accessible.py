"""Everything a person can press or type into says its name, whatever card is open."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QHeaderView,
    QLineEdit,
    QPlainTextEdit,
    QRadioButton,
    QTableView,
    QWidget,
)

from app.desk.cards.measure.readings_model import FITS
from app.desk.frame.desk import Desk
from app.desk.plan.plan_widget import Plan
from app.desk.plan.pointer import Pointing
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, sample

CONTROLS = (QAbstractButton, QComboBox, QLineEdit, QAbstractItemView, QAbstractSpinBox, QPlainTextEdit, Plan)
CARDS = ["Start", "Measure", "Old work", "Strings", "Bridge", "Sheets"]


def is_control(widget: QWidget) -> bool:
    """A person's control, as against the parts that Qt's own widgets are made of."""
    part_of_qt = widget.objectName().startswith("qt_") or isinstance(widget, QHeaderView)
    return isinstance(widget, CONTROLS) and not part_of_qt


def nameless(window: QWidget) -> list[str]:
    """The controls of a window that lack a name, or words of their own on what they are for."""
    found = []
    for widget in window.findChildren(QWidget):
        inner = isinstance(widget.parent(), QComboBox) and not isinstance(widget, QLineEdit)
        if is_control(widget) and not inner and widget.window() is window:
            name, says = widget.accessibleName(), widget.accessibleDescription()
            if not name:
                found.append(f"{type(widget).__name__} {widget.objectName()} without a name")
            if not isinstance(widget.parent(), QComboBox) and says.strip(". ").casefold() in ("", name.casefold()):
                found.append(f"{type(widget).__name__} {name!r} described as {says!r}")
    return found


@pytest.mark.parametrize("card", CARDS)
def test_every_control_has_a_name_and_a_description(desk: Desk, card: str) -> None:
    desk.cards.open(card)
    assert nameless(desk.frame) == []


def test_every_control_for_adding_a_reading_has_them(desk: Desk) -> None:
    desk.commands.add_reading()
    adding = desk.measure.adding
    assert adding is not None
    for kind in range(adding.kind.count()):
        adding.kind.setCurrentIndex(kind)
        assert nameless(desk.frame) == [], adding.kind.currentText()


def test_they_are_there_while_points_are_pointed_out(desk: Desk) -> None:
    desk.commands.add_reading()
    adding = desk.measure.adding
    assert adding is not None
    adding.point_button.click()
    assert isinstance(desk.board.pointer.state, Pointing)
    assert nameless(desk.frame) == []


@pytest.mark.parametrize("card", ["Measure", "Strings"])
def test_every_editor_in_a_table_has_them(desk: Desk, card: str) -> None:
    desk.cards.open(card)
    (table,) = (found for found in desk.card.findChildren(QTableView) if found.isVisible())
    model, opened = table.model(), 0
    for column in range(model.columnCount()):
        index = model.index(1 if card == "Measure" else 0, column)  # a group's line stands over the first reading
        if model.flags(index) & Qt.ItemFlag.ItemIsEditable:
            table.setCurrentIndex(index)
            table.openPersistentEditor(index)
            opened += 1
            assert nameless(desk.frame) == [], model.headerData(column, Qt.Orientation.Horizontal)
            table.closePersistentEditor(index)
    assert opened


def test_a_number_typed_on_the_plan_has_them(desk: Desk) -> None:
    desk.board.value_line.type_here(desk.board.plan, desk.board.pictures.options.reading)
    assert desk.board.value_line.line is not None
    assert nameless(desk.frame) == []


@pytest.mark.parametrize("command", ["About the job…", "Keys", "Before a bridge is moved"])
def test_every_control_in_a_dialog_has_them(desk: Desk, command: str) -> None:
    desk.menu_actions[command].trigger()
    dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
    assert dialog.accessibleName()
    assert dialog.findChildren(QAbstractButton)
    assert nameless(dialog) == []


@pytest.mark.parametrize("card", CARDS)
def test_every_control_is_reached_by_the_tab_key(desk: Desk, card: str) -> None:
    desk.cards.open(card)
    for widget in desk.card.findChildren(QWidget):
        in_group = isinstance(widget, QRadioButton)  # one of a group has the tab, arrow keys reach the others
        if is_control(widget) and not in_group and widget.isVisible() and widget.isEnabled():
            assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus or widget.focusProxy(), widget.accessibleName()


def test_the_tab_key_leads_all_the_way_round(desk: Desk) -> None:
    desk.cards.open("Bridge")
    first: QWidget | None = desk.focusWidget()
    widget = first
    seen: set[QWidget | None] = set()
    while widget is not None and widget not in seen:
        seen.add(widget)
        widget = widget.nextInFocusChain()
    assert widget is first
    assert {desk.board.plan, desk.board.detail} <= seen


def test_a_step_says_its_sign(desk: Desk) -> None:
    assert desk.header.steps.buttons["Measure"].accessibleName() == "Measure, done"


def test_a_reading_says_how_it_fits(desk: Desk) -> None:
    model = desk.measure.table.model()
    said = model.data(model.index(1, FITS), Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("Nut, edge to edge, fits: fits, ")


def test_a_group_says_how_many_are_taken(desk: Desk) -> None:
    model = desk.measure.table.model()
    said = model.data(model.index(0, 0), Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("Board, ")
    assert said.endswith(" taken, open")


def test_an_empty_job_has_names_too(open_desk: OpenDesk) -> None:
    assert nameless(open_desk(Job()).frame) == []


@pytest.mark.parametrize("name", ["Measure", "Old work", "Strings", "Bridge", "Sheets"])
def test_the_tab_key_goes_down_the_card(open_desk: OpenDesk, name: str) -> None:
    """From top to bottom, and from left to right where things stand side by side; the title's row is one step."""
    desk = open_desk(sample("one-slip"))
    desk.frame.resize(1280, 2600)  # nothing is scrolled away
    desk.cards.open(name)
    QApplication.processEvents()
    places, widget = [], desk.card.nextInFocusChain()
    while widget is not desk.card and widget is not None:
        if desk.card.isAncestorOf(widget) and widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            at = widget.mapTo(desk.card, QPoint(0, widget.height() // 2))
            places.append((at.y(), at.x(), widget.accessibleName()))
        widget = widget.nextInFocusChain()
    start = min(range(len(places)), key=lambda i: places[i])
    around = places[start:] + places[:start]
    assert len(around) > 3
    for (y, x, one), (below, beside, other) in pairwise(around):
        assert below > y + 12 or (below > y - 12 and beside > x), (one, other)
