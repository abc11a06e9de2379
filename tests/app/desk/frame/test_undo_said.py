"""Undo says what it took back, and shows the row, the card or the field."""

from collections.abc import Callable
from contextlib import suppress

import msgspec
import pytest

from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.desk.frame.about_job import AboutJob
from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.bridge import bridge_entries, proof_entries
from app.edit.old_work import old_entries
from app.edit.strings import spread_entries, string_entries
from app.say.what_changed import where
from geometry import proof
from geometry.job import Job, NotAJob
from tests.app.desk.conftest import OpenDesk, sample
from tests.geometry.held.changed_jobs import FULLEST, as_made

replace = msgspec.structs.replace
Change = Callable[[Job], Job]


def _string(job: Job) -> Job:
    assert job.strings is not None
    strings = list(job.strings.list)
    strings[2] = replace(strings[2], diameter=0.6)
    return replace(job, strings=replace(job.strings, list=tuple(strings)))


def _proof(job: Job) -> Job:
    (wished, *_) = proof.wished(job)
    return proof_entries.put(job, "clamped", wished, 330.0, "2026-11-28")


OTHERS: dict[str, tuple[Change, str, str]] = {
    "a string": (_string, "string:3", "Strings"),
    "the spread": (lambda job: spread_entries.spread_put("saddle")(job, 54.0), "field:strings.saddle", "Strings"),
    "the frets": (lambda job: string_entries.put_frets(job, count=22), "field:frets.count", "Strings"),
    "the seat": (lambda job: bridge_entries.put(job, "bridge", seat="with slot"), "field:bridge.seat", "Bridge"),
    "the saddle": (lambda job: bridge_entries.put(job, "saddle", thickness=3.2), "field:saddle.thickness", "Bridge"),
    "the proof": (_proof, "field:proof", "Bridge"),
    "old metal": (lambda job: old_entries.old_field("metal.1")[1](job, 7.0), "field:old.metal.1", "Old work"),
    "the paper": (lambda job: replace(job, sheets=replace(job.sheets, paper="A3")), "field:sheets.paper", "Sheets"),
}


def test_undo_shows_the_row(desk: Desk) -> None:
    row = desk.measure.table.readings.rows[3].reading.id
    desk.measure.table.go_to(row)
    desk.measure.commands.strike_or_bring_back()
    desk.cards.open("Bridge")
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.words.text().startswith("Taken back: striking out")
    assert desk.cards.is_open("Measure")
    assert desk.measure.table.chosen == row


def test_undo_of_an_added_reading_shows_the_list_where_it_was_added(desk: Desk) -> None:
    desk.cards.open("Measure")
    desk.document.edit("a reading", edits.add(desk.document.job, "distance", ("nut.left", "nut.right")))
    desk.cards.open("Bridge")
    desk.menu_actions["Undo"].trigger()
    assert desk.cards.is_open("Measure")


def test_what_was_taken_back_is_said_until_the_next_change(desk: Desk) -> None:
    name = desk.measure.table.readings.rows[0].reading.id
    for value in ("44.9", "45.1"):
        desk.document.edit("a value", edits.set_value(desk.document.job, name, value))
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.isVisibleTo(desk)
    desk.menu_actions["Undo"].trigger()
    assert desk.notice.isVisibleTo(desk), "of the second one"
    desk.document.edit("a value", edits.set_value(desk.document.job, name, "45.3"))
    assert not desk.notice.isVisibleTo(desk)
    desk.notice.say("Written.")
    desk.document.edit("a value", edits.set_value(desk.document.job, name, "45.4"))
    assert desk.notice.isVisibleTo(desk), "what is not about a change stays"


def test_undo_shows_the_card_and_the_field(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = open_desk(sample("one-slip"))
    before = desk.document.job
    for name, (change, place, card) in OTHERS.items():
        with subtests.test(name):
            desk.cards.open("Measure")
            desk.document.edit(name, change(before))
            assert where(desk.document.job, before) == place
            desk.menu_actions["Undo"].trigger()
            assert desk.notice.words.text() == f"Taken back: {name}."
            assert desk.cards.is_open(card)
            assert desk.document.job == before


IN_A_DIALOG: dict[str, tuple[Change, str]] = {
    "hand: left-handed": (lambda job: replace(job, hand="left"), "hand"),
    "the note": (lambda job: replace(job, note="from an attic"), "note"),
    "board’s end: it is rounded": (lambda job: replace(job, board=replace(job.board, end="rounded")), "board.end"),
}


def test_what_stands_in_a_dialog_is_shown_when_asked(desk: Desk, subtests: pytest.Subtests) -> None:
    for name, (change, key) in IN_A_DIALOG.items():
        with subtests.test(name):
            desk.document.edit(name, change(desk.document.job))
            desk.menu_actions["Undo"].trigger()
            assert desk.notice.words.text() == f"Taken back: {name}."
            assert not any(about.isVisible() for about in desk.findChildren(AboutJob))
            assert desk.notice.buttons[0].text() == "Show it"
            desk.notice.buttons[0].click()
            (about,) = desk.findChildren(AboutJob)
            assert about.isVisible()
            assert about.focusWidget() is about.form.fields[key]
            about.reject()


def test_undo_shows_a_point_that_was_moved(desk: Desk) -> None:
    before = desk.document.job
    name = next(iter(before.points))
    assert where(edits.move_near(before, name, (1.0, 2.0)), before) == f"point:{name}"


def test_old_work_is_taken_up_as_it_is_read_and_given_back_with_it(open_desk: OpenDesk) -> None:
    job = edits.add(sample("leaning-neck"), "distance", ("nut.left", "metal.1"))
    desk = open_desk(job)
    (reading,) = [r for r in job.readings if "metal.1" in r.of]
    desk.measure.typing.settle(reading.id, "640")
    old = desk.document.job.old
    assert old is not None
    assert "metal.1" in old.metal
    desk.cards.open("Old work")
    assert isinstance(desk.card, OldWorkCard)
    assert not desk.card.take.isVisible()
    desk.menu_actions["Undo"].trigger()
    assert desk.document.job == job
    assert desk.cards.is_open("Measure")
    assert desk.measure.table.chosen == reading.id


def test_of_any_change_it_is_told_where_it_can_be_seen() -> None:
    """Each field of the fullest job against a job that has nothing of it, and each against it."""
    full, bare = as_made(FULLEST), Job()
    for name in Job.__struct_fields__:
        if name in ("points", "unit", "readings"):
            continue  # what is read names points; a unit is no place
        with suppress(NotAJob):  # some need another field beside them
            lacking = replace(full, **{name: getattr(bare, name)})
            if lacking != full:
                assert where(lacking, full), name
                assert where(full, lacking), name
