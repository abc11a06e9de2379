"""How far the saddle moves sideways from one choice of the neck centre line to another."""

import cmath

import pytest

from geometry.placed.centre_choices import Choice, _apart


@pytest.mark.parametrize("turned", [0.0, 0.3, -2.0])
@pytest.mark.parametrize("left", [1.5, -0.7])
def test_the_saddle_moves_sideways_as_seen_from_the_first_line(turned: float, left: float) -> None:
    # derived: `left` to the left of a line that runs anyhow in the survey's frame, and 4 along it, which does not count
    way = cmath.rect(1.0, turned)
    one = Choice("bisector", {}, 630 + 20j, way)
    other = Choice("midpoints", {}, one.saddle + way * complex(4.0, left), way)
    assert _apart([one, other]) == pytest.approx(left)
