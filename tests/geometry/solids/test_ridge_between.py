"""How high the ridge stands between the outer strings, and how well that is known."""

import math

import numpy as np
import pytest

from geometry.solids.board_bend import FLAT
from geometry.solids.saddle_blank import _Line, _over_top

LINE = _Line(at=(10.0, 70.0), over_top=(9.0, 12.0), own=(0.3, 0.6), shared=(0.4, 0.8), bridge=(None, None))


@pytest.mark.parametrize(("along", "share"), [(10.0, 0.0), (70.0, 1.0), (40.0, 0.5), (25.0, 0.25)])
def test_heights_and_their_doubt_on_the_straight_line(along: float, share: float) -> None:
    """derived: what both sides share adds up along the line, what each has of its own adds up in squares"""
    over, sd = _over_top(LINE, FLAT, np.array([along]))
    own = math.hypot((1 - share) * 0.3, share * 0.6)
    shared = (1 - share) * 0.4 + share * 0.8
    assert float(over[0]) == pytest.approx(9.0 + 3.0 * share)
    assert float(sd[0]) == pytest.approx(math.hypot(own, shared))
