"""The body's middle line: through the middle of its area, along its long axis."""

import cmath
import math

import numpy as np
import pytest

from geometry.old_work.footprint.seen_by_eye import _long_axis


@pytest.mark.parametrize("order", [1, -1])
def test_the_middle_and_the_long_axis_of_a_right_angled_triangle(order: int) -> None:
    """derived: legs of 60 and 30 have their middle a third along each, and for second moments about it 60²/18, 30²/18
    and -60 · 30/36: the axis lies at half the angle whose tangent is 2 · 50 / (200 - 50)
    """
    ring = np.array([[640 + 5j, 700 + 5j, 640 + 35j][::order]])
    middle, way = _long_axis(ring)
    assert middle == pytest.approx([660 + 15j])
    assert way == pytest.approx([cmath.rect(1.0, -math.atan(2 / 3) / 2)])
