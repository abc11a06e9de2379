"""A slip that all lengths to the board's end share. Its size is invented (common practice, no source)."""

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from geometry.job import Job, Reading
from geometry.survey import survey
from geometry.survey.judge.shared_slip import shared_slip
from geometry.units import mm
from tests.campaign.invented.cases import CASES, LISTS
from tests.campaign.invented.trials import exact_job, trial_of
from tests.in_one import in_one

LEFT = Reading(id="l", kind="distance", of=("fret12.left", "end.left"), value=130.0)
RIGHT = Reading(id="r", kind="distance", of=("end.right", "fret12.right"), value=130.0)
WIDTH = Reading(id="w", kind="distance", of=("end.left", "end.right"), value=56.0)
BOTH = {one.id: one for one in (LEFT, RIGHT, WIDTH)}


@in_one(
    ("errors", "told"),
    [
        ({"l": -2.0, "r": -2.4}, True),
        ({"l": 2.0, "r": 2.4}, True),
        ({"l": 2.0, "r": -2.4}, False),
        ({"l": 2.0}, False),
        ({"l": 2.0, "r": 2.4, "w": 2.0}, False),
        ({"l": 2.0, "w": 2.0}, False),
        ({"l": 8.0, "r": 4.1}, True),  # derived: they differ by 3.9, less than half of 8
        ({"l": 8.0, "r": 3.9}, False),
        ({"l": 1.3, "r": 0.4}, True),  # derived: they differ by 0.9, less than 1
        ({"l": 1.5, "r": 0.4}, False),
        ({"l": 1200.0, "r": 1200.0}, False),
    ],
)
def test_both_sides_out_alike_may_be_the_lengths_instead(errors: dict[str, float], told: bool) -> None:
    assert (shared_slip(Job(), BOTH, errors) is not None) == told


@pytest.mark.parametrize(
    ("errors", "says"),
    [
        ({"l": -2.0, "r": -2.4}, "reads 2.2 mm less on both sides"),
        ({"l": 2.0, "r": 2.4}, "reads 2.2 mm more on both sides"),
    ],
)
def test_how_much_both_are_out_is_the_mean_of_the_two(errors: dict[str, float], says: str) -> None:
    """derived: (2.0 + 2.4) / 2"""
    told = shared_slip(Job(), BOTH, errors)
    assert told is not None
    assert says in told.whole


@pytest.mark.parametrize(("by", "says"), [(2.5, "as much too much"), (-2.5, "as much too little")])
def test_a_tape_that_is_out_is_not_laid_on_fret_12_alone(by: float, says: str) -> None:
    job = _slipped(lambda r: {"nut", "end"} == {name.split(".")[0] for name in r.of}, by)
    report = survey(job).report
    assert report.verdict == "misread"
    assert "all lengths from the nut to the board’s end" in report.why.whole
    assert says in report.why.whole
    assert "or strike it out" not in report.why.whole


def test_one_side_alone_is_told_as_any_reading_is() -> None:
    report = survey(_slipped(lambda r: r.of == ("fret12.left",) and r.from_[:1] == ("end.left",), 2.5)).report
    assert report.verdict == "misread"
    assert "all lengths from the nut" not in report.why.whole


def _slipped(which: Callable[[Reading], bool], by: float) -> Job:
    """A neck read to 0.1 mm with some of its distances out alike."""
    job = exact_job(trial_of(CASES[0], 5, LISTS.index("neck and bridge")))
    readings = tuple(
        replace(
            one, sigma=0.1, value=mm(one.parts[0]) + (by if one.kind in ("distance", "along") and which(one) else 0.0)
        )
        if len(one.parts) == 1
        else one
        for one in job.readings
    )
    return replace(job, readings=readings)
