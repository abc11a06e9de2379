"""Strings that start at a fret, drones and slanted frets on the Strings card, worked as a person works it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QLabel

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.edit.edits import replace
from geometry.job import Frets, Job, Scales, Strings
from geometry.strings.usual_sets import SETS
from tests.app.desk.conftest import OpenDesk, choose, field, fill, sample
from tests.geometry.slanted_made import made

SHORT = "short fifth steel 10-24"


def tick(card: StringsCard, name: str) -> QCheckBox:
    (found,) = [box for box in card.findChildren(QCheckBox) if box.text() == name]
    return found


def heads(card: StringsCard) -> list[str]:
    model = card.table.strings
    return [model.headerData(at, Qt.Orientation.Horizontal) for at in range(model.columnCount())]


def block(desk: Desk) -> Strings:
    assert desk.document.job.strings is not None
    return desk.document.job.strings


def opened(open_desk: OpenDesk, job: Job) -> tuple[Desk, StringsCard]:
    desk = open_desk(job)
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    return desk, desk.card


@pytest.fixture
def leaning() -> Job:
    return sample("leaning-neck")


def with_set(job: Job, name: str) -> Job:
    assert job.strings is not None
    return replace(job, strings=replace(job.strings, list=SETS[name].strings))


def test_where_all_begin_at_the_nut_nothing_is_asked_of_it(open_desk: OpenDesk, leaning: Job) -> None:
    _, card = opened(open_desk, leaning)
    assert heads(card) == ["String", "Pitch", "Made of", "Diameter", "Comp."]
    assert not card.start.rows.parent.isVisibleTo(card)
    assert not tick(card, "Starts at a fret").isChecked()
    assert not card.pairs.between.isVisibleTo(card)


def test_a_tick_starts_the_chosen_string_at_a_fret(open_desk: OpenDesk, leaning: Job) -> None:
    desk, card = opened(open_desk, leaning)
    card.table.go_to("6")
    tick(card, "Starts at a fret").click()
    assert block(desk).list[5].starts_at == 5
    assert heads(card)[-1] == "Fret"
    assert card.table.strings.text(5, 5) == "5"
    assert card.table.strings.text(0, 5) == "nut"
    fill(field(card, "It starts at fret"), "7")
    assert block(desk).list[5].starts_at == 7
    card.table.go_to("1")
    assert not card.start.rows.parent.isVisibleTo(card)
    card.table.go_to("6")
    tick(card, "Starts at a fret").click()
    assert heads(card)[-1] == "Comp."


def test_where_it_lies_is_typed_once_it_is_chosen_how(open_desk: OpenDesk, leaning: Job) -> None:
    desk, card = opened(open_desk, with_set(leaning, SHORT))
    card.table.go_to("5")
    beside = field(card, "How far, along the fret")
    assert not beside.isVisibleTo(card)
    choose(card, "It lies there", "so far from the board’s edge")
    assert beside.isVisibleTo(card)
    fill(beside, "1/8 in")
    assert block(desk).list[4].from_edge == "1/8 in"
    assert card.pairs.between.isVisibleTo(card)
    assert "At the nut between strings 1 and 4" in card.pairs.between.text()
    assert card.start.height.text() == (
        "The height of string 5 is taken as that of string 4, over frets 1 and 12 and where it breaks."
    )


def test_a_fret_that_there_is_not_stays_to_be_mended(open_desk: OpenDesk, leaning: Job) -> None:
    desk, card = opened(open_desk, with_set(leaning, SHORT))
    card.table.go_to("5")
    fill(field(card, "It starts at fret"), "33")
    assert block(desk).list[4].starts_at == 5
    assert "starts at fret 33, and the board has 20 frets" in field(card, "It starts at fret").wrong.text()


def test_a_drone_has_no_say_and_says_so(open_desk: OpenDesk, leaning: Job) -> None:
    desk, card = opened(open_desk, leaning)
    card.table.go_to("3")
    tick(card, "A drone, never fretted").click()
    assert not block(desk).list[2].fretted
    assert "A drone’s is where the bridge lies by the others." in card.source.text()


def test_what_slanted_frets_need_is_shown_where_they_are_ticked(open_desk: OpenDesk) -> None:
    job = replace(made(), frets=Frets(count=20))
    desk, card = opened(open_desk, job)
    names = ["Scale at the treble string", "Scale at the bass string", "Square fret"]
    assert not any(field(card, name).isVisibleTo(card) for name in names)
    assert field(card, "Scale, if given").isVisibleTo(card)
    tick(card, "Slanted on purpose").click()
    assert all(field(card, name).isVisibleTo(card) for name in names)
    assert not field(card, "Scale, if given").isVisibleTo(card)
    for name, text in zip(names, ("635", "660", "7"), strict=True):
        fill(field(card, name), text)
    assert desk.document.job.frets == Frets(
        count=20, slanted=True, scales=Scales(left=635.0, right=660.0), square_fret=7
    )
    assert card.frets.lie.text().startswith("Nut: 8.3 ±")
    assert card.go_to("field:frets.scales.right")
    tick(card, "Slanted on purpose").click()
    assert desk.document.job.frets == Frets(count=20)


def test_a_floating_bridge_has_no_saddle_on_this_card(open_desk: OpenDesk) -> None:
    """What is shown of it speaks of its crown, or of the bridge; another kind's words are there for that kind."""
    _, card = opened(open_desk, sample("floating-five"))
    shown = [label.text() for label in card.findChildren(QLabel) if label.isVisibleTo(card)]
    shown += [button.text() for button in card.findChildren(QAbstractButton) if button.isVisibleTo(card)]
    assert "At the crown" in shown
    assert [text for text in shown if "saddle" in text.lower()] == []
    _, glued = opened(open_desk, sample("leaning-neck"))
    assert any(label.text() == "At the saddle" for label in glued.findChildren(QLabel))
