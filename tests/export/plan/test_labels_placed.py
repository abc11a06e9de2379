"""Where labels stand: leaders that do not cross, words that are not read as another line's name."""

import pytest
from msgspec.structs import replace

from export.drawing.clip import clip_line
from export.drawing.flatten import Box
from export.drawing.marks import XY, Line, Mark, Text
from export.drawing.room.occupied_cells import OccupiedCells
from export.drawing.straight import cross_each_other
from export.drawing.typeface import text_box
from export.plan import instrument
from export.plan.label_obstacles import TIP, label_obstacles
from export.plan.labels import Grounds, Label, labels_by_key, place_labels
from export.plan.plan_view import PlanView
from geometry.layout import Layout

VIEW = PlanView(scale=1.0)


def ground(*full: Box) -> OccupiedCells:
    cells = OccupiedCells(Box(-60.0, -60.0, 60.0, 60.0), 1.5)
    for box in full:
        cells.occupy(box)
    return cells


def leaders(marks: list[Mark]) -> list[tuple[XY, XY]]:
    return [(mark.shape.a, mark.shape.b) for mark in marks if isinstance(mark.shape, Line)]


@pytest.mark.parametrize(
    ("other", "cross"),
    [
        (((0.0, 1.0), (2.0, -1.0)), True),
        (((0.0, 1.0), (2.0, 0.5)), False),
        (((3.0, 1.0), (3.0, -1.0)), False),  # beyond its end
        (((1.0, 1.0), (1.0, 0.0)), False),  # ends on it
    ],
)
def test_pieces_that_cross(other: tuple[XY, XY], cross: bool) -> None:
    level = ((0.0, 0.0), (2.0, 0.0))
    assert cross_each_other(level, other) is cross
    assert cross_each_other(other, level) is cross


def test_a_leader_crosses_no_other_while_there_is_another_place() -> None:
    """Two places level with each other, with room above alone: both would go to the middle, one across the other."""
    full = Box(-50.0, -50.0, 50.0, 5.0)
    asked = (
        Label(at=(4.0, 0.0), words="right", of="right", prefer=145),
        Label(at=(0.0, 0.0), words="left", of="left", prefer=35),
    )
    marks, places = place_labels(labels_by_key(asked), VIEW, Grounds(ground(full)))
    assert all(place is not None for place in places.values())
    one, other = leaders(marks)
    assert not cross_each_other(one, other)
    # either alone goes its own way, and these ways cross
    alone = [leaders(place_labels(labels_by_key((label,)), VIEW, Grounds(ground(full)))[0])[0] for label in asked]
    assert cross_each_other(*alone)


@pytest.mark.parametrize("prefer", [0, 90, 180, -90])
def test_words_that_belong_on_one_side_stand_on_no_other(prefer: float) -> None:
    """A size of what lies at a part's edge would else be read as one of what lies at the other."""
    half = {
        0: Box(0.1, -60.0, 60.0, 60.0),
        90: Box(-60.0, 0.1, 60.0, 60.0),
        180: Box(-60.0, -60.0, -0.1, 60.0),
        -90: Box(-60.0, -60.0, 60.0, -0.1),
    }
    words, full = Label(at=(0.0, 0.0), words="1.8 mm", of="scar", prefer=prefer), Grounds(ground(half[int(prefer)]))
    (place,) = place_labels(labels_by_key((words,)), VIEW, full)[1].values()
    assert place is not None, "on the other side there is room"
    (place,) = place_labels(labels_by_key((replace(words, ahead=prefer),)), VIEW, full)[1].values()
    assert place is None
    (place,) = place_labels(labels_by_key((replace(words, ahead=prefer),)), VIEW, Grounds(ground()))[1].values()
    assert place is not None


def test_a_led_word_has_a_line_that_begins_at_its_place() -> None:
    (near,) = place_labels(labels_by_key((Label(at=(1.0, 2.0), words="seam", of="a"),)), VIEW, Grounds(ground()))[0]
    assert isinstance(near.shape, Text)
    led = Label(at=(1.0, 2.0), words="seam", of="a", led=True)
    ((start, _),) = leaders(place_labels(labels_by_key((led,)), VIEW, Grounds(ground()))[0])
    assert start == (1.0, 2.0)


@pytest.mark.parametrize(("scale", "led"), [(0.05, True), (2.0, False)])
def test_the_seams_word_stands_off_the_neck_centre_line(layout: Layout, scale: float, led: bool) -> None:
    """On the seam's own side of it, and with a line to the seam where both are near each other on the paper."""
    _, (word,) = instrument.seam_line(layout, None, PlanView(scale=scale))
    assert abs(word.at[1]) > instrument.NEAR / 2.0, "far enough off for the larger scale"
    assert word.led is led
    assert word.prefer == (90 if word.at[1] >= 0 else -90)


def test_no_word_stands_at_an_edge_lines_end() -> None:
    """It would pass for its name: it was so of the seam on a small plan."""
    edge = Mark(shape=Line((0.0, 0.0), (30.0, 0.0)), purpose="lay", of="edge:left")
    label = Label(at=(30.0, 0.0), words="seam", of="seam")
    for of, clear in ((edge.of, True), ("string:1", False)):
        cells = label_obstacles([Mark(shape=edge.shape, purpose="lay", of=of)], VIEW)
        (word, *_) = place_labels(labels_by_key((label,)), VIEW, Grounds(cells))[0]
        assert isinstance(word.shape, Text)
        tip = Box(30.0 - TIP, -TIP, 30.0 + TIP, TIP)
        assert (not text_box(word.shape).meets(tip)) is clear
        assert clip_line((0.0, 0.0), (30.0, 0.0), text_box(word.shape)) is None
