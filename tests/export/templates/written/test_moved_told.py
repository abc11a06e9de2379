"""How far something was moved: what no rule shows goes no way."""

import pytest

from export.templates.written.moved_told import moved, turned
from geometry.units import Unit

WAYS = ("up", "down")


@pytest.mark.parametrize(
    ("far", "unit", "row"),
    [
        (0.26, "mm", ["0.3 ±0.4 mm", "up"]),
        (-0.05, "mm", ["0.1 ±0.4 mm", "down"]),
        (0.049, "mm", ["no change", "known to ±0.4 mm"]),
        (-0.04, "mm", ["no change", "known to ±0.4 mm"]),
        (-0.2, "in", ["1/64 ±1/64 in", "down"]),  # derived: half of 25.4 / 64 mm is 0.198 mm
        (0.19, "in", ["no change", "known to ±1/64 in"]),
        (0.0, "cm", ["no change", "known to ±0.04 cm"]),
    ],
)
def test_a_length_too_small_to_be_shown_is_no_change(far: float, unit: Unit, row: list[str]) -> None:
    assert moved("Across", far, 0.36, unit, WAYS) == ["Across", *row]


@pytest.mark.parametrize(
    ("turn", "row"),
    [
        (0.05, ["0.1 ±0.3°", "counter-clockwise, as seen from above"]),
        (-0.42, ["0.4 ±0.3°", "clockwise, as seen from above"]),
        (0.049, ["no change", "known to ±0.3°"]),
        (-0.01, ["no change", "known to ±0.3°"]),
    ],
)
def test_a_turn_too_small_to_be_shown_is_no_change(turn: float, row: list[str]) -> None:
    assert turned(turn, 0.22) == ["Turned", *row]
