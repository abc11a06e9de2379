"""Other colours and another text size reach all that belongs to the window, shown or not."""

from msgspec.structs import replace
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QPlainTextEdit, QWidget

from app.desk.frame.desk import Desk
from app.desk.widgets.look import DARK, TEXT
from tests.app.desk.conftest import OpenDesk, sample


def heads(part: QWidget) -> list[QLabel]:
    return [label for label in part.findChildren(QLabel) if label.property("role") == "title"]


def test_hidden_cards_and_closed_dialogs_follow(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))
    for name in ("Bridge", "Measure"):
        desk.cards.open(name)
    desk.commands.about()
    (about,) = desk.findChildren(QDialog)
    about.close()
    desk.preferences.set_theme("dark")
    desk.preferences.set_text(1.5)
    QApplication.processEvents()
    titles = [*heads(desk.cards.get("Bridge")), *heads(desk.cards.get("Measure")), *heads(about)]
    assert len(titles) >= 3
    for title in titles:
        assert title.palette().color(QPalette.ColorRole.WindowText).name().upper() == DARK.ink
    note = next(label for label in about.findChildren(QLabel) if label.text() == "Note")
    assert note.font().pointSizeF() == TEXT * 1.5 * 0.75  # derived: 96 dots an inch, 72 points


def test_a_note_of_five_lines_is_seen_whole(desk: Desk) -> None:
    desk.document.edit("the note", replace(desk.document.job, note="one\ntwo\nthree\nfour\nfive"))
    desk.commands.about()
    QApplication.processEvents()
    (note,) = desk.findChildren(QPlainTextEdit)
    assert note.verticalScrollBar().maximum() == 0
    note.setPlainText("one\ntwo\nthree\nfour\nfive\nsix")
    QApplication.processEvents()
    assert note.verticalScrollBar().maximum() > 0
