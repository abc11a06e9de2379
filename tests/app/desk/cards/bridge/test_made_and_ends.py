"""How the saddle is made and how the strings end, as the Bridge card asks it."""

import pytest
from PySide6.QtWidgets import QLabel

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.frame.desk import Desk
from app.edit.bridge import bridge_entries, held_entries
from app.edit.edits import replace
from app.edit.strings import string_entries
from geometry.job import Job
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose, field, fill, make_whole, sample


@pytest.fixture
def desk(lend_desk: LendDesk) -> Desk:
    return lend_desk(sample("leaning-neck"), "Bridge")


@pytest.fixture
def card(desk: Desk) -> BridgeCard:
    assert isinstance(desk.card, BridgeCard)
    return desk.card


def seen(card: BridgeCard, name: str) -> bool:
    return field(card, name).isVisibleTo(card)


def test_a_saddle_of_two_pieces_is_chosen_and_parted(desk: Desk, card: BridgeCard) -> None:
    assert not seen(card, "Parted after")
    choose(card, "Is the saddle one piece?", "two pieces, each in its slot")
    assert seen(card, "Parted after")
    assert seen(card, "Wood between two slots")
    assert not seen(card, "A step’s least width")
    assert desk.document.layout is not None
    assert desk.document.layout.saddle is not None
    assert len(desk.document.layout.saddle.slots) == 2
    fill(field(card, "Parted after"), "4")
    assert desk.document.job.saddle is not None
    assert desk.document.job.saddle.splits == ("4",)
    assert desk.document.layout.saddle.pieces[0].strings == ("1", "2", "3", "4")


def test_what_cannot_be_is_said_under_its_field(desk: Desk, card: BridgeCard) -> None:
    choose(card, "Is the saddle one piece?", "two pieces, each in its slot")
    fill(field(card, "Parted after"), "9")
    assert "is to be parted after the string “9”, which is not in the list" in field(card, "Parted after").wrong.text()
    assert desk.document.job.saddle is not None
    assert desk.document.job.saddle.splits is None


def test_another_way_forgets_where_it_was_parted(desk: Desk, card: BridgeCard) -> None:
    choose(card, "Is the saddle one piece?", "two pieces, each in its slot")
    fill(field(card, "Parted after"), "4")
    choose(card, "Is the saddle one piece?", "three pieces, each in its slot")
    assert desk.document.job.saddle is not None
    assert desk.document.job.saddle.splits is None
    choose(card, "Is the saddle one piece?", "one piece, filed in steps, one a course")
    assert seen(card, "A step’s least width")
    assert not seen(card, "Wood between two slots")


def test_the_ways_are_worked_out_when_they_are_unfolded(card: BridgeCard) -> None:
    ways = card.glued.made.ways
    make_whole(ways)
    assert not ways.cells
    ways.set_open(True)
    shown = [cell.text() for cell in ways.findChildren(QLabel) if cell.isVisibleTo(card)]
    assert "one piece (chosen)" in shown
    assert any(text.startswith("two pieces, after ") for text in shown)


def test_strings_end_in_a_tie_block(desk: Desk, card: BridgeCard) -> None:
    assert seen(card, "Behind the slot")
    assert not seen(card, "Block behind the slot")
    choose(card, "How do the strings end?", "in a tie block")
    assert not seen(card, "Behind the slot")
    bridge = desk.document.job.bridge
    assert bridge is not None
    assert bridge.pins is None
    assert bridge.tie is not None
    assert not seen(card, "The other lies lower by")
    choose(card, "Holes a string", "two")
    fill(field(card, "The other lies lower by"), "1/16 in")
    assert desk.document.layout is not None
    assert desk.document.layout.bridge is not None
    assert desk.document.layout.bridge.tie is not None
    assert len(desk.document.layout.bridge.tie.holes) == 12
    choose(card, "How do the strings end?", "they run on")
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.tie is None


def test_a_finding_of_the_block_leads_to_its_field(card: BridgeCard) -> None:
    choose(card, "How do the strings end?", "in a tie block")
    assert card.go_to("field:bridge.tie")
    assert card.go_to("field:saddle.made")


def test_places_are_not_looked_for_with_several_slots(card: BridgeCard) -> None:
    choose(card, "Is the saddle one piece?", "two pieces, each in its slot")
    card.glued.choice.set_open(True)
    card.glued.choice.search()
    assert card.glued.choice.says.text().startswith("Places are not looked for while the saddle is of several pieces")


def test_more_saddles_than_strings_is_said_under_the_choice(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    assert job.strings is not None
    desk = lend_desk(replace(job, strings=replace(job.strings, list=job.strings.list[:2])))
    desk.cards.open("Bridge")
    choose(desk.card, "Is the saddle one piece?", "three pieces, each in its slot")
    assert desk.document.job.saddle is not None
    assert desk.document.job.saddle.made == "two"
    said = [label.text() for label in desk.card.findChildren(QLabel) if label.isVisibleTo(desk.card)]
    assert "A saddle of three pieces needs 3 strings, and the job has 2; make it of fewer." in said


def test_a_cut_slot_or_another_hold_makes_it_one_piece(card: BridgeCard, desk: Desk) -> None:
    choose(card, "Is the saddle one piece?", "two pieces, each in its slot")
    job = desk.document.job
    assert made_of(bridge_entries.put_has_slot(job, True)) == "one"
    assert made_of(held_entries.hold(job, "strings")) == "one"
    assert made_of(held_entries.hold(bridge_entries.put_made(job, "steps"), "strings")) == "steps"
    assert made_of(held_entries.hold(bridge_entries.put_made(job, "steps"), "screws")) == "one"


def made_of(job: Job) -> str:
    assert job.saddle is not None
    return job.saddle.made


def test_other_strings_keep_what_they_can_of_where_it_is_parted(desk: Desk) -> None:
    job = bridge_entries.put_splits(bridge_entries.put_made(desk.document.job, "two"), "4")
    renamed = string_entries.put_string(job, 3, name="D")
    assert bridge_entries.splits(renamed) == "D"
    assert job.strings is not None
    fewer = string_entries.put(job, list=job.strings.list[:3])
    assert (made_of(fewer), bridge_entries.splits(fewer)) == ("two", "")
    one = string_entries.put(job, list=job.strings.list[:1])
    assert made_of(one) == "one"
