"""A slotted headstock's sides: edges as chains of corners, and where posts come out along them, against arithmetic done
here.
"""

import math
from types import SimpleNamespace

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.hardware.head_sides import _plate_screws, depth_below
from geometry.hardware.near_posts import _beside
from geometry.hardware.posts import MiddleLine
from geometry.job import Hardware, Headstock, Job, NotAJob, TunerPlate, Tuners
from geometry.job.sides import SIDES
from geometry.layout import HeadSide, Layout
from tests.geometry.hardware.test_headstock_and_posts import OLD, codes, head, laid_out, plan
from tests.geometry.made import XY

BENT: dict[str, XY] = {
    "bent.1": (-8.0, 25.0),
    "bent.2": (-24.0, 37.0),
    "bent.3": (-64.0, 37.0),
    "bent.4": (-180.0, 30.0),
    "bent.5": (-190.0, 1.0),
    "bent.6": (-180.0, -30.0),
    "bent.7": (-24.0, -37.0),
    "bent.8": (-8.0, -25.0),
}
"""Made up: a shoulder of 12, 16 and so 20 mm, 40 mm along the neck, a taper, a crest with its tip near the middle."""
SLOT: dict[str, XY] = {
    "slot.1": (-30.0, 28.0),
    "slot.2": (-140.0, 28.0),
    "slot.3": (-140.0, 16.0),
    "slot.4": (-30.0, 16.0),
}
ROLLED = Tuners(roller=10.0, keep="first post", left=(3,), right=(3,))


def sides(
    tuners: Tuners = ROLLED, headstock: Headstock | None = None, more: dict[str, XY] | None = None
) -> tuple[HeadSide, ...]:
    bent = headstock or head(outline=tuple(BENT), slots=(tuple(SLOT),), thickness=20.0)
    return plan(laid_out(tuners, bent, more=BENT | SLOT | (more or {}))).sides


def test_an_edge_is_the_chain_of_corners_from_the_nut_to_the_far_corner() -> None:
    left, right = sides()
    assert left.corners == ("bent.1", "bent.2", "bent.3", "bent.4")
    assert right.corners == ("bent.8", "bent.7", "bent.6")
    assert [at for at, _ in left.edge] == pytest.approx([-8.0, -24.0, -64.0, -180.0], abs=1e-6)


def test_what_runs_across_at_the_nut_is_no_part_of_an_edge_and_one_corner_of_it_goes_alone() -> None:
    # derived: from (-8, 12) to (-8, 25) the outline runs across only; from there on along
    ring = head(outline=("beside", *BENT), slots=(tuple(SLOT),), thickness=20.0)
    left, right = sides(headstock=ring, more={"beside": (-8.0, 12.0)})
    assert left.corners == ("bent.1", "bent.2", "bent.3", "bent.4")
    assert right.corners == ("bent.8", "bent.7", "bent.6")


@pytest.mark.parametrize("turn", range(8))
@pytest.mark.parametrize("back", [False, True])
def test_the_outline_may_begin_anywhere_and_run_either_way(turn: int, back: bool) -> None:
    names = [*BENT][turn:] + [*BENT][:turn]
    ring = head(outline=tuple(names[::-1] if back else names), slots=(tuple(SLOT),))
    assert [side.corners for side in sides(headstock=ring)] == [side.corners for side in sides()]


def test_posts_lie_along_the_unfolded_edge() -> None:
    left, right = sides()
    # derived: posts at -45, -80, -115. The left edge: 20 mm of shoulder, straight from -24 to -64, then
    # 7 mm inward in 116. The right edge from (-24, -37) to (-180, -30): 7 mm in 156
    taper, other = math.hypot(116, 7) / 116, math.hypot(156, 7) / 156
    wanted = [20 + 21.0, 20 + 40 + 16 * taper, 20 + 40 + 51 * taper]
    assert [bore.along[0] for bore in left.bores if bore] == pytest.approx(wanted, abs=1e-3)
    assert [bore.along[0] for bore in right.bores if bore] == pytest.approx(
        [20 + (x - 24) * other for x in (45, 80, 115)], abs=1e-3
    )


def test_an_axis_runs_square_to_the_middle_line_from_the_edge_to_the_slot() -> None:
    (left, _) = sides()
    bore = left.bores[1]
    assert bore is not None
    # derived: at -80 the edge lies 16/116 of 7 mm inward of 37; the slot's outer side at 28
    assert bore.axis[0] == pytest.approx((-80.0, 37 - 7 * 16 / 116), abs=1e-3)
    assert bore.axis[1] == pytest.approx((-80.0, 28.0), abs=1e-3)


def test_a_place_along_the_edge_is_as_sure_as_post_and_corner() -> None:
    # derived, each point known to 0.05 mm: the place is the shoulder's 20 mm and what is left to the post. bent.1 moves
    # it by 0.8 and 0.6 (along, across), bent.2 by 0.8 - 1 and 0.6, the post by 1 along. The axis stands square on the
    # nut's middle: the nut, 44 wide, turns it, which 15 mm on from the post to the edge is sqrt 2 * 15 / 44
    left, _ = sides()
    bore = left.bores[0]
    assert bore is not None
    wanted = 1.96 * 0.05 * math.sqrt(0.8**2 + 0.6**2 + 0.2**2 + 0.6**2 + 1 + 2 * (15 / 44) ** 2)
    assert bore.along[1] == pytest.approx(wanted, rel=0.02)


def test_points_named_along_an_edge_stand_for_its_corners() -> None:
    named = head(outline=tuple(BENT), edges=(("bent.4", "bent.2"), ()), slots=(tuple(SLOT),))
    left, right = sides(headstock=named)
    assert left.corners == ("bent.2", "bent.4")
    assert right.corners == ("bent.8", "bent.7", "bent.6")


def test_a_step_in_the_edge_that_runs_square_to_it_is_no_fault() -> None:
    stepped: dict[str, XY] = {
        "s.1": (-8.0, 25.0),
        "s.2": (-60.0, 25.0),
        "s.3": (-60.0, 35.0),
        "s.4": (-180.0, 35.0),
        "s.5": (-180.0, -35.0),
        "s.6": (-8.0, -35.0),
    }
    left, _ = sides(headstock=head(outline=tuple(stepped)), more=stepped)
    # derived: 52 along, 10 up the step, then from -60 on
    assert [bore.along[0] for bore in left.bores if bore] == pytest.approx([37.0, 62 + 20.0, 62 + 55.0], abs=1e-3)


def test_past_the_ends_of_the_edge_there_is_no_place() -> None:
    left, _ = sides(headstock=head(edges=(("bent.2", "bent.3"), ())))
    assert [bore is None for bore in left.bores] == [False, True, True]


def test_a_side_whose_edge_was_not_read_is_left_out() -> None:
    assert sides(headstock=head(outline=())) == ()
    assert [side.side for side in sides(headstock=head(outline=(), edges=(("bent.2", "bent.4"), ())))] == ["left"]


def test_a_solid_headstock_has_no_sides() -> None:
    assert sides(Tuners()) == ()


def test_old_holes_and_plate_screws_lie_in_the_sides() -> None:
    plated = Tuners(
        roller=10.0, keep="first post", left=(1, 1, 1), right=(1, 1, 1), plate=TunerPlate(screws=((-6.0, 4.0),))
    )
    whole = plan(laid_out(plated, head(outline=tuple(BENT)), more=BENT))
    assert (whole.plates, whole.screws) == ((), ())
    left, _ = whole.sides
    assert [bore.hole for bore in left.old] == ["post.1", "post.2", "post.3"]
    assert left.old[0].along[0] == pytest.approx(41.0, abs=1e-3)  # derived: as the first post, which is kept
    # derived: 6 mm nearer to the nut than each plate's first post, 4 mm below it
    firsts = [left.bores[at] for at in (0, 1, 2)]
    assert left.screws == tuple((bore.along[0] - 6.0, 4.0) for bore in firsts if bore)
    # one plate at the left, two at the right: each side has the screws of its own
    uneven = replace(plated, left=(3,), right=(2, 2))
    assert [len(_plate_screws(uneven, on, left.bores)) for on in SIDES] == [1, 2]


def test_old_holes_in_a_side_are_told_apart_by_their_places_along_it() -> None:
    """derived: the old ones stand 40 apart and 22 mm from the middle, the new rollers 16: the holes are the same"""
    moved = Tuners(roller=10.0, keep="first post", post=8.0, from_middle=16.0)
    found = plan(laid_out(moved, head()))
    assert [post.again for post in found.posts] == ["post.1", "", "", "post.4", "", ""]
    assert [plug.before for plug in found.plugs] == [("2",), (), ("5",), ()]
    # derived: the second at -80, old post 2 at -85, both of 8 mm
    wall = found.posts[1].wall
    assert wall is not None
    assert found.posts[1].nearest_old == "post.2"
    assert wall[0] == pytest.approx(5.0 - 8.0, abs=1e-3)
    assert {post.again for post in plan(laid_out(Tuners(keep="first post", post=8.0, from_middle=16.0))).posts} == {""}


@pytest.mark.parametrize(("aside", "left"), [(0.4, True), (-0.4, False), (22.0, True), (-22.0, False)])
def test_an_old_hole_close_to_the_middle_line_is_of_the_side_that_it_lies_on(aside: float, left: bool) -> None:
    middle = SimpleNamespace(middle=MiddleLine(np.zeros(1, dtype=complex), np.full(1, -1 + 0j)))
    for side, own in (("left", left), ("right", not left)):
        assert _beside(middle, SimpleNamespace(side=side), (-50.0, aside)) == own  # type: ignore[arg-type]  # what it asks


def mirrored(points: dict[str, XY]) -> dict[str, XY]:
    return {name: (x, -y) for name, (x, y) in points.items()}


def test_a_mirrored_headstock_has_mirrored_sides() -> None:
    left, right = sides()
    bent = head(outline=tuple(BENT), slots=(tuple(SLOT),), thickness=20.0)
    flipped = mirrored(BENT | SLOT | OLD)
    other_left, other_right = plan(laid_out(ROLLED, bent, hand="left", more=flipped)).sides
    for one, other in ((left, other_right), (right, other_left)):
        assert one.corners == other.corners
        places = [part for bore in one.bores if bore for part in (bore.along[0], bore.axis[0][1])]
        turned = [part for bore in other.bores if bore for part in (bore.along[0], -bore.axis[0][1])]
        assert turned == pytest.approx(places, abs=1e-3)


# how deep


@pytest.mark.parametrize(
    ("below", "thickness", "wanted"), [(None, None, None), (None, 19.0, 9.5), (8.0, 19.0, 8.0), (8.0, None, 8.0)]
)
def test_posts_lie_at_half_the_thickness_unless_it_is_typed(
    below: float | None, thickness: float | None, wanted: float | None
) -> None:
    tuners, bent = Tuners(roller=10.0, below=below), Headstock(thickness=thickness)
    assert depth_below(Job(hardware=Hardware(headstock=bent, tuners=tuners))) == wanted


@pytest.mark.parametrize(
    ("below", "thickness", "grade", "says"),
    [
        # derived: holes of 6 mm; 5 mm deep in 12 mm leave 2 and 4, 4.9 leave 1.9; 12 - 7.1 - 3 is 1.9
        (5.0, 12.0, None, ""),
        (4.9, 12.0, "look", "leave 1.9 mm of wood to the headstock’s face; 2.0 mm is usual"),
        (7.1, 12.0, "look", "leave 1.9 mm of wood to the headstock’s back; 2.0 mm is usual"),
        (3.0, None, "stop", "break through the headstock’s face"),
        (None, 6.0, "stop", "break through the headstock’s face"),
        (None, None, "look", "type its thickness, or their depth"),
    ],
)
def test_wood_over_and_under_the_posts(
    below: float | None, thickness: float | None, grade: str | None, says: str
) -> None:
    tuners = Tuners(roller=10.0, post=6.0, keep="first post", below=below)
    layout: Layout = laid_out(tuners, head(thickness=thickness))
    found = [one for one in layout.findings if one.code in ("posts.depth", "posts.breaks_out")]
    assert [one.grade for one in found] == ([grade] if grade else [])
    assert all(says in one.text for one in found)
    assert not {"posts.depth", "posts.breaks_out"} & {*codes(laid_out(Tuners(), head(thickness=thickness)))}


def test_a_depth_that_cannot_be_is_refused_in_a_sentence() -> None:
    with pytest.raises(NotAJob, match=r"lie 3 mm below the headstock’s face, but their holes are 8 mm wide"):
        Tuners(roller=10.0, post=8.0, below=3.0)
    thin = Headstock(thickness=14.0)
    Hardware(headstock=thin, tuners=Tuners(roller=10.0, post=8.0, below=10.0))
    with pytest.raises(NotAJob, match=r"would reach 14\.1 mm below the headstock’s face, but it is 14 mm thick"):
        Hardware(headstock=thin, tuners=Tuners(roller=10.0, post=8.0, below=10.1))


@pytest.mark.parametrize(("begins", "room"), [(-30.0, 1.0), (-42.0, -2.0), (-50.0, -10.0)])
def test_the_room_of_a_roller_is_what_its_slot_leaves_beside_it(begins: float, room: float) -> None:
    """derived: the slot is 12 mm wide about the posts' line, and a roller's half is 5; the first post at -45 stands in
    its middle, 3 mm from its end, or 5 before it
    """
    slot = {name: (begins if x == -30.0 else x, y) for name, (x, y) in SLOT.items()}
    bent = head(outline=tuple(BENT), slots=(tuple(SLOT),), thickness=20.0)
    posts = plan(laid_out(ROLLED, bent, more=BENT | slot)).posts
    first = next(post for post in posts if post.side == "left")
    assert first.slot is not None
    assert first.slot[0] == pytest.approx(room, abs=1e-3)


@pytest.mark.parametrize(("begins", "wood"), [(-50.0, 2.0), (-48.0, 0.0), (-42.0, -6.0)])
def test_the_wood_between_a_posts_hole_and_a_slot(begins: float, wood: float) -> None:
    """derived: the first post at -45 has a hole of 6 mm; it stands 5 or 3 mm before the slot, or 3 within it"""
    slot = {name: (begins if x == -30.0 else x, y) for name, (x, y) in SLOT.items()}
    bent = head(outline=tuple(BENT), slots=(tuple(SLOT),), thickness=20.0)
    drilled = replace(ROLLED, roller=None, bushing=None, post=6.0)
    posts = plan(laid_out(drilled, bent, more=BENT | slot)).posts
    first = next(post for post in posts if post.side == "left")
    assert first.slot is not None
    assert first.slot[0] == pytest.approx(wood, abs=1e-3)
