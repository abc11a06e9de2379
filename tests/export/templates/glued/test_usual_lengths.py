"""The lengths that a placement's note counts with are as long as its words say, in each unit."""

from fractions import Fraction
from typing import get_args

import pytest

from export.templates.glued.placement import USUAL
from geometry.units import Unit, mm


@pytest.mark.parametrize("unit", get_args(Unit))
def test_usual_lengths(unit: Unit) -> None:
    (bow, bow_said), (step, step_said) = USUAL[unit]
    assert mm(bow_said) == pytest.approx(bow)
    assert mm(step_said) == pytest.approx(step)
    assert 2.0 <= bow < step <= 6.5
    assert Fraction(bow_said.split()[0]) < Fraction(step_said.split()[0])
