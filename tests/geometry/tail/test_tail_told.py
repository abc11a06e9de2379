"""What is said of a tail, of plans made by hand: each bound at the bound itself and just beyond (common practice, no
source), and the side by the hand.
"""

import re

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Floating, Job
from geometry.job.job import Hand
from geometry.layout import TailPlan, TailString
from geometry.tail.tail_told import findings, said_breaks, under_bridge
from tests.in_one import in_one

SMALL = 2**-10
STANDS = Job(floating=Floating())


def string(name: str, breaks: float | None = 10.0, sideways: float = 0.0, wide: float = 1.0) -> TailString:
    return TailString(name=name, at=(730.0, 0.0), sideways=sideways, breaks=breaks, breaks_pm95=wide)


PLAN = TailPlan(middle=(730.0, 2.0), across_pm95=0.3, by="pulls", strings=(string("1"), string("2")))
OFF = replace(PLAN, off=1.0, off_pm95=0.25, push=1.5, push_pm95=0.5, down=50.0)


def told(plan: TailPlan, job: Job = STANDS) -> dict[str, Finding]:
    return {found.code: found for found in findings(job, plan)}


@pytest.mark.parametrize(
    ("y", "hand", "side"),
    [
        (2.0, "right", "treble"),
        (-2.0, "right", "bass"),
        (2.0, "left", "bass"),
        (0.5, "right", "treble"),
    ],
)
def test_where_its_middle_belongs(y: float, hand: Hand, side: str) -> None:
    found = told(replace(PLAN, middle=(730.0, y)), replace(STANDS, hand=hand))["tail.place"]
    assert f"belongs {abs(y):.1f} ±0.3 mm to the {side} of" in found.text
    assert found.values == {"across": y, "pm95": 0.3}
    assert ("pulls across the neck balance" in found.text) is True
    # derived: less than half a tenth of a millimetre is shown by no rule, and lies to no side
    level = told(replace(PLAN, middle=(730.0, 0.04)), replace(STANDS, hand=hand))["tail.place"]
    assert "belongs on the neck centre line, within ±0.3 mm: " in level.text
    assert "the middle of the outer strings" in told(replace(PLAN, by="middle"))["tail.place"].text


@in_one(
    ("changes", "code"),
    [
        ({"off": 0.25}, "tail.true"),  # no more than is known of it
        ({"off": -0.25}, "tail.true"),
        ({"off": 0.5}, "tail.true"),  # as near as a hand can set it
        ({"off": 0.5 + SMALL}, "tail.off"),
        ({"off": -0.5 - SMALL}, "tail.off"),
        ({"off": 0.5, "push": 5.0}, "tail.true"),  # a tenth of what the strings press down with
        ({"off": 0.5, "push": 5.0 + SMALL}, "tail.off"),
        ({"off": 0.5, "push": -5.0 - SMALL}, "tail.off"),
        ({"off": 0.5, "push": 5.5, "down": None}, "tail.true"),
        ({"off": 0.5, "push": None}, "tail.true"),
        ({"off": 0.25, "push": 5.5}, "tail.true"),
    ],
)
def test_when_it_is_to_be_moved(changes: dict[str, object], code: str) -> None:
    assert {"tail.true", "tail.off"} & set(told(replace(OFF, **changes))) == {code}


def test_a_glued_bridge_does_not_walk() -> None:
    plan = replace(OFF, off=0.5, push=9.0)
    assert "tail.off" in told(plan)
    assert "tail.true" in told(plan, Job())


@pytest.mark.parametrize(("push", "side"), [(0.6, "treble"), (-0.6, "bass")])
def test_a_small_pull_has_its_side_too(push: float, side: str) -> None:
    """A right hand's treble is on the left, whither what is positive pulls."""
    text = told(replace(OFF, off=0.5, push=push))["tail.true"].text
    assert f"pulls the bridge to the {side} side by 0.6 ±0.5 N" in text


@pytest.mark.parametrize(
    ("off", "push", "hand", "says"),
    [
        (1.0, 6.0, "right", "1.0 ±0.3 mm to the treble of .*, and pulls the bridge to the treble side by 6.0 ±0.5 N"),
        (-1.0, -6.0, "right", "1.0 ±0.3 mm to the bass of .*, and pulls the bridge to the bass side by 6.0 ±0.5 N"),
        (-1.0, 6.0, "left", "1.0 ±0.3 mm to the treble of .*, and pulls the bridge to the bass side by 6.0 ±0.5 N"),
    ],
)
def test_which_way_it_stands_and_pulls(off: float, push: float, hand: Hand, says: str) -> None:
    found = told(replace(OFF, off=off, push=push), replace(STANDS, hand=hand))["tail.off"]
    assert re.search(says, found.text)
    assert "press it down with 50 N: it may walk." in found.text
    assert found.values["push_n"] == push


def test_what_does_not_walk_is_not_said_to() -> None:
    assert "walk" not in told(replace(OFF, push=4.9))["tail.off"].text
    bare = told(replace(OFF, push=None))["tail.off"]
    assert "pulls the bridge" not in bare.text
    assert bare.values["push_n"] == 0.0


@pytest.mark.parametrize(
    ("breaks", "code"),
    [
        ((4.0, 10.0), "tail.breaks"),
        ((4.0 - SMALL, 10.0), "tail.shallow"),
        ((10.0, 20.0), "tail.breaks"),
        ((10.0, 20.0 + SMALL), "tail.steep"),
        ((3.0, 21.0), "tail.shallow"),
        ((None, 20.0 + SMALL), "tail.steep"),
    ],
)
def test_how_steeply_strings_may_break(breaks: tuple[float | None, float | None], code: str) -> None:
    plan = replace(PLAN, strings=tuple(string(name, one) for name, one in zip("12", breaks, strict=True)))
    found = told(plan)
    assert {"tail.breaks", "tail.shallow", "tail.steep"} & set(found) == {code}
    assert "together they press it down with 50 N" in told(replace(plan, down=50.0))[code].text
    assert "press it down" not in found[code].text


def test_the_string_that_breaks_least_or_most_is_named() -> None:
    shallow = replace(PLAN, strings=(string("1", 3.0), string("2", 2.0, wide=0.72), string("3", 10.0)))
    steep = replace(PLAN, strings=(string("1", 21.0), string("2", 24.0, wide=0.72), string("3", 10.0)))
    assert told(shallow)["tail.shallow"].text.startswith("String 2 breaks over the bridge by only 2.0 ±0.8°")
    assert told(steep)["tail.steep"].text.startswith("String 2 breaks over the bridge by 24.0 ±0.8°")
    assert (told(steep)["tail.steep"].values["least"], told(steep)["tail.steep"].values["most"]) == (10.0, 24.0)


def test_breaks_that_are_not_known() -> None:
    bare = replace(PLAN, strings=(string("1", None), string("2", None)))
    assert said_breaks(bare) == ("", "")
    assert set(told(bare)) == {"tail.place"}
    assert said_breaks(replace(PLAN, strings=(string("1", 8.4), string("2", 8.6, wide=1.2)))) == ("8 to 9", "2")
    assert said_breaks(PLAN) == ("10", "1")  # one whole degree is not rounded up to two


@pytest.mark.parametrize(("sideways", "said"), [(4.0, False), (4.0 + SMALL, True), (-4.0, False), (-4.0 - SMALL, True)])
def test_how_far_a_string_may_turn(sideways: float, said: bool) -> None:
    plan = replace(PLAN, strings=(string("1", sideways=1.0), string("2", sideways=sideways), string("3")))
    assert ("tail.turns" in told(plan)) is said
    assert "tail.turns" not in told(replace(plan, off=1.0, off_pm95=0.25))  # a tail that is to be moved is moved first


@pytest.mark.parametrize(
    ("sideways", "hand", "side"), [(5.0, "right", "treble"), (-5.0, "right", "bass"), (5.0, "left", "bass")]
)
def test_which_string_turns_and_where_to(sideways: float, hand: Hand, side: str) -> None:
    plan = replace(PLAN, strings=(string("1", sideways=4.5), string("2", sideways=sideways)))
    found = told(plan, replace(STANDS, hand=hand))["tail.turns"]
    assert found.text.startswith(f"String 2 turns 5.0° to the {side} at")
    assert "Look at the tail’s spread" in found.text
    assert found.values == {"degrees": sideways}
    bare = replace(STANDS, floating=Floating(notched=False))
    assert "Cut a notch for each string" in told(plan, bare)["tail.turns"].text


def test_screws_under_the_bridge_in_one_and_in_many() -> None:
    assert "Screw hole 2 of" in under_bridge([2]).text
    assert "Screw holes 1 and 3 of" in under_bridge([1, 3]).text
    assert under_bridge([1, 3]).values == {"count": 2.0}
