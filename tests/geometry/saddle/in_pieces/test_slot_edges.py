"""Where each piece's slot begins and ends across the neck."""

import numpy as np
import pytest

from geometry.job import Saddle
from geometry.saddle.in_pieces.pieces import LEAST_SLOT, slot_edges, step_edges
from geometry.saddle.saddle_line import Slot, Strung


def edges(
    y: list[float], *parts: tuple[int, int], wall: float = 2.0, long: float | None = 80.0
) -> list[tuple[float, float]]:
    return list(slot_edges(Saddle(wall=wall, slot_length=long), np.array(y), parts))


def test_half_way_between_two_strings_less_half_the_wood() -> None:
    """derived: strings 20 mm apart part at 20, 0 and −20; a slot of 80 mm ends at 40; 2 mm of wood between two"""
    assert edges([30.0, 10.0, -10.0, -30.0], (0, 2), (2, 4)) == [(40.0, 1.0), (-1.0, -40.0)]
    assert edges([-30.0, -10.0, 10.0, 30.0], (0, 2), (2, 4)) == [(-40.0, -1.0), (1.0, 40.0)]
    assert edges([30.0, 10.0, -10.0, -30.0], (0, 1), (1, 3), (3, 4)) == [(40.0, 21.0), (19.0, -19.0), (-21.0, -40.0)]
    assert edges([30.0, 10.0, -10.0, -30.0], (0, 4)) == [(40.0, -40.0)]


def test_without_a_length_it_ends_as_one_slot_would() -> None:
    """derived: ten millimetres past the outer strings (docs/job-file.md)"""
    assert edges([30.0, 10.0, -10.0, -30.0], (0, 2), (2, 4), long=None) == [(40.0, 1.0), (-1.0, -40.0)]
    assert edges([20.0, 0.0, -40.0], (0, 1), (1, 3), long=None) == [(30.0, 11.0), (9.0, -50.0)]


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_where_walls_leave_less_than_the_least_a_slot_has_that_about_its_strings(way: float) -> None:
    """derived: strings 3 mm apart and 3 mm of wood leave the one between nothing; its slot stands about it"""
    y = [way * at for at in (3.0, 0.0, -3.0)]
    first, middle, last = edges(y, (0, 1), (1, 2), (2, 3), wall=3.0, long=30.0)
    assert middle == pytest.approx((way * LEAST_SLOT / 2, -way * LEAST_SLOT / 2))
    assert first == (way * 15.0, way * 3.0)
    assert last == (-way * 3.0, -way * 15.0)
    pair = edges([way * at for at in (6.0, 1.0, -1.0, -6.0)], (0, 1), (1, 3), (3, 4), wall=7.0, long=30.0)[1]
    assert pair == pytest.approx((way * LEAST_SLOT / 2, -way * LEAST_SLOT / 2))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_steps_part_half_way_between_two_courses_where_the_strings_are(way: float) -> None:
    """derived: half way between 10 and −10; the first row is what was measured, the others only what moves with it"""
    y = np.array([[30.0, 10.0, -10.0, -30.0], [40.0, 20.0, 0.0, -20.0]])
    along = np.full(y.shape, 640.0)
    strung = Strung(start=0 * along + 0j, nominal=along + 1j * way * y, break_point=along + 1j * way * y)
    slot = Slot(middle=np.array([640.0, 640.0]) + 0j, leftward=np.array([1j, 1j]), length=80.0, thickness=3.0, peak=0.5)
    assert step_edges(strung, slot, ((0, 2), (2, 4))) == [(way * 40.0, 0.0), (0.0, way * -40.0)]


def test_a_slots_line_leans_as_the_slot_does() -> None:
    """derived: 3 forward in 4 across; half of 4 mm square behind the front, at 0.8 and −0.6 of it, the line runs"""
    slot = Slot(middle=np.array([9 + 0j]), leftward=np.array([0.6 + 0.8j]), length=70.0, thickness=4.0, peak=0.5)
    assert slot.x_at(np.array([-1.2, 2.8, -5.2])) == pytest.approx([10.6, 13.6, 7.6])
