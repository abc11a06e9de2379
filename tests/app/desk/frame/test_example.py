"""The worked example, done to the letter: each step waits for the hand, and goes on once the hand has done it."""

from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.desk.frame.desk import Desk
from app.desk.frame.example import LOOKS_EVERY, Example
from app.desk.frame.point_at import PointAt
from app.desk.frame.tour import TOUR
from app.desk.widgets.inputs.choice import Choice
from tests.app.desk.conftest import press, type_into


def begin(desk: Desk) -> Example:
    desk.menu_actions["Worked example"].trigger()
    return next(found for found in desk.guide.findChildren(Example))


def says(desk: Desk) -> str:
    return desk.guide.words.text()


def ring(desk: Desk) -> PointAt:
    return next(found for found in desk.window().findChildren(PointAt))


def reached(qtbot: QtBot, desk: Desk, number: int) -> None:
    qtbot.waitUntil(lambda: says(desk).startswith(f"{number} of {len(TOUR)} "), timeout=4000)


def rings(desk: Desk, widget: QWidget) -> bool:
    """Whether the ring's middle lies within the widget."""
    at = ring(desk).mapToGlobal(ring(desk).rect().center())
    return widget.rect().contains(widget.mapFromGlobal(at))


def next_step(desk: Desk) -> QPushButton:
    return next(button for button in desk.guide.buttons if button.isVisible() and button.text() == "Next")


def focused() -> QWidget:
    found = QApplication.focusWidget()
    assert found is not None
    return found


def type_value(desk: Desk, text: str) -> None:
    """Type a value for the reading in hand: the first figure opens its cell, the others go into it."""
    type_into(desk.measure.table, text[0])
    type_into(focused(), text[1:])
    press(focused(), Qt.Key.Key_Return)


def test_the_example_is_done_by_hand_from_end_to_end(desk: Desk, qtbot: QtBot) -> None:
    begin(desk)
    assert len(TOUR) == 10
    reached(qtbot, desk, 1)
    table = desk.measure.table
    assert ring(desk).isVisible()
    assert rings(desk, table.viewport())
    press(table, Qt.Key.Key_Down)

    reached(qtbot, desk, 2)
    assert rings(desk, desk.board.plan)
    plan = desk.board.plan
    middle = plan.area.center()
    turn = QWheelEvent(
        middle,
        plan.mapToGlobal(middle),
        QPoint(),
        QPoint(0, 240),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(plan, turn)
    QTest.qWait(4 * LOOKS_EVERY)
    assert says(desk).startswith("2 of"), "a notch of the wheel is only half of it"
    spot = desk.board.answers.place_of("nut.left")
    assert spot is not None
    plan.set_view(replace(plan.view, centre=spot), by_hand=True)
    QTest.mouseMove(plan, plan.to_pixels(spot).toPoint())
    QTest.qWait(2 * LOOKS_EVERY)
    assert desk.board.pointer.over == "point:nut.left"
    assert says(desk).startswith("2 of"), "nobody has read the name yet"

    reached(qtbot, desk, 3)
    readings = next(cell for cell in desk.strip.cells if cell.figure.title == "Readings")
    assert rings(desk, readings)
    QTest.mouseClick(readings, Qt.MouseButton.LeftButton)

    reached(qtbot, desk, 4)
    assert "Old footprint 2, off bass edge: lay the straightedge on again. This time the rule shows 42.5." in says(desk)
    type_value(desk, "42.5")

    reached(qtbot, desk, 5)
    desk.menu_actions["Undo"].trigger()
    reached(qtbot, desk, 6)
    assert desk.notice.words.text().startswith("Taken back:")
    desk.menu_actions["Redo"].trigger()
    assert rings(desk, desk.header.steps.buttons["Strings"])
    desk.header.steps.buttons["Strings"].click()

    reached(qtbot, desk, 7)
    assert rings(desk, desk.header.steps.buttons["Bridge"])
    desk.header.steps.buttons["Bridge"].click()

    reached(qtbot, desk, 8)
    seated = next(box for box in desk.card.findChildren(Choice) if box.accessibleName() == "Seated")
    seated.setCurrentIndex(seated.findData("with slot"))
    seated.activated.emit(seated.currentIndex())
    next_step(desk).click()

    reached(qtbot, desk, 9)
    QTest.mouseClick(desk.strip.cells[0], Qt.MouseButton.LeftButton)
    QTest.qWait(4 * LOOKS_EVERY)
    assert says(desk).startswith("9 of"), "nobody has seen yet where it ends"
    check = desk.board.answers.check(desk.strip.cells[0].figure.where)
    assert check is not None
    assert desk.board.pointer.answer.ends == (check.from_xy, check.to_xy)
    assert plan.area.contains(plan.to_pixels(check.from_xy))
    assert plan.area.contains(plan.to_pixels(check.to_xy))
    assert desk.board.detail.area.contains(desk.board.detail.to_pixels(check.to_xy))
    next_step(desk).click()

    reached(qtbot, desk, 10)
    assert desk.card.title == "Sheets"
    export = next(button for button in desk.card.findChildren(QPushButton) if button.text() == "Export files")
    assert rings(desk, export)
    buttons = [button.text() for button in desk.guide.buttons if button.isVisible()]
    assert buttons == ["Back", "Close"]


def test_a_wrong_value_does_not_go_on(desk: Desk, qtbot: QtBot) -> None:
    example = begin(desk)
    for _ in range(3):
        example._go(1)
    reached(qtbot, desk, 4)
    layout = desk.document.layout
    assert layout is not None
    desk.measure.table.go_to(layout.survey.suspects[0])
    type_value(desk, "47")
    example._look()
    assert says(desk).startswith("4 of 10")


def test_each_step_can_be_skipped_and_gone_back_to(desk: Desk, qtbot: QtBot) -> None:
    begin(desk)
    for number in range(1, len(TOUR)):
        reached(qtbot, desk, number)
        desk.guide.buttons[0 if number == 1 else 1].click()
    reached(qtbot, desk, len(TOUR))
    desk.guide.buttons[0].click()
    reached(qtbot, desk, len(TOUR) - 1)


def test_close_ends_it_and_another_job_too(desk: Desk, qtbot: QtBot) -> None:
    begin(desk)
    desk.guide.buttons[1].click()
    qtbot.waitUntil(lambda: not desk.guide.findChildren(Example), timeout=2000)
    begin(desk)
    desk.commands.new()
    qtbot.waitUntil(lambda: not desk.guide.findChildren(Example), timeout=2000)
    assert not desk.guide.isVisible()


def test_the_ring_takes_no_click(desk: Desk, qtbot: QtBot) -> None:
    begin(desk)
    reached(qtbot, desk, 1)
    assert ring(desk).testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)


def test_what_is_spoken_of_is_scrolled_to(desk: Desk, qtbot: QtBot) -> None:
    """The step at the choice of a seat, far down its card."""
    example = begin(desk)
    for _ in range(7):
        example._go(1)
    reached(qtbot, desk, 8)
    seated = next(box for box in desk.card.findChildren(Choice) if box.accessibleName() == "Seated")
    qtbot.waitUntil(lambda: not seated.visibleRegion().isEmpty(), timeout=2000)
    qtbot.waitUntil(lambda: rings(desk, seated), timeout=2000)


def test_the_ring_touches_no_words(desk: Desk, qtbot: QtBot) -> None:
    """Of the figure in the strip: its title begins at its left edge."""
    example = begin(desk)
    for _ in range(2):
        example._go(1)
    reached(qtbot, desk, 3)
    cell = next(cell for cell in desk.strip.cells if cell.figure.title == "Readings")
    round_it = ring(desk).geometry()
    left = cell.mapTo(desk.window(), QPoint(0, 0)).x()
    assert left - (round_it.left() + 3) >= 5  # 3: the ring's own line


def test_in_large_text_the_lines_it_speaks_of_are_in_sight(desk: Desk, qtbot: QtBot) -> None:
    desk.frame.resize(1366, 740)
    desk.preferences.set_text(2.0)
    begin(desk)
    reached(qtbot, desk, 1)
    table = desk.measure.table
    qtbot.waitUntil(lambda: table.viewport().height() >= 2 * table.rowHeight(0))
    assert desk.frame.height() == 740
    for _ in range(2):
        next(button for button in desk.guide.buttons if button.text() == "Skip this").click()
    reached(qtbot, desk, 3)
    assert "“more” brings it" in says(desk)
    qtbot.waitUntil(lambda: rings(desk, desk.strip.more))
