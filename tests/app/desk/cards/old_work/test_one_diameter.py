"""A hole whose rims were read has one diameter: told alike on the cards, on the sheets and in files."""

import pytest
from msgspec.structs import replace

from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.edit.old_work import taking_up
from export.templates.written.old_work_told import plug_rows
from geometry.job import Job, OldPin
from geometry.units import Unit, said
from geometry.work_out import work_out
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import field, fill, sample

PINS = ("pin.1", "pin.6")


def with_odd_sizes(unit: Unit) -> Job:
    """Sizes as the means of rims stood in files before: nobody would type them."""
    job = sample("leaning-neck")
    assert job.old is not None
    return replace(job, unit=unit, old=replace(job.old, pins={name: OldPin(diameter=5.125) for name in PINS}))


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_the_card_and_the_sheets_tell_what_is_drawn(lend_desk: LendDesk, unit: Unit) -> None:
    job = with_odd_sizes(unit)
    desk = lend_desk(job, "Old work")
    card = desk.cards.get_as("Old work", OldWorkCard)
    layout = desk.document.layout
    assert layout is not None
    wide = {hole.name: hole.diameter for hole in layout.old.pins}
    for name, called in zip(PINS, ("Old pin hole 1", "Old pin hole 6"), strict=True):
        shown = field(card, f"{called}, diameter").line.text()
        assert f"{shown} {unit}" == said(wide[name], unit)
    ends = sorted({wide["pin.1"], wide["pin.6"]})
    told = " to ".join(said(one, unit).removesuffix(f" {unit}") for one in ends)
    assert [row[2] for row in plug_rows(job, layout)] == [f"{told} {unit}"]
    step = 25.4 / 64 if unit == "in" else 0.1
    assert all(one / step == pytest.approx(round(one / step), abs=1e-9) for one in wide.values())


def test_it_is_not_typed_over(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"), "Old work")
    card = desk.cards.get_as("Old work", OldWorkCard)
    before = desk.document.job
    fill(field(card, "Old pin hole 1, diameter"), "7")
    assert "Its rims were read" in field(card, "Old pin hole 1, diameter").wrong.text()
    assert desk.document.job == before


def test_what_rims_say_is_taken_up_as_fine_as_lengths_are_told() -> None:
    """derived: 5.2, 5.1, 5.1 and 5.1 mm, together 5.125"""
    job = sample("leaning-neck")
    assert job.old is not None
    values = iter(((50.0, 55.2), (47.0, 52.1), (103.0, 108.1)))
    readings = tuple(
        replace(r, value=next(values)) if r.kind == "rims" and r.of[1] == "pin.1" else r for r in job.readings
    )
    made = taking_up.take_up(replace(job, readings=readings, old=replace(job.old, pins={})))
    assert made.old is not None
    assert made.old.pins["pin.1"].diameter == 5.1
    assert work_out(made).survey.diameters["pin.1"] in (5.1, 5.2)
