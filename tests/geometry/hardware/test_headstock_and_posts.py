"""The headstock and its new posts, on made-up points, against closed formulas and arithmetic done here."""

import math
from collections.abc import Callable

import pytest

from geometry.job import Hardware, Headstock, Job, NotAJob, OldPost, TunerPlate, Tuners
from geometry.layout import HeadstockPlan, Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, job, scales, six, surveyed

OUTLINE: dict[str, XY] = {
    "head.1": (-8.0, 24.0),
    "head.2": (-8.0, -24.0),
    "head.3": (-175.0, -36.0),
    "head.4": (-175.0, 36.0),
}
OLD: dict[str, XY] = {
    **{f"post.{n}": (-45.0 - 40.0 * (n - 1), 22.0) for n in (1, 2, 3)},
    **{f"post.{n}": (-45.0 - 40.0 * (n - 4), -22.0) for n in (4, 5, 6)},
}
"""Three old posts a side, 40 mm apart, square across."""


def head(**changes: object) -> Headstock:
    whole = {"outline": tuple(OUTLINE), "posts": {name: OldPost(diameter=8.0) for name in OLD}}
    return Headstock(**whole | changes)  # type: ignore[arg-type]  # a test gives the rest


def laid_out(
    tuners: Tuners, headstock: Headstock | None = None, hand: str = "right", more: dict[str, XY] | None = None
) -> Layout:
    points = BOARD | OUTLINE | OLD | (more or {})
    hardware = Hardware(headstock=headstock or head(), tuners=tuners)
    made = job(points, hand, strings=six(2.0, 2.0), hardware=hardware)
    return lay_out(made, surveyed(points, scales(640.0, 640.0), sd=0.05))


def plan(layout: Layout) -> HeadstockPlan:
    assert layout.hardware.headstock is not None
    return layout.hardware.headstock


def codes(layout: Layout) -> dict[str, str]:
    return {f.code: f.grade for f in layout.findings if f.code.split(".")[0] in ("post", "posts", "headstock", "slot")}


def xs(found: HeadstockPlan, side: str) -> list[float]:
    return [post.at[0] for post in found.posts if post.side == side]


@pytest.mark.parametrize(
    ("keep", "wanted"),
    [
        # derived: the old ones stand at 45, 85, 125; the new ones are 35 apart
        ("first post", [-45.0, -80.0, -115.0]),
        ("middle post", [-50.0, -85.0, -120.0]),
        ("most old holes", [-50.0, -85.0, -120.0]),
        ("least wood", [-50.0, -85.0, -120.0]),
    ],
)
def test_new_posts_are_fitted_to_what_is_to_be_kept(keep: str, wanted: list[float]) -> None:
    found = plan(laid_out(Tuners(keep=keep)))  # type: ignore[arg-type]  # one of four
    assert xs(found, "left") == pytest.approx(wanted, abs=1e-3)
    assert xs(found, "right") == pytest.approx(wanted, abs=1e-3)


def test_seventy_over_the_outer_posts_of_a_plate_of_three() -> None:
    """Common practice, no source: 35 mm from post to post."""
    at = xs(plan(laid_out(Tuners())), "left")
    assert at[0] - at[2] == pytest.approx(70.0, abs=1e-6)


def test_what_is_kept_is_used_again_and_the_others_are_plugged() -> None:
    found = plan(laid_out(Tuners(keep="middle post", post=8.0)))
    assert [post.again for post in found.posts] == ["", "post.2", "", "", "post.5", ""]
    assert [plug.hole for plug in found.plugs] == ["post.1", "post.3", "post.4", "post.6"]
    assert {plug.plug for plug in found.plugs} == {10.0}  # the next usual plug over 8.0 mm and 0.2 mm for a clean wall


def test_the_wall_to_an_old_hole_is_that_of_two_circles() -> None:
    # derived: middles 5 mm apart, less the radii of 8 and 6.35 mm
    found = plan(laid_out(Tuners(keep="middle post")))
    wall = found.posts[0].wall
    assert wall is not None
    assert wall[0] == pytest.approx(5.0 - 4.0 - 3.175, abs=1e-3)
    assert found.posts[0].nearest_old == "post.1"
    assert codes(laid_out(Tuners(keep="middle post")))["post.old_hole"] == "look"


def test_the_walls_width_is_that_of_what_moves() -> None:
    # derived: each point is known to 0.05 mm along: the row's middle post to 0.05 / sqrt 2 of its outer two, which here
    # are old post 1 itself and old post 3: gap = x1 - (x1 + x3)/2 + 35 = (x1 - x3)/2 + 35, so 0.05 / sqrt 2
    found = plan(laid_out(Tuners(keep="middle post")))
    wall = found.posts[0].wall
    assert wall is not None
    assert wall[1] == pytest.approx(1.96 * 0.05 / math.sqrt(2), rel=0.02)


def test_plugs_wait_in_the_right_order() -> None:
    found = plan(laid_out(Tuners(keep="middle post", post=8.0)))
    assert [plug.before for plug in found.plugs] == [("1",), ("3",), ("6",), ("4",)]


@pytest.mark.parametrize(("offset", "grade"), [(19.0, None), (21.0, "look"), (40.0, "stop")])
def test_wood_to_the_edge_is_measured_square_to_it(offset: float, grade: str | None) -> None:
    # derived: the edge runs from (-8, 24) to (-175, 36); its distance from (-45, y) is (24 + 37 * 12/167 - y) cos
    layout = laid_out(Tuners(keep="first post", from_middle=offset, post=6.0, left=(1,), right=()))
    (post,) = plan(layout).posts
    slope = 12 / 167
    wood = (24 + (-8 - post.at[0]) * slope - post.at[1]) / math.hypot(1, slope) - 3.0
    assert post.edge is not None
    if grade != "stop":
        assert post.edge[0] == pytest.approx(wood, abs=1e-3)
    assert codes(layout).get("post.edge") == (grade if wood < 4.0 else None)


def test_a_headstock_that_is_turned_takes_its_posts_with_it() -> None:
    # derived: a middle line through two points turned by atan(10/100) turns the rows that stand off it
    turned = head(middle="points", points=("mid.1", "mid.2"))
    tuners = Tuners(from_middle=20.0, left=(3,), right=(3,))
    layout = laid_out(tuners, turned, more={"mid.1": (-10.0, 0.0), "mid.2": (-110.0, 10.0)})
    row = [complex(*post.at) for post in plan(layout).posts if post.side == "left"]
    way = (row[2] - row[0]) / abs(row[2] - row[0])
    assert math.degrees(math.atan2(way.imag, -way.real)) == pytest.approx(math.degrees(math.atan(0.1)), abs=0.05)
    assert plan(layout).askew is not None


def test_an_old_hole_wider_than_the_new_one_is_plugged_first() -> None:
    """derived: old holes of 11 mm and new ones of 8.7 mm on the same six places: six plugs, each before its post"""
    wide = head(posts={name: OldPost(diameter=11.0) for name in OLD})
    layout = laid_out(Tuners(spacing=40.0, bushing=8.7, keep="first post"), wide)
    found = plan(layout)
    assert [post.again for post in found.posts] == [""] * 6
    assert [plug.before for plug in found.plugs] == [("1",), ("2",), ("3",), ("6",), ("5",), ("4",)]
    assert "posts.clear" not in codes(layout)
    assert codes(layout)["post.old_hole"] == "look"


@pytest.mark.parametrize("near", [-10.0, -60.0])
def test_the_first_post_is_counted_from_the_nut(near: float) -> None:
    """common practice, no source: 30 mm from the nut, wherever the middle line's own points lie"""
    points: dict[str, XY] = {"mid.1": (near, 0.0), "mid.2": (-170.0, 0.0)}
    none_old = head(middle="points", points=tuple(points), posts={})
    assert xs(plan(laid_out(Tuners(from_middle=22.0), none_old, more=points)), "left")[0] == pytest.approx(-30.0)
    edges: dict[str, XY] = {"e.1": (near, 26.0), "e.2": (-170.0, 36.0), "e.3": (near, -26.0), "e.4": (-170.0, -36.0)}
    halved = head(middle="edges", edges=(("e.1", "e.2"), ("e.3", "e.4")), posts={})
    assert xs(plan(laid_out(Tuners(from_middle=22.0), halved, more=edges)), "left")[0] == pytest.approx(-30.0)


def test_middle_of_the_edges_halves_them() -> None:
    halved = head(middle="edges", edges=(("head.1", "head.4"), ("head.2", "head.3")))
    line = plan(laid_out(Tuners(), halved)).middle
    assert line.direction[1] == pytest.approx(0.0, abs=1e-6)
    assert line.at[1] + line.direction[1] * 0 == pytest.approx(0.0, abs=1e-6)


def test_posts_square_across_are_said_when_they_are_not() -> None:
    # derived: the right row 3 mm farther along than the left over 44 mm across: 3.9 degrees
    moved = {f"post.{n}": (OLD[f"post.{n}"][0] - 3.0, -22.0) for n in (4, 5, 6)}
    layout = laid_out(Tuners(keep="first post"), more=moved)
    assert plan(layout).askew == pytest.approx(math.degrees(math.atan(3 / 44)), abs=0.05)
    assert codes(layout)["posts.askew"] == "look"
    assert "posts.askew" not in codes(laid_out(Tuners(keep="first post")))


def test_each_string_goes_to_the_nearest_post_on_its_side() -> None:
    found = plan(laid_out(Tuners()))
    left = [post.string for post in found.posts if post.side == "left"]
    right = [post.string for post in found.posts if post.side == "right"]
    assert (left, right) == (["1", "2", "3"], ["6", "5", "4"])
    mirrored = plan(laid_out(Tuners(), hand="left"))
    assert [post.string for post in mirrored.posts if post.side == "left"] == ["6", "5", "4"]


def test_posts_that_no_string_is_left_for_are_made_all_the_same() -> None:
    """Eight posts for six strings: the last on each side has none, and no way of one is told there."""
    posts = plan(laid_out(Tuners(left=(4,), right=(4,), keep="first post"))).posts
    assert [sum(post.side == side for post in posts) for side in ("left", "right")] == [4, 4]
    assert [(post.turns, post.clear) for post in posts if not post.string] == [(None, None)] * 2
    assert sorted(post.string for post in posts) == ["", "", "1", "2", "3", "4", "5", "6"]


def test_the_way_to_the_post_turns_by_the_angle_at_the_nut() -> None:
    # derived: string 1 leaves the nut at (0, 19) and comes from (about 642, 28); its post stands at (-50, 22)
    post = plan(laid_out(Tuners())).posts[0]
    straight = math.atan2(19 - 28, -642)
    bent = math.atan2(post.at[1] - 19, post.at[0])
    assert post.turns is not None
    assert abs(post.turns) == pytest.approx(abs(math.degrees(math.remainder(bent - straight, math.tau))), abs=0.1)


def test_a_string_that_runs_into_another_post_is_said() -> None:
    # derived: three posts in line with the outer string's own way to the farthest are all in its way
    in_line = head(posts={})
    crowded = Tuners(from_middle=19.0, left=(3,), right=(), spacing=20.0, post=12.0)
    assert codes(laid_out(crowded, in_line)).get("post.in_the_way") == "look"


def test_a_slot_narrower_than_its_roller_stops_the_work() -> None:
    slot = {"slot.1": (-30.0, 15.0), "slot.2": (-140.0, 15.0), "slot.3": (-140.0, 6.0), "slot.4": (-30.0, 6.0)}
    slotted = head(slots=(("slot.1", "slot.2", "slot.3", "slot.4"),))
    assert codes(laid_out(Tuners(roller=10.0), slotted, more=slot))["headstock.slot_narrow"] == "stop"
    assert "headstock.slot_narrow" not in codes(laid_out(Tuners(roller=8.5), slotted, more=slot))


def test_a_hole_that_runs_into_a_slot_stops_the_work() -> None:
    slot = {"slot.1": (-30.0, 20.0), "slot.2": (-140.0, 20.0), "slot.3": (-140.0, 6.0), "slot.4": (-30.0, 6.0)}
    slotted = head(slots=(("slot.1", "slot.2", "slot.3", "slot.4"),))
    layout = laid_out(Tuners(keep="first post"), slotted, more=slot)
    post = plan(layout).posts[0]
    assert post.slot is not None
    assert post.slot[0] == pytest.approx(2.0 - 3.175, abs=1e-3)
    assert codes(layout)["post.slot"] == "stop"


def test_a_plate_reaches_past_its_posts_and_carries_its_screws() -> None:
    plate = TunerPlate(past=9.0, wide=14.0, inner=5.0, screws=((-6.0, 0.0), (76.0, 0.0)))
    found = plan(laid_out(Tuners(keep="first post", plate=plate, right=())))
    (ring,) = found.plates
    assert [x for x, _ in ring] == pytest.approx([-36.0, -124.0, -124.0, -36.0], abs=1e-3)
    assert sorted({round(y, 3) for _, y in ring}) == [17.0, 31.0]  # inward of the posts by 5, outward by 9
    assert [x for x, _ in found.screws] == pytest.approx([-39.0, -121.0], abs=1e-3)


def test_a_mirrored_headstock_mirrors() -> None:
    tuners = Tuners(keep="middle post", plate=TunerPlate(screws=((-6.0, 0.0),)))
    one, other = plan(laid_out(tuners)), plan(laid_out(tuners, hand="left"))
    left = {post.string: post.at for post in one.posts}
    for post in other.posts:
        x, y = left[post.string]
        assert post.at == pytest.approx((x, -y), abs=1e-3)
    assert len(one.plates) == len(other.plates)


def test_nothing_is_placed_before_there_is_something_to_place_it_from() -> None:
    layout = laid_out(Tuners(), head(posts={}))
    assert plan(layout).posts == ()
    assert codes(layout) == {"posts.unplaced": "look"}
    two: dict[str, XY] = {"no.1": (0.0, 0.0), "no.2": (-9.0, 0.0)}
    assert plan(laid_out(Tuners(), Headstock(middle="points", points=tuple(two)), more=two)).posts == ()
    begun = job(BOARD, hardware=Hardware(tuners=Tuners()))
    assert codes(lay_out(begun, surveyed(BOARD, scales(640.0, 640.0)))) == {"headstock.missing": "look"}


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Tuners(left=(0,)), "has no post; give it one at least"),
        (lambda: Tuners(left=(13,)), "posts, and none has more than 12"),
        (lambda: Tuners(bushing=6.0, post=8.0), "is narrower than the post’s"),
        (lambda: Tuners(spacing=8.0, post=8.0), "would run into each other"),
        (lambda: Headstock(middle="points", points=("a",)), "does not name two"),
        (lambda: Headstock(middle="edges"), "has no two points"),
        (lambda: Headstock(slots=(("a", "b"),)), "needs three points or more"),
        (lambda: Job(hardware=Hardware(headstock=Headstock(outline=("a", "b", "c")))), "not among the job’s points"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(make: Callable[[], object], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        make()


def test_holes_overlap_by_no_more_than_the_narrower_is_wide() -> None:
    """derived: a bushing of 8.7 mm right over a hole of 6 mm takes all of its 6 mm, not 7.35; beside it, 5 mm"""
    ticked = head(posts={name: OldPost(diameter=6.0, worn=True) for name in OLD})
    found = plan(laid_out(Tuners(spacing=40.0, bushing=8.7, keep="first post"), ticked))
    assert [post.again for post in found.posts] == [""] * 6
    assert [post.wall[0] for post in found.posts if post.wall] == pytest.approx([-6.0] * 6)
    beside = plan(laid_out(Tuners(spacing=42.35, bushing=8.7, keep="first post"), ticked)).posts[1]
    assert beside.wall is not None
    assert beside.wall[0] == pytest.approx(2.35 - 7.35, abs=1e-3)


def test_how_far_a_string_passes_another_post() -> None:
    """derived: by the distance of a point from a line, less the radii of post and string"""
    found = plan(laid_out(Tuners(from_middle=20.0, keep="first post", bushing=8.7)))
    layout = laid_out(Tuners(from_middle=20.0, keep="first post", bushing=8.7))
    strings = {string.name: string for string in layout.strings}
    for post in found.posts:
        nut, at = complex(*strings[post.string].nut_xy), complex(*post.at)
        off = {}
        for other in found.posts:
            if other.string != post.string:
                share = min(max(((complex(*other.at) - nut) / (at - nut)).real, 0.0), 1.0)
                off[other.string] = abs(complex(*other.at) - nut - share * (at - nut))
        nearest = min(off, key=lambda name: off[name])
        thick = strings[post.string].diameter or 0.0
        assert post.passes == nearest
        assert post.clear == pytest.approx(off[nearest] - 6.35 / 2 - thick / 2)
