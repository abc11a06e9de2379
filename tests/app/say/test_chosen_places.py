"""The figures of places that a bridge may be moved to, in words."""

import pytest

from app.say.chosen_places import _room, moved
from geometry.job import Bridge, Job
from geometry.job.seating import Moved, SlotFront


@pytest.mark.parametrize(
    ("room", "told"),
    # derived: beyond 3 mm more is of no use, so that it is not told any finer
    [(None, "–"), (-0.1, "runs in"), (2.94, "2.9 mm"), (3.0, "3.0 mm or more"), (12.0, "12.0 mm or more")],
)
def test_room_beyond_what_is_of_use_is_told_as_so_much_or_more(room: float | None, told: str) -> None:
    assert _room(Job(), room) == told


@pytest.mark.parametrize(
    ("to", "told"),
    [
        (Moved(along=1.2, turn=-0.6), "1.2 mm to the tail, its bass end turned 0.6° to the nut; the slot stays"),
        (Moved(along=1.2, slot="goes along"), "1.2 mm to the tail; the slot moves with it"),
        (Moved(across=2.0), "2.0 mm to the treble side; slot and strings go with it"),
        (
            Moved(along=-1.2, across=2.0),
            "1.2 mm to the nut, 2.0 mm to the treble side; slot and strings go with it to that side only",
        ),
        (
            Moved(along=-1.2, across=2.0, slot="goes along"),
            "1.2 mm to the nut, 2.0 mm to the treble side; slot and strings go with it",
        ),
        (Moved(), "where the strings want it"),
    ],
)
def test_where_the_slot_goes_is_said_as_the_comparison_has_it(to: Moved, told: str) -> None:
    """derived: across, the strings go with the bridge at the saddle, and a slot that is still to be cut with them
    (the seated bridge is tried for that); right-handed, the left is the treble side.
    """
    assert moved(Job(bridge=Bridge()), to) == told


def test_a_slot_that_is_cut_goes_with_its_bridge_unsaid() -> None:
    job = Job(bridge=Bridge(slot_front=SlotFront(left=8.0, right=9.0)))
    assert moved(job, Moved(along=1.2)) == "1.2 mm to the tail"
