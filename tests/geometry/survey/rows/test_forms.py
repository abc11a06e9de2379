"""Each form's value on a figure worked by hand, and its slopes against differences."""

import math
from typing import get_args

import numpy as np
import pytest

from geometry.job.measured.kinds import PointForm
from geometry.survey.adjust.network import dense, evaluate, network_of, rigid
from geometry.survey.result import Array
from geometry.survey.rows.forms import FORMS, Complex, _by_meeting, _by_same, _by_straightedge
from geometry.survey.rows.loci import circle
from geometry.survey.rows.row import Row
from tests.in_one import in_one

FIGURE = np.array([[3.0 + 1j, 10.0 - 2j, -4.0 + 7j, 21.0 + 16j]])
"""Four points that stand neither square nor in line."""
LEANS = [1, 1j, -1j]


def value(form: PointForm, z: Complex, lean: complex = 1) -> Array:
    return FORMS[form].equation(z, np.array([lean]))[0]


@in_one("lean", LEANS)
@in_one("form", get_args(PointForm))
def test_slopes_are_those_of_differences(form: PointForm, lean: complex) -> None:
    _, slope = FORMS[form].equation(FIGURE, np.array([lean]))
    step = 1e-6
    for point in range(slope.shape[1]):
        for way, found in ((1.0, slope[0, point].real), (1j, slope[0, point].imag)):
            up, down = FIGURE.copy(), FIGURE.copy()
            up[0, point] += step * way
            down[0, point] -= step * way
            difference = (value(form, up, lean) - value(form, down, lean))[0] / (2 * step)
            assert found == pytest.approx(difference, abs=1e-8)


def of(*points: complex) -> Complex:
    return np.array([points], dtype=complex)


def test_a_distance() -> None:
    assert value("distance", of(0, 3 + 4j)) == pytest.approx(5.0)


def test_two_distances_that_differ_by_two() -> None:
    assert value("same", of(0, 3 + 4j, 1j, 3 + 1j)) == pytest.approx(2.0)


@pytest.mark.parametrize(("lean", "expected"), [(1, 7.0), (1j, 2.0), (-1j, -2.0)])
def test_along_and_off_a_straightedge_laid_along_x(lean: complex, expected: float) -> None:
    assert value("laid", of(8 + 5j, 1 + 3j, 1 + 3j, 11 + 3j), lean) == pytest.approx(expected)


def test_a_gap_square_to_a_straightedge() -> None:
    assert value("laid", of(5 + 9j, 2 + 1j, 0, 10), 1j) == pytest.approx(8.0)


def test_where_a_line_crosses_the_straightedge() -> None:
    assert value("meets", of(2, 12, 6 - 1j, 8 + 1j)) == pytest.approx(5.0)


def test_out_of_square_as_an_offset_over_the_shorter() -> None:
    """The short side leans 1 over its length, seen along the long one."""
    assert value("square", of(0, 100, 0, 1 + 20j)) == pytest.approx(1.0)


@pytest.mark.parametrize(("toward", "degrees"), [(1j, 90), (-1j, 90), (-1 + 1j, 135), (1 - 1j, 45), (-1, 180)])
def test_an_angle_either_way_round(toward: complex, degrees: float) -> None:
    """Degrees of arc at 100 mm: from the direction of x to another."""
    assert value("angle", of(2, 5, 7j, 7j + toward)) == pytest.approx(math.radians(degrees) * 100)


def test_all_forms_together_against_differences() -> None:
    """A network's slopes, extra unknowns and the turn of a sheet included."""
    points = ("a", "b", "c", "d")
    forms: list[tuple[PointForm, complex]] = [("distance", 1), ("same", 1), ("meets", 1), ("square", 1), ("angle", 1)]
    rows = [Row(form, form, points[: 2 if form == "distance" else 4], 1.0, 0.3, lean) for form, lean in forms]
    rows += [Row(str(lean), "laid", ("a", "b", "c", "d"), 1.0, 0.3, lean, (("zero.A", 1.0),)) for lean in LEANS]
    rows += [Row(str(lean), "laid", ("a", "c", "c", "d"), 1.0, 0.3, lean) for lean in LEANS]
    rows += [
        Row("x", "at", ("a",), 1.0, 0.3, 1, (("at.turn", 0.0), ("at.x", 1.0)), "x"),
        Row("y", "at", ("b",), 1.0, 0.3, 1j, (("at.turn", 0.0), ("at.y", 1.0)), "y"),
        Row("f", "none", (), 1.0, 0.3, 1, (("scale.left", 0.5), ("shift.left", -1.0))),
    ]
    net = network_of(rows)
    x = np.concatenate([FIGURE.view(float)[0], np.linspace(0.4, 40, len(net.extras))])
    full = dense(net, evaluate(net, x)[1])
    for column in range(net.p):
        step = np.zeros(net.p)
        step[column] = 1e-5
        difference = (evaluate(net, x + step)[0] - evaluate(net, x - step)[0]) / 2e-5
        assert full[:, column] == pytest.approx(difference, abs=1e-8)
    assert full @ rigid(net, x) == pytest.approx(0, abs=1e-12)


def test_where_a_point_may_lie_whose_line_meets_another() -> None:
    """derived: 100 from (10, 10) toward (10, 210) the lines meet at (10, 110); the other point lies level with that"""
    placed = {"a": 10 + 10j, "b": 10 + 210j, "d": 60 + 110j}
    for points, point in ((("a", "b", "c", "d"), "c"), (("a", "b", "d", "c"), "c")):
        found = _by_meeting(Row("m", "meets", points, 100.0, 0.3), point, placed, 0.3)
        assert found is not None
        assert found.at == 60 + 110j
        assert found.normal.real == pytest.approx(0.0, abs=1e-12)
        assert abs(found.normal) == pytest.approx(1.0)
    assert _by_meeting(Row("m", "meets", ("a", "b", "c", "d"), 100.0, 0.3), "a", placed, 0.3) is None


@pytest.mark.parametrize(("point", "centre", "radius"), [("a", 10 - 2j, 25.0), ("c", 99j, 50.0), ("d", -4 + 7j, 50.0)])
def test_the_end_of_one_of_two_lines_alike_lies_on_a_circle(point: str, centre: complex, radius: float) -> None:
    """Round its line's other end, with the other line's length (derived: 3-4-5 times five and ten)."""
    placed = {"a": 0j, "b": 10 - 2j, "c": -4 + 7j, "d": 99j}
    if point == "a":
        placed |= {"c": 0j, "d": 15 + 20j}
    else:
        placed |= {"a": 0j, "b": 30 + 40j}
    found = _by_same(Row("r", "same", ("a", "b", "c", "d"), 0.0, 0.2), point, placed, 0.2)
    assert found == circle(centre, radius, 0.2)


@pytest.mark.parametrize(
    ("point", "off", "lean", "way"),
    # derived: 3-4-5; from the pivot at 0 the point 5 away stands 3 off the edge where this turns by asin 3/5
    [
        ("b", 4 + 3j, 1j, 1 + 0j),
        ("b", 4 - 3j, -1j, 1 + 0j),
        ("b", 4 + 3j, -1j, (7 + 24j) / 25),
        ("a", -4 + 3j, 1j, 1 + 0j),
        ("a", -4 + 3j, -1j, (7 - 24j) / 25),
    ],
)
def test_where_the_end_of_a_straightedge_lies_off_which_a_point_was_read(
    point: str, off: complex, lean: complex, way: complex
) -> None:
    """On the line that passes the point as far off as it was read, through the straightedge's other end; nowhere where
    the point lies no farther than that from the other end.
    """
    placed = {"p": off, "b" if point == "a" else "a": 0j}
    found = _by_straightedge(Row("r", "laid", ("p", "a", "a", "b"), 3.0, 0.2, lean), point, placed, 0.2)
    assert found is not None
    assert found.at == 0j
    assert (found.normal * way.conjugate()).real == pytest.approx(0.0, abs=1e-12)
    assert abs(found.normal) == pytest.approx(1.0)
    assert _by_straightedge(Row("r", "laid", ("p", "a", "a", "b"), 5.0, 0.2, lean), point, placed, 0.2) is None
    assert _by_straightedge(Row("r", "laid", ("p", "a", "a", "b"), 4.9, 0.2, lean), point, placed, 0.2) is not None
