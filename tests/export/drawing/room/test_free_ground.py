"""Which cells of a ground are occupied, and where there is still room."""

import math

import numpy as np

from export.drawing.flatten import Box
from export.drawing.marks import XY, Circle, Line, Mark
from export.drawing.room.free_ground import FreeGround, boxes_under
from tests.in_one import in_one

GROUND = Box(10.0, 20.0, 110.0, 120.0)


def is_occupied(ground: FreeGround, x: float, y: float) -> bool:
    return bool(ground.occupied[int((y - GROUND.y0) // 2), int((x - GROUND.x0) // 2)])


def test_a_free_place_nearest_to_where_it_is_wished() -> None:
    ground = FreeGround(Box(0.0, 0.0, 100.0, 100.0), 2.0)
    ground.occupy(Box(0.0, 0.0, 100.0, 50.0))
    assert ground.find(20.0, 10.0, (0.0, 0.0)) == (0.0, 50.0)
    assert ground.find(20.0, 60.0, (0.0, 0.0)) is None
    assert ground.find(102.0, 10.0, (0.0, 0.0)) is None


def test_of_places_as_near_the_lower_and_the_left_one() -> None:
    """derived: a middle cell of 5 by 5 is occupied; the four beside it are as near to the middle"""
    ground = FreeGround(Box(0.0, 0.0, 10.0, 10.0), 2.0)
    ground.occupy(Box(4.0, 4.0, 6.0, 6.0))
    assert ground.find(2.0, 2.0, (0.5, 0.5)) == (4.0, 2.0)
    ground.occupy(Box(4.0, 2.0, 6.0, 4.0))
    assert ground.find(2.0, 2.0, (0.5, 0.5)) == (2.0, 4.0)


def test_a_place_at_the_end_stays_on_a_ground_that_is_no_number_of_cells() -> None:
    ground = FreeGround(Box(0.0, 0.0, 99.0, 99.0), 2.0)
    assert ground.find(2.0, 2.0, (1.0, 1.0)) == (97.0, 97.0)


def test_on_a_ground_of_no_size_nothing_is_found() -> None:
    """What is left of a window within its seams may be less than nothing."""
    ground = FreeGround(Box(0.0, 0.0, -2.0, 12.0), 2.0)
    ground.occupy(Box(0.0, 0.0, 5.0, 5.0))
    ground.occupy_boxes(np.array([[0.0, 0.0, 5.0, 5.0]]))
    assert ground.find(2.0, 2.0, (0.5, 0.5)) is None


def test_a_box_occupies_the_cells_it_touches_and_no_others() -> None:
    # derived: cells of 2 mm from (10, 20) on; the box lies in those from 30 to 34 and from 40 to 42
    ground = FreeGround(GROUND, 2.0)
    ground.occupy(Box(31.0, 40.0, 33.0, 42.0))
    assert np.argwhere(ground.occupied).tolist() == [[10, 10], [10, 11]]


def test_what_lies_beyond_the_ground_is_passed_over() -> None:
    ground = FreeGround(GROUND, 2.0)
    ground.occupy(Box(-50.0, -50.0, 5.0, 5.0))
    ground.occupy(Box(105.0, 115.0, 500.0, 500.0))
    ground.occupy(Box(300.0, 30.0, 500.0, 40.0))
    assert ground.find(94.0, 94.0, (0.0, 0.0)) == (10.0, 20.0)
    assert is_occupied(ground, 109.0, 119.0)
    assert ground.occupied.sum() == 9  # derived: from 105 and 115 on three cells of 2 mm each way


def test_boxes_over_each_other_occupy_what_either_does() -> None:
    """derived: all cells of 12 by 12 mm but those of 4 by 4 in two of its corners"""
    ground = FreeGround(GROUND, 2.0)
    ground.occupy_boxes(np.array([(10.0, 20.0, 18.0, 28.0), (14.0, 24.0, 22.0, 32.0), (10.0, 24.0, 18.0, 32.0)]))
    ground.occupy_boxes(np.array([(14.0, 20.0, 18.0, 24.0)]))
    assert ground.occupied.sum() == 6 * 6 - 2 * 2
    assert not is_occupied(ground, 19.0, 21.0)
    assert is_occupied(ground, 17.0, 25.0)


def test_marks_are_kept_clear_of() -> None:
    ground = FreeGround(GROUND, 2.0)
    line, ring = Line((20.0, 60.0), (100.0, 60.0)), Circle((60.0, 90.0), 4.0)
    ground.occupy_marks([Mark(shape=shape, purpose="cut") for shape in (line, ring)], 2.5)
    assert is_occupied(ground, 50.0, 62.0)
    assert not is_occupied(ground, 50.0, 66.0)
    assert is_occupied(ground, 60.0, 90.0)


def test_boxes_shifted_occupy_what_marks_drawn_there_do() -> None:
    """Lines level and slanted, and a ring; the shift is no multiple of a cell."""
    shapes = (Line((20.0, 60.0), (100.0, 60.0)), Line((20.0, 30.0), (90.0, 71.0)), Circle((60.0, 90.0), 4.0))
    moved = (Line((27.3, 55.9), (107.3, 55.9)), Line((27.3, 25.9), (97.3, 66.9)), Circle((67.3, 85.9), 4.0))
    there, shifted = FreeGround(GROUND, 2.0), FreeGround(GROUND, 2.0)
    there.occupy_marks([Mark(shape=shape, purpose="cut") for shape in moved], 2.5)
    shifted.occupy_boxes(boxes_under([Mark(shape=shape, purpose="cut") for shape in shapes], 2.5, 2.0), (7.3, -4.1))
    assert (there.occupied == shifted.occupied).all()
    assert 0 < there.occupied.sum() < there.occupied.size


def test_nothing_occupies_nothing() -> None:
    ground = FreeGround(GROUND, 2.0)
    ground.occupy_marks([], 2.5)
    assert not ground.occupied.any()


def test_a_copy_is_occupied_by_itself() -> None:
    ground = FreeGround(GROUND, 2.0)
    copy = ground.copy()
    copy.occupy(GROUND)
    assert ground.find(100.0, 100.0, (0.0, 0.0)) == (10.0, 20.0)
    assert copy.find(2.0, 2.0, (0.0, 0.0)) is None


@in_one("wanted", [(0.0, 0.0), (1.0, 0.5), (0.5, 0.5), (0.3, 0.75), (0.5, 0.6)])
@in_one(("width", "height"), [(2.0, 2.0), (9.0, 5.5), (30.0, 21.0), (60.0, 4.0)])
def test_a_place_is_free_and_no_other_is_nearer(wanted: XY, width: float, height: float) -> None:
    """derived: all places tried one by one"""
    ground = FreeGround(Box(3.0, 7.0, 83.0, 66.0), 2.0)
    boxes = np.random.default_rng(11).uniform((3.0, 7.0), (80.0, 60.0), (14, 2))
    ground.occupy_boxes(np.hstack((boxes, boxes + np.array((6.0, 4.0)))))
    h, w = math.ceil(height / 2), math.ceil(width / 2)
    rows, columns = ground.occupied.shape
    places = [
        ((i - wanted[0] * (columns - w)) ** 2 + (j - wanted[1] * (rows - h)) ** 2, j, i)
        for j in range(rows - h + 1)
        for i in range(columns - w + 1)
        if not ground.occupied[j : j + h, i : i + w].any()
    ]
    _, j, i = min(places, default=(0.0, -1, -1))
    expected = None if j < 0 else (min(3.0 + 2.0 * i, 83.0 - width), min(7.0 + 2.0 * j, 66.0 - height))
    assert ground.find(width, height, wanted) == expected
