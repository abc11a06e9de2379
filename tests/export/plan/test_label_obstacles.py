"""What words on the plan keep clear of: edges of the instrument that are drawn, not the grounds within them."""

import math

import pytest

from export.drawing.flatten import Box, polyline
from export.drawing.marks import Circle, Mark, Shape
from export.drawing.room.occupied_cells import OccupiedCells
from export.plan.label_obstacles import CELL, label_grounds, occupied
from export.plan.labels import Grounds, Label, labels_by_key, place_labels
from export.plan.plan_view import PlanView
from tests.in_one import in_one

VIEW = PlanView(scale=1.0)
RING = Circle((200.0, 0.0), 40.0)
HEAD = polyline([(-80.0, -20.0), (-10.0, -20.0), (-10.0, 20.0), (-80.0, 20.0)], closed=True)


def room(shape: Shape, of: str, x: float, y: float) -> bool:
    """Whether words find room at a place, off the edge of one outline."""
    edges = label_grounds([Mark(shape=shape, purpose="body", of=of)], VIEW).edges
    return edges is None or edges.is_free(Box(x - 1.0, y - 1.0, x + 1.0, y + 1.0))


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
    _, free = place_labels(labels, VIEW, Grounds(nothing()))
    across = occupied(VIEW, [((4.0, -20.0, 0.0), (4.0, 20.0, 0.0))], [])
    _, off = place_labels(labels, VIEW, Grounds(nothing(), across))
    assert off != free
    _, at_need = place_labels(labels, VIEW, Grounds(nothing(), everywhere()))
    assert at_need == free


@pytest.mark.parametrize("needed", [True, False])
def test_only_words_that_are_needed_stand_across_the_edge_of_a_page_and_only_at_need(needed: bool) -> None:
    """A page may leave no room beside the bridge: bass and treble stand across its edge rather than nowhere."""
    labels = labels_by_key([Label(at=(0.0, 0.0), words="treble", of="side", leader=False, needed=needed)])
    _, free = place_labels(labels, VIEW, Grounds(nothing()))
    beside = occupied(VIEW, [], [Box(4.0, -60.0, 5.0, 60.0)])
    _, off = place_labels(labels, VIEW, Grounds(nothing(), pages=beside))
    assert off != free
    _, sooner_on_the_hole = place_labels(labels, VIEW, Grounds(nothing(), everywhere(), beside))
    assert sooner_on_the_hole == off
    _, at_need = place_labels(labels, VIEW, Grounds(nothing(), pages=everywhere()))
    assert at_need == (free if needed else {("side", 0): None})


def test_pages_laid_over_are_told_from_edges_and_from_what_no_words_may_cover() -> None:
    page = Mark(shape=HEAD, purpose="register", of="sheet:placement", filled=True)
    ring = Mark(shape=Circle((40.0, 0.0), 30.0), purpose="body", of="ring")
    on_page, on_ring = Box(-12.0, 4.0, -8.0, 6.0), Box(69.0, -1.0, 71.0, 1.0)
    cells, edges, pages = label_grounds([ring, page], VIEW)
    assert edges is not None
    assert pages is not None
    assert [some.is_free(on_page) for some in (cells, edges, pages)] == [True, True, False]
    assert [some.is_free(on_ring) for some in (cells, edges, pages)] == [True, False, True]
    assert label_grounds([ring], VIEW).pages is None


def nothing() -> OccupiedCells:
    return occupied(VIEW, [], [])


def everywhere() -> OccupiedCells:
    return occupied(VIEW, [], [Box(-60.0, -60.0, 60.0, 60.0)])
