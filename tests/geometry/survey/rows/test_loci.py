"""Loci worked by hand: where two of them cross, and how far a place lies off one."""

import math

import pytest

from geometry.job.measured.kinds import BLADE, Form
from geometry.survey.rows.forms import locus
from geometry.survey.rows.loci import Locus, circle, cost, crossings, line, parts, two_lines
from geometry.survey.rows.row import Row

DIAGONALS = two_lines(1 + 1j, 1j, math.pi / 4, 0.5)
"""Both diagonals through (1, 1)."""


def near(places: list[complex]) -> set[complex]:
    return {complex(round(z.real, 9) + 0.0, round(z.imag, 9) + 0.0) for z in places}


def test_two_lines_cross_a_circle_round_their_crossing_four_times() -> None:
    """Derived: (1 ± 1, 1 ± 1) lie √2 from (1, 1)."""
    assert near(crossings(DIAGONALS, circle(1 + 1j, math.sqrt(2), 1.0))) == {0j, 2 + 0j, 2j, 2 + 2j}


def test_two_lines_cross_a_line_twice() -> None:
    """Derived: the line x = 3 meets the diagonals through (1, 1) at y = 1 ± 2."""
    assert near(crossings(line(3 + 0j, 1 + 0j, 1.0), DIAGONALS)) == {3 + 3j, 3 - 1j}


def test_a_circle_of_no_size_is_met_where_it_stands() -> None:
    """Derived: 5 from the origin the point (5, 0) touches the circle"""
    for one, two in (
        (circle(0j, 5.0, 1.0), circle(5 + 0j, 0.0, 1.0)),
        (circle(5 + 0j, 0.0, 1.0), circle(0j, 5.0, 1.0)),
    ):
        assert near(crossings(one, two)) == {5 + 0j}


@pytest.mark.parametrize(("place", "off"), [(4 + 4j, 0.0), (4 - 2j, 0.0), (3 + 1j, math.sqrt(2)), (1 + 2j, 0.5**0.5)])
def test_the_nearer_of_two_lines_counts(place: complex, off: float) -> None:
    """Derived: distances from the diagonals, in standard deviations of 0.5."""
    assert cost(place, [DIAGONALS]) == pytest.approx((off / 0.5) ** 2)


@pytest.mark.parametrize("one", [circle(1j, 3.0, 1.0), line(1j, 1 + 0j, 1.0)])
def test_other_loci_are_of_one_part(one: Locus) -> None:
    assert parts(one) == (one,)


def test_a_locus_counts_what_places_sought_one_after_the_other_are_out() -> None:
    # derived: 0.75 read and 1 mm of the places (common practice, no source) are 1.25 together
    found = locus(Row("r1", "distance", ("a", "b"), 5.0, 0.75), "b", {"a": 2j})
    assert found == circle(2j, 5.0, 1.25)


@pytest.mark.parametrize(("off", "counts"), [(9.9, 392.04), (10.0, 400.0), (10.1, 400.0), (1e4, 400.0)])
def test_a_locus_counts_for_twenty_standard_deviations_at_most(off: float, counts: float) -> None:
    """derived: with a sigma of 0.5 mm 9.9 mm are 19.8 of them; twenty squared are 400, common practice, no source"""
    here = circle(0j, 30.0, 0.5)
    there = line(0j, 1 + 0j, 0.5)
    per = here.per
    assert cost(complex(0.0, 30.0 + off * 2.0 / per), [here]) == pytest.approx(min((off * 2.0) ** 2, counts))
    assert cost(complex(-off * 2.0 / there.per, 5.0), [there]) == pytest.approx(min((off * 2.0) ** 2, counts))


@pytest.mark.parametrize("size", [0.0, 0.4, 0.9, 1.0, 30.0])
def test_a_place_off_a_circle_of_any_size(size: float) -> None:
    """Derived: as far from the rim as from the middle, less the radius."""
    assert cost(size + 0.3 + 0j, [circle(0j, size, 0.5)]) == pytest.approx((0.3 / 0.5) ** 2)


@pytest.mark.parametrize("form", ["laid", "square", "angle"])
@pytest.mark.parametrize(("apart", "way"), [(0j, 1 + 0j), (0.5j, 1j)])
def test_a_line_whose_ends_lie_together_is_taken_to_run_along_x(form: Form, apart: complex, way: complex) -> None:
    """Two points may be sought in one place; a locus there is as good a guess as another, but must be one line or two.

    derived: 7 mm along the line from (2, 3); square to it through that; and at 90 degrees, which is the same both ways
    """
    row = Row("r1", form, ("p", "q", "a", "b"), 7.0 if form == "laid" else BLADE * math.pi / 2, 0.5)
    found = locus(row, "p", {"q": 2 + 3j, "a": 5 + 5j, "b": 5 + 5j + apart})
    assert found is not None
    for one in parts(found):
        assert one.at == (2 + 3j + 7 * way if form == "laid" else 2 + 3j)
        assert one.normal in (pytest.approx(way), pytest.approx(-way))


@pytest.mark.parametrize(("sought", "at"), [("p", 10 + 7j), ("q", 10 - 7j)])
def test_a_point_off_another_lies_on_the_side_that_was_read(sought: str, at: complex) -> None:
    # derived: P is read 7 mm to the left of Q as seen along an edge that runs along x; so Q lies to the right of P
    places = {"p": 10 + 0j, "q": 10 + 0j, "a": 0j, "b": 400 + 0j}
    del places[sought]
    found = locus(Row("r1", "laid", ("p", "q", "a", "b"), 7.0, 0.5, lean=1j), sought, places)
    assert found is not None
    assert found.at == pytest.approx(at)
    assert found.normal == pytest.approx(1j)
