"""Pin holes that nobody read, in all rows."""

import numpy as np
import pytest

from geometry.layout import Hole, OldPlan
from geometry.old_work.gaps.old_work_states import _assumed


@pytest.mark.parametrize("between", [1, 2, 4])
def test_assumed_holes_part_the_way_between_the_two_that_were_read_evenly(between: int) -> None:
    """derived: by n holes into n + 1 pieces of one length, in each row"""
    names = ["pin.1", *(f"pin.1+{n}" for n in range(1, between + 1)), "pin.6"]
    pins = tuple(Hole(name=name, at=(0.0, 0.0), diameter=5.0, assumed="+" in name) for name in names)
    read = {"pin.1": np.array([10 + 25j, 10.1 + 25j]), "pin.6": np.array([12 - 25j, 12 - 25.2j])}
    found = {**read, **_assumed(OldPlan(pins=pins), read)}
    for row in range(2):
        steps = np.diff([found[name][row] for name in names])
        assert steps == pytest.approx(np.full(between + 1, (read["pin.6"][row] - read["pin.1"][row]) / (between + 1)))


def test_no_hole_is_assumed_where_an_end_was_not_read() -> None:
    pins = tuple(Hole(name=name, at=(0.0, 0.0), diameter=5.0, assumed=name == "b") for name in "abc")
    assert _assumed(OldPlan(pins=pins), {"a": np.array([0j])}) == {}
