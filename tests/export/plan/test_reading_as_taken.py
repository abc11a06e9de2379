"""The reading in hand, drawn as it is taken."""

import math

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Arc, Line, Mark, Path, Text
from export.drawing.typeface import text_corners
from export.plan import PlanView, compose
from geometry.job import Job, Reading
from geometry.job.sides import SIDES, Side
from geometry.layout import Layout
from tests.in_one import in_one

ALL = [
    Reading(id="x", kind="distance", of=("nut.left", "end.left"), value=451),
    Reading(id="x", kind="along", of=("old.1",), from_=("nut.left", "end.left"), value=632.5),
    Reading(id="x", kind="off", of=("seam.1",), from_=("nut.right", "end.right"), side="left", value=31.5),
    Reading(id="x", kind="across", of=("old.1", "old.2"), from_=("nut.left", "end.left"), value=150),
    Reading(id="x", kind="meets", of=("old.1", "old.2"), from_=("nut.left", "end.left"), value="25 in"),
    Reading(id="x", kind="inline", of=("old.1",), from_=("nut.left", "end.left")),
    Reading(id="x", kind="same", of=("nut.left", "end.left", "nut.right", "end.right")),
    Reading(id="x", kind="square", of=("nut.left", "nut.right", "nut.left", "end.left")),
    Reading(id="x", kind="rims", of=("nut.left", "pin.1"), value=(640, 645)),
    Reading(id="x", kind="fret", fret=12, on="right", value=322.5),
    Reading(id="x", kind="height", at="fret 12", on="left", value=2.1),
    Reading(id="x", kind="height", at="saddle", on="right", value=9.5),
    Reading(id="x", kind="at", of=("seam.1",), value=(588, 5)),
    Reading(id="x", kind="angle", of=("old.1", "old.2"), from_=("nut.left", "end.left"), value=88.5),
]


def in_hand(job: Job, layout: Layout, reading: Reading) -> list[Mark]:
    held = msgspec.structs.replace(job, readings=(reading,))
    drawing = compose(held, layout, PlanView(scale=0.4, reading="x"))
    return [mark for mark in drawing.marks if mark.of.endswith("reading:x")]


@in_one("reading", ALL)
def test_every_kind_can_be_drawn(job: Job, layout: Layout, reading: Reading) -> None:
    assert in_hand(job, layout, reading)


@in_one("reading", [r for r in ALL if r.value is not None])
def test_the_value_stands_on_it(job: Job, layout: Layout, reading: Reading) -> None:
    assert [m for m in in_hand(job, layout, reading) if isinstance(m.shape, Text)]


@pytest.mark.parametrize(
    ("value", "said"),
    [(451, "451 mm"), ('12 7/16"', '12 7/16"'), ("17 35/64 in", "17 35/64 in"), ("45,1 cm", "45,1 cm")],
)
def test_a_value_with_a_unit_of_its_own_takes_no_other(job: Job, layout: Layout, value: object, said: str) -> None:
    marks = in_hand(job, layout, msgspec.structs.replace(ALL[0], value=value))
    assert [m.shape.text for m in marks if isinstance(m.shape, Text)] == [said]


def test_a_distance_runs_from_point_to_point(job: Job, layout: Layout) -> None:
    marks = in_hand(job, layout, ALL[0])
    heads = [
        m.shape.vertices[0][:2] for m in marks if isinstance(m.shape, Path) and m.filled and len(m.shape.vertices) == 3
    ]
    assert set(heads) == {(0.0, 21.6), (451.4, 28.2)}
    assert [m.shape.text for m in marks if isinstance(m.shape, Text)] == ["451 mm"]


@pytest.mark.parametrize("side", ["left", "right", None])
def test_what_is_still_to_be_read_off_an_edge_is_drawn_where_a_bare_number_puts_it(
    job: Job, layout: Layout, side: Side | None
) -> None:
    """old.1 stands left of the left edge: asked for on the other side, or on either, it is not drawn there alone."""
    asked = Reading(id="x", kind="off", of=("old.1",), from_=("nut.left", "end.left"), side=side)
    marks = in_hand(job, layout, asked)
    said = [m.shape.text for m in marks if isinstance(m.shape, Text)]
    assert said == [f"? {job.bass_or_treble(one)}" for one in SIDES if side in (one, None)]
    heads = [m.shape for m in marks if isinstance(m.shape, Path) and m.filled and len(m.shape.vertices) == 3]
    tips = [head.vertices[0][1] for head in heads]
    edge = 28.2 + (629.5 - 451.4) * (28.2 - 21.6) / 451.4
    assert any(tip > edge + 5 for tip in tips) == (side != "right")
    assert any(tip < edge - 5 for tip in tips) == (side != "left")


def test_what_was_read_off_an_edge_says_its_side(job: Job, layout: Layout) -> None:
    (word,) = [m.shape for m in in_hand(job, layout, ALL[2]) if isinstance(m.shape, Text)]
    assert word.text == "31.5 mm treble"  # right-handed: the left is the treble


def test_along_is_measured_to_the_foot(job: Job, layout: Layout) -> None:
    """derived: the square from the point to the straightedge stands on it."""
    marks = in_hand(job, layout, ALL[1])
    (square,) = [m.shape for m in marks if isinstance(m.shape, Line) and m.purpose == "lay"]
    ux, uy = 451.4, 28.2 - 21.6
    dot = (square.b[0] - square.a[0]) * ux + (square.b[1] - square.a[1]) * uy
    assert dot / math.hypot(ux, uy) == pytest.approx(0.0, abs=1e-9)
    assert square.b == (629.5, 76.5)


def test_across_is_measured_square_to_the_straightedge(job: Job, layout: Layout) -> None:
    """The arrow is as long as n·(P - Q) and starts at Q (old.2)."""
    marks = in_hand(job, layout, ALL[3])
    tips = [m.shape.vertices[0][:2] for m in marks if isinstance(m.shape, Path) and len(m.shape.vertices) == 3]
    ux, uy = 451.4 / math.hypot(451.4, 6.6), 6.6 / math.hypot(451.4, 6.6)
    gap = -uy * (629.5 - 634.0) + ux * (76.5 + 74.0)
    assert min(math.dist(tip, (634.0, -74.0)) for tip in tips) < 1e-9
    assert math.dist(*tips) == pytest.approx(gap)


def test_an_angle_is_an_arc_from_one_direction_to_the_other(job: Job, layout: Layout) -> None:
    """derived: from the edge's direction to the front's, round the place where both lines cross."""
    marks = in_hand(job, layout, ALL[-1])
    (arc,) = [m.shape for m in marks if isinstance(m.shape, Arc)]
    edge, front = math.atan2(28.2 - 21.6, 451.4), math.atan2(-74.0 - 76.5, 634.0 - 629.5)
    assert (arc.start, arc.sweep) == pytest.approx((edge, front - edge))
    x, y = arc.centre
    assert 451.4 * (y - 21.6) == pytest.approx((28.2 - 21.6) * x)
    assert (634.0 - 629.5) * (y - 76.5) == pytest.approx((-74.0 - 76.5) * (x - 629.5))
    assert [m.shape.text for m in marks if isinstance(m.shape, Text)] == ["88.5°"]


def test_lines_that_cross_far_away_are_not_carried_on_to_there(job: Job, layout: Layout) -> None:
    """The board's edges cross some 1.5 m before the nut (derived: 21.6 mm by 6.6 mm in 451.4)."""
    edges = msgspec.structs.replace(ALL[-1], of=("nut.right", "end.right"))
    marks = in_hand(job, layout, edges)
    assert not [m for m in marks if isinstance(m.shape, Arc)]
    assert min(m.shape.a[0] for m in marks if isinstance(m.shape, Line)) == 0.0
    assert [m.shape.text for m in marks if isinstance(m.shape, Text)] == ["88.5°"]


def test_a_straightedge_reaches_all_it_touches(job: Job, layout: Layout) -> None:
    marks = in_hand(job, layout, ALL[4])
    (steel,) = [m.shape for m in marks if m.of.startswith("straightedge")]
    assert isinstance(steel, Path)
    assert min(x for x, _, _ in steel.vertices) < 0.0
    assert max(x for x, _, _ in steel.vertices) > 640.0


def test_what_was_typed_in_inches_is_shown_in_inches(job: Job, layout: Layout) -> None:
    assert [m.shape.text for m in in_hand(job, layout, ALL[4]) if isinstance(m.shape, Text)] == ["25 in"]


def test_a_reading_still_to_be_taken_asks(job: Job, layout: Layout) -> None:
    marks = in_hand(job, layout, msgspec.structs.replace(ALL[0], value=None))
    assert [m.shape.text for m in marks if isinstance(m.shape, Text)] == ["?"]


def test_a_reading_between_points_without_a_place_is_not_drawn(job: Job, layout: Layout) -> None:
    lost = msgspec.structs.replace(layout, points={})
    assert in_hand(job, lost, ALL[0]) == []


def test_what_is_advised_is_drawn_as_well(job: Job, layout: Layout) -> None:
    advised = msgspec.structs.replace(ALL[0], value=None)
    drawing = compose(job, layout, PlanView(scale=0.4, advice=advised))
    assert [m for m in drawing.marks if m.of == "advice"]


def test_close_up_the_value_stands_whole_by_what_is_seen_of_the_line(job: Job, layout: Layout) -> None:
    held = msgspec.structs.replace(job, readings=(ALL[0],))
    sight = Box(400.0, -60.0, 480.0, 60.0)  # the board's end; the line's middle is 200 mm off
    near = PlanView(scale=0.8, reading="x", window=sight, close_up=True)
    marks = [mark for mark in compose(held, layout, near).marks if mark.of == "reading:x"]
    (value,) = [mark.shape for mark in marks if isinstance(mark.shape, Text)]
    low, *_, high = sorted(x for x, _ in text_corners(value, 0.8))
    assert sight.x0 < low < high < sight.x1
