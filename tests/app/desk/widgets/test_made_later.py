"""What is made later is made once, and is there for all that ask while it is being made."""

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.desk.widgets.fold import Fold
from app.desk.widgets.look import LIGHT, Look
from app.desk.widgets.made_later import MadeLater


def test_it_is_made_once(qtbot: QtBot) -> None:
    inside = QWidget()
    qtbot.addWidget(inside)
    made: list[bool] = []
    later = MadeLater(inside, lambda: made.append(later.is_made))
    assert not later.is_made
    later.now()
    later.now()
    assert made == [True]


def test_without_anything_to_make_it_is_there(qtbot: QtBot) -> None:
    inside = QWidget()
    qtbot.addWidget(inside)
    assert MadeLater(inside).is_made


def test_a_fold_is_filled_before_it_shows_what_is_inside(qtbot: QtBot) -> None:
    parent = QWidget()
    qtbot.addWidget(parent)
    seen: list[bool] = []

    def fill() -> None:
        seen.append(fold.inside.isVisible())
        fold.column.addWidget(QLabel("Range", fold.inside))

    fold = Fold("Another place", Look(LIGHT), parent, fill)
    QVBoxLayout(parent).addWidget(fold)
    parent.show()
    assert not fold.is_filled
    fold.set_open(True)
    fold.set_open(False)
    fold.set_open(True)
    assert seen == [False]
    (label,) = fold.inside.findChildren(QLabel)
    assert label.isVisible()
