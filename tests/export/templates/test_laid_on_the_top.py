"""How a placement is laid on the top: windows over the seam, tape, corners, frets."""

import math

import msgspec
import numpy as np
import pytest

from export.drawing.marks import Circle, Line, Path, Text
from export.drawing.pens import PENS
from export.records import Stamp
from export.templates.registration import CLOSE, Start, seam_windows, tape_tabs
from geometry.job import Job
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.layout import Layout, Ray
from geometry.units import Unit, mm
from tests.export.templates.test_templates import drawn, shapes, words


def test_seam_windows_lie_where_the_seam_was_read(job: Job, layout: Layout, stamp: Stamp) -> None:
    circles = [c for c in shapes(drawn("placement", job, layout, stamp), "seam", "cut") if isinstance(c, Circle)]
    assert len(circles) == 2
    assert circles[-1].centre == pytest.approx((588.0, 5.1))
    assert circles[-1].centre[0] - circles[0].centre[0] > 60.0


@pytest.mark.parametrize(
    ("low", "high", "places"),
    [
        (100.0, 300.0, [130.0, 290.0]),  # derived: 0.15 and 0.95 of the way, for no seam was read there
        (500.0, 700.0, [588.0, 690.0]),  # derived: where it was read once, 0.95 of the way is tried first
        (560.0, 700.0, [588.0, 693.0]),  # derived: 581 lies less than 30 from 588
        (500.0, 850.0, [588.0, 798.0]),
        (100.0, 129.9, []),
    ],
)
def test_windows_over_the_seam_lie_where_it_was_read_or_apart(
    layout: Layout, low: float, high: float, places: list[float]
) -> None:
    circles = [mark.shape for mark in seam_windows(layout, low, high) if isinstance(mark.shape, Circle)]
    assert [circle.centre[0] for circle in circles] == pytest.approx(places)


def test_tape_is_laid_beside_the_board_clear_of_its_edges(layout: Layout) -> None:
    """derived: edges through the corners of the start, half as steep as they are long; halfway from there to the front,
    100 mm on, they are 50 mm farther out, and the frames lie 8 to 16 mm beyond them.
    """
    assert layout.neck is not None
    slope = math.hypot(2.0, 1.0)
    left, right = (Ray((0.0, side * 20.0), (2.0 / slope, side / slope)) for side in (1.0, -1.0))
    neck = msgspec.structs.replace(layout.neck, left_edge=left, right_edge=right)
    start = Start("board end", (400.0, 220.0), (400.0, -220.0))
    rings = [mark.shape for mark in tape_tabs(start, neck, 600.0) if isinstance(mark.shape, Path)]
    places = [sorted({(x, y) for x, y, *_ in ring.vertices}) for ring in rings]
    assert places == [
        [(489.0, 278.0), (489.0, 286.0), (511.0, 278.0), (511.0, 286.0)],
        [(489.0, -286.0), (489.0, -278.0), (511.0, -286.0), (511.0, -278.0)],
    ]


def test_windows_lie_on_the_seam(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: the seam through (588, 5.1) and (798, 10.6)."""
    for circle in shapes(drawn("placement", job, layout, stamp), "seam", "cut"):
        assert isinstance(circle, Circle)
        x, y = circle.centre
        assert y == pytest.approx(5.1 + (x - 588.0) * 5.5 / 210.0)


def test_without_a_seam_there_is_no_window(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.neck is not None
    bare = msgspec.structs.replace(layout, neck=msgspec.structs.replace(layout.neck, seam=None))
    assert not shapes(drawn("placement", job, bare, stamp), "seam", "cut")


@pytest.mark.parametrize("end", ["rounded", "raised", "undercut", "flush"])
def test_without_true_corners_it_is_laid_on_fret_12(job: Job, layout: Layout, stamp: Stamp, end: str) -> None:
    other = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end=end))
    figure = drawn("placement", other, layout, stamp)
    (line,) = shapes(figure, "fret:12", "lay")
    assert layout.frets is not None
    assert line == Line(layout.frets.lines[12].left, layout.frets.lines[12].right)
    assert any("fret 12" in text for text in words(figure))
    assert "a step of 5 mm moves the bridge by" in figure.notes[-1]


def test_full_length_starts_at_the_nut(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("full-length", job, layout, stamp)
    (notch,) = shapes(figure, "notch", "cut")
    assert isinstance(notch, Path)
    assert notch.vertices[0][:2] == (0.0, 21.6)
    assert shapes(figure, "fret:12", "lay")
    assert shapes(figure, "board end", "lay")
    places = {m.shape.text: m.shape.at for m in figure.marks if isinstance(m.shape, Text)}
    assert layout.frets is not None
    x, y = layout.frets.lines[12].left
    # derived: a word stands 1.6 mm behind its line, about a third of the way from the centre line to the left edge
    assert places["fret 12"] == pytest.approx((x + 1.6, 0.35 * y))
    assert places["board end"] == pytest.approx((451.4 + 1.6, 0.35 * 28.2))


def test_seam_windows_have_plain_ticks_on_both_rims(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Six mm or more is what a pencil line under the rim can be sighted along: common practice, no source."""
    figure = drawn("placement", job, layout, stamp)
    windows = [c for c in shapes(figure, "seam", "cut") if isinstance(c, Circle)]
    ticks = [line for line in shapes(figure, "seam", "lay") if isinstance(line, Line)]
    assert len(ticks) == 2 * len(windows)
    assert PENS["lay"].dashes == ()
    for window in windows:
        own = [t for t in ticks if math.dist(t.a, window.centre) == pytest.approx(window.radius)]
        assert len(own) == 2
        assert all(math.dist(t.a, t.b) >= 6.0 for t in own)
        assert own[0].a[0] < window.centre[0] < own[1].a[0]
    assert words(figure).count("cut out") == len(windows)


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
@pytest.mark.parametrize("printed", [0.002 * 200.0, 0.5 * 325.0 / 600.0])
def test_a_sheet_that_lies_right_is_hardly_ever_laid_again(unit: Unit, printed: float) -> None:
    """Of 100,000 pairs of distances along the edges (seed 6), by a sheet laid within 0.15 mm, no more than 1 in 20 has
    one that is so far off. derived: a scale passes with 0.2 mm in 100 mm, so 200 mm with 0.4 mm; taped crosses with
    0.5 mm in 600 mm, so 325 mm from fret 12 with 0.27 mm. 0.5 mm, which the
    rule and the laying alone would call for, is passed by 1 in 4 of the first.
    """
    random, count = np.random.default_rng(6), 100_000
    same = random.uniform(-printed, printed, (count, 1))
    hand = random.normal(0.0, 0.15, (count, 2)) + random.normal(0.0, INSTRUMENTS["rule 0.5"].reading, (count, 2))
    assert (np.abs(same + hand) > mm(CLOSE[unit])).any(axis=1).mean() < 0.05
