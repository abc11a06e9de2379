"""The narrowest strip that holds every string's place, against strips tried one by one."""

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.separate.narrowest import MOST_SLOPE, _between, narrowest, widths

PLACES = st.lists(
    st.tuples(st.floats(600, 640), st.floats(0.0, 3.0)), min_size=1, max_size=8
)  # any places and ± that a saddle may have, mm


def by_trying(x: np.ndarray, y: np.ndarray, p: np.ndarray) -> tuple[float, float]:
    """The least width of 20,001 strips, and its slope: plain enumeration."""
    slopes = np.linspace(-MOST_SLOPE, MOST_SLOPE, 20001)
    found = []
    for b in slopes.tolist():
        # derived: a saddle on a base at this slope must go 1 / cos as far for each mm along the neck
        cos = 1 / math.hypot(1, b)
        along = [cos * (at - b * across) for at, across in zip(x.tolist(), y.tolist(), strict=True)]
        ends = [(at - pm / cos, at + pm / cos) for at, pm in zip(along, p.tolist(), strict=True)]
        found.append(max(rear for _, rear in ends) - min(front for front, _ in ends))
    best = int(np.argmin(found))
    return found[best], float(slopes[best])


@settings(max_examples=10, deadline=None)
@given(PLACES)
def test_no_strip_that_is_tried_is_narrower(places: list[tuple[float, float]]) -> None:
    x, p = (np.array(column) for column in zip(*places, strict=True))
    y = np.array([10.5 * number - 26.25 for number in range(len(x))])  # common practice, no source
    strip = narrowest(x, y, p)
    width, _ = by_trying(x, y, p)
    # derived: between two slopes tried (0.00008 apart) a width changes by 0.00008 × (74 + 50) mm at the most
    assert width - 0.011 < strip.width <= width + 1e-9
    assert widths(x, y, p, np.array([strip.slope]))[0] == pytest.approx(strip.width)


def test_strings_that_all_lie_on_a_slanted_line_leave_only_their_own_width() -> None:
    y = np.array([-20.0, -10.0, 0.0, 10.0, 20.0])
    strip = narrowest(640 - 0.25 * y, y, np.full(5, 1.0))
    assert strip.slope == pytest.approx(-0.25)
    assert strip.width == pytest.approx(2 * math.hypot(1, 0.25))  # derived: ±1 along the neck, on a lane at a slant


def test_of_strips_that_are_alike_the_squarest_is_taken() -> None:
    one = narrowest(np.array([640.0]), np.array([5.0]), np.array([0.5]))
    assert (one.slope, one.width) == (0.0, 1.0)


def test_no_base_is_set_beyond_the_bound() -> None:
    y = np.array([-10.0, 10.0])
    strip = narrowest(np.array([600.0, 640.0]), y, np.zeros(2))
    assert strip.slope == pytest.approx(MOST_SLOPE)  # 2 mm a mm is steeper than 40 degrees


def test_between_two_strings_the_strip_is_narrowest_where_its_derivative_is_nought() -> None:
    """The roots of P b³ + (P − A) b − B, to rounding, wherever they lie within the bound (derived, as there)."""
    x, y = np.array([2.0, 0.4, 1.1, -0.5]), np.array([25.0, 9.0, -8.0, -26.0])
    p = np.array([4.0, 6.0, 5.0, 7.0])
    for slope, (i, j) in zip(_between(x, y, p), product(range(4), repeat=2), strict=True):
        total, apart, aside = p[i] + p[j], x[i] - x[j], y[i] - y[j]
        wanted = [z.real for z in np.roots([total, 0.0, total - apart, -aside]) if abs(z.imag) < 1e-9]
        inside = [root for root in wanted if abs(root) <= MOST_SLOPE]
        assert slope == pytest.approx(inside[0] if inside else math.copysign(MOST_SLOPE, wanted[0]), abs=1e-9)
