"""A tie block: where its holes lie, how steeply the strings break to them, and the wood round them."""

import math
from itertools import pairwise

import pytest
from msgspec.structs import replace

from geometry.bridge.tied_told import LEAST
from geometry.job import Board, Job, TieBlock
from geometry.layout import Layout, TiePlan
from geometry.saddle.heights.break_angle import SD_BEHIND
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed
from tests.in_one import in_one

HEIGHTS = {"height.bridge.left": 12.0, "height.bridge.right": 13.0}


def tied(tie: TieBlock, heights: dict[str, float] | None = None, hand: str = "right", **more: object) -> Layout:
    """A straight bridge 40 mm wide with a tie block, on an instrument that is known."""
    wood = bridge(outline="straight", length=180.0, width=40.0, pins=None, tie=tie, **more)
    asked: Job = job(hand=hand, strings=six(bass=4.0, treble=2.0), bridge=wood)
    return lay_out(asked, surveyed(BOARD, scales(640.0, 640.0) | (heights or {})))


def block(layout: Layout) -> TiePlan:
    assert layout.bridge is not None
    assert layout.bridge.tie is not None
    return layout.bridge.tie


def codes(layout: Layout) -> dict[str, str]:
    return {finding.code: finding.grade for finding in layout.findings if finding.code.startswith("tie")}


def test_its_face_lies_behind_the_slot() -> None:
    layout = tied(TieBlock(behind_slot=7.0, depth=9.0))
    assert layout.saddle is not None
    assert layout.bridge is not None
    plan = block(layout)
    back = [(a + b) / 2 for a, b in zip(layout.saddle.slot[2], layout.saddle.slot[3], strict=True)]
    # derived: the bridge sits square to the neck, so that its own x is the neck's, from its front edge
    assert plan.front_x == pytest.approx(back[0] + 7.0 - layout.bridge.corners[0][0])
    assert plan.back_x == pytest.approx(plan.front_x + 9.0)


def test_each_hole_lies_on_its_strings_path_at_both_faces() -> None:
    layout = tied(TieBlock())
    for hole, string in zip(block(layout).holes, layout.strings, strict=True):
        start, end = complex(*string.nut_xy), complex(*string.break_point)
        way = (end - start) / abs(end - start)
        for at in (hole.front, hole.back):
            assert ((complex(*at) - start) * way.conjugate()).imag == pytest.approx(0.0, abs=1e-9)
        assert string.end == hole.front


@pytest.mark.parametrize(("hand", "toward"), [("right", -1.0), ("left", 1.0)])
def test_the_second_hole_lies_toward_the_bass_and_lower(hand: str, toward: float) -> None:
    """The bass of a right-handed instrument is the right, −y."""
    plan = block(tied(TieBlock(holes=2, spacing=4.0, below=1.5, hole=5.0), hand=hand))
    first, second = plan.holes[:2]
    assert (first.leaves, second.leaves) == (True, False)
    assert second.front == pytest.approx((first.front[0], first.front[1] + 4.0 * toward))
    assert (first.up, second.up) == (5.0, 3.5)


def test_the_second_hole_runs_beside_the_first() -> None:
    holes = block(tied(TieBlock(holes=2, spacing=4.0, below=1.5, hole=5.0))).holes
    assert len(holes) == 12
    for first, second in zip(holes[::2], holes[1::2], strict=True):
        # derived: the block is square to the neck, so that it is 4 mm to the bass, −y, at both faces
        for face in ("front", "back"):
            off = complex(*getattr(second, face)) - complex(*getattr(first, face))
            assert (off.real, off.imag) == pytest.approx((0.0, -4.0), abs=1e-9)


def test_a_string_breaks_from_its_height_at_the_saddle_down_to_its_hole() -> None:
    """Against the closed form: the angle whose tangent is the drop over the way, at the outer strings; between them the
    height is in proportion.
    """
    layout = tied(TieBlock(hole=4.5), HEIGHTS)
    plan = block(layout)
    for string, hole in zip(layout.strings, plan.holes, strict=True):
        left, right = layout.strings[0].break_point[1], layout.strings[-1].break_point[1]
        share = (string.break_point[1] - right) / (left - right)
        drop = 13.0 + share * (12.0 - 13.0) - 4.5
        way = math.dist(string.break_point, hole.front)
        assert plan.breaks[string.name].degrees == pytest.approx(math.degrees(math.atan(drop / way)))


def test_its_uncertainty_follows_from_the_heights_and_from_where_it_enters() -> None:
    """Against differences: a height known to 0.1 (the extras' own) and the way to `SD_BEHIND`."""
    layout = tied(TieBlock(hole=4.5), HEIGHTS)
    string, hole = layout.strings[0], block(layout).holes[0]
    drop, way = 12.0 - 4.5, math.dist(string.break_point, hole.front)

    def degrees(d: float, w: float) -> float:
        return math.degrees(math.atan(d / w))

    by_drop = (degrees(drop + 0.01, way) - degrees(drop - 0.01, way)) / 0.02
    by_way = (degrees(drop, way + 0.01) - degrees(drop, way - 0.01)) / 0.02
    wide = 1.96 * math.hypot(0.1 * by_drop, SD_BEHIND * by_way)
    assert block(layout).breaks["1"].pm95 == pytest.approx(wide, rel=2e-3)


def test_without_heights_no_angle_is_told() -> None:
    assert block(tied(TieBlock())).breaks == {}
    assert "tie.breaks" not in codes(tied(TieBlock()))


def test_too_shallow_and_too_steep() -> None:
    low = {"height.bridge.left": 5.5, "height.bridge.right": 5.5}
    assert codes(tied(TieBlock(behind_slot=9.0), low))["tie.shallow"] == "look"
    high = {"height.bridge.left": 19.0, "height.bridge.right": 19.0}
    assert codes(tied(TieBlock(behind_slot=4.0), high))["tie.steep"] == "look"


def test_the_wood_that_is_left() -> None:
    tie = TieBlock(behind_slot=6.0, depth=8.0, height=9.0, hole=4.0, diameter=2.0, length=80.0)
    layout = tied(tie)
    plan, wood = block(layout), block(layout).wood
    # derived: from the holes' middles at 4 in a block 9 high, a radius of 1
    assert (wood["top"], wood["bottom"]) == pytest.approx((4.0, 3.0))
    across = [hole.across for hole in plan.holes]
    assert wood["ends"] == pytest.approx(40.0 - (max(across) - min(across)) / 2 - 1.0, abs=0.05)
    fronts = sorted(hole.front[1] for hole in plan.holes)
    assert wood["neighbours"] == pytest.approx(min(b - a for a, b in pairwise(fronts)) - 2.0)
    assert wood["behind"] == pytest.approx(40.0 - plan.back_x)
    assert set(wood) == set(LEAST) - {"holes"}


@in_one(
    ("fields", "code", "grade"),
    [
        ({"diameter": 5.0, "holes": 2, "spacing": 5.0}, "tie.holes", "stop"),
        ({"diameter": 3.0, "holes": 2, "spacing": 4.0}, "tie.holes", "look"),
        ({"diameter": 3.0, "holes": 2, "spacing": 9.0}, "tie.neighbours", "stop"),
        ({"hole": 7.0, "diameter": 1.0}, "tie.top", "look"),
        ({"hole": 7.5, "diameter": 3.0}, "tie.top", "stop"),
        ({"hole": 1.5, "diameter": 1.8}, "tie.bottom", "look"),
        ({"length": 62.0}, "tie.ends", "look"),
        ({"behind_slot": 3.0}, "tie.slot", "look"),  # the slot leans by 1.4 to its ends
        ({"behind_slot": 1.0}, "tie.slot", "stop"),
        ({"behind_slot": 15.0, "depth": 15.0}, "tie.behind", "stop"),
        ({"length": 200.0}, "tie.long", "stop"),
    ],
)
def test_thin_wood_is_spoken_of(fields: dict[str, object], code: str, grade: str) -> None:
    found = codes(tied(replace(TieBlock(), **fields)))
    assert found.get(code) == grade


def test_the_pair_of_holes_that_is_nearest_has_its_own_mend() -> None:
    # derived: strings 11.2 apart; a second hole 12 beside its own lies 0.8 from the neighbour's first, and runs into it
    far = tied(TieBlock(behind_slot=6.0, holes=2, spacing=12.0))
    text = next(f.text for f in far.findings if f.code == "tie.neighbours")
    assert text.endswith("Set the two holes of a string nearer together, or make the holes smaller.")
    assert "tie.holes" not in codes(far)
    near = tied(TieBlock(behind_slot=6.0, holes=2, spacing=2.0))
    text = next(f.text for f in near.findings if f.code == "tie.holes")
    assert text.endswith("Set the two holes of a string farther apart, or make the holes smaller.")
    assert "tie.neighbours" not in codes(near)


def test_wood_higher_than_the_holes_is_to_be_ramped() -> None:
    layout = tied(TieBlock(behind_slot=6.0, hole=4.0), HEIGHTS, thickness=8.0)
    found = next(f for f in layout.findings if f.code == "tie.ramp")
    # derived: a straight line from the peak down to 4, met 4 higher; the flattest of the strings comes down first
    reaches = [
        math.dist(string.break_point, hole.front) * 4.0 / (13.0 - share - 4.0)
        for string, hole in zip(layout.strings, block(layout).holes, strict=True)
        for left, right in [(layout.strings[0].break_point[1], layout.strings[-1].break_point[1])]
        for share in [(string.break_point[1] - right) / (left - right)]
    ]
    assert found.values["reach"] == pytest.approx(max(reaches))
    assert found.grade == "good"
    assert "ramp the wood down to the holes, beginning " in found.text
    assert "tie.ramp" not in codes(tied(TieBlock(behind_slot=6.0, hole=4.0), HEIGHTS, thickness=4.0))


def test_a_string_that_would_touch_the_slots_own_edge_is_looked_at() -> None:
    # derived: 0.8 over the wood at the peak and 4 more to the hole: it is down on the wood 0.17 of the way on, over the
    # slot
    low = {"height.bridge.left": 8.8, "height.bridge.right": 8.8}
    layout = tied(TieBlock(behind_slot=6.0, hole=4.0), low, thickness=8.0)
    found = next(f for f in layout.findings if f.code == "tie.ramp")
    assert found.grade == "look"
    assert "ramp the wood down to the holes from the slot on, or" in found.text


def test_a_usual_block_says_nothing_of_wood() -> None:
    assert codes(tied(TieBlock(behind_slot=6.0))) == {}


def test_its_words_speak_of_no_other_bridge() -> None:
    layout = tied(TieBlock(holes=2, diameter=3.5), HEIGHTS)
    for finding in layout.findings:
        assert "pin" not in finding.text.split()
        assert "pins" not in finding.text


def test_the_saddles_blank_has_the_same_breaks() -> None:
    """By vectors: the pull before the saddle and that behind it, down to the hole, add up to what it presses with."""
    wood = bridge(outline="straight", length=180.0, width=40.0, pins=None, tie=TieBlock(hole=4.5), thickness=8.0)
    limp = six(bass=4.0, treble=2.0)
    made = replace(limp, list=tuple(replace(one, pitch="E3", diameter=0.4) for one in limp.list))
    layout = lay_out(job(strings=made, bridge=wood), surveyed(BOARD, scales(640.0, 640.0) | HEIGHTS))
    assert layout.saddle_blank is not None
    for one, string in zip(layout.saddle_blank.strings, layout.strings, strict=True):
        over = block(layout).breaks[one.string]
        assert one.degrees == (over.degrees, over.pm95)
        turn = math.radians(over.degrees)
        assert string.tension_n is not None
        pulls = (string.tension_n * (math.cos(turn) - 1), -string.tension_n * math.sin(turn))
        assert one.press == pytest.approx(math.hypot(*pulls))


def test_over_a_round_board_the_inner_strings_break_from_the_crown() -> None:
    """derived: the drop of an inner string is greater by what a circle of 254 mm stands over its chord there."""
    wood = bridge(outline="straight", length=180.0, width=40.0, pins=None, tie=TieBlock(hole=4.5), thickness=8.0)
    asked = job(strings=six(bass=4.0, treble=2.0), bridge=wood, board=Board(radius=254.0))
    layout = lay_out(asked, surveyed(BOARD, scales(640.0, 640.0) | HEIGHTS))
    assert layout.saddle_blank is not None
    left, right = layout.strings[0].break_point[1], layout.strings[-1].break_point[1]
    middle, half = (left + right) / 2, (left - right) / 2
    for string, hole, one in zip(layout.strings, block(layout).holes, layout.saddle_blank.strings, strict=True):
        off = string.break_point[1] - middle
        circle = math.sqrt(254.0**2 - off**2) - math.sqrt(254.0**2 - half**2)
        drop = 12.5 - 0.5 * off / half + circle - 4.5
        way = math.dist(string.break_point, hole.front)
        assert block(layout).breaks[string.name].degrees == pytest.approx(math.degrees(math.atan(drop / way)))
        assert one.over_top[0] == pytest.approx(drop + 4.5, abs=0.01)


@pytest.mark.parametrize(("out", "said"), [(0.04, False), (0.06, True), (0.5, True)])
def test_from_where_on_a_block_stands_out(out: float, said: bool) -> None:
    """Half a tenth of a mm (no rule shows it), behind the bridge of 40 mm and past its end of 180 mm."""
    there = tied(TieBlock(behind_slot=7.0, depth=9.0))
    behind = 40.0 - block(there).back_x
    deeper = codes(tied(TieBlock(behind_slot=7.0, depth=9.0 + behind + out)))
    assert ("tie.behind" in deeper) == said
    wide = block(tied(TieBlock(length=160.0)))
    past = 90.0 - max(wide.left, -wide.right)
    assert ("tie.long" in codes(tied(TieBlock(length=160.0 + 2 * (past + out))))) == said
