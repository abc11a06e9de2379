"""Undo says what it took back, and shows the row or the card."""

import msgspec

from app.desk.frame.desk import Desk


def test_undo_shows_the_row(desk: Desk) -> None:
    row = desk.measure.table.readings.rows[3].reading.id
    desk.measure.table.go_to(row)
    desk.measure.commands.strike_or_bring_back()
    desk.cards.open("Bridge")
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.words.text().startswith("Taken back: striking out")
    assert desk.cards.is_open("Measure")
    assert desk.measure.table.chosen == row


def test_undo_shows_the_card(desk: Desk) -> None:
    job = desk.document.job
    desk.document.edit("paper", msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, paper="A3")))
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.words.text() == "Taken back: paper."
    assert desk.cards.is_open("Sheets")
