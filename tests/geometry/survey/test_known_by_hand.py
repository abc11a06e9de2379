"""Figures derived by hand."""

import math

import numpy as np
import pytest

from geometry.job import Job, Reading
from geometry.survey import Surveyed, survey
from tests.geometry.survey.invented import BOARD, Wanted, job_of, taken

TWO_SIDED_95 = 1.959963984540054


def fret(number: int, value: float, within: float, on: str = "left") -> Reading:
    return Reading(id=f"f{number}{on}", kind="fret", fret=number, on=on, value=value, within=within)  # type: ignore[arg-type]


def pm95(solved: Surveyed, slopes: dict[str, float]) -> float:
    h = np.zeros(len(solved.state))
    for name, slope in slopes.items():
        h[solved.extra_at[name]] = slope
    return TWO_SIDED_95 * math.sqrt(float(h @ solved.cov @ h))


def test_a_nut_one_millimetre_too_near() -> None:
    """Derived: frets 1 and 12 read 34.47 and 315.00; scale 632.0, nominal place 631.0 from the nut."""
    solved = survey(Job(readings=(fret(1, 34.47, 0.25), fret(12, 315.0, 0.25))))
    scale, shift = (float(solved.state[solved.extra_at[name]]) for name in ("scale.left", "shift.left"))
    assert scale == pytest.approx(632.0, abs=0.02)
    assert shift == pytest.approx(1.0, abs=0.01)
    assert 1200 * math.log2(scale / (scale - shift)) == pytest.approx(2.74, abs=0.03)


def test_fret_twelve_alone_leaves_open_where_the_nut_should_stand() -> None:
    """Derived: the nominal place is 2 v + shift, v ± 0.3 / √3 and the shift 0.5 mm unknown: 1.96 √(0.3464² + 0.5²)."""
    solved = survey(Job(readings=(fret(12, 325.0, 0.3),)))
    assert pm95(solved, {"scale.left": 1.0, "shift.left": -1.0}) == pytest.approx(1.192, abs=0.001)
    assert pm95(solved, {"shift.left": 1.0}) == pytest.approx(0.980, abs=0.001)


def test_frets_one_and_twelve_give_the_scale_to_nine_tenths() -> None:
    """Derived: √2 × 0.25 / √3 / (0.5 − 0.05613) × 1.96 = 0.90 mm."""
    solved = survey(Job(readings=(fret(1, 36.48, 0.25), fret(12, 325.0, 0.25))))
    assert pm95(solved, {"scale.left": 1.0}) == pytest.approx(0.901, abs=0.001)


SIDES: list[Wanted] = [
    ("distance", "nut.left nut.right", ""),
    ("distance", "end.left end.right", ""),
    ("distance", "nut.left end.left", ""),
    ("distance", "nut.right end.right", ""),
]
DIAGONALS: list[Wanted] = [("distance", "nut.left end.right", ""), ("distance", "nut.right end.left", "")]


def test_four_sides_of_a_board_are_loose() -> None:
    solved = survey(job_of(taken(BOARD, SIDES)))
    assert solved.report.verdict == "loose"
    assert solved.report.dof == 0
    assert len(solved.report.loose) == 2


def test_a_diagonal_holds_it_and_a_second_one_checks_it() -> None:
    one = survey(job_of(taken(BOARD, SIDES + DIAGONALS[:1])))
    two = survey(job_of(taken(BOARD, SIDES + DIAGONALS)))
    assert (one.report.verdict, one.report.dof) == ("unchecked", 0)
    assert (two.report.verdict, two.report.dof) == ("clean", 1)


def racked(by: float) -> dict[str, complex]:
    """The board with its end shoved sideways, its four sides as long as before to a hundredth."""
    return {name: z + by * 1j if name.startswith("end") else z for name, z in BOARD.items()}


def test_a_board_racked_by_a_millimetre_changes_its_diagonals_by_an_eighth() -> None:
    """Derived: half-width × 2 / length of the diagonal = 50 / 431; 0.12 to 0.16 mm over usual boards."""
    for name, other in (("nut.left", "end.right"), ("nut.right", "end.left")):
        change = abs(abs(racked(1)[other] - racked(1)[name]) - abs(BOARD[other] - BOARD[name]))
        assert 0.11 < change < 0.16


def test_a_rule_does_not_see_a_racked_board() -> None:
    """Read with a rule, the shove stays far within what is believable, and the end is known sideways to millimetres."""
    straight = taken(BOARD, SIDES + DIAGONALS)
    shoved = taken(racked(1.0), SIDES + DIAGONALS)
    mixed = job_of((*straight[:4], *shoved[4:]))
    solved = survey(mixed)
    assert solved.report.verdict == "clean"
    assert max(abs(fit.w or 0.0) for fit in solved.fits) < 0.5
    assert min(fit.smallest_error or 9.0 for fit in solved.fits[4:]) > 1.0


def test_one_reading_against_two_of_root_two_its_sigma() -> None:
    def job(values: list[tuple[float, float]]) -> Job:
        readings = taken(BOARD, SIDES + DIAGONALS, np.random.default_rng(5))[1:]
        first = [
            Reading(id=f"w{n}", kind="distance", of=("nut.left", "nut.right"), value=value, sigma=sigma)
            for n, (value, sigma) in enumerate(values)
        ]
        return job_of((*first, *readings))

    one, two = survey(job([(43.1, 0.2)])), survey(job([(43.1, 0.2 * math.sqrt(2))] * 2))
    assert two.report.vtpv == pytest.approx(one.report.vtpv, rel=1e-8)
    for name, column in one.point_at.items():
        other = two.point_at[name]
        assert two.state[other : other + 2] == pytest.approx(one.state[column : column + 2], rel=1e-8, abs=1e-8)
        assert two.cov[other : other + 2, other : other + 2] == pytest.approx(
            one.cov[column : column + 2, column : column + 2], rel=1e-7, abs=1e-12
        )


def test_a_shared_zero_is_solved_for() -> None:
    """Frets read with a rule whose zero was laid 0.4 mm past the nut: half of it shows, its prior and the shift take
    the rest.
    """
    places = {k: 650 * (1 - 2 ** (-k / 12)) for k in (1, 3, 5, 7, 9, 12)}
    readings = tuple(
        Reading(id=f"f{k}{on}", kind="fret", fret=k, on=on, value=at + 0.4, with_="rule 0.5", laid=on)
        for on in ("left", "right")
        for k, at in places.items()
    )
    solved = survey(Job(readings=readings))
    assert set(solved.report.zero_errors) == {"left", "right"}
    scale = float(solved.state[solved.extra_at["scale.left"]])
    zero = solved.report.zero_errors["left"]
    shift = float(solved.state[solved.extra_at["shift.left"]])
    assert scale == pytest.approx(650.0, abs=1e-6)
    assert zero - shift == pytest.approx(0.4, abs=1e-6)


def test_a_reading_set_aside_is_held_against_what_the_others_say_by_its_own_fineness() -> None:
    """Derived: nothing but four readings to 0.2 mm checks the nut's width, so the others know it to 0.2 / √4 = 0.1; one
    to 0.5 mm then differs from them by √(0.5² + 0.1²) of chance alone, and 0.25 of 0.26 of a slip in it shows.
    """
    true = {"nut.left": 22j, "nut.right": -22j, "end.left": 440 + 28j, "end.right": 440 - 28j}
    pairs = [("nut.left", "nut.right")] * 4 + [
        (a, b) for a in ("nut.left", "nut.right") for b in ("end.left", "end.right")
    ]
    read = [
        Reading(id=f"r{n}", kind="distance", of=pair, value=abs(true[pair[0]] - true[pair[1]]), sigma=0.2)
        for n, pair in enumerate(pairs)
    ]
    out = Reading(id="out", kind="distance", of=("nut.left", "nut.right"), value=44.0 + 20.0, sigma=0.5)
    found = survey(job_of((*read, out)))
    (fit,) = (one for one in found.fits if one.id == "out")
    assert found.report.suspects == ("out",)
    assert fit.redundancy == pytest.approx(0.25 / 0.26, rel=1e-6)
    assert fit.w == pytest.approx(-20.0 / 0.26**0.5, rel=1e-6)
