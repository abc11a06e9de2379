"""What of a ground is occupied, and where there is still room."""

import numpy as np

from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Mark
from export.drawing.occupied_cells import OccupiedCells, boxes_under

GROUND = Box(10.0, 20.0, 110.0, 120.0)


def test_a_free_place_nearest_to_where_it_is_wished() -> None:
    cells = OccupiedCells(Box(0.0, 0.0, 100.0, 100.0), 2.0)
    cells.occupy(Box(0.0, 0.0, 100.0, 50.0))
    assert cells.find(20.0, 10.0, (0.0, 0.0)) == (0.0, 50.0)
    assert cells.find(20.0, 60.0, (0.0, 0.0)) is None
    assert cells.find(102.0, 10.0, (0.0, 0.0)) is None


def test_a_box_occupies_the_cells_it_touches_and_no_others() -> None:
    # derived: cells of 2 mm from (10, 20) on; the box lies in those from 30 to 34 and from 40 to 42
    cells = OccupiedCells(GROUND, 2.0)
    cells.occupy(Box(31.0, 40.0, 33.0, 42.0))
    assert not cells.is_free(Box(30.1, 41.0, 30.2, 41.1))
    assert not cells.is_free(Box(33.8, 41.0, 33.9, 41.1))
    for x, y in ((29.9, 41.0), (34.1, 41.0), (32.0, 39.9), (32.0, 42.1)):
        assert cells.is_free(Box(x, y, x + 0.05, y + 0.05))


def test_what_lies_beyond_the_ground_is_passed_over() -> None:
    cells = OccupiedCells(GROUND, 2.0)
    cells.occupy(Box(-50.0, -50.0, 5.0, 5.0))
    cells.occupy(Box(105.0, 115.0, 500.0, 500.0))
    assert cells.find(94.0, 94.0, (0.0, 0.0)) == (10.0, 20.0)
    assert not cells.is_free(Box(109.0, 119.0, 109.5, 119.5))


def test_places_occupy_their_own_cells() -> None:
    cells = OccupiedCells(GROUND, 2.0)
    cells.occupy_places(np.array([31.0 + 41.0j]))
    assert not cells.is_free(Box(30.5, 40.5, 31.5, 41.5))
    assert cells.is_free(Box(32.5, 40.5, 33.5, 41.5))


def test_marks_are_kept_clear_of() -> None:
    cells = OccupiedCells(GROUND, 2.0)
    line, ring = Line((20.0, 60.0), (100.0, 60.0)), Circle((60.0, 90.0), 4.0)
    cells.occupy_marks([Mark(shape=shape, purpose="cut") for shape in (line, ring)], 2.5)
    assert not cells.is_free(Box(50.0, 62.0, 50.5, 62.4))
    assert cells.is_free(Box(50.0, 66.0, 50.5, 66.5))
    assert not cells.is_free(Box(59.0, 89.0, 61.0, 91.0))


def test_boxes_shifted_occupy_what_marks_drawn_there_do() -> None:
    """Lines level and slanted, and a ring; the shift is no multiple of a cell."""
    shapes = (Line((20.0, 60.0), (100.0, 60.0)), Line((20.0, 30.0), (90.0, 71.0)), Circle((60.0, 90.0), 4.0))
    moved = (Line((27.3, 55.9), (107.3, 55.9)), Line((27.3, 25.9), (97.3, 66.9)), Circle((67.3, 85.9), 4.0))
    there, shifted = OccupiedCells(GROUND, 2.0), OccupiedCells(GROUND, 2.0)
    there.occupy_marks([Mark(shape=shape, purpose="cut") for shape in moved], 2.5)
    shifted.occupy_boxes(boxes_under([Mark(shape=shape, purpose="cut") for shape in shapes], 2.5, 2.0), (7.3, -4.1))
    cells = [Box(x, y, x + 1.0, y + 1.0) for x in np.arange(10.5, 110.0, 2.0) for y in np.arange(20.5, 120.0, 2.0)]
    assert [there.is_free(cell) for cell in cells] == [shifted.is_free(cell) for cell in cells]
    assert not all(there.is_free(cell) for cell in cells)


def test_a_copy_is_occupied_by_itself() -> None:
    cells = OccupiedCells(GROUND, 2.0)
    copy = cells.copy()
    copy.occupy(GROUND)
    assert cells.is_free(GROUND)
    assert copy.find(2.0, 2.0, (0.0, 0.0)) is None
