"""Laying a drawing down."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from export.drawing.flatten import arc_ends, path_points
from export.drawing.marks import Arc, Path, Text
from export.drawing.transform import Transform, readable

numbers = st.floats(-1000, 1000)
transforms = st.builds(
    Transform, shift=st.tuples(numbers, numbers), turn=st.floats(-math.pi, math.pi), mirror=st.booleans()
)


@given(transforms, st.tuples(numbers, numbers))
def test_there_and_back(transform: Transform, at: tuple[float, float]) -> None:
    assert transform.back(transform.xy(at)) == pytest.approx(at, abs=1e-9)


@given(transforms, st.floats(-3, 3), st.floats(0.1, 6))
def test_an_arc_laid_down_ends_where_its_ends_come_to_lie(transform: Transform, start: float, sweep: float) -> None:
    arc = Arc((3.0, 4.0), 5.0, start, sweep)
    laid = transform.shape(arc)
    assert isinstance(laid, Arc)
    for before, after in zip(arc_ends(arc), arc_ends(laid), strict=True):
        assert after == pytest.approx(transform.xy(before), abs=1e-9)


@given(transforms)
def test_bulges_follow_the_mirror(transform: Transform) -> None:
    path = Path(((0.0, 0.0, 0.4), (10.0, 0.0, -0.3), (10.0, 8.0, 0.0)), closed=True)
    laid = transform.shape(path)
    assert isinstance(laid, Path)
    for before, after in zip(path_points(path, 0.05), path_points(laid, 0.05), strict=True):
        assert after == pytest.approx(transform.xy(before), abs=1e-6)


def test_quarter_turns_are_exact() -> None:
    assert Transform(turn=-math.pi / 2).xy((3.0, 5.0)) == (5.0, -3.0)


def test_words_are_never_upside_down() -> None:
    text = readable(Text((0.0, 0.0), "nut", 3.0, math.pi, "sb"))
    assert text.angle == pytest.approx(0.0)
    assert text.anchor == "et"


@pytest.mark.parametrize("lean", [-0.02, 0.02])
def test_both_edges_words_are_read_from_the_same_side(lean: float) -> None:
    """On a portrait sheet the edges' words stand nearly upright, leaning a little either way."""
    turned = Transform(turn=-math.pi / 2).shape(Text((0.0, 0.0), "edge", 3.0, lean, "sb"))
    assert isinstance(turned, Text)
    assert turned.angle == pytest.approx(math.pi / 2 + lean)


def test_mirrored_words_stay_the_right_way_round() -> None:
    text = Transform(mirror=True).shape(Text((1.0, 2.0), "nut", 3.0, 0.0, "sb"))
    assert text == Text((1.0, -2.0), "nut", 3.0, 0.0, "st")
