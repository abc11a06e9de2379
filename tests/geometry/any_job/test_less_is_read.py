"""A ± does not fall when a reading is taken away: what is known less is not known better."""

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job
from geometry.layout import Layout
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of
from tests.campaign.placing import places_of

INSTRUMENTS, AT_ONCE = 20, (1, 1, 4)
ROUND = 0.97
"""An edge is the best line through the points read on it, each with the same say: one that is known worse than the
others can widen it by so much (derived: with three points along a board, the middle one at twice their spread)."""


def settled(layout: Layout) -> bool:
    """Whether there is a saddle, and nothing is accused: an accusation widens the ±, and goes with what was accused."""
    survey = layout.survey
    return layout.saddle is not None and not (survey.suspects or survey.groups) and survey.verdict != "coarse"


def widths(layout: Layout) -> dict[str, float]:
    assert layout.saddle is not None
    assert layout.bridge is not None
    left, right = layout.saddle.pm95
    front, other = layout.bridge.front_pm95
    return {"left": left, "right": right, "slant": layout.saddle.slant_pm95, "front left": front, "front right": other}


def without(job: Job, gone: set[str]) -> Job:
    return replace(job, readings=tuple(replace(r, struck=r.struck or r.id in gone) for r in job.readings))


@pytest.mark.parametrize("name", ["as given", "sloppy"])
def test_no_reading_can_be_taken_away_to_make_a_result_surer(name: str) -> None:
    case = next(case for case in CASES if case.name == name)
    tried = 0
    for index in range(INSTRUMENTS):
        job, random = trial_of(case, 31, index).job, np.random.default_rng(index)
        whole = places_of(job)
        if not settled(whole):
            continue
        taken = [reading.id for reading in job.readings if reading.taken]
        for count in AT_ONCE:
            gone = set(random.choice(taken, count, replace=False).tolist())
            less = places_of(without(job, gone))
            if settled(less):
                tried += 1
                before, after = widths(whole), widths(less)
                # what one reading adds by not agreeing well goes with it, as an accusation does
                eased = max(1.0, whole.survey.wider / less.survey.wider)
                assert all(after[key] >= ROUND * before[key] / eased for key in before), (index, gone, before, after)
    assert tried > INSTRUMENTS


def test_taking_all_fret_readings_of_one_side_away_widens_its_saddle() -> None:
    """Derived: without them that side's nut and scale are the other's, within 0.5 and 0.25 mm."""
    case = next(case for case in CASES if case.name == "as given")
    job = trial_of(case, 31, 0).job
    gone = {reading.id for reading in job.readings if reading.kind == "fret" and reading.on == "left"}
    before, after = widths(places_of(job)), widths(places_of(without(job, gone)))
    assert after["left"] > before["left"] + 0.3
