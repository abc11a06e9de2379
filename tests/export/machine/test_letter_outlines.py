"""Words as outlines."""

import math

import pytest
from shapely import Polygon

from export.drawing.marks import Mark, Text
from export.drawing.typeface import text_box, width
from export.machine.letter_outlines import outlined, text_outlines


def test_letters_stand_where_the_words_stood() -> None:
    text = Text((10.0, 20.0), "HE", 6.6)
    points = [v[:2] for path in text_outlines(text) for v in path.vertices]
    box = text_box(text)
    assert min(y for _, y in points) == pytest.approx(20.0)
    assert max(y for _, y in points) == pytest.approx(26.6, abs=0.05)  # the font's H is 656 of 660
    assert box.x0 <= min(x for x, _ in points)
    assert max(x for x, _ in points) <= 10.0 + width("HE", 6.6)


def test_a_ring_has_a_hole() -> None:
    outer, inner = sorted(
        (Polygon([v[:2] for v in p.vertices]) for p in text_outlines(Text((0, 0), "O", 10.0))), key=lambda p: -p.area
    )
    assert outer.contains(inner)


def test_turned_words_are_turned() -> None:
    flat = text_outlines(Text((0.0, 0.0), "L", 10.0))[0].vertices
    turned = text_outlines(Text((0.0, 0.0), "L", 10.0, math.pi / 2))[0].vertices
    for (x, y, _), (tx, ty, _) in zip(flat, turned, strict=True):
        assert (tx, ty) == pytest.approx((-y, x), abs=1e-9)


def test_chords_keep_to_the_letter() -> None:
    """An O of 100 mm needs more chords than one of 2 mm: both within a hundredth of a mm."""
    small, large = (len(text_outlines(Text((0, 0), "O", height))[0].vertices) for height in (2.0, 100.0))
    assert large > 2 * small


def test_every_outline_is_closed_and_not_repeated() -> None:
    for path in text_outlines(Text((0, 0), "Bridge ±0.4", 3.0)):
        assert path.closed
        assert path.vertices[0] != path.vertices[-1]


def test_only_words_change() -> None:
    marks = outlined((Mark(shape=Text((0, 0), "ab", 3.0), purpose="dimension", of="check"),))
    assert {mark.purpose for mark in marks} == {"note"}
    assert {mark.of for mark in marks} == {"check"}


def test_letters_of_straight_lines_have_their_holes() -> None:
    for letter in "A4D":
        rings = (Polygon([v[:2] for v in path.vertices]) for path in text_outlines(Text((0, 0), letter, 10.0)))
        outer, inner = sorted(rings, key=lambda ring: -ring.area)
        assert outer.contains(inner), letter
        assert outer.is_valid, letter
