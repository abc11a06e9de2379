"""What of a ground is occupied."""

import numpy as np

from export.drawing.flatten import Box
from export.drawing.room.occupied_cells import OccupiedCells

GROUND = Box(10.0, 20.0, 110.0, 120.0)


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
    assert cells.is_free(Box(10.0, 20.0, 104.0, 114.0))
    assert not cells.is_free(Box(109.0, 119.0, 109.5, 119.5))


def test_places_occupy_their_own_cells() -> None:
    cells = OccupiedCells(GROUND, 2.0)
    cells.occupy_places(np.array([31.0 + 41.0j]))
    assert not cells.is_free(Box(30.5, 40.5, 31.5, 41.5))
    assert cells.is_free(Box(32.5, 40.5, 33.5, 41.5))
