"""Cutting shapes at a sheet's edge."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString
from shapely import box as shapely_box

from export.drawing.clip import clip_line, clip_marks, clip_shape, inside
from export.drawing.flatten import Box, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Text

SHEET = Box(0.0, 0.0, 100.0, 60.0)
lengths = st.integers(-50_000, 150_000).map(lambda n: n / 1000)
places = st.tuples(lengths, lengths)


@given(places, places)
def test_a_line_agrees_with_shapely(a: tuple[float, float], b: tuple[float, float]) -> None:
    part = clip_line(a, b, SHEET)
    wanted = LineString([a, b]).intersection(shapely_box(*SHEET)).length
    assert (math.dist(*part) if part else 0.0) == pytest.approx(wanted, abs=1e-6)


@given(st.lists(st.tuples(places, places), min_size=1, max_size=20))
def test_many_lines_at_once_agree_with_one_at_a_time(lines: list[tuple[XY, XY]]) -> None:
    start, stop = (np.array([complex(*line[end]) for line in lines]) for end in (0, 1))
    low, high = inside(start, stop - start, SHEET)
    for line, at, to in zip(lines, low.tolist(), high.tolist(), strict=True):
        part = clip_line(*line, SHEET)
        shown = max(to - at, 0.0) * math.dist(*line)
        assert shown == pytest.approx(math.dist(*part) if part else 0.0, abs=1e-9)


@given(places, st.floats(1, 80))
def test_a_circle_keeps_its_length_inside(centre: tuple[float, float], radius: float) -> None:
    ring = [
        (centre[0] + radius * math.cos(k * math.tau / 720), centre[1] + radius * math.sin(k * math.tau / 720))
        for k in range(721)
    ]
    wanted = LineString(ring).intersection(shapely_box(*SHEET)).length
    found = 0.0
    for shape in clip_shape(Circle(centre, radius), SHEET):
        assert isinstance(shape, Circle | Arc | Path)
        for part in pieces(shape) if isinstance(shape, Path) else (shape,):
            assert isinstance(part, Circle | Arc)
            found += part.radius * (abs(part.sweep) if isinstance(part, Arc) else math.tau)
    assert found == pytest.approx(wanted, abs=0.01 + radius * 0.02)


def test_a_closed_path_is_cut_into_open_runs() -> None:
    square = Path(((50.0, 10.0, 0.0), (150.0, 10.0, 0.0), (150.0, 50.0, 0.0), (50.0, 50.0, 0.0)), closed=True)
    assert clip_shape(square, SHEET) == [
        Path(((100.0, 50.0, 0.0), (50.0, 50.0, 0.0), (50.0, 10.0, 0.0), (100.0, 10.0, 0.0)))
    ]


def test_what_lies_inside_is_left_alone() -> None:
    mark = Mark(shape=Circle((50.0, 30.0), 5.0), purpose="metal", filled=True)
    assert clip_marks((mark,), SHEET) == (mark,)


def test_words_are_whole_or_not_there() -> None:
    assert clip_shape(Text((95.0, 30.0), "board end", 3.0), SHEET) == []


def test_a_cut_shape_is_not_filled() -> None:
    mark = Mark(shape=Circle((0.0, 30.0), 5.0), purpose="metal", filled=True)
    (part,) = clip_marks((mark,), SHEET)
    assert isinstance(part.shape, Arc | Path)
    assert not part.filled


def test_a_line_outside_is_gone() -> None:
    assert clip_shape(Line((-10.0, -10.0), (200.0, -10.0)), SHEET) == []
