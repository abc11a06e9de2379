"""The line that says what wood is left, and the hole it is about."""

from app.edit.bridge import bridge_entries
from app.edit.edits import replace
from app.file import job_file, samples
from geometry.job import Job, Pins
from geometry.work_out import work_out


def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def said(name: str, pins: Pins | None = None) -> str:
    job = sample(name)
    if pins is not None:
        assert job.bridge is not None
        job = replace(job, bridge=replace(job.bridge, pins=pins))
    return bridge_entries.wood(job, work_out(job))


def test_without_a_bridge_nothing_is_said() -> None:
    assert bridge_entries.wood(Job(), work_out(Job())) == ""


def test_without_pins_it_is_about_the_slot() -> None:
    assert said("tie-bridge") == "Wood left, mm: 11.0 in front of the slot and 15.4 behind the slot."


def test_holes_in_a_row_with_the_slot_are_alike() -> None:
    assert "between the slot and the pin holes" in said("leaning-neck", Pins())


def test_holes_in_a_row_with_the_bridge_come_nearest_at_bass() -> None:
    """Derived: the bass end of the slot is the one that slants back, toward a row square to the bridge."""
    assert "between the slot and the hole of string 6, " in said("leaning-neck", Pins(row="bridge"))


def test_the_nearest_hole_is_the_other_way_round_in_a_slot_cut_for_the_other_hand() -> None:
    assert "between the slot and the hole of string 1, " in said("turned-left-old-slot", Pins(row="bridge"))


def test_evenly_spread_holes_are_alike() -> None:
    assert "between one pin hole and the next." in said("leaning-neck", Pins())


def test_the_two_holes_that_come_nearest_are_named() -> None:
    """Derived: with equal gaps between strings of which one is far thinner, the two thinnest lie nearest."""
    job = sample("leaning-neck")
    assert job.strings is not None
    assert job.strings.saddle is not None
    strings = replace(job.strings, saddle=replace(job.strings.saddle, spacing="gaps"))
    job = replace(job, strings=strings)
    assert "between the holes of strings 1 and 2." in bridge_entries.wood(job, work_out(job))


def test_the_saddles_heights_in_one_line() -> None:
    job = sample("leaning-neck")
    assert bridge_entries.saddle_heights(job, work_out(job)) == ""
    assert job.bridge is not None
    assert job.saddle is not None
    # derived: 12.5 at treble and 13.0 at bass over the top, as read, less 9.5 of bridge; between them evenly
    thick = replace(job, bridge=replace(job.bridge, thickness=9.5))
    assert bridge_entries.saddle_heights(thick, work_out(thick)) == (
        "The saddle over the bridge, string 1 to 6, mm: 3.00, 3.10, 3.20, 3.30, 3.40, 3.50; ±0.6 at most."
    )
    deep = replace(thick, saddle=replace(job.saddle, slot_depth=6.0))
    assert "over the slot’s floor, string 1 to 6, mm: 9.00," in bridge_entries.saddle_heights(deep, work_out(deep))
