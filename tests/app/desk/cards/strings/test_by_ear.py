"""What was heard: what is wrong with a line is said under the button that was pressed."""

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QAbstractButton, QApplication

from app.desk.cards.strings.strings_card import StringsCard


def test_what_is_wrong_moves_no_button(strings: StringsCard) -> None:
    ear = strings.by_ear
    add = next(found for found in ear.findChildren(QAbstractButton) if found.text() == "Add what was heard")
    before = add.mapTo(ear, QPoint(0, 0)).y()
    add.click()
    for _ in range(3):
        QApplication.processEvents()
    assert ear.wrong.isVisible()
    assert add.mapTo(ear, QPoint(0, 0)).y() == before
