"""Everything a person can press or type into says its name, whatever card is open."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface, QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QHeaderView,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QRadioButton,
    QTableView,
    QWidget,
)

from app.desk.cards.measure.table.readings_model import FITS
from app.desk.cards.table_of_cards import steps
from app.desk.frame.desk import Desk
from app.desk.frame.step_row import StepButton
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.pointing.pointer_states import Pointing
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, make_whole, sample, unpainted

CONTROLS = (QAbstractButton, QComboBox, QLineEdit, QAbstractItemView, QAbstractSpinBox, QPlainTextEdit, Plan)
CARDS = ["Start", *steps()]
DIALOGS = ["About the job…", "Keys", "Before a bridge is moved"]


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


def test_every_control_has_a_name_and_a_description_and_is_reached_by_the_tab_key(desk: Desk) -> None:
    for card in CARDS:
        desk.cards.open(card)
        for widget in desk.card.findChildren(QWidget):
            in_group = isinstance(widget, QRadioButton)  # one of a group has the tab, arrow keys reach the others
            if is_control(widget) and not in_group and widget.isVisible() and widget.isEnabled():
                reached = widget.focusPolicy() & Qt.FocusPolicy.TabFocus or widget.focusProxy()
                assert reached, (card, widget.accessibleName())
        make_whole(desk.card)
        assert nameless(desk.frame) == [], card


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
def test_every_cell_and_editor_in_a_table_has_them(desk: Desk, card: str) -> None:
    desk.cards.open(card)
    (table,) = (found for found in desk.card.findChildren(QTableView) if found.isVisible())
    each_cell_is_told(table)
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


def opened(desk: Desk, command: str) -> QDialog:
    desk.menu_actions[command].trigger()
    return next(found for found in desk.findChildren(QDialog) if found.isVisible())


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


def test_the_tab_key_goes_down_the_card_and_a_screen_reader_is_told_each_control(open_desk: OpenDesk) -> None:
    """From top to bottom, and from left to right where things stand side by side; the title's row is one step. Told is
    what is folded away as well.
    """
    desk = unpainted(open_desk(sample("one-slip")))
    desk.frame.resize(1280, 2600)  # nothing is scrolled away
    for card in CARDS:
        desk.cards.open(card)
        QApplication.processEvents()
        if card != "Start":
            goes_down(desk)
        make_whole(desk.card)
        found = controls(desk.frame)
        assert len(found) > 20, card
        assert [said for widget in found for said in unsaid(widget)] == [], card


def goes_down(desk: Desk) -> None:
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


# as a screen reader meets them: through Qt's own interface

Role, Said = QAccessible.Role, QAccessible.Text


def told(widget: QWidget) -> QAccessibleInterface:
    found = QAccessible.queryAccessibleInterface(widget)
    assert found is not None
    return found


def fitting_role(widget: QWidget) -> set[QAccessible.Role]:
    """The roles that fit a control; a button that stays down is told as a box that is ticked."""
    if isinstance(widget, StepButton | QRadioButton):
        return {Role.RadioButton}
    if isinstance(widget, QCheckBox):
        return {Role.CheckBox}
    if isinstance(widget, QAbstractButton):
        return {Role.CheckBox if widget.isCheckable() else Role.Button}
    if isinstance(widget, QComboBox):
        return {Role.ComboBox}
    if isinstance(widget, QLineEdit | QPlainTextEdit):
        return {Role.EditableText}
    if isinstance(widget, QTableView):
        return {Role.Table}
    return {Role.Canvas}  # the plan and the detail


def unsaid(widget: QWidget) -> Iterator[str]:
    """What a screen reader would miss of a control: its name, a role that fits, its value."""
    there = told(widget)
    called = f"{type(widget).__name__} {widget.accessibleName()!r}"
    if isinstance(widget, QComboBox):  # on Linux Qt gives its value for its name, and the name by its label
        names = {of.text(Said.Name) for of, how in there.relations() if how & QAccessible.RelationFlag.Label}
        says = there.text(Said.Description)
        if not any(names) and not says.casefold().startswith(widget.accessibleName().casefold()):
            yield f"{called} without a name"
        if there.text(Said.Value) != widget.currentText():
            yield f"{called} says {there.text(Said.Value)!r} for {widget.currentText()!r}"
    elif not there.text(Said.Name).strip():
        yield f"{called} without a name"
    if there.role() not in fitting_role(widget):
        yield f"{called} told as {there.role().name}"
    if isinstance(widget, QLineEdit) and there.text(Said.Value) != widget.text():
        yield f"{called} says {there.text(Said.Value)!r} for {widget.text()!r}"
    if (
        isinstance(widget, QAbstractButton)
        and widget.isCheckable()
        and bool(there.state().checked) != widget.isChecked()
    ):
        yield f"{called} does not say whether it is ticked"


def controls(inside: QWidget) -> list[QWidget]:
    """A window's controls, those that are folded away as well; Qt's own inner parts are not a person's."""
    found = (w for w in inside.findChildren(QWidget) if is_control(w) and w.window() is inside.window())
    return [w for w in found if not isinstance(w.parent(), QComboBox)]


def test_every_control_in_a_dialog_has_a_name_and_a_screen_reader_is_told_it(desk: Desk) -> None:
    for command in DIALOGS:
        dialog = opened(desk, command)
        assert dialog.accessibleName(), command
        assert dialog.findChildren(QAbstractButton), command
        assert nameless(dialog) == [], command
        assert told(dialog).role() == Role.Dialog, command
        assert told(dialog).text(Said.Name) == command.rstrip("…")
        assert [said for widget in controls(dialog) for said in unsaid(widget)] == [], command
        dialog.close()


def test_a_control_that_is_not_told_would_be_found(desk: Desk) -> None:
    line = QLineEdit("38.5", desk)
    assert list(unsaid(line)) == ["QLineEdit '' without a name"]


def test_a_screen_reader_is_told_each_line_of_a_menu_with_its_key(desk: Desk) -> None:
    menus = [menu for menu in desk.frame.findChildren(QMenu) if menu.actions()]
    lines = [(action, told(menu).child(at)) for menu in menus for at, action in enumerate(menu.actions())]
    assert len(lines) > 30
    for action, there in lines:
        if not action.isSeparator():
            assert there.text(Said.Name) == plain(action)
            assert there.role() == Role.MenuItem
            assert action.shortcut().isEmpty() or there.text(Said.Accelerator) == action.shortcut().toString()
            assert bool(there.state().checkable) == action.isCheckable()


def plain(action: QAction) -> str:
    return action.text().replace("&&", "\0").replace("&", "").replace("\0", "&")


def each_cell_is_told(table: QTableView) -> None:
    there, model = told(table), table.model()
    children = [there.child(at) for at in range(there.childCount())]
    heads = [child.text(Said.Name) for child in children if child.role() == Role.ColumnHeader]
    assert heads == [model.headerData(at, Qt.Orientation.Horizontal) for at in range(model.columnCount())]
    cells = [child.text(Said.Name).strip() for child in children if child.role() == Role.Cell]
    assert len(cells) == model.rowCount() * model.columnCount()
    assert all(cells[:: model.columnCount()])
