"""Parts that several templates draw alike."""

import pytest
from msgspec.structs import replace

from export.drawing.marks import XY, Line, Mark, Text
from export.templates.parts import _crossed_at, sides
from geometry.job import Job
from geometry.layout import Layout


@pytest.mark.parametrize(
    ("a", "b", "x"),
    # derived: 3 of 10 mm on the way from y = −3 to y = 7
    [
        ((10.0, -3.0), (20.0, 7.0), [13.0]),
        ((20.0, 7.0), (10.0, -3.0), [13.0]),
        ((-10.0, -3.0), (-20.0, 7.0), [-13.0]),
        ((5.0, -3.0), (5.0, 7.0), [5.0]),
        ((-1.0, 1.0), (9.0, 2.0), []),
        ((9.0, 2.0), (-1.0, 1.0), []),
        ((-9.0, -2.0), (-1.0, -1.0), []),
        ((4.0, 0.0), (4.0, 9.0), []),
    ],
)
def test_where_a_line_crosses_a_place_across_the_neck(a: XY, b: XY, x: list[float]) -> None:
    for y in (0.0, 50.0, -3.5):
        shape = Line((a[0], a[1] + y), (b[0], b[1] + y))
        assert _crossed_at([Mark(shape=shape, purpose="lay")], y) == pytest.approx(x)


@pytest.mark.parametrize(("half", "end", "inside"), [(18.5, None, True), (17.5, None, False), (46.5, 28.0, True)])
def test_which_side_is_farther_is_said_within_the_bridge_where_there_is_room(
    job: Job, layout: Layout, half: float, end: float | None, inside: bool
) -> None:
    """18 mm from its tip, clear of the board's edge carried on; else beyond the tip."""
    assert layout.bridge is not None
    assert layout.neck is not None
    corners = ((620.0, half), (620.0, -half), (646.0, -half), (646.0, half))
    ends = None if end is None else ((440.0, end), (440.0, -end))
    small = replace(layout, bridge=replace(layout.bridge, corners=corners), neck=replace(layout.neck, end=ends))
    said = [m.shape for m in sides(job, small, 600.0) if isinstance(m.shape, Text) and "farther" in m.shape.text]
    assert [abs(one.at[1]) for one in said] == [pytest.approx(half - 14.0 if inside else half + 1.0)]
