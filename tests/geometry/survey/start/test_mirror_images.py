"""Figures turned over: when one point too few stays put."""

from types import SimpleNamespace

import numpy as np
import pytest

from geometry.survey.adjust.network import network_of
from geometry.survey.rows.row import Row
from geometry.survey.start import mirror_images
from geometry.survey.start.mirror_images import _turned
from geometry.survey.start.misfit import places, vector
from geometry.survey.start.rough_places import Choice
from tests.in_one import in_one

HERE = {"a": 0j, "b": 100 + 0j, "c": 40 + 30j}
LENGTHS = [("a", "b"), ("a", "c"), ("b", "c")]
NET = network_of([Row(f"{a}{b}", "distance", (a, b), abs(HERE[b] - HERE[a]), 0.3) for a, b in LENGTHS])


def test_a_point_that_turns_over_is_fitted_there() -> None:
    """derived: the triangle turned over on the side that stays; half a millimetre off at the start makes no odds."""
    there = HERE | {"c": 40 - 30.5j}
    turned = _turned(NET, vector(NET, HERE), there, HERE)
    assert turned is not None
    found = places(NET, turned)
    assert (found["a"], found["b"]) == (HERE["a"], HERE["b"])
    assert found["c"].real == pytest.approx(40.0, abs=1e-4)
    assert found["c"].imag == pytest.approx(-30.0, abs=1e-4)


def test_where_fewer_than_two_points_stay_all_are_taken_as_they_lie_there() -> None:
    there = {"a": 0j, "b": -100 + 0j, "c": -40 + 30j}
    turned = _turned(NET, vector(NET, HERE), there, HERE)
    assert turned is not None
    assert np.array_equal(turned, vector(NET, there))


@pytest.mark.parametrize("off", [0.0, 0.9])
def test_where_all_points_stay_nothing_turns(off: float) -> None:
    # a point within a millimetre stays put
    assert _turned(NET, vector(NET, HERE), HERE | {"c": HERE["c"] + off}, HERE) is None
    assert _turned(NET, vector(NET, HERE), HERE | {"c": HERE["c"] + 1.1}, HERE) is not None


@pytest.mark.parametrize(
    ("off_here", "off_there", "nearer"),
    [
        (10.0, 5.0, 0),  # half as far is not clearly nearer
        (10.0, 4.9, 1),
        (5.0, 10.0, 0),
        (4.9, 10.0, -1),
        (5.6, 10.0, 0),
        (10.0, 5.6, 0),
        (0.0, 0.0, 0),
        (0.0, 1.0, -1),
    ],
)
def test_which_figure_the_rough_places_speak_for(
    monkeypatch: pytest.MonkeyPatch, off_here: float, off_there: float, nearer: int
) -> None:
    """derived: only less than half as far off, all points together, tells; one without a rough place says nothing"""
    rough = {"a": 0j, "b": 100j, "c": None}
    monkeypatch.setattr(mirror_images, "rough_place", lambda _near, _at, name: rough[name])
    here = {"a": off_here / 2 + 0j, "b": 100j + off_here / 2, "c": 900 + 0j}
    there = {"a": off_there / 4 + 0j, "b": 100j - 3 * off_there / 4, "c": 0j}
    what = SimpleNamespace(near=None)
    assert mirror_images._nearer(what, here, there, rough) == nearer  # type: ignore[arg-type]  # only near is asked for


@in_one(("off", "begun"), [(0.0, False), (24.0, False), (26.0, True), (26j, True), (-30.0, True)])
@in_one("by", ["usual", "near"])
def test_points_far_from_where_they_usually_lie_are_begun_from_there(off: complex, begun: bool, by: str) -> None:
    """25 mm (common practice, no source); what the person said of a place comes first."""
    at = {"nut.left": 22j, "nut.right": -22j, "c": 300 + 5j, "d": 400 + 0j}
    net = network_of(
        [Row(f"c{name}", "distance", ("c", name), abs(at["c"] - at[name]), 0.3) for name in at if name != "c"]
    )
    there = at["c"] + off
    known = {"usual": {"c": there}, "near": {}} if by == "usual" else {"usual": {"c": 900j}, "near": {"c": there}}
    start = mirror_images._from_usual(net, SimpleNamespace(**known), vector(net, at))  # type: ignore[arg-type]  # what it asks
    if begun:
        assert start is not None
        assert places(net, start) == pytest.approx(at | {"c": there})
    else:
        assert start is None


@pytest.mark.parametrize(("missed", "settled"), [(0.0, False), (6.5, False), (6.65, True), (8.0, True)])
def test_a_third_reading_settles_which_crossing_it_is(missed: float, settled: bool) -> None:
    """derived: by two distances alone both places are as good; the third must miss the other one by √(4 × 10.8) = 6.57
    of its standard deviations.
    """
    here, there = 50 + 30j, 50 - 30j
    at = {"a": 0j, "b": 100 + 0j, "c": 50 + 100j, "p": here}
    rows = [Row(f"{name}p", "distance", (name, "p"), abs(at[name] - here), 0.3) for name in "ab"]
    if missed:
        rows.append(Row("cp", "distance", ("c", "p"), 70.0, 60.0 / missed))
    assert mirror_images._settled(Choice("p", here, there, tuple(rows)), at) == settled
