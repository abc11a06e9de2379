"""The notch: a sheet pressed home against a board end that is askew must not turn."""

import math

import msgspec
import pytest

from export.drawing.marks import XY, Path
from export.records import Stamp
from export.templates.glued.placement import draw
from geometry.job import Job
from geometry.layout import Layout

END: tuple[XY, XY] = ((428.5, 29.6), (428.0, -29.6))
"""Edges 428.5 left and 428.0 right, end width 59.2."""
BEYOND = 208.35
"""From the board's end to the saddle, mm."""


def askew(layout: Layout) -> Layout:
    assert layout.neck is not None
    return msgspec.structs.replace(layout, neck=msgspec.structs.replace(layout.neck, end=END))


def angle(left: XY, right: XY) -> float:
    """The angle of a board end or a notch to square, radians, counter-clockwise positive."""
    return math.atan2(right[0] - left[0], left[1] - right[1])


def pressed_home(notch: tuple[XY, XY], end: tuple[XY, XY]) -> tuple[float, float]:
    """By how much a sheet turns when its notch is pressed against the end, and how far that moves the saddle to y."""
    turn = angle(*end) - angle(*notch)
    return turn, BEYOND * math.sin(turn)


def test_a_square_notch_would_turn_the_sheet() -> None:
    """derived: atan(0.5 / 59.2) = 0.484 degrees; 208.35 mm beyond it that is 1.76 mm, toward the right (-y)."""
    turn, aside = pressed_home(((428.25, 29.6), (428.25, -29.6)), END)
    assert math.degrees(turn) == pytest.approx(-0.484, abs=0.0005)
    assert aside == pytest.approx(-1.76, abs=0.005)


def test_the_notch_has_the_ends_true_corners(job: Job, layout: Layout, stamp: Stamp) -> None:
    (notch,) = [m.shape for m in draw(job, askew(layout), stamp).marks if m.of == "notch" and m.purpose == "cut"]
    assert isinstance(notch, Path)
    left, right = notch.vertices[0][:2], notch.vertices[-1][:2]
    assert (left, right) == END
    assert pressed_home((left, right), END) == (0.0, 0.0)


def test_a_rounded_end_is_not_used(job: Job, layout: Layout, stamp: Stamp) -> None:
    rounded = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end="rounded"))
    marks = draw(rounded, layout, stamp).marks
    assert not [m for m in marks if m.of == "notch" and m.purpose == "cut"]
    assert [m for m in marks if m.of == "fret:12" and m.purpose == "lay"]
