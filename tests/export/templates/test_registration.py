"""Where the windows over the seam are cut, by arithmetic done here."""

import msgspec
import pytest

from export.drawing.marks import Circle, Line, Mark, Text
from export.records import Stamp
from export.templates import TEMPLATES, figure_of
from export.templates.glued.placement import CUT_WINDOWS, centre_line
from export.templates.registration import LAID, Against, edge_lines, seam_windows, start_at
from geometry.job import Job
from geometry.layout import Layout, Ray
from tests.in_one import in_one


def with_seam(layout: Layout, *read: float) -> Layout:
    """The layout with its seam 5 mm to the left, along the neck, read at these places."""
    assert layout.neck is not None
    points = {name: at for name, at in layout.points.items() if not name.startswith("seam.")}
    like = next(iter(points.values()))
    points |= {f"seam.{i}": msgspec.structs.replace(like, x=x, y=5.0) for i, x in enumerate(read, 1)}
    neck = msgspec.structs.replace(layout.neck, seam=Ray(at=(0.0, 5.0), direction=(1.0, 0.0)))
    return msgspec.structs.replace(layout, neck=neck, points=points)


def windows(marks: list[Mark]) -> list[tuple[float, float]]:
    return [mark.shape.centre for mark in marks if isinstance(mark.shape, Circle)]


@in_one(
    ("read", "low", "high", "at"),
    [
        # derived: 0.95 of the way, then 0.15; two windows lie more than 30 mm apart
        ((), 500.0, 600.0, [515.0, 595.0]),
        ((), 500.0, 530.0, [528.5]),
        ((), 500.0, 529.9, []),
        ((), 500.0, 538.0, [505.7, 536.1]),
        ((), 500.0, 537.0, [535.15]),
        ((520.0,), 500.0, 600.0, [520.0, 595.0]),
        ((570.0,), 500.0, 600.0, [515.0, 570.0]),
        ((545.0,), 500.0, 600.0, [545.0, 595.0]),
        ((510.0, 580.0), 500.0, 600.0, [510.0, 580.0]),
        ((510.0, 550.0, 580.0), 500.0, 600.0, [510.0, 580.0]),
        ((499.9, 600.1), 500.0, 600.0, [515.0, 595.0]),
        ((500.0, 600.0), 500.0, 600.0, [500.0, 600.0]),
    ],
)
def test_two_windows_where_the_seam_was_read_or_far_apart(
    layout: Layout, read: tuple[float, ...], low: float, high: float, at: list[float]
) -> None:
    found = windows(seam_windows(with_seam(layout, *read), low, high))
    assert [x for x, _ in found] == pytest.approx(at)
    assert {y for _, y in found} <= {5.0}


def test_a_window_is_as_wide_as_told_with_a_tick_on_either_rim(layout: Layout) -> None:
    """derived: 9 mm round the seam, ticks of 7 mm beyond"""
    marks = seam_windows(with_seam(layout, 510.0, 580.0), 500.0, 600.0)
    circles = [mark.shape for mark in marks if isinstance(mark.shape, Circle)]
    assert {circle.radius for circle in circles} == {9.0}
    ticks = [(mark.shape.a, mark.shape.b) for mark in marks if isinstance(mark.shape, Line)]
    assert ticks[:2] == [((501.0, 5.0), (494.0, 5.0)), ((519.0, 5.0), (526.0, 5.0))]
    words = [mark.shape for mark in marks if isinstance(mark.shape, Text) and mark.shape.text == "seam"]
    assert [(word.at, word.anchor) for word in words] == [((520.2, 6.2), "sb"), ((590.2, 6.2), "sb")]


@in_one(
    ("windows_at", "wanted"),
    [
        # derived: a window's rim at 9 mm, its ticks to 16 mm, 1 mm of air: 17 mm to either side of it stay bare
        ([(510.0, 0.0), (580.0, 0.0)], [(480.0, 493.0), (527.0, 563.0), (597.0, 600.0)]),
        ([(510.0, 0.0), (545.1, 0.0)], [(480.0, 493.0), (527.0, 528.1), (562.1, 600.0)]),
        ([(510.0, 0.0), (544.9, 0.0)], [(480.0, 493.0), (561.9, 600.0)]),  # 0.9 mm between them is no line
        ([(510.0, 0.0), (520.0, 0.0)], [(480.0, 493.0), (537.0, 600.0)]),
        ([(496.0, 0.0), (584.0, 0.0)], [(513.0, 567.0)]),
        ([(510.0, 9.9), (580.0, 10.1)], [(480.0, 493.0), (527.0, 600.0)]),  # a window 1 mm beside the line
    ],
)
def test_the_centre_line_stays_off_windows_and_their_ticks(
    windows_at: list[tuple[float, float]], wanted: list[tuple[float, float]]
) -> None:
    found = centre_line(480.0, 600.0, [Mark(shape=Circle(at, 9.0), purpose="cut", of="seam") for at in windows_at])
    lines = [mark.shape for mark in found if isinstance(mark.shape, Line)]
    assert [line.a[1] or line.b[1] for line in lines] == [0.0] * len(wanted)
    assert [(line.a[0], line.b[0]) for line in lines] == [pytest.approx(ends) for ends in wanted]


def test_the_boards_edges_are_carried_on_and_named_outside(job: Job, layout: Layout) -> None:
    """derived: from the start's corners along the edges as far along the neck as wanted; words 0.42 of the way"""
    assert layout.neck is not None
    start = start_at(job, layout, "board end")
    for hand, names in (("right", ("treble", "bass")), ("left", ("bass", "treble"))):
        marks = edge_lines(msgspec.structs.replace(job, hand=hand), layout.neck, start, 600.0)
        for (line, word), corner, name, way in zip(
            zip(marks[::2], marks[1::2], strict=True), (start.left, start.right), names, (1.0, -1.0), strict=True
        ):
            assert isinstance(line.shape, Line)
            assert isinstance(word.shape, Text)
            assert line.shape.a == corner
            assert line.shape.b[0] == pytest.approx(600.0)
            assert word.shape.text == f"{name} edge of the board"
            along = 0.42 * (600.0 - corner[0])
            slope = (line.shape.b[1] - corner[1]) / (600.0 - corner[0])
            assert word.shape.at == pytest.approx((corner[0] + along, corner[1] + slope * along + way * 1.2))


@pytest.mark.parametrize(("name", "against"), [("placement", "board end"), ("full-length", "nut")])
def test_a_sheet_says_how_it_is_laid_before_it_tells_of_its_windows(
    job: Job, layout: Layout, stamp: Stamp, name: str, against: Against
) -> None:
    notes = figure_of(TEMPLATES[name], job, layout, stamp).notes
    assert notes.index(LAID[against]) < notes.index(CUT_WINDOWS)
    assert "both edge lines on" in LAID[against]


def test_a_sheet_laid_on_fret_12_says_so(job: Job, layout: Layout, stamp: Stamp) -> None:
    flush = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end="flush"))
    assert LAID["fret 12"] in figure_of(TEMPLATES["placement"], flush, layout, stamp).notes
