"""The front edge of a compensated nut in steps, each string's own half way to its neighbours."""

import pytest

from export.templates.blanks.nut_drawn import _moved_edge, is_moved
from geometry.job import Job
from geometry.job.job import Hand
from geometry.layout import NutBlank, NutSlot


def blank(*places: tuple[float, float]) -> NutBlank:
    """Slots so far along from the bass end, and so far behind the front."""
    slots = tuple(
        NutSlot(string=f"{at}", along=(along, 0.1), behind=behind) for at, (along, behind) in enumerate(places)
    )
    return NutBlank(length=(44.0, 0.2), turn=0.0, thickness=5.0, back_angle=0.0, slots=slots)


@pytest.mark.parametrize(
    ("hand", "edge"),
    [
        ("right", [(0.0, 11.0), (10.0, 11.0), (10.0, 10.5), (25.0, 10.5), (25.0, 9.0), (44.0, 9.0)]),
        ("left", [(0.0, 9.0), (19.0, 9.0), (19.0, 10.5), (34.0, 10.5), (34.0, 11.0), (44.0, 11.0)]),
    ],
)
def test_steps_half_way_to_the_neighbours(hand: Hand, edge: list[tuple[float, float]]) -> None:
    """derived: strings at 5, 15 and 35 mm from the bass end part at 10 and 25; the bass end of a right-handed job is
    drawn at the left, of a left-handed one at the right
    """
    made = blank((35.0, -1.0), (15.0, 0.5), (5.0, 1.0))
    assert _moved_edge(Job(hand=hand), made, 10.0) == edge


@pytest.mark.parametrize(("behind", "moved"), [(0.0, False), (0.5, True), (-0.5, True)])
def test_whether_it_is_moved(behind: float, moved: bool) -> None:
    assert is_moved(blank((35.0, 0.0), (15.0, behind))) is moved
