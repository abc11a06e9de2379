"""Drones: strings without a fret of their own, laid by those that have some."""

import pytest
from msgspec.structs import replace

from geometry.strings.compensation import compensate, strings_as_played
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.geometry.strings.test_strings_from_a_fret import FIVE, FRETS, board, fifth, job_with, moved, played


def test_a_string_without_a_fret_of_its_own_is_a_drone() -> None:
    at_last = (*FIVE[:4], replace(FIVE[4], starts_at=FRETS))
    found = compensate(strings_as_played(played(at_last), "right", board(at_last)))[4]
    # common practice, no source: the treble's, for it is tuned high
    assert (found.source, found.saddle, found.cents) == ("drone", 1.5, {})


def test_one_that_starts_at_the_last_fret_is_laid_as_a_drone_and_said_to_be() -> None:
    at_last, drone = work_out(job_with(moved(starts_at=FRETS))), work_out(job_with(moved(fretted=False)))
    four = work_out(job_with(FIVE[:4]))
    assert at_last.saddle is not None
    assert four.saddle is not None
    assert (fifth(at_last).compensation_from, fifth(at_last).fretted) == ("drone", False)
    # derived: it asks nothing, so the saddle is as sure as under the four that are fretted
    assert max(at_last.saddle.pm95) == pytest.approx(max(four.saddle.pm95), abs=0.1)
    assert fifth(at_last).compensation == pytest.approx(fifth(drone).compensation, abs=0.05)
    found = {f.code: f for f in at_last.findings}
    assert "compensation.habit" not in found
    assert found["strings.no_frets"].where == "string:5"
    assert found["strings.no_frets"].text == (
        "String 5 starts at the last fret, and no note of it can be fretted: it is taken for a drone, and has no say "
        "in where the saddle lies. Look at the fret it starts at."
    )
    assert "strings.no_frets" not in {f.code for f in drone.findings}


DRONES = SETS["drones steel 10-22"].strings


def test_a_drone_does_not_move_the_saddle() -> None:
    fretted = replace(DRONES[2], fretted=True), replace(DRONES[3], fretted=True)
    tried = [
        work_out(job_with((*DRONES[:2], replace(DRONES[2], diameter=size), DRONES[3]))).saddle
        for size in ("0.014 in", "0.020 in")
    ]
    assert tried[0] is not None
    assert tried[1] is not None
    assert tried[0].at_strings == tried[1].at_strings
    assert tried[0].pm95 == tried[1].pm95
    all_fretted = work_out(job_with((*DRONES[:2], *fretted))).saddle
    assert all_fretted is not None
    assert all_fretted.at_strings != tried[0].at_strings


def test_a_drone_lies_on_the_line_through_the_others() -> None:
    one, two, three = FIVE[:3]
    layout = work_out(job_with((one, replace(two, fretted=False), three)))
    a, drone, b = layout.strings
    assert drone.compensation == pytest.approx((a.compensation + b.compensation) / 2, abs=1e-6)
    assert (drone.compensation_from, drone.cents, drone.fretted) == ("drone", {}, False)
    assert drone.tension_n is not None


def test_a_pair_side_by_side_tells_no_slant() -> None:
    # derived: two strings of a course span 3 of 54 mm; their own difference is no slant of the saddle
    layout = work_out(job_with(DRONES))
    first, second, *drones = layout.strings
    mean = (first.compensation + second.compensation) / 2
    assert [one.compensation for one in drones] == pytest.approx([mean, mean])


def test_drones_alone_are_laid_by_common_practice() -> None:
    layout = work_out(job_with(tuple(replace(one, fretted=False) for one in FIVE[:4])))
    # common practice, no source: steel, four courses
    assert [one.compensation for one in layout.strings] == pytest.approx([1.5, 2.0, 2.5, 3.0])
    assert layout.saddle is not None
