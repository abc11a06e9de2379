"""The survey against constructed networks whose truth and adjustment are known (data/survey_constructed.json).

Tolerances: the file prints six decimals of mm and five of redundancy numbers.
"""

import math

import numpy as np
import pytest

from geometry.survey import Adjusted, Straightedge, adjust, network_of, rows_of, survey
from geometry.survey.judge.suspects import exchanged, snoop
from geometry.survey.result import Array
from tests.published.survey_cases import CONSTRUCTED, Case, job, named, turned_about

VERDICTS = {
    "S01": ("unchecked", ()),
    "S02": ("clean", ()),
    "S03": ("misread", ("m16",)),
    "S04": ("swapped", ("m18", "m15")),
    "S05": ("clean", ()),
    "S06": ("loose", ()),
    "S07": ("clean", ()),
    "S08": ("misread", ("m32",)),
    "S09": ("one of these", ()),
}
DATUM = Straightedge("nut.left", "end.left")
every = pytest.mark.parametrize("case", CONSTRUCTED.values(), ids=CONSTRUCTED)


def adjusted(case: Case, without: tuple[str, ...] = (), swap: tuple[str, ...] = ()) -> Adjusted:
    """The case adjusted, on its left edge."""
    work = job(case, sketch=True)
    solved = survey(work)
    net = network_of(rows_of(work, [reading for reading in work.readings if reading.id not in without]))
    if swap:
        ids = [row.id for row in net.rows]
        net = exchanged(net, ids.index(swap[0]), ids.index(swap[1]))
    start = {name: (float(solved.state[c]), float(solved.state[c + 1])) for name, c in solved.point_at.items()}
    return adjust(net, DATUM, start | solved.rough)


def on_the_nut_axis(done: Adjusted) -> tuple[Array, Array]:
    """All places (points,) as x + iy and their covariance (2 points, 2 points), carried to the data's datum: the origin
    midway between the nut's corners, x toward the middle of the board's end.

    W. Baarda, S-transformations and criterion matrices, Publ. on Geodesy 5(1), 1973.
    """
    size = 2 * len(done.net.points)
    nut, end = ([done.net.points.index(f"{of}.{side}") for side in ("left", "right")] for of in ("nut", "end"))
    z = done.x[:size].view(complex)
    along = z[end].mean() - z[nut].mean()
    z = (z - z[nut].mean()) / (along / abs(along))
    turn = np.array([[along.real, along.imag], [-along.imag, along.real]]) / abs(along)
    moves = np.zeros((size, 3))
    moves[0::2, 0], moves[1::2, 1], moves[0::2, 2], moves[1::2, 2] = 1, 1, -z.imag, z.real
    held = np.zeros((3, size))
    for i, j in zip(nut, end, strict=True):
        held[0, 2 * i], held[1, 2 * i + 1], held[2, 2 * j + 1] = 1, 1, 1
    carried = (np.eye(size) - moves @ np.linalg.solve(held @ moves, held)) @ np.kron(np.eye(size // 2), turn)
    return z, carried @ done.cov[:size, :size] @ carried.T


def check_places(done: Adjusted, expected: dict[str, list[float]], leave: set[str] | None = None) -> None:
    places, covariance = on_the_nut_axis(done)
    for name, (x, y, sx, sy, sxy) in expected.items():
        if name not in (leave or ()):
            i = done.net.points.index(named(name))
            cov = covariance[2 * i : 2 * i + 2, 2 * i : 2 * i + 2]
            assert (places[i].real, places[i].imag) == pytest.approx((x, y), abs=2e-6)
            assert np.sqrt(np.diagonal(cov)) == pytest.approx((sx, sy), rel=1e-4, abs=2e-7)
            assert cov[0, 1] == pytest.approx(sxy, abs=1e-4 * sx * sy + 1e-9)


@pytest.mark.parametrize("sketch", [False, True], ids=["without places", "with rough places"])
@every
def test_the_verdict(case: Case, sketch: bool) -> None:
    report = survey(job(case, sketch)).report
    assert (report.verdict, report.suspects) == VERDICTS[case["id"]]


@pytest.mark.parametrize("sketch", [False, True], ids=["without places", "with rough places"])
@every
def test_residuals_redundancy_and_w_belong_to_the_readings(case: Case, sketch: bool) -> None:
    solved = survey(job(case, sketch))
    assert solved.report.dof == case["all"]["dof"]
    assert solved.report.vtpv == pytest.approx(case["all"]["vtpv"], rel=1e-6, abs=1e-9)
    sign = turned_about(case)
    for fit in solved.fits:
        residual, redundancy, w, _ = case["all"]["rows"][fit.id]
        assert fit.residual * sign[fit.id] == pytest.approx(residual, abs=1e-6)
        assert fit.redundancy == pytest.approx(redundancy, abs=1e-6)
        assert (fit.w is None) == (w is None)
        if fit.w is not None:
            assert fit.w * sign[fit.id] == pytest.approx(w, abs=1e-4)
            assert fit.smallest_error == pytest.approx(4.13215 * fit.sigma / math.sqrt(redundancy), rel=1e-3)


@every
def test_places_and_covariances_on_the_nut_axis(case: Case) -> None:
    check_places(adjusted(case), case["all"]["coordinates"], set(case.get("loose", {})))


@every
def test_tau(case: Case) -> None:
    done = adjusted(case)
    sign = turned_about(case)
    for row, tau in zip(done.net.rows, done.tau.tolist(), strict=True):
        expected = case["all"]["rows"][row.id][3]
        if expected is not None:
            assert tau * sign[row.id] == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("key", ["S03", "S08"])
def test_the_fit_without_the_wrong_reading(key: str) -> None:
    case = CONSTRUCTED[key]
    done = adjusted(case, without=tuple(case["after_removal"]["removed"]))
    assert done.squares == pytest.approx(case["after_removal"]["vtpv"], rel=1e-6)
    check_places(done, case["after_removal"]["coordinates"])


def test_the_fit_with_two_values_exchanged() -> None:
    case = CONSTRUCTED["S04"]
    done = adjusted(case, swap=("m15", "m18"))
    assert done.squares == pytest.approx(case["after_interchange"]["vtpv"], rel=1e-6)
    check_places(done, case["after_interchange"]["coordinates"])


@pytest.mark.parametrize("key", ["S03", "S04", "S08"])
def test_the_errors_of_readings_taken_out_one_after_the_other(key: str) -> None:
    case = CONSTRUCTED[key]
    done = adjusted(case)
    found = snoop(done)
    assert [done.net.rows[i].id for i in found.named] == [step[0] for step in case["snooping"]]
    for error, (_, _, expected, sd) in zip(found.errors, case["snooping"], strict=True):
        assert error == pytest.approx(expected, abs=0.02 * sd)  # the steps here are linear, theirs are not


def test_a_group_that_no_reading_can_be_told_from() -> None:
    report = survey(job(CONSTRUCTED["S09"])).report
    assert report.groups == (("m98", "m99", "m100"),)


def test_what_is_loose_and_which_way() -> None:
    """SR has one distance, from EL, and swings about it; P6 has one reading along the left edge, and slides off it."""
    case = CONSTRUCTED["S06"]
    solved = survey(job(case, sketch=True))
    at = {name: complex(*solved.state[c : c + 2]) for name, c in solved.point_at.items()}
    way = {point.point: complex(*(point.direction or (0.0, 0.0))) for point in solved.report.loose}
    assert set(way) == set(case["loose"]) == {"SR", "P6"}
    assert set(at) == {named(name) for name in case["sketch"]} - {"SR", "P6"}
    arm = complex(*solved.rough["SR"]) - at["end.left"]
    edge = at["end.left"] - at["nut.left"]
    assert (arm.conjugate() * way["SR"]).real / abs(arm) == pytest.approx(0, abs=1e-6)
    assert (edge.conjugate() * way["P6"]).real / abs(edge) == pytest.approx(0, abs=1e-6)


def test_without_its_hints_a_mirror_leaves_both_places() -> None:
    case = CONSTRUCTED["S05"]
    solved = survey(job(case, hints=False))
    assert solved.report.verdict == "either side"
    assert set(solved.report.elsewhere) == {"UL", "UR"}
    assert not {"UL", "UR"} & set(solved.point_at)
    other = complex(*solved.state[solved.point_at["nut.right"] :][:2])
    there = complex(*case["all"]["coordinates"]["NR"][:2])
    expected = sorted({round(abs(complex(*solution["UL"]) - there), 4) for solution in case["solutions"]})
    both = sorted(abs(complex(*place["UL"]) - other) for place in (solved.rough, solved.report.elsewhere))
    assert both == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("key", ["S03", "S08"])
def test_the_estimated_error_is_near_the_one_put_in(key: str) -> None:
    done = adjusted(CONSTRUCTED[key])
    true = {"S03": 3.0, "S08": -2.7757}[key]
    sd = CONSTRUCTED[key]["snooping"][0][3]
    assert abs(snoop(done).errors[0] - true) < 3 * sd
