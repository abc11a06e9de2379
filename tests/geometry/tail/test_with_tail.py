"""The tail of a job: its true middle, how far it hangs off, what the strings do, what is said of it."""

import math

import pytest
from msgspec.structs import replace

from geometry.job import Bridge, Pins, Point, String, Tail
from geometry.layout import Layout, TailPlan
from geometry.tail import tail_told
from geometry.units import Length
from tests.geometry.floating.floating_made import FEET, SET, TAIL, laid, standing_job, told
from tests.geometry.made import BOARD, XY

BODY = {
    "body.1": (500.0, 130.0),
    "body.2": (700.0, 120.0),
    "body.3": (760.0, 30.0),
    "body.4": (764.0, -10.0),
    "body.5": (700.0, -125.0),
    "body.6": (500.0, -130.0),
}


def plan_of(layout: Layout) -> TailPlan:
    assert layout.tail is not None
    return layout.tail


def hung(across: float, **tail: object) -> Layout:
    """The job with its tail's middle so far to the left of where it must be."""
    given = {"spread": 36.0, "under": 9.0} | tail
    job = standing_job(tail=Tail(**given))  # type: ignore[arg-type]
    true = plan_of(laid(job)).middle[1]
    points = {"tail.left": (740.0, true + across + 18.0), "tail.right": (740.0, true + across - 18.0)}
    return laid(job, BOARD | FEET | points)


@pytest.mark.parametrize("across", [4.0, -4.0])
def test_a_tail_that_hangs_off_pulls_the_bridge_that_way(across: float) -> None:
    """derived: of small angles, the whole pull times the way off over the way behind, within a hundredth or two"""
    layout = hung(across)
    plan = plan_of(layout)
    assert plan.off == pytest.approx(across, abs=1e-6)
    pull = sum(string.tension_n or 0.0 for string in layout.strings)
    behind = 740.0 - sum(string.break_point[0] for string in layout.strings) / 5
    assert plan.push == pytest.approx(pull * across / behind, rel=0.02)
    side = "treble" if across > 0 else "bass"
    text = told(layout)["tail.off"]
    assert f"to the {side} of where the strings run true" in text
    assert f"pulls the bridge to the {side} side" in text


def test_a_tail_in_its_place_pushes_nothing() -> None:
    layout = hung(0.0)
    assert plan_of(layout).push == pytest.approx(0.0, abs=1e-6)
    assert "tail.true" in told(layout)
    assert "tail.off" not in told(layout)


def test_without_every_pull_the_outer_strings_middle_is_carried_on() -> None:
    """derived: on the line from the nut's middle through the saddle's between the outer strings; both lie at 0"""
    strings = standing_job().strings
    assert strings is not None
    bare = laid(standing_job(strings=replace(strings, list=(String(name="1"), *SET[1:]))))
    plan = plan_of(bare)
    assert plan.by == "middle"
    first, last = bare.strings[0], bare.strings[-1]
    ends = []
    for string in (first, last):
        (x0, y0), (x1, y1) = string.nut_xy, string.break_point
        ends.append(y1 + (y1 - y0) / (x1 - x0) * (plan.middle[0] - x1))
    assert plan.middle[1] == pytest.approx(sum(ends) / 2, abs=1e-3)
    assert plan.push is None
    assert plan.down is None


def test_strings_whose_spread_there_is_not_given_run_straight_on() -> None:
    layout = laid(standing_job(tail=Tail(behind=90.0)), BOARD | FEET)
    plan = plan_of(layout)
    assert plan.straight_on
    assert [string.sideways for string in plan.strings] == pytest.approx([0.0] * 5, abs=0.02)
    assert all(string.breaks is None for string in plan.strings)


def test_a_typed_distance_puts_it_behind_the_saddle_line() -> None:
    layout = laid(standing_job(tail=Tail(behind="90 mm")), BOARD | FEET)
    assert layout.saddle is not None
    line = sum(x for x, _ in layout.saddle.at_strings) / 2
    assert plan_of(layout).middle[0] == pytest.approx(line + 90.0, abs=1e-6)


def test_the_break_is_that_of_its_height_over_its_way() -> None:
    """derived: atan of 9 mm over the way from each break point to the tail"""
    layout = laid(standing_job())
    for string, plan in zip(layout.strings, plan_of(layout).strings, strict=True):
        angle = math.degrees(math.atan2(9.0, 740.0 - string.break_point[0]))
        assert plan.breaks == pytest.approx(angle, abs=1e-9)


@pytest.mark.parametrize("off", [0.46, -0.46])
def test_a_tail_that_is_off_by_a_little_more_than_its_doubt_is_told_off_by_that(off: float) -> None:
    plan = replace(plan_of(hung(off)), off_pm95=0.3, push_pm95=1.0)
    (found, *_) = tail_told.findings(standing_job(), plan)
    assert found.grade == "good"
    assert f"stands 0.5 ±0.3 mm to the {'treble' if off > 0 else 'bass'} of where the strings run true" in found.text
    (unsure, *_) = tail_told.findings(standing_job(), replace(plan, off_pm95=0.5))
    assert "stands where the strings run true, within ±0.5 mm" in unsure.text
    (walks, *_) = tail_told.findings(standing_job(), replace(plan, push=5.0, down=20.0))
    assert walks.code == "tail.off"


@pytest.mark.parametrize(
    ("under", "code"),
    [
        (0.0, "tail.shallow"),
        ("0 mm", "tail.shallow"),
        (1.0, "tail.shallow"),
        (9.0, "tail.breaks"),
        (60.0, "tail.steep"),
    ],
)
def test_too_little_and_too_much_of_a_break(under: Length, code: str) -> None:
    found = told(hung(0.0, under=under))
    assert {"tail.shallow", "tail.breaks", "tail.steep"} & set(found) == {code}


def test_only_a_bridge_that_the_strings_hold_has_feet_and_walks() -> None:
    for under in (1.0, 60.0):
        standing, glued = (
            told(laid(standing_job(tail=Tail(spread=36.0, under=under), **held)))
            for held in ({}, {"floating": None, "bridge": Bridge()})
        )
        assert any(word in " ".join(standing.values()) for word in ("walk", "its feet"))
        texts = " ".join(text for code, text in glued.items() if code.startswith("tail."))
        assert "tail." in " ".join(glued)
        assert not any(word in texts for word in ("walk", "feet"))


def test_strings_that_turn_much_are_told_of_but_not_of_a_tail_that_is_off() -> None:
    assert "turns" in told(hung(0.0, spread=8.0))["tail.turns"]
    assert "tail.turns" not in told(hung(6.0, spread=8.0))


def test_a_tail_in_front_of_the_bridge_stops() -> None:
    layout = laid(standing_job(), BOARD | FEET | {"tail.left": (600.0, 18.0), "tail.right": (600.0, -18.0)})
    (stop,) = [finding for finding in layout.findings if finding.code == "tail.before"]
    assert stop.grade == "stop"
    assert layout.tail is None
    assert (stop.where, "was read" in stop.text) == ("point:tail.left", True)


def test_a_typed_distance_in_front_of_a_string_stops_at_its_field() -> None:
    """derived: 5 mm behind the middle of the saddle lies in front of a string that breaks 10 mm behind the others"""
    strings = standing_job().strings
    assert strings is not None
    uneven = replace(strings, compensation=(2.0, 2.0, 22.0, 2.0, 2.0))
    layout = laid(standing_job(strings=uneven, tail=Tail(behind=5.0)), BOARD | FEET)
    (stop,) = [finding for finding in layout.findings if finding.code == "tail.before"]
    assert (stop.where, "was typed" in stop.text) == ("field:tail.behind", True)


def test_one_point_in_the_middle_tells_it_too() -> None:
    job = standing_job(points=standing_job().points | {"tail.middle": next(iter(standing_job().points.values()))})
    layout = laid(job, BOARD | FEET | {"tail.middle": (740.0, 2.0)})
    assert plan_of(layout).measured == pytest.approx((740.0, 2.0), abs=1e-9)


def test_a_tail_that_nobody_measured_waits() -> None:
    layout = laid(standing_job(), BOARD | FEET)
    assert layout.tail is None
    assert "tail.missing" in told(layout)


def test_strings_that_end_in_pins_have_no_tail() -> None:
    job = standing_job(floating=None, bridge=Bridge(pins=Pins()))
    assert "tail.pinned" in told(laid(job))
    assert laid(job).tail is None


def test_a_glued_bridge_without_pins_may_have_one() -> None:
    assert laid(standing_job(floating=None, bridge=Bridge())).tail is not None


def test_the_strap_pin_stands_on_the_centre_line_at_the_bodys_end() -> None:
    """derived: between (760, 30) and (764, −10) y is 0 three quarters of the way: x = 763"""
    job = standing_job(tail=Tail(spread=36.0, pin=True))
    layout = laid(job, BOARD | FEET | TAIL | BODY)
    pin = plan_of(layout).pin
    assert pin is not None
    assert pin.at == pytest.approx((763.0, 0.0), abs=1e-6)
    assert 0.1 < plan_of(layout).pin_pm95 < 0.6
    assert "tail.pin" in told(layout)


def test_without_the_bodys_end_the_strap_pin_waits() -> None:
    layout = laid(standing_job(tail=Tail(spread=36.0, pin=True)))
    assert plan_of(layout).pin is None
    assert "tail.pin_missing" in told(layout)


@pytest.mark.parametrize(
    ("body", "says"),
    [
        # the body at its foremost: between these two the line runs in front of the tail, at x = 500
        ({"body.1": (500.0, 50.0), "body.6": (500.0, -50.0)}, "in front of where the strings end"),
        # derived: from (750, 110) to (750, −110) is 220 mm, and the end's curve between is not known
        ({"body.4": (750.0, 110.0), "body.7": (750.0, -110.0)}, "220.0 mm apart"),
    ],
)
def test_a_body_that_was_not_read_at_its_end_gives_the_strap_pin_no_place(body: dict[str, XY], says: str) -> None:
    layout = laid(standing_job(tail=Tail(spread=36.0, pin=True)), BOARD | FEET | TAIL | body)
    assert plan_of(layout).pin is None
    assert says in told(layout)["tail.pin_missing"]
    assert "tail.pin" not in told(layout)


def test_screws_turn_with_the_strings() -> None:
    """derived: [14, 0] lies 14 mm behind the strings' end on their mean way, which hardly turns"""
    layout = laid(standing_job(tail=Tail(spread=36.0, screws=((14.0, 0.0), (14.0, 6.0)))))
    plan = plan_of(layout)
    x, y = plan.middle
    assert plan.screws[0].at == pytest.approx((x + 14.0, y), abs=0.2)
    one, other = plan.screws
    assert math.dist(one.at, other.at) == pytest.approx(6.0, abs=1e-9)


def test_screws_lie_as_well_where_the_tail_hangs_off_today() -> None:
    """derived: the true middle is that of the strings, so the holes about it do not know where the tail hangs"""
    wide = ((40.0, 10.0), (40.0, -10.0))
    hanging, right = (plan_of(hung(off, screws=wide)) for off in (8.0, 0.0))
    for one, other in zip(hanging.screws, right.screws, strict=True):
        assert one.at == pytest.approx(other.at, abs=1e-9)


def test_a_tail_that_is_told_twice_says_which_is_used() -> None:
    """derived: the points lie at 740; the saddle line in the outer strings' middle at 640 + 2.0, both typed alike"""
    both = laid(standing_job(tail=Tail(behind=60.0)))
    assert plan_of(both).middle[0] == pytest.approx(740.0, abs=1e-6)
    text = told(both)["tail.told_twice"]
    (finding,) = [finding for finding in both.findings if finding.code == "tail.told_twice"]
    assert finding.values["read"] == pytest.approx(98.0, abs=0.7)  # the line is the best, not through the outer two
    assert "typed as 60.0 mm" in text
    assert "The points are used: take out" in text
    assert "tail.told_twice" not in told(laid(standing_job(tail=Tail())))
    assert "tail.told_twice" not in told(laid(standing_job(tail=Tail(behind=60.0)), BOARD | FEET))


def test_the_points_that_are_named_are_those_that_are_used() -> None:
    """One outer end is listed and not read yet: the middle of the tail was read, and is what the person looks at."""
    listed = {"tail.left": Point(), "tail.middle": Point()}
    job = standing_job(points=standing_job().points | listed, tail=Tail(behind=60.0))
    text = told(laid(job, BOARD | FEET | {"tail.middle": (740.0, 2.0)}))["tail.told_twice"]
    assert text.endswith("or the readings to tail middle.")
    before = laid(job, BOARD | FEET | {"tail.middle": (600.0, 2.0)})
    assert [one.where for one in before.findings if one.code == "tail.before"] == ["point:tail.middle"]
    assert "the readings to tail treble and tail bass." in told(laid(job))["tail.told_twice"]


@pytest.mark.parametrize(("y", "stops"), [(17.0, False), (-17.0, True)])
def test_a_screw_behind_its_own_side_of_a_slanting_bridge_does_not_stop(y: float, stops: bool) -> None:
    """derived: the bass side stands 30 mm back over a spread of 42, so that at 17 mm to either side of the middle the
    back edges lie 30 * 34 / 42 = 24.3 mm apart, and a hole between them is behind one and under the other
    """
    strings = standing_job().strings
    assert strings is not None
    slanting = replace(strings, compensation=(-7.0, 0.5, 8.0, 15.5, 23.0))
    straight = laid(standing_job(strings=slanting, tail=Tail(spread=36.0)))
    assert straight.bridge is not None
    back = sum(x for x, _ in straight.bridge.corners[2:]) / 2
    plan = plan_of(straight)
    screw = (back - plan.middle[0], y - plan.middle[1])
    found = told(laid(standing_job(strings=slanting, tail=Tail(spread=36.0, screws=(screw,)))))
    assert ("tail.screw_before" in found) == stops


@pytest.mark.parametrize(("x", "stops"), [(-85.0, False), (-100.0, True), (-60.0, False)])
def test_screws_under_the_bridge_stop(x: float, stops: bool) -> None:
    """derived: the strings end at 740 and the bridge's back edge lies half of 10 mm behind a crown at 640 to 643.5"""
    found = told(laid(standing_job(tail=Tail(spread=36.0, screws=((14.0, 0.0), (x, 0.0))))))
    assert ("tail.screw_before" in found) == stops
    if stops:
        assert found["tail.screw_before"].startswith("Screw hole 2 of the tailpiece would lie under the bridge")
