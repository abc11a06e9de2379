"""A job in inches begins with sizes that a rule of inches shows."""

import re

import pytest
from msgspec.structs import replace

from app.edit.bridge import bridge_entries, standing_entries
from app.edit.edits import set_unit
from app.edit.headstock import hardware_entries, tuner_entries
from app.edit.start.new_job import begin
from app.edit.strings import solid_entries
from app.edit.usual_sizes import in_inches, is_length, usual, usual_now
from geometry.job import (
    Bridge,
    Choosing,
    FaceMarkers,
    Headstock,
    Job,
    Nut,
    Pins,
    Saddle,
    Sheets,
    SideMarkers,
    Tail,
    Through,
    TunerPlate,
    Tuners,
)
from geometry.units import Unit, mm


@pytest.mark.parametrize(
    ("size", "said"),
    # derived: 3/25.4 = 7.6/64, 5.5/25.4 = 13.9/64, 26/25.4 = 32.8/32, 152/25.4 = 95.7/16, 0.25/25.4 = 0.63/64, and
    # 0.1/25.4 = 0.0039
    [(3.0, "1/8 in"), (5.5, "7/32 in"), (26.0, "1 1/32 in"), (152.0, "6 in"), (0.25, "1/64 in"), (0.1, "0.004 in")],
)
def test_as_a_rule_of_inches_shows_it(size: float, said: str) -> None:
    assert in_inches(size) == said


@pytest.mark.parametrize(
    "kind", [Bridge, Saddle, Pins, Sheets, Choosing, Tuners, TunerPlate, Nut, Tail, SideMarkers, FaceMarkers, Through]
)
def test_no_millimetres_stand_ready_in_a_job_in_inches(kind: type) -> None:
    import msgspec

    begun = usual(kind(), "in")
    lengths = [field.name for field in msgspec.structs.fields(kind) if is_length(field)]
    assert lengths
    for name in lengths:
        size, own = getattr(begun, name), getattr(kind(), name)
        assert size is None or size == 0 or re.fullmatch(r"((\d+ )?(\d+/\d+ )?|0\.0\d\d )in", size), name
        assert size is None or mm(size) == pytest.approx(mm(own), abs=25.4 / 16)


@pytest.mark.parametrize(("unit", "post", "dot"), [("mm", 6.4, 1.6), ("cm", "0.64 cm", "0.16 cm")])
def test_no_inches_stand_ready_in_a_metric_job(unit: Unit, post: object, dot: object) -> None:
    """derived: 1/4 in is 6.35 mm, 1/16 in 1.59 mm"""
    tuners, dots = usual(Tuners(), unit), usual(SideMarkers(), unit)
    assert (tuners.post, dots.diameter) == (post, dot)
    assert tuner_entries.begun(Job(unit=unit)).post == post
    wanted = hardware_entries.wants("side")[1](Job(unit=unit), True).hardware.markers
    assert wanted is not None
    assert wanted.side is not None
    assert wanted.side.diameter == dot
    turned = usual_now(tuners, unit, "in")
    assert turned.post == "1/4 in"


@pytest.mark.parametrize("unit", ["mm", "cm"])
def test_metric_jobs_begin_as_ever(unit: Unit) -> None:
    assert usual(Bridge(), unit) == Bridge()
    assert begin(unit=unit).sheets == Sheets()


def test_the_bridge_is_begun_in_inches() -> None:
    job = bridge_entries.begin(begin(unit="in"))
    assert job.bridge is not None
    assert job.bridge.pins is not None
    assert job.saddle is not None
    assert (job.bridge.length, job.bridge.pins.diameter, job.saddle.thickness) == ("6 in", "13/64 in", "1/8 in")
    assert bridge_entries.pins_of("diameter")(Job(unit="in")) == "13/64 in"
    assert usual(Headstock(), "in") == Headstock()


def test_a_job_that_turns_to_inches_has_round_sizes_where_none_was_typed() -> None:
    """derived: of 3, 2, 1 and 8 mm the nearest 64ths"""
    job = begin()
    job = replace(job, choice=replace(job.choice, across=2.5))
    turned = set_unit(job, "in")
    assert (turned.choice.along, turned.choice.across, turned.choice.within) == ("1/8 in", 2.5, "3/64 in")
    assert turned.sheets.margin == "5/16 in"
    assert set_unit(set_unit(turned, "cm"), "mm") == job


def test_what_was_begun_besides_turns_with_the_job() -> None:
    """derived: 5 mm is 12.6/64 in, 6 mm 15.1/64"""
    job = solid_entries.ask(standing_entries.put_has_tail(hardware_entries.wants("side")[1](begin(), True), True), True)
    turned = set_unit(solid_entries.nut("clearance")[1](job, 0.25), "in")
    assert turned.nut is not None
    assert turned.tail is not None
    assert turned.hardware.markers is not None
    assert turned.hardware.markers.side is not None
    assert (turned.nut.thickness, turned.nut.clearance, turned.tail.pin_hole) == ("13/64 in", 0.25, "15/64 in")
    assert turned.hardware.markers.side.apart == "15/64 in"
    assert set_unit(turned, "mm").nut == solid_entries.nut("clearance")[1](job, 0.25).nut
