"""Where the strap pin stands between two points of the body's end, and from which of them it is measured."""

import math
from types import SimpleNamespace

import numpy as np
import pytest

from geometry.tail import strap_pin
from geometry.tail.strap_pin import Crossing


@pytest.mark.parametrize(
    ("one", "other", "at", "far"),
    [
        (760 + 30j, 764 - 10j, 763.0, math.hypot(1, 10)),  # nearer to the second
        (764 - 10j, 760 + 30j, 763.0, math.hypot(1, 10)),
        (760 + 10j, 764 - 30j, 761.0, math.hypot(1, 10)),
        (760 + 20j, 760 - 20j, 760.0, 20.0),  # alike: the first
    ],
)
def test_between_two_points(one: complex, other: complex, at: float, far: float) -> None:
    """derived: where the straight line from the one to the other crosses y = 0"""
    frame = SimpleNamespace(see=lambda _states, *_names: np.array([[one, other], [one + 1, other + 1]]))
    found = strap_pin.find(SimpleNamespace(), frame, Crossing(("body.1", "body.2"), at, abs(one - other)))  # type: ignore[arg-type]  # what it asks of them
    assert found.at.tolist() == pytest.approx([at, at + 1])
    assert found.from_point.tolist() == pytest.approx([far, far])
