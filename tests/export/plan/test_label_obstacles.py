"""What words on the plan keep clear of: edges of the instrument that are drawn, not the grounds within them."""

import math

from export.drawing.flatten import Box, polyline
from export.drawing.marks import Circle, Mark, Shape
from export.drawing.room.occupied_cells import OccupiedCells
from export.plan.label_obstacles import CELL, label_edges, label_obstacles, occupied
from export.plan.labels import Label, labels_by_key, place_labels
from export.plan.plan_view import PlanView
from tests.in_one import in_one

VIEW = PlanView(scale=1.0)
RING = Circle((200.0, 0.0), 40.0)
HEAD = polyline([(-80.0, -20.0), (-10.0, -20.0), (-10.0, 20.0), (-80.0, 20.0)], closed=True)


def room(shape: Shape, of: str, x: float, y: float) -> bool:
    """Whether words find room at a place, off the edge of one outline."""
    (edges,) = label_edges([Mark(shape=shape, purpose="body", of=of)], VIEW)
    return edges.is_free(Box(x - 1.0, y - 1.0, x + 1.0, y + 1.0))


@in_one("turned", range(0, 360, 7))
def test_no_words_lie_on_the_edge_of_the_hole(turned: int) -> None:
    way = math.radians(turned)
    assert not room(RING, "ring", 200.0 + 40.0 * math.cos(way), 40.0 * math.sin(way))


def test_inside_and_beside_the_hole_is_room() -> None:
    assert room(RING, "ring", 200.0, 0.0)
    assert room(RING, "ring", 200.0 + 40.0 / math.sqrt(2) + 2 * CELL, 40.0 / math.sqrt(2) + 2 * CELL)


def test_no_words_lie_on_the_edge_of_the_headstock() -> None:
    assert not room(HEAD, "headstock", -10.0, 5.0)
    assert room(HEAD, "headstock", -45.0, 0.0)


def test_the_ground_of_the_board_has_no_edge_to_keep_off() -> None:
    assert room(HEAD, "board", -10.0, 5.0)


def test_a_label_goes_off_an_edge_and_on_it_where_there_is_no_other_room() -> None:
    labels = labels_by_key([Label(at=(0.0, 0.0), words="treble", of="side", leader=False)])
    _, free = place_labels(labels, VIEW, occupied(VIEW, [], []))
    across = occupied(VIEW, [((4.0, -20.0, 0.0), (4.0, 20.0, 0.0))], [])
    _, off = place_labels(labels, VIEW, occupied(VIEW, [], []), [across])
    assert off != free
    everywhere = occupied(VIEW, [((-60.0, y, 0.0), (60.0, y, 0.0)) for y in range(-60, 60)], [])
    _, at_need = place_labels(labels, VIEW, occupied(VIEW, [], []), [everywhere])
    assert at_need == free


def test_the_edge_of_a_page_laid_over_is_crossed_at_need_and_that_of_the_hole_sooner() -> None:
    """A page leaves no room beside the bridge: bass and treble stand across its edge rather than nowhere."""
    page = Mark(shape=HEAD, purpose="register", of="sheet:placement", filled=True)
    ring = Mark(shape=Circle((40.0, 0.0), 30.0), purpose="body", of="ring")
    on_page, on_ring = Box(-12.0, 4.0, -8.0, 6.0), Box(69.0, -1.0, 71.0, 1.0)
    assert label_obstacles([page], VIEW).is_free(on_page)
    all_edges, last = label_edges([ring, page], VIEW)
    assert not all_edges.is_free(on_page)
    assert not all_edges.is_free(on_ring)
    assert not last.is_free(on_page)
    assert last.is_free(on_ring)


def test_words_that_cross_an_edge_at_need_keep_off_the_last_of_them() -> None:
    labels = labels_by_key([Label(at=(0.0, 0.0), words="treble", of="side", leader=False)])
    _, free = place_labels(labels, VIEW, _wall(90.0, 91.0))
    everywhere, beside = _wall(-60.0, 60.0), _wall(4.0, 5.0)
    _, off = place_labels(labels, VIEW, _wall(90.0, 91.0), [everywhere, beside])
    assert off == place_labels(labels, VIEW, _wall(90.0, 91.0), [beside])[1] != free
    _, at_need = place_labels(labels, VIEW, _wall(90.0, 91.0), [everywhere, everywhere])
    assert at_need == free


def _wall(left: float, right: float) -> OccupiedCells:
    """Cells under a wall from one x to another, paper mm."""
    return occupied(VIEW, [], [Box(left, -60.0, right, 60.0)])
