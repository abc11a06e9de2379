"""The saddle's height at both ends, in the layout."""

import math

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Action, NotAJob, Pins, Reading, Saddle, Spread, String, Strings
from geometry.layout import SaddlePlan
from geometry.saddle.heights.read_heights import Height
from geometry.saddle.heights.saddle_height import OverTop
from geometry.work_out import lay_out, work_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed


def told(over_top: dict[str, float], **blocks: object) -> dict[str, Finding]:
    """What is said with these heights of the strings over the top at [left, right]."""
    return laid({f"bridge.{side}": value for side, value in over_top.items()}, **blocks)


def laid(heights: dict[str, float], **blocks: object) -> dict[str, Finding]:
    """What is said with these heights, by their place and side, each known to 0.1 mm."""
    given: dict[str, object] = {"bridge": bridge(thickness=9.0), "strings": six(bass=4.0, treble=2.0), **blocks}
    extras = {f"height.{name}": value for name, value in heights.items()}
    found = lay_out(job(BOARD, "right", **given), surveyed(BOARD, scales(640.0, 640.0) | extras)).findings
    return {f.code: f for f in found if f.code.startswith(("saddle.", "wood.under")) and f.code != "saddle.slant"}


def test_a_saddle_of_three_millimetres_is_what_one_expects() -> None:
    # derived: 12 over the top less 9 of bridge; pins 1.5 + 5.5 behind: atan(3/7) = 23 degrees
    found = told({"left": 12.0, "right": 12.0})
    assert set(found) == {"saddle.height"}
    assert found["saddle.height"].grade == "good"
    values = found["saddle.height"].values
    assert (values["projection.bass"], values["projection.treble"]) == pytest.approx((3.0, 3.0))
    # derived: 1.96 x 0.1 for the height as read; with 0.1 of thickness (common practice, no source) 1.96 x 0.141
    assert values["over_top_pm95.bass"] == pytest.approx(0.196, abs=0.001)
    assert values["projection_pm95.bass"] == pytest.approx(0.277, abs=0.001)
    assert values["degrees.bass"] == pytest.approx(23.2, abs=0.3)


def test_heights_that_nobody_read_say_nothing() -> None:
    assert told({}) == {}


@pytest.mark.parametrize(
    ("left", "right", "side"),
    [(10.5, 12.0, "treble"), (12.0, 10.5, "bass")],
)
def test_the_side_that_is_low_is_named(left: float, right: float, side: str) -> None:
    found = told({"left": left, "right": right})["saddle.low"]
    assert f"over the bridge at the {side} side" in found.text
    assert found.values["projection"] == pytest.approx(1.5)


def test_strings_below_the_bridge_stop_the_work() -> None:
    assert told({"left": 8.5, "right": 12.0})["saddle.none"].grade == "stop"


def test_pins_far_behind_leave_a_shallow_break() -> None:
    # derived: the hole 1.5 + 20 behind the saddle's peak, atan(3/21.5) = 8 degrees
    found = told({"left": 12.0}, bridge=bridge(thickness=9.0, pins=Pins(behind_slot=20.0), width=60.0))
    assert found["saddle.shallow"].values["degrees"] == pytest.approx(8.0, abs=0.3)


def test_a_deep_slot_leaves_thin_wood() -> None:
    # derived: 9 of bridge less 7.5 of slot
    found = told({}, saddle=Saddle(slot_depth=7.5))
    assert found["wood.under"].values["wood"] == pytest.approx(1.5)


def test_what_is_said_of_both_sides_alike_is_said_once() -> None:
    found = told({"left": 10.9, "right": 10.9}, bridge=bridge(thickness=9.0, pins=None))
    assert set(found) == {"saddle.height", "saddle.low"}


# derived: strings 0.5 over fret 1 and 2.0 over fret 12 lie 0.5 - 1.5/0.44388 x 0.05613 + 1.5/0.44388 = 3.69 over the
# frets' plane at the saddle; 0.1 not known of each height moves that by 0.113 and 0.213
WANTED = Action(fret1=(0.5, 0.5), fret12=(2.0, 2.0))
OFF = {"saddle.left": 8.5, "saddle.right": 8.1}


def wanting(action: Action | None = WANTED) -> Strings:
    return replace(six(bass=4.0, treble=2.0), action=action)


def test_with_the_bridge_off_a_straightedge_and_the_action_that_is_wanted_tell_the_saddles_height() -> None:
    values = laid(OFF, strings=wanting())["saddle.height"].values
    assert values["over_top.treble"] == pytest.approx(8.5 + 3.69, abs=0.01)
    assert values["over_top.bass"] == pytest.approx(8.1 + 3.69, abs=0.01)
    assert values["over_top_pm95.bass"] == pytest.approx(1.96 * math.sqrt(0.1**2 + 0.113**2 + 0.213**2), abs=0.01)


def test_an_action_that_nobody_typed_makes_the_saddles_height_less_sure() -> None:
    sure, guess = (laid(OFF, strings=wanting(action))["saddle.height"].values for action in (WANTED, None))
    assert guess["over_top_pm95.bass"] > sure["over_top_pm95.bass"] + 2.0


def test_strings_that_would_lie_below_the_bridge_stop_the_work_with_the_bridge_off_too() -> None:
    found = laid(OFF | {"saddle.right": 5.0}, strings=wanting())["saddle.none"]
    assert found.grade == "stop"
    assert "at the bass side" in found.text
    assert found.values["projection"] == pytest.approx(5.0 + 3.69 - 9.0, abs=0.01)


def test_a_bridge_may_be_thicker_on_one_side() -> None:
    values = laid(OFF, strings=wanting(), bridge=bridge(thickness=(9.5, 8.8)), saddle=Saddle(slot_depth=5.0))
    told_of = values["saddle.height"].values
    assert told_of["projection.treble"] == pytest.approx(8.5 + 3.69 - 9.5, abs=0.01)
    assert told_of["projection.bass"] == pytest.approx(8.1 + 3.69 - 8.8, abs=0.01)
    assert (told_of["wood.treble"], told_of["wood.bass"]) == pytest.approx((4.5, 3.8))


def test_a_thickness_known_on_one_side_says_nothing_of_the_other() -> None:
    values = laid(OFF, strings=wanting(), bridge=bridge(thickness=(None, 8.8)))["saddle.height"].values
    assert "projection.bass" in values
    assert "projection.treble" not in values


@pytest.mark.parametrize("thickness", [1.0, (9.0, 50.0), (1.0, None)])
def test_a_thickness_no_bridge_has_is_refused(thickness: object) -> None:
    with pytest.raises(NotAJob, match="The bridge’s thickness"):
        bridge(thickness=thickness)


def test_todays_height_is_compared_with_the_one_that_is_wanted() -> None:
    both = laid(OFF | {"bridge.left": 13.5, "bridge.right": 13.1}, strings=wanting())
    found = both["saddle.two_ways"]
    assert found.grade == "good"
    # derived: 8.5 + 3.69 less 13.5
    assert "1.3 ±0.6 mm lower at the saddle than it was" in found.text
    assert both["saddle.height"].values["over_top.treble"] == pytest.approx(12.19, abs=0.01)


ACTION = {f"{place}.{side}": high for place, high in (("fret 1", 0.5), ("fret 12", 2.0)) for side in ("left", "right")}


def test_the_two_ways_agree_where_the_action_was_read() -> None:
    # derived: 12.19 at treble by the straightedge (sd 0.26), 12.3 at the bridge (sd 0.1): the mean is weighed 1 to 6.8
    found = laid(OFF | ACTION | {"bridge.left": 12.3, "bridge.right": 11.9}, strings=wanting(None))
    assert "saddle.two_ways" not in found
    assert found["saddle.height"].values["over_top.treble"] == pytest.approx(12.3 - 0.11 / 7.8, abs=0.01)
    assert found["saddle.height"].values["over_top_pm95.treble"] < 1.96 * 0.1


def test_two_ways_that_do_not_agree_are_told_of() -> None:
    found = laid(OFF | ACTION | {"bridge.left": 14.0, "bridge.right": 11.8}, strings=wanting(None))["saddle.two_ways"]
    assert found.grade == "look"
    assert "disagree on the treble side" in found.text


def test_a_side_that_does_not_agree_is_told_of_beside_one_that_is_wanted_otherwise() -> None:
    # derived: at treble (left) the action is only wanted, at bass it was read, and the string lies 20 over the top
    # there where the straightedge and the action make 12.19
    heights = {"saddle.left": 8.5, "saddle.right": 8.5, "bridge.left": 14.0, "bridge.right": 20.0, "fret 12.right": 2.0}
    extras = {f"height.{name}": value for name, value in heights.items()}
    made = job(BOARD, "right", bridge=bridge(thickness=9.0), strings=wanting())
    found = lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | extras)).findings
    two = {("bass" if "bass" in f.text else "treble", f.grade) for f in found if f.code == "saddle.two_ways"}
    assert two == {("bass", "look"), ("treble", "good")}


def test_what_is_so_at_both_sides_names_both_and_what_differs_is_said_of_each() -> None:
    assert "at both sides" in told({"left": 10.9, "right": 10.9})["saddle.low"].text
    extras = {"height.bridge.left": 10.9, "height.bridge.right": 10.5}
    made = job(BOARD, "right", bridge=bridge(thickness=9.0), strings=six(bass=4.0, treble=2.0))
    found = lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | extras)).findings
    low = [f.text for f in found if f.code == "saddle.low"]
    assert [("bass" in text, "treble" in text) for text in low] == [(True, False), (False, True)]


def test_the_plus_minus_is_rounded_up() -> None:
    # derived: 1.96 x 0.1 for the height, 1.96 x 0.141 with the bridge's thickness
    text = told({"left": 12.0, "right": 12.0})["saddle.height"].text
    assert "12.0 ±0.2 mm over the top, 3.0 ±0.3 mm over the bridge" in text


def test_a_height_read_twice_and_a_millimetre_apart_is_not_settled() -> None:
    trial = trial_of(next(case for case in CASES if case.name == "as given"), 31, 0).job
    heights = [Reading(id=f"b{i}", kind="height", at="bridge", on="left", value=v) for i, v in enumerate((12.0, 14.0))]
    layout = work_out(replace(trial, readings=(*trial.readings, *heights)))
    assert layout.survey.groups or layout.survey.suspects
    found = next(f for f in layout.findings if f.code == "saddle.height")
    assert found.grade == "look"
    assert (
        "at the bridge” (first time) and “string over the top, treble, at the bridge” (second time) are read again"
        in found.text
    )
    # derived: without one the height is 12, without the other 14, and both are 1 from their mean
    hand = trial.bass_or_treble("left")
    assert found.values[f"over_top_pm95.{hand}"] > 1.0


def test_an_action_read_twice_and_a_millimetre_apart_widens_the_saddle() -> None:
    trial = trial_of(next(case for case in CASES if case.name == "as given"), 31, 0).job
    others = tuple(r for r in trial.readings if r.kind != "height")
    strings = Strings(
        list=tuple(
            String(name=str(i + 1), pitch=pitch, material="nylon", diameter=wide)
            for i, (pitch, wide) in enumerate((("E4", 0.7), ("B3", 0.8), ("G3", 1.0), ("D3", 0.74), ("A2", 0.88)))
        ),
        nut=Spread(spread=36.0),
        saddle=Spread(spread=56.0),
    )

    def laid_with(*at_12: float) -> SaddlePlan:
        read = [("fret 1", "left", 0.5), ("fret 1", "right", 0.5), ("fret 12", "right", 2.4)]
        read += [("fret 12", "left", high) for high in at_12]
        heights = [
            Reading(id=f"h{i}", kind="height", at=at, on=on, value=high, with_="caliper 0.1")  # type: ignore[arg-type]
            for i, (at, on, high) in enumerate(read)
        ]
        saddle = work_out(replace(trial, readings=(*others, *heights), strings=strings)).saddle
        assert saddle is not None
        return saddle

    twice, once = laid_with(2.0, 3.0), laid_with(2.5)
    assert set(twice.waits_for) >= {"h3", "h4"}
    assert not once.waits_for
    assert max(twice.pm95) > max(once.pm95)


def test_two_ways_to_one_height_are_weighed_by_their_variances() -> None:
    # derived: 1 / 0.3² against 1 / 0.1² is one to nine, and 1 / √(1 / 0.3² + 1 / 0.1²) is 0.3 / √10
    taken = OverTop(Height(10.0, 0.3), Height(11.0, 0.1), read=True).taken
    assert taken is not None
    assert (taken.mm, taken.sd) == pytest.approx((10.9, 0.3 / math.sqrt(10)))
    assert OverTop(Height(10.0, 0.3), Height(11.0, 0.1), read=False).taken == Height(11.0, 0.1)
