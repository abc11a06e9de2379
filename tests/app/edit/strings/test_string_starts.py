"""Where strings start, drones, and what is declared of slanted frets: as the card puts it back."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from app.cli import command_line
from app.edit.start import first_questions, new_job
from app.edit.strings import slanted_entries, string_entries, string_starts
from app.file import job_file
from geometry.job import Frets, Heard, Job, NotAJob, Point, Scales, String, Strings
from geometry.strings.usual_sets import SETS

FIVE = Job(strings=Strings(list=SETS["short fifth steel 10-24"].strings))


def firsts(job: Job) -> list[int]:
    return [string.first for string in string_entries.block(job).list]


@pytest.mark.parametrize(("typed", "first"), [("7", 7), ("nut", 0), (" Nut ", 0), ("", 0), ("0", 0)])
def test_where_it_starts_as_typed(typed: str, first: int) -> None:
    assert firsts(string_starts.put_start_typed(FIVE, 4, typed)) == [0, 0, 0, 0, first]


def test_what_is_no_fret_is_one_sentence() -> None:
    with pytest.raises(NotAJob) as refused:
        string_starts.put_start_typed(FIVE, 4, "five")
    assert str(refused.value) == "“five” is no fret; type its number, or nut"


def test_a_tick_starts_it_at_a_usual_fret_and_takes_it_back_with_its_place() -> None:
    one = string_starts.tick_start(FIVE, 0, on=True)
    assert firsts(one) == [5, 0, 0, 0, 5]
    beside = string_starts.put_across(one, 0, "edge")
    assert string_starts.beside(beside, 0) == 3.0
    back = string_starts.tick_start(string_starts.put_beside(beside, 0, "1/8 in"), 0, on=False)
    assert string_entries.block(back).list[0] == string_entries.block(FIVE).list[0]


def test_the_last_that_begins_at_the_nut_stays_there() -> None:
    job = FIVE
    for at in range(5):
        job = string_starts.tick_start(job, at, on=True)
    assert firsts(job) == [5, 5, 5, 0, 5]
    assert firsts(string_entries.remove_string(job, 3)) == [0, 0, 0, 0]


def test_how_it_lies_is_said_one_way_at_a_time() -> None:
    one = string_starts.put_across(FIVE, 4, "neighbour")
    assert string_starts.across(one, 4) == "neighbour"
    other = string_starts.put_across(one, 4, "edge")
    assert (string_starts.across(other, 4), string_starts.beside(other, 4)) == ("edge", 3.0)
    assert string_starts.put_across(other, 4, "others") == FIVE
    assert string_starts.put_across(FIVE, 0, "edge") == FIVE


def test_a_drone_takes_what_was_heard_of_it_along() -> None:
    heard = tuple(Heard(string=name, cents=1.0, trial="1") for name in ("1", "2"))
    job = string_entries.put(FIVE, heard=heard)
    drone = string_starts.make_drone(job, 0, on=True)
    assert [one.string for one in string_entries.block(drone).heard] == ["2"]
    assert [string.fretted for string in string_entries.block(drone).list] == [False, True, True, True, True]


def test_a_set_brings_the_frets_it_starts_at_and_slants_them() -> None:
    few = Job(frets=Frets(count=4))
    assert string_entries.take_set(few, "short fifth steel 10-24").frets.count == 6
    slanted = string_entries.take_set(few, "slanted frets steel 10-52")
    assert slanted.frets == Frets(count=4, slanted=True)


def test_what_is_declared_of_slanted_frets_goes_with_the_tick() -> None:
    job = slanted_entries.put_slanted(Job(), True)
    job = slanted_entries.scale_put("right")(job, "26 in")
    assert job.frets.scales == Scales(right="26 in")
    assert slanted_entries.scale_of("left")(job) is None
    assert slanted_entries.scale_put("right")(job, None).frets == Frets(slanted=True)
    assert slanted_entries.put_slanted(job, False).frets == Frets()


@pytest.mark.parametrize(("held", "block"), [("strings", "floating"), ("screws", "separate")])
def test_a_job_is_begun_as_its_bridge_is_held(tmp_path: Path, held: str, block: str) -> None:
    assert command_line.run(["new", str(tmp_path / "mine"), "--held", held, "--list", "whole top with old work"]) == 0
    job = job_file.read(tmp_path / "mine.job.json")
    assert getattr(job, block) is not None
    assert not any(name.startswith(("old.", "pin.")) for name in job.points)
    in_window = first_questions.begin(
        hand="right",
        string_set="6",
        measuring="whole top with old work",
        held=held,  # type: ignore[arg-type]  # as the command line takes it
    )
    assert in_window == job


def test_a_set_for_slanted_frets_begins_a_job_with_them() -> None:
    assert new_job.begin(string_set="slanted frets steel 10-52").frets.slanted
    assert not new_job.begin(string_set="steel 12-54").frets.slanted


@pytest.mark.parametrize(
    ("string", "fret", "says"),
    [
        ("1", "0", "String 1 is fretted at 1 to 20, and fret 0 was typed"),
        ("1", "21", "String 1 is fretted at 1 to 20, and fret 21 was typed"),
        ("5", "5", "String 5 is fretted at 6 to 20, and fret 5 was typed"),
    ],
)
def test_a_string_is_heard_at_a_fret_it_has(string: str, fret: str, says: str) -> None:
    """The job of five has 20 frets, and its string 5 starts at fret 5."""
    job = replace(FIVE, points={name: Point() for name in ("trial.1.left", "trial.1.right")})
    with pytest.raises(NotAJob, match=says):
        string_entries.add_heard(job, string, fret, "3", "open", "1")
    last = string_entries.add_heard(job, string, "20", "3", "open", "1")
    assert string_entries.block(last).heard[0].fret == 20


@pytest.mark.parametrize(
    ("starts", "says"),
    [
        ({}, ""),
        (
            {4: 5},
            "At the nut between strings 1 and 4, the outer ones that begin there; at the bridge "
            "between strings 1 and 5.",
        ),
        (
            {0: 5},
            "At the nut between strings 2 and 5, the outer ones that begin there; at the bridge "
            "between strings 1 and 5.",
        ),
    ],
)
def test_between_which_strings_a_spread_is_read(starts: dict[int, int], says: str) -> None:
    """derived: the layout spaces those that begin at the nut by the spread there, and all of them at the saddle"""
    job = Job(strings=Strings(list=tuple(String(name=str(at + 1), starts_at=starts.get(at)) for at in range(5))))
    assert string_starts.spread_said(job) == says
