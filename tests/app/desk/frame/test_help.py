"""Help: every caution, whole; and the card that leads to machines."""

from PySide6.QtWidgets import QDialog, QLabel

from app.desk.frame.desk import Desk
from export import cautions


def said(within: object) -> list[str]:
    assert isinstance(within, QDialog) or hasattr(within, "findChildren")
    return [label.text() for label in within.findChildren(QLabel)]


def test_help_holds_every_caution(desk: Desk) -> None:
    desk.menu_actions["Before a bridge is moved"].trigger()
    dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
    found = said(dialog)
    assert all(caution.text in found for caution in cautions.ALL)
    assert all(any(line.endswith(before) for line in found) for before in cautions.BEFORE)


def test_the_sheets_card_says_what_holds_for_machines(desk: Desk) -> None:
    desk.cards.open("Sheets")
    assert any(line.endswith(cautions.MACHINE) for line in said(desk.card))
