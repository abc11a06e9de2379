"""Help: every caution, whole; and the card that leads to machines."""

import pytest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QScrollArea

from app.desk.frame import help
from app.desk.frame.desk import Desk
from export import cautions
from geometry.job import Held
from tests.app.desk.conftest import OpenDesk, sample


def said(within: object) -> list[str]:
    assert isinstance(within, QDialog) or hasattr(within, "findChildren")
    return [label.text() for label in within.findChildren(QLabel)]


def test_help_holds_every_caution(desk: Desk) -> None:
    desk.menu_actions["Before a bridge is moved"].trigger()
    dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
    found = said(dialog)
    assert all(caution.text in found for caution in cautions.ALL)
    assert all(any(line.endswith(before) for line in found) for before in cautions.BEFORE)


@pytest.mark.parametrize(
    ("name", "held", "lacks"),
    [
        ("floating-five", "strings", ("glue", "old glue", "solvents", "Heat")),
        ("slanted-separate", "screws", ("glue", "braces", "Heat", "watch the bridge")),
    ],
)
def test_help_is_that_of_how_the_bridge_is_held(open_desk: OpenDesk, name: str, held: Held, lacks: list[str]) -> None:
    desk = open_desk(sample(name))
    desk.menu_actions["Before a bridge is moved"].trigger()
    found = said(next(found for found in desk.findChildren(QDialog) if found.isVisible()))
    assert all(any(line.endswith(before) for line in found) for before in cautions.before(held))
    assert all(caution.text in found for caution in cautions.every(held))
    assert not [word for word in lacks if word in " ".join(found)]


def test_the_sheets_card_says_what_holds_for_machines(desk: Desk) -> None:
    desk.cards.open("Sheets")
    assert any(line.endswith(cautions.MACHINE) for line in said(desk.card))


def test_the_plans_keys_stand_with_those_of_the_mouse(desk: Desk) -> None:
    left, right = ([does for _, does in side] for side in help.two_sides(help.shortcuts(desk.menu_actions)))
    assert left[: len(help.KEYS)] == [does for _, does in help.KEYS]
    assert left[len(help.KEYS)] == "Whole instrument"
    assert (right[0], right[-1]) == ("New job", "Sheets")


def test_the_keys_are_seen_without_scrolling_and_each_on_one_line(desk: Desk) -> None:
    desk.frame.resize(1280, 800)
    desk.menu_actions["Keys"].trigger()
    dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
    QApplication.processEvents()
    (area,) = dialog.findChildren(QScrollArea)
    assert area.verticalScrollBar().maximum() == 0
    of_menus = [label for label in dialog.findChildren(QLabel) if label.text() in desk.menu_actions]
    assert len(of_menus) > 20
    assert [label.text() for label in of_menus if label.height() >= 2 * label.fontMetrics().lineSpacing()] == []


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_what_is_numbered_begins_each_line_behind_its_number(desk: Desk, size: float) -> None:
    desk.preferences.set_text(size)
    desk.menu_actions["Before a bridge is moved"].trigger()
    dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
    QApplication.processEvents()
    labels = dialog.findChildren(QLabel)
    numbers = [label for label in labels if label.text().rstrip(".").isdigit()]
    said = {label.y(): label for label in labels if label.text() and label not in numbers}
    assert len(numbers) == len(cautions.BEFORE) + 2
    assert len({said[number.y()].x() for number in numbers}) == 1
    assert all(said[number.y()].x() > number.geometry().right() for number in numbers)


def test_cautions_are_opened_at_their_beginning(desk: Desk) -> None:
    desk.preferences.set_text(2.0)
    bars = []
    for _ in range(2):
        desk.menu_actions["Before a bridge is moved"].trigger()
        QApplication.processEvents()
        dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
        bar = dialog.findChildren(QScrollArea)[0].verticalScrollBar()
        bars.append(bar.value())
        bar.setValue(bar.maximum())
        assert bar.value() > 0
        dialog.close()
    assert bars == [0, 0]
