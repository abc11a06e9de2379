"""Where one looks: from millimetres to pixels and back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF

from app.desk.plan.painting.view import View, inch_steps, join, metric_steps, tick_step

WIDE, HIGH = 800.0, 600.0
PLACES = st.tuples(st.floats(-500, 1500), st.floats(-300, 300))
VIEWS = st.builds(
    View,
    scale=st.floats(0.2, 20),
    centre=PLACES,
    turn=st.integers(0, 3),
    inside=st.booleans(),
)


def pixels(view: View, xy: tuple[float, float]) -> tuple[float, float]:
    at = view.transform(WIDE, HIGH).map(QPointF(*xy))
    return (at.x(), at.y())


def test_the_headstock_is_at_the_left_and_the_left_side_above() -> None:
    view = View(scale=2.0, centre=(300.0, 0.0))
    assert pixels(view, (300.0, 0.0)) == (400.0, 300.0)
    assert pixels(view, (200.0, 0.0)) == (200.0, 300.0)
    assert pixels(view, (300.0, 50.0)) == (400.0, 200.0)


def test_from_inside_the_left_side_is_below() -> None:
    view = View(scale=2.0, centre=(300.0, 0.0), inside=True)
    assert pixels(view, (300.0, 50.0)) == (400.0, 400.0)


def test_a_quarter_turn_puts_the_headstock_above() -> None:
    x, y = pixels(View(scale=2.0, centre=(300.0, 0.0), turn=1), (250.0, 0.0))
    assert (x, y) == pytest.approx((400.0, 200.0))


@given(VIEWS, PLACES, st.floats(0.5, 2))
def test_zooming_keeps_the_place_under_the_pointer(view: View, xy: tuple[float, float], factor: float) -> None:
    before, after = pixels(view, xy), pixels(view.zoomed(factor, xy), xy)
    assert after == pytest.approx(before, abs=1e-6 * max(1.0, math.hypot(*before)))


@given(VIEWS, PLACES, st.floats(-300, 300), st.floats(-300, 300))
def test_panning_moves_everything_by_as_much_as_the_hand(
    view: View, xy: tuple[float, float], dx: float, dy: float
) -> None:
    x, y = pixels(view, xy)
    assert pixels(view.panned(dx, dy), xy) == pytest.approx((x + dx, y + dy), abs=1e-6)


@given(VIEWS)
def test_a_fitted_box_is_seen_whole(view: View) -> None:
    box = (-20.0, -190.0, 860.0, 210.0)
    seen = view.fitted(box, WIDE, HIGH, 20).seen(WIDE, HIGH)
    assert seen[0] <= box[0]
    assert seen[1] <= box[1]
    assert seen[2] >= box[2]
    assert seen[3] >= box[3]


def test_boxes_are_joined() -> None:
    assert join([(0, 0, 1, 1), (-1, 0.5, 0.5, 3)]) == (-1, 0, 1, 3)
    assert join([]) is None


def test_rulers_count_in_round_steps() -> None:
    assert tick_step(1.0, 64, metric_steps()) == 100
    assert tick_step(10.0, 7, metric_steps()) == 1
    assert tick_step(25.4, 7, inch_steps()) == 0.5
