"""A sheet moves with the board that it is laid to."""

import cmath
import math

import numpy as np
import pytest

from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import Sheet, lay_sheet

CORNERS = np.array((420 + 28j, 420 - 28j))


def frame(end: complex, turn: float, *, ended: bool = True) -> NeckFrame:
    """A board in two rows: as it is, and with its end moved and its edges turned (radians) about the nut's middle."""
    spin = cmath.exp(1j * turn)
    nut = np.array((22j, -22j))
    return NeckFrame(
        origin=np.zeros(2, complex),
        direction=np.ones(2, complex),
        edge=np.array((nut, spin * nut)),
        edge_way=np.array(((1, 1), (spin, spin))),
        nut=np.array((nut, spin * nut)),
        ends=np.array((CORNERS, spin * CORNERS + end)) if ended else None,
        on_edges=({}, {}),
    )


@pytest.mark.parametrize("end", [1.5 + 0j, -0.7 + 0.4j])
def test_it_goes_along_with_the_boards_end(end: complex) -> None:
    """derived: a place that stays lies as much nearer as the end goes along; across the end does nothing"""
    place = np.full((2, 1), 640 + 10j)
    assert lay_sheet(frame(end, 0.0)).beyond(place)[:, 0] == pytest.approx((0.0, -end.real))


def test_it_turns_with_the_edges() -> None:
    """derived: a board turned as a whole carries its sheet along; a place that turned with it is where it was"""
    turn = math.radians(0.3)
    place = np.array(((640 + 30j,), ((640 + 30j) * cmath.exp(1j * turn),)))
    assert lay_sheet(frame(0j, turn)).beyond(place)[:, 0] == pytest.approx((0.0, 0.0), abs=1e-9)
    left = np.array(((640 + 30j,), (640 + 30j,)))
    drawn = (640 + 30j) * cmath.exp(1j * turn)
    assert lay_sheet(frame(0j, turn)).beyond(left)[1, 0] == pytest.approx(640 - drawn.real, abs=1e-9)


def test_without_an_end_it_is_laid_to_the_nut() -> None:
    sheet = lay_sheet(frame(2.0 + 0j, 0.0, ended=False))
    assert sheet.at == pytest.approx((0j, 0j))
    assert sheet.beyond(np.full((2, 1), 640 + 0j))[1, 0] == pytest.approx(0.0)


def test_a_sheet_that_runs_askew_of_the_frame_carries_each_place_to_where_it_was() -> None:
    """derived: in the first row each place is carried to itself, in the second on and round with the sheet"""
    ahead, spin = cmath.exp(0.02j), cmath.exp(0.003j)
    sheet = Sheet(at=np.array((420 + 3j, 421 + 5j)), way=np.array((ahead, ahead * spin)))
    places = np.array((640 + 30j, 650 - 20j))
    carried = sheet.carried(places)
    assert carried[0] == pytest.approx(places)
    assert carried[1] == pytest.approx((421 + 5j) + (places - (420 + 3j)) * spin)
