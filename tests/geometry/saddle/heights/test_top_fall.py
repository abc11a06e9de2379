"""The top's fall from the board's plane, and what it does to the check distances."""

import math

import pytest

from geometry.findings import Finding
from geometry.job.sides import SIDES
from geometry.layout import Check, Layout
from geometry.saddle.heights.top_fall import TILT, Fall
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed

ACTION = {
    "height.fret 1.left": 0.5,
    "height.fret 1.right": 0.5,
    "height.fret 12.left": 2.0,
    "height.fret 12.right": 2.0,
}
"""Derived: 0.5 at fret 1 (0.0561 of the scale) and 2.0 at fret 12 (0.5) make 3.69 at the saddle."""


def laid_out(heights: dict[str, float], hand: str = "right") -> Layout:
    made = job(BOARD, hand, strings=six(bass=4.0, treble=4.0), bridge=bridge())
    return lay_out(
        made, surveyed(BOARD, scales(640.0, 640.0) | {f"height.{k}": v for k, v in heights.items()} | ACTION)
    )


def both(board: float, over_top: float) -> dict[str, float]:
    return {f"board end.{s}": board for s in ("left", "right")} | {f"bridge.{s}": over_top for s in ("left", "right")}


def checks(layout: Layout) -> dict[str, Check]:
    return {check.code: check for check in layout.checks}


def told(layout: Layout) -> Finding | None:
    return next((finding for finding in layout.findings if finding.code == "top.fall"), None)


def test_the_fall_is_what_the_board_s_plane_stands_higher_over_the_top_at_the_saddle() -> None:
    # derived: 14.69 of string over the top, less 3.69 over the frets, less 1.0 of fret leaves the board's plane 10.0
    # over the top at the saddle, and 6.0 at its end: 4.0 in the 203.9 between
    found = told(laid_out(both(6.0, 14.69)))
    assert found is not None
    assert found.grade == "good"
    assert found.values["mm"] == pytest.approx(4.0, abs=0.01)
    assert found.values["degrees"] == pytest.approx(math.degrees(math.atan(4.0 / 203.9)), abs=0.01)
    assert "falls away from the board’s plane by 1.1°: 4.0 mm" in found.text


@pytest.mark.parametrize(
    ("over_top", "says"),
    [
        # derived: 10.69 over the top less 4.69 is 6.0, as high as at the board's end; 0.5 in 203.9 are 0.14 degrees
        (10.69, "the top lies as the board’s plane does, to 0.0 mm between the board’s end and the saddle."),
        (10.19, "the top rises toward the board’s plane by 0.1°: 0.5 mm between the board’s end and the saddle."),
    ],
)
def test_a_top_that_does_not_fall_is_not_said_to(over_top: float, says: str) -> None:
    found = told(laid_out(both(6.0, over_top)))
    assert found is not None
    assert says in found.text
    assert found.grade == "good"


def test_distances_from_the_board_s_end_are_longer_by_it_and_no_others() -> None:
    plain, sloped = checks(laid_out({})), checks(laid_out(both(6.0, 14.69)))
    stretch = math.hypot(1, 4.0 / 203.9)
    assert sloped["end.bridge.bass"].distance == pytest.approx(plain["end.bridge.bass"].distance * stretch, abs=1e-4)
    assert sloped["end.corner.bass"].distance == pytest.approx(plain["end.corner.bass"].distance * stretch, abs=1e-4)
    for code in ("fret12.bridge.bass", "nut.corner.treble"):
        assert sloped[code].distance == pytest.approx(plain[code].distance, abs=1e-9)


def test_knowing_the_fall_narrows_what_the_rule_reads() -> None:
    # derived: 1.5 degrees either way are 0.0684 over 199.5, and 0.077 as a 95 % half-width (rectangular)
    plain, level = checks(laid_out({})), checks(laid_out(both(6.0, 10.69)))
    unknown = 1.96 * plain["end.bridge.bass"].distance * (1 / math.cos(TILT) - 1) / math.sqrt(3)
    assert plain["end.bridge.bass"].pm95 ** 2 - level["end.bridge.bass"].pm95 ** 2 == pytest.approx(
        unknown**2, rel=0.01
    )
    assert plain["fret12.bridge.bass"].pm95 == level["fret12.bridge.bass"].pm95


def test_a_straightedge_on_the_frets_tells_the_fall_without_any_string() -> None:
    # derived: 11.0 under the straightedge less 1.0 of fret is the board's plane 10.0 over the top at the saddle
    made = job(BOARD, "right", strings=six(bass=4.0, treble=4.0), bridge=bridge())
    gaps = {
        f"height.{place}.{side}": value for place, value in (("board end", 6.0), ("saddle", 11.0)) for side in SIDES
    }
    found = told(lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | gaps)))
    assert found is not None
    assert found.values["mm"] == pytest.approx(4.0, abs=0.01)


def test_one_side_stands_for_both() -> None:
    found = told(laid_out({"board end.left": 6.0, "bridge.right": 14.69}))
    assert found is not None
    assert found.values["mm"] == pytest.approx(4.0, abs=0.01)


@pytest.mark.parametrize("lacking", ["board end", "bridge"])
def test_one_height_alone_tells_nothing(lacking: str) -> None:
    heights = {name: value for name, value in both(6.0, 14.69).items() if not name.startswith(lacking)}
    assert told(laid_out(heights)) is None


def test_each_side_has_its_own_for_both_hands() -> None:
    sides = {"board end.left": 6.0, "board end.right": 6.0, "bridge.left": 14.69, "bridge.right": 12.69}
    for hand, steep in (("right", "treble"), ("left", "bass")):
        found = checks(laid_out(sides, hand))
        other = "bass" if steep == "treble" else "treble"
        assert found[f"end.bridge.{steep}"].distance > found[f"end.bridge.{other}"].distance + 0.02


def test_a_top_that_leans_much_is_looked_at() -> None:
    found = told(laid_out(both(6.0, 30.0)))
    assert found is not None
    assert found.grade == "look"
    assert "neck angle" in found.text


@pytest.mark.parametrize(("board", "over_top"), [(60.0, 14.69), (6.0, 146.9)], ids=["board end", "bridge"])
def test_a_height_ten_times_too_large_stops_the_work(board: float, over_top: float) -> None:
    found = told(laid_out(both(board, over_top)))
    assert found is not None
    assert found.grade == "stop"
    assert "No top slopes that steeply: read the heights at the board’s end and at the bridge again" in found.text


def test_a_top_that_rises_says_so() -> None:
    found = told(laid_out(both(6.0, 9.0)))
    assert found is not None
    assert "rises toward the board’s plane" in found.text


def test_a_slope_stretches_by_its_hypotenuse() -> None:
    # derived: 3-4-5
    reads, sd = Fall(slope=(0.75, 0.0), sd=0.1, known=True).along_top(40.0, 0)
    assert (reads, sd) == pytest.approx((50.0, 40.0 * 0.6 * 0.1))
    assert Fall(slope=(0.75, 0.75), known=True).along_top(40.0) == pytest.approx((50.0, 0.0))


def uneven(layout: Layout) -> list[Finding]:
    return [finding for finding in layout.findings if finding.code == "top.uneven"]


@pytest.mark.parametrize(("more", "says"), [(1.95, False), (2.05, True), (-1.95, False), (-2.05, True)])
@pytest.mark.parametrize("where", ["bridge.left", "board end.left"])
def test_a_top_that_falls_at_one_side_more_than_at_the_other(where: str, more: float, says: bool) -> None:
    heights = both(6.0, 14.69)
    found = uneven(laid_out(heights | {where: heights[where] + more}))
    assert [one.grade for one in found] == ["look"] * says
    # derived: what stands higher at the board's end falls less
    for one in found:
        assert abs(one.values["mm"]) == pytest.approx(abs(more), abs=0.01)
        assert (one.values["mm"] > 0) == ((more > 0) == where.startswith("bridge"))


def test_a_slip_over_fret_12_shows_in_it() -> None:
    # derived: from 0.5 over fret 1, 1.2 mm less over fret 12 are 2.55 less over the saddle (0.9439 / 0.4439 times), so
    # that the top seems to fall by so much more there
    heights = {f"height.{k}": v for k, v in both(6.0, 14.69).items()} | ACTION
    made = job(BOARD, strings=six(bass=4.0, treble=4.0), bridge=bridge())
    slipped = heights | {"height.fret 12.left": 0.8}
    assert not uneven(lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | heights)))
    (found,) = uneven(lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | slipped)))
    assert found.values["mm"] == pytest.approx(1.2 * 0.9439 / 0.4439, abs=0.02)
    side = made.bass_or_treble("left")
    assert f"falls 6.6 mm at the {side} and falls 4.0 mm at the " in found.text


def test_a_slip_so_large_that_no_top_falls_so_is_told_once() -> None:
    # derived: 40 in the 203.9 mm are over 10 degrees
    layout = laid_out(both(6.0, 14.69) | {"bridge.left": 54.69})
    stop = told(layout)
    assert stop is not None
    assert stop.grade == "stop"
    assert not uneven(layout)
