"""Where a base is set and what is left of each saddle's travel, against sums made here from the strings' places."""

import math
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job
from geometry.layout import SeparatePlan
from geometry.separate import separate_told
from geometry.separate.reach import judged
from tests.geometry.separate.slanted_sample import codes, one_a_string, plan_of, said, sample, with_block


def least(plan: SeparatePlan, turn: float, travel: float, middle: float) -> float:
    """The least reach beyond its ± of a base whose travel's middle lies `middle` along its own way: enumeration."""
    way = complex(math.cos(turn), math.sin(turn))
    found = []
    for one in plan.saddles:
        own = (complex(*one.wanted) * way.conjugate()).real
        pm = one.pm95 * math.cos(plan.bases[0].turn) / math.cos(turn)  # back to along the neck, then along the travel
        found.append(travel / 2 - abs(own - middle) - pm)
    return min(found)


def best_middle(plan: SeparatePlan, turn: float, travel: float) -> float:
    """The most that any place of 4001 leaves at this turn."""
    way = complex(math.cos(turn), math.sin(turn))
    own = [(complex(*one.wanted) * way.conjugate()).real for one in plan.saddles]
    return max(least(plan, turn, travel, middle) for middle in np.linspace(min(own) - 5, max(own) + 5, 4001).tolist())


@pytest.mark.parametrize("how", ["square", "saddle line", "most reach"])
def test_a_base_lies_where_it_leaves_most(how: str) -> None:
    _, plan = plan_of(with_block(set=how))
    # derived: 4001 places over some 20 mm lie 0.005 mm apart
    assert plan.left == pytest.approx(best_middle(plan, plan.bases[0].turn, 10.0), abs=0.006)


def test_no_turn_leaves_more_than_the_best() -> None:
    _, plan = plan_of(sample())
    turns = np.radians(np.linspace(-20, 20, 81)).tolist()
    most = max(best_middle(plan, turn, 10.0) for turn in turns)
    assert plan.best is not None
    assert plan.best.left >= most - 0.006
    assert plan.best.left == pytest.approx(plan.left)
    assert plan.best.turn == pytest.approx(plan.bases[0].turn)


def test_reach_is_the_distance_to_the_ends_of_the_travel() -> None:
    _, plan = plan_of(sample())
    for one in plan.saddles:
        assert math.dist(one.wanted, one.foremost) == pytest.approx(one.ahead)
        assert math.dist(one.wanted, one.rearmost) == pytest.approx(one.behind)
        assert one.ahead + one.behind == pytest.approx(10.0)  # the travel
        # derived: a mm at fret 12 is 1200 / ln 2 / length cents, the string being as good as its scale
        assert one.cents == pytest.approx(1200 / math.log(2) / 641.5, rel=0.03)


def test_the_travel_that_would_just_do_just_does() -> None:
    _, plan = plan_of(with_block(set="square"))
    _, again = plan_of(with_block(set="square", travel=plan.travel, length=60))
    assert again.left == pytest.approx(0.0, abs=1e-9)


def test_the_break_points_lie_as_far_behind_the_front_as_the_job_says() -> None:
    _, plan = plan_of(sample())
    (base,) = plan.bases
    front_left, front_right = (complex(*at) for at in base.corners[:2])
    way = (front_left - front_right) / abs(front_left - front_right) / 1j
    for one in plan.saddles:
        off = ((complex(*one.foremost) - front_right) * way.conjugate()).real
        assert off == pytest.approx(9.0)  # the sample's own


def test_each_base_of_its_own_stands_in_the_middle_of_its_travel() -> None:
    job = sample()
    for how in ("along string", "square"):
        _, plan = plan_of(_with(job, one_a_string(set=how)))
        assert len(plan.bases) == 6
        assert [one.ahead for one in plan.saddles] == pytest.approx([5.0] * 6)
        assert plan.best is None
        turned = max(abs(base.turn) for base in plan.bases)
        assert (turned > 0.001) == (how == "along string")


def _with(job: Job, block: Any) -> Job:
    from msgspec.structs import replace

    return replace(job, separate=block)


def test_a_place_is_judged_by_its_whole_interval() -> None:
    assert [judged(left, 1.0) for left in (1.5, 1.0, 0.99, 0.0, -0.01, -1.0, -1.01)] == [
        "reached",
        "reached",
        "thin",
        "thin",
        "unsure",
        "unsure",
        "out",
    ]


def test_what_is_short_is_said_with_what_would_mend_it() -> None:
    layout, plan = plan_of(with_block(set="square", travel=3))
    found = codes(layout)
    assert found["separate.out"] == "stop"
    assert "Take saddles that travel" in said(layout, "separate.out")
    assert "the slant that leaves the most reach" in said(layout, "separate.out")
    # what is lacking is said of the string that lacks most; its neighbours at the other end are alike beyond their ±
    assert f"that of string {plan.least.string} lies" in said(layout, "separate.out")
    assert plan.least.least == pytest.approx(min(one.least for one in plan.saddles))


@pytest.mark.parametrize(("short", "whose"), [(1, ": it lies"), (2, ": that of string")])
def test_what_one_saddle_lacks_is_said_of_it_and_of_several_of_the_worst(short: int, whose: str) -> None:
    _, plan = plan_of(with_block(set="square", travel=3))
    worst = sorted(plan.saddles, key=lambda one: one.least)[:short]
    saddles = tuple(replace(one, reached="out" if one in worst else "reached") for one in plan.saddles)
    (found,) = separate_told._reach(sample(), replace(plan, saddles=saddles))
    assert found.code == "separate.out"
    assert whose in found.text


def test_a_slant_that_mends_it_is_proposed() -> None:
    layout, _ = plan_of(with_block(set="square", travel=7))
    text = said(
        layout, next(code for code in ("separate.out", "separate.unsure", "separate.thin") if code in codes(layout))
    )
    assert "there all are reached" in text


def test_no_travel_is_said_in_one_sentence() -> None:
    layout, _ = plan_of(with_block(travel=0))
    texts = [finding.text for finding in layout.findings if finding.code.startswith("separate.")]
    assert sum(text.startswith("The saddles do not travel") for text in texts) == 1
    assert not {"separate.out", "separate.thin", "separate.unsure", "separate.reach"} & codes(layout).keys()


@pytest.mark.parametrize(("count", "grade"), [(5, "stop"), (7, "look")])
def test_other_saddles_than_strings_are_said(count: int, grade: str) -> None:
    layout, _ = plan_of(with_block(saddles=count))
    assert codes(layout)["separate.count"] == grade


def test_as_many_saddles_as_strings_are_not_spoken_of() -> None:
    assert "separate.count" not in codes(plan_of(sample())[0])


@pytest.mark.parametrize(("width", "grade"), [(50, "stop"), (53, "look"), (60, None)])
def test_a_base_that_is_too_narrow_is_said(width: float, grade: str | None) -> None:
    # the strings' spread is 52.5 mm, a little less square to a base at a slant
    layout, _ = plan_of(with_block(width=width, screws=(), set="square"))
    assert codes(layout).get("separate.narrow") == grade


def test_a_base_on_the_board_stops_the_work() -> None:
    layout, _ = plan_of(with_block(foremost=80, length=190, screws=(), through=None))
    assert "separate.on_board" not in codes(layout)
    from geometry.job import Separate

    with pytest.raises(ValueError, match="must lie between 0 and 80"):
        Separate(foremost=160)


def test_the_strings_break_where_their_travel_lets_them() -> None:
    layout, plan = plan_of(with_block(set="square", travel=3))
    for string, one in zip(layout.strings, plan.saddles, strict=True):
        assert string.name == one.string
        if one.reached == "out":
            assert abs(string.cents[12]) > 1.0  # more than a mm is lacking: 2.7 cents each (derived)


def test_cents_are_told_at_a_strings_own_octave() -> None:
    job = sample()
    assert job.strings is not None
    first, second, *rest = job.strings.list
    strings = (first, replace(second, fretted=False), *rest[:-1], replace(rest[-1], starts_at=5))
    _, plan = plan_of(replace(job, strings=replace(job.strings, list=strings)))
    assert plan.saddles[0].octave == "fret 12"
    assert plan.saddles[1].cents is None
    assert plan.saddles[1].costs(1.0) is None
    assert plan.saddles[-1].octave == "fret 17"
    # derived: fret 5 leaves 2 to the −5/12 of 648, fret 17 halves that, and the travel runs at the base's turn
    along = math.cos(plan.bases[0].turn)
    assert plan.saddles[-1].cents == pytest.approx(along * 1200 / math.log(2) / (648 * 2 ** (-5 / 12)), rel=0.01)


@pytest.mark.parametrize(("width", "said"), [(52, "lies 0."), (48, "lies 2."), (53, "lies at the base’s very side")])
def test_how_far_an_outer_string_lies_past_the_side_is_said(width: float, said: str) -> None:
    """derived: half of 52.5 less half of the base's width; 0.25, 2.25 and, within it, none"""
    layout, _ = plan_of(with_block(width=width, screws=(), set="square"))
    (found,) = (one for one in layout.findings if one.code == "separate.narrow")
    assert f"An outer string {said}" in found.text
    assert ("past the base’s side" in found.text) == (width < 52.5)


@pytest.mark.parametrize(
    ("left", "code", "large"), [(0.99, "thin", False), (-0.99, "unsure", True), (-1.01, "out", False)]
)
def test_only_what_may_not_reach_must_be_read_by_whoever_holds_only_the_paper(
    left: float, code: str, large: bool
) -> None:
    """A stop forbids the work anyway, and what may just miss is small. Each saddle's ± is 1 mm here (made up)."""
    job = sample()
    _, plan = plan_of(job)
    short = replace(
        plan, saddles=tuple(replace(one, ahead=left, behind=5.0, pm95=1.0, reached=code) for one in plan.saddles)
    )
    found = [finding.large for finding in separate_told._reach(job, short) if finding.code == f"separate.{code}"]
    assert found == [large]


@pytest.mark.parametrize(
    ("ahead", "behind", "said"),
    [(-2.0, 5.0, "ahead of the foremost break point"), (5.0, -2.0, "behind the rearmost break point")],
)
def test_what_a_saddle_lacks_is_said_with_its_end(ahead: float, behind: float, said: str) -> None:
    job = sample()
    _, plan = plan_of(job)
    short = replace(
        plan,
        saddles=tuple(replace(one, ahead=ahead, behind=behind, pm95=1.0, reached="out") for one in plan.saddles[:1]),
    )
    (found,) = (finding for finding in separate_told._reach(job, short) if finding.code == "separate.out")
    assert f"lies 2.0 ±1.0 mm {said}" in found.text
