"""Metal: what is kept clear round its middle is asked where it is added; readings are drawn before they are read."""

import pytest

from app.desk.cards.old_work.old_section import CLEAR
from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.desk.frame.desk import Desk
from app.edit.edits import set_unit
from geometry.job import OldMetal
from tests.app.desk.conftest import OpenDesk, field, fill, sample


def opened(open_desk: OpenDesk, unit: str = "mm") -> tuple[Desk, OldWorkCard]:
    desk = open_desk(set_unit(sample("leaning-neck"), "in" if unit == "in" else "mm"))
    desk.cards.open("Old work")
    card = desk.card
    assert isinstance(card, OldWorkCard)
    card.sections["metal"].fold.set_open(True)
    return desk, card


@pytest.mark.parametrize(("unit", "usual"), [("mm", "assumed: 6 mm"), ("in", "assumed: 15/64 in")])
def test_what_is_kept_clear_is_asked_where_metal_is_added(open_desk: OpenDesk, unit: str, usual: str) -> None:
    _, card = opened(open_desk, unit)
    asked = field(card, CLEAR)
    assert asked.isVisibleTo(card)
    assert asked.hint.text() == usual


def test_what_is_typed_is_said_of_the_metal_that_comes(open_desk: OpenDesk) -> None:
    desk, card = opened(open_desk)
    before = desk.document.job
    fill(field(card, CLEAR), "9")
    assert desk.document.job == before
    card.sections["metal"].read.click()
    assert desk.document.job.old is not None
    assert desk.document.job.old.metal == {"metal.1": OldMetal(keep_out=9.0)}
    desk.document.stack.undo()
    assert desk.document.job == before
    desk.cards.open("Old work")
    assert field(card, CLEAR).line.text() == ""


def test_what_cannot_be_is_refused_where_it_is_typed(open_desk: OpenDesk) -> None:
    _, card = opened(open_desk)
    asked = field(card, CLEAR)
    fill(asked, "90")
    assert "60" in asked.wrong.text()


@pytest.mark.parametrize("kind", ["metal", "holes", "footprint"])
def test_a_reading_of_old_work_is_drawn_before_it_is_read(open_desk: OpenDesk, kind: str) -> None:
    desk, card = opened(open_desk)
    there = {reading.id for reading in desk.document.job.readings}
    section = card.sections[kind]  # type: ignore[index]  # the three names are kinds
    section.fold.set_open(True)
    section.read.click()
    first = next(reading.id for reading in desk.document.job.readings if reading.id not in there)
    assert desk.measure.table.chosen == first
    drawing = desk.board.pictures.plan.drawing
    assert drawing is not None
    assert any(mark.of == f"straightedge:reading:{first}" for mark in drawing.marks)
