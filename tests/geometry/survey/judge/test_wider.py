"""How wide every ± is for how the readings agree: derived by hand, and on a fit of invented readings."""

import math

import numpy as np
import pytest
from scipy.stats import t

from geometry.job import Job, Reading
from geometry.survey import survey
from geometry.survey.judge.suspects import _wider, students_t
from geometry.survey.judge.verdict import WORSE
from tests.geometry.survey.invented import BOARD, BOARD_DISTANCES, job_of, taken

TWO_SIDED_95 = 1.959963984540054


@pytest.mark.parametrize(
    ("squares", "dof", "wanted"),
    [(20.0, 10, math.sqrt(24 / 14)), (10.0, 10, 1.0), (2.0, 10, 1.0), (14.0, 4, 1.5), (0.0, 0, 1.0), (0.0, -1, 1.0)],
)
def test_within_chance_what_was_said_counts_as_four_readings(squares: float, dof: int, wanted: float) -> None:
    """derived: √((4 + Σw²) / (4 + n)), never under 1 (docs/numbers.md)"""
    assert _wider(squares, dof, 1.0) == pytest.approx(wanted)


@pytest.mark.parametrize("dof", [6, 11, 33])
def test_beyond_chance_students_t_tells_how_little_so_few_can(dof: int) -> None:
    """The series is good to its fourth term."""
    wanted = 2.5 * float(t.ppf(0.975, dof)) / TWO_SIDED_95
    assert _wider(99.0, dof, 2.5) == pytest.approx(wanted, rel=0.004)
    assert students_t(TWO_SIDED_95, dof) == pytest.approx(float(t.ppf(0.975, dof)), rel=0.004)


def board(times: float) -> Job:
    """The board read five times over, each reading out by anything alike up to √3 × 0.2 mm, times so much: as widely
    spread as `times` what is said, and none far out.
    """
    exact = taken(BOARD, BOARD_DISTANCES)
    rng = np.random.default_rng(3)
    readings = tuple(
        Reading(id=f"{one.id}.{n}", kind="distance", of=one.of, value=float(one.value) + off, sigma=0.2)  # type: ignore[arg-type]
        for one in exact
        for n, off in enumerate((times * 0.2 * math.sqrt(3) * rng.uniform(-1, 1, 5)).tolist())
    )
    return job_of(readings)


def test_every_pm_is_as_many_times_as_wide() -> None:
    """The same readings, of which those by a coarser hand stand farther out: the places' ± grow by what is said."""
    fine, coarse = survey(board(0.5)), survey(board(1.3))
    assert fine.report.wider == 1.0
    assert coarse.report.verdict == "clean"
    # derived: 30 readings of 4 points less 3 for where the figure lies leave 25 spare
    assert coarse.report.dof == 25
    assert coarse.report.wider == pytest.approx(math.sqrt((4 + coarse.report.vtpv) / 29))
    for name, column in fine.point_at.items():
        here, there = (one.cov[column, column] for one in (fine, coarse))
        assert there == pytest.approx(here * coarse.report.wider**2, rel=2e-3, abs=1e-12), name


@pytest.mark.parametrize(("times", "said"), [(0.9, False), (1.35, True)])
def test_from_a_fifth_on_it_is_said(times: float, said: bool) -> None:
    report = survey(board(times)).report
    assert report.verdict == "clean"
    assert (report.wider >= WORSE) == said
    assert (f"every ± is {report.wider:.1f} times as wide for it" in report.why.whole) == said
