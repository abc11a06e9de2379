"""Dimensions and hatches as plain shapes."""

import math

import pytest

from export.drawing.dimension import ARROW, cross, dimension, hatch, off_line, tips
from export.drawing.marks import Line, Path, Text


def test_arrowheads_touch_what_is_measured() -> None:
    marks = dimension((0.0, 0.0), (100.0, 0.0), "100", off=5.0, height=3.0, extended=(False, False))
    tips = {m.shape.vertices[0][:2] for m in marks if isinstance(m.shape, Path)}
    assert tips == {(0.0, 5.0), (100.0, 5.0)}


def test_arrowheads_keep_their_size_on_paper() -> None:
    marks = dimension((0.0, 0.0), (100.0, 0.0), "100", off=5.0, height=3.0, scale=2.0)
    (head, *_) = [m.shape for m in marks if isinstance(m.shape, Path)]
    assert math.dist(head.vertices[0][:2], head.vertices[1][:2]) == pytest.approx(ARROW / 2)


def test_words_stand_on_the_outer_side() -> None:
    above = dimension((0.0, 0.0), (10.0, 0.0), "x", off=5.0, height=3.0)[-1].shape
    below = dimension((0.0, 0.0), (10.0, 0.0), "x", off=-5.0, height=3.0)[-1].shape
    assert isinstance(above, Text)
    assert isinstance(below, Text)
    assert (above.anchor, below.anchor) == ("mb", "mt")
    assert above.at[1] > 5.0
    assert below.at[1] < -5.0


def test_a_cross_has_its_middle_where_it_is_put() -> None:
    for mark in cross((3.0, 4.0), 2.0, "register"):
        assert isinstance(mark.shape, Line)
        (ax, ay), (bx, by) = mark.shape.a, mark.shape.b
        assert ((ax + bx) / 2, (ay + by) / 2) == pytest.approx((3.0, 4.0))


def test_a_hatch_fills_a_square() -> None:
    """derived: lines 1 mm apart in a square of 10 mm run about 100 mm in all."""
    lines = hatch(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), 1.0)
    assert sum(math.dist(line.a, line.b) for line in lines) == pytest.approx(100.0, rel=0.05)


def test_a_hatch_leaves_a_hollow_free() -> None:
    """A ring shaped like a U: no line crosses the gap between its legs."""
    ring = ((0.0, 0.0), (12.0, 0.0), (12.0, 10.0), (8.0, 10.0), (8.0, 4.0), (4.0, 4.0), (4.0, 10.0), (0.0, 10.0))
    for line in hatch(ring, 0.7):
        x, y = (line.a[0] + line.b[0]) / 2, (line.a[1] + line.b[1]) / 2
        assert not (4.0 < x < 8.0 and y > 4.0)


def test_extension_lines_stand_at_the_ends_that_want_them() -> None:
    """derived: from 0.8 mm off the point to 1.5 mm past the line, 5 mm off."""
    for extended, wanted in (((True, True), [0.0, 100.0]), ((False, True), [100.0]), ((False, False), [])):
        marks = dimension((0.0, 0.0), (100.0, 0.0), "100", off=5.0, height=3.0, extended=extended)
        lines = [m.shape for m in marks if isinstance(m.shape, Line) and m.weight < 1.0]
        assert [line.a for line in lines] == [pytest.approx((x, 0.8)) for x in wanted]
        assert [line.b for line in lines] == [pytest.approx((x, 6.5)) for x in wanted]


def test_the_tips_are_where_the_arrows_end() -> None:
    a, b = (10.0, 20.0), (40.0, 60.0)
    heads = [m.shape for m in dimension(a, b, "50", off=5.0, height=3.0) if isinstance(m.shape, Path)]
    there = sorted(head.vertices[0][:2] for head in heads)
    for tip, head in zip(sorted(tips(a, b, 5.0)), there, strict=True):
        assert tip == pytest.approx(head)


def test_how_far_a_place_lies_off_a_line() -> None:
    assert off_line((3.0, 4.0), (0.0, 0.0), (10.0, 0.0)) == pytest.approx(4.0)
    assert off_line((3.0, 4.0), (-30.0, -40.0), (6.0, 8.0)) == pytest.approx(0.0)
