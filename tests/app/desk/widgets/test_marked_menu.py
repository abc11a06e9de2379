"""The marks of menus: as large as the text, a tick, or a dot where one of several is chosen."""

from itertools import product

import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QActionGroup, QImage
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from app.desk.widgets.look import LIGHT, Look
from app.desk.widgets.marked_menu import Menu, add_menu
from app.desk.widgets.style_sheet import apply_look


def made(qtbot: QtBot, scale: float, *, kind: type[QMenu] = Menu, one_of: bool = False) -> tuple[QMenu, QRect]:
    """A menu of two lines, the first one checked, and the part of that line before its words."""
    apply_look(Look(LIGHT, scale))
    menu = kind()
    qtbot.addWidget(menu)
    first = menu.addAction("Points")
    first.setCheckable(True)
    if one_of:
        QActionGroup(menu).addAction(first)
    first.setChecked(True)
    add_menu(menu, "Colours")
    menu.ensurePolished()
    menu.resize(menu.sizeHint())
    line = menu.actionGeometry(first)
    return menu, QRect(line.x() + 2, line.y(), round(16 * scale) + 14, line.height())


def ink(menu: QMenu, part: QRect) -> QRect:
    """The least rectangle that holds what is dark in a part of a menu."""
    shot: QImage = menu.grab(part).toImage()
    every = product(range(shot.width()), range(shot.height()))
    dark = [(x, y) for x, y in every if shot.pixelColor(x, y).lightness() < 128]
    xs, ys = [x for x, _ in dark], [y for _, y in dark]
    return QRect(min(xs), min(ys), max(xs) - min(xs) + 1, max(ys) - min(ys) + 1) if dark else QRect()


@pytest.mark.parametrize("one_of", [False, True])
def test_a_mark_grows_with_the_text(qtbot: QtBot, one_of: bool) -> None:
    usual, large = (ink(*made(qtbot, scale, one_of=one_of)) for scale in (1.0, 2.0))
    assert usual.width() >= (5 if one_of else 10)
    assert 1.7 < large.width() / usual.width() < 2.4  # twice, but for the pixels at its rim


def test_the_sign_of_a_menu_in_a_menu_grows_with_the_text(qtbot: QtBot) -> None:
    def sign(scale: float) -> QRect:
        menu, _ = made(qtbot, scale)
        line = menu.actionGeometry(menu.actions()[1])
        return ink(menu, QRect(line.right() - round(24 * scale), line.y(), round(24 * scale) - 2, line.height()))

    usual, large = sign(1.0), sign(2.0)
    assert usual.height() >= 7
    assert 1.7 < large.height() / usual.height() < 2.4


def test_the_marks_of_a_usual_menu_do_not_grow(qtbot: QtBot) -> None:
    """What is measured above would show it."""
    usual, large = (ink(*made(qtbot, scale, kind=QMenu)) for scale in (1.0, 2.0))
    assert large.width() <= 1.2 * usual.width()


def test_one_of_several_has_a_dot_and_not_a_tick(qtbot: QtBot) -> None:
    tick, dot = (ink(*made(qtbot, 2.0, one_of=one_of)) for one_of in (False, True))
    assert tick.width() > 1.5 * dot.width()
    assert abs(dot.width() - dot.height()) <= 2
