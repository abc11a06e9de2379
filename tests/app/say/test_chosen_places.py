"""The figures of places that a bridge may be moved to, in words."""

import pytest

from app.say.chosen_places import _room
from geometry.job import Job


@pytest.mark.parametrize(
    ("room", "told"),
    # derived: beyond 3 mm more is of no use, so that it is not told any finer
    [(None, "–"), (-0.1, "runs in"), (2.94, "2.9 mm"), (3.0, "3.0 mm or more"), (12.0, "12.0 mm or more")],
)
def test_room_beyond_what_is_of_use_is_told_as_so_much_or_more(room: float | None, told: str) -> None:
    assert _room(Job(), room) == told
