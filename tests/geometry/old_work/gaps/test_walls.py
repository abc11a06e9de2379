"""What wood stays between round holes, and how well that is known."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from geometry.old_work.gaps.walls import pins_to_holes


@pytest.mark.parametrize(("moved", "known_to"), [(0.5, 0.5), (0.5j, 0.0), (0.3 + 0.4j, 0.3)])
def test_a_wall_is_known_as_well_as_both_holes_along_the_line_between_them(moved: complex, known_to: float) -> None:
    """derived: two pin holes stand 30 mm off and on the middle line, the old hole 10 mm behind the first; what moves it
    across that line changes nothing. Here the ± is how far a second row lies from the first.
    """
    pins, at = np.array([30j, 0j]), np.array([10 + 30j])
    rows: Any = SimpleNamespace(
        pins=np.stack((pins, pins)), pm95=lambda values: np.abs(values - values[0]).max(axis=0, initial=0.0)
    )
    ((near, far),) = pins_to_holes(rows, ["1", "2"], 2.5, np.stack((at, at + moved)), np.array([1.5]), ["old.1"])
    assert (near.new, near.old, far.new) == ("1", "old.1", "2")
    assert near.mm == pytest.approx(10.0 - 2.5 - 1.5)
    assert far.mm == pytest.approx(1000.0**0.5 - 2.5 - 1.5)
    assert near.pm95 == pytest.approx(known_to)
    # seen from the other the way is 1 along for 3 across
    assert far.pm95 == pytest.approx((moved.real + 3 * moved.imag) / 10.0**0.5)
