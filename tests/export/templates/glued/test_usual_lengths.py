"""The lengths that a placement's note counts with are as long as its words say, in each unit."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any, get_args

import pytest

from export.templates.glued.placement import USUAL, notes
from geometry.units import Unit, mm


@pytest.mark.parametrize("unit", get_args(Unit))
def test_usual_lengths(unit: Unit) -> None:
    (bow, bow_said), (step, step_said) = USUAL[unit]
    assert mm(bow_said) == pytest.approx(bow)
    assert mm(step_said) == pytest.approx(step)
    assert 2.0 <= bow < step <= 6.5
    assert Fraction(bow_said.split()[0]) < Fraction(step_said.split()[0])


@pytest.mark.parametrize(
    ("against", "step"), [("board end", ""), ("fret 12", "a step of 5 mm moves the bridge by 0.10 mm")]
)
def test_what_a_bow_and_a_step_do_to_the_bridge(against: str, step: str) -> None:
    """derived: over 125 mm a step of 5 mm takes up 5² / (2 x 125) = 0.1 mm, a bow of 2 mm 8 x 2² / (3 x 125) = 0.085"""
    start: Any = SimpleNamespace(against=against)
    said = " ".join(notes("mm", start, 125.0))
    assert step in said
    assert "0.09 mm" in said
    assert ("a step of" in said) is bool(step)
