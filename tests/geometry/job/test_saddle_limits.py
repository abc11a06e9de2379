"""What no saddle is: both sides of each limit (common practice, no source)."""

import pytest
from msgspec.structs import replace

from geometry.job import NotAJob, Saddle

LIMITS = {
    "thickness": (0.5, 15.0),
    "wall": (0.0, 20.0),
    "least_piece": (1.0, 100.0),
    "least_step": (0.5, 50.0),
    "slot_length": (10.0, 300.0),
    "slot_depth": (0.5, 30.0),
}


@pytest.mark.parametrize("name", LIMITS)
def test_a_saddle_at_a_limit_is_one_and_beyond_it_none(name: str) -> None:
    least, most = LIMITS[name]
    for inside in (least, most):
        assert getattr(replace(Saddle(), **{name: inside}), name) == inside
    for beyond in (least - 0.01, most + 0.01):
        with pytest.raises(NotAJob):
            replace(Saddle(), **{name: beyond})
