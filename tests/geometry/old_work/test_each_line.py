"""Each line of the move by itself, of consequences made by hand: its number, its side, its grade, at its limits."""

import re
from collections.abc import Sequence

import pytest
from msgspec.structs import replace

from geometry.findings import Grade
from geometry.job.job import Hand
from geometry.layout import (
    Amount,
    Bared,
    Consequences,
    FrontMoves,
    Gap,
    HoleFate,
    OldArea,
    OldPlan,
    Plugs,
    ScarAt,
    ScarSide,
    SeenAgainst,
    WingTip,
)
from geometry.old_work.move_told import Line, told
from tests.geometry.old_work.everything import laid, made

SURE, UNSURE = Amount(value=2.0, pm95=0.5), Amount(value=0.4, pm95=0.5)
AT = (640.0, 3.0)


def lines(found: Consequences, hand: Hand = "right", old: OldPlan | None = None) -> list[Line]:
    layout = replace(laid(hand=hand), consequences=found)
    return list(told(made(hand=hand), layout if old is None else replace(layout, old=old)))


def said(found: Consequences, hand: Hand = "right") -> list[tuple[str, Grade]]:
    return [(line.text, line.grade) for line in lines(found, hand)]


def moved(left: float, right: float, across: float) -> Consequences:
    ends = {side: Amount(value=value, pm95=0.1) for side, value in (("left", left), ("right", right))}
    return Consequences(moves=FrontMoves(**ends, across=Amount(value=across, pm95=0.2)))


@pytest.mark.parametrize(
    ("left", "right", "across", "hand", "says"),
    [
        (1.5, 1.5, 2.5, "right", "moves 1.5 ±0.1 mm toward the tail, and 2.5 ±0.2 mm toward the treble."),
        (-1.5, -1.5, -2.5, "right", "moves 1.5 ±0.1 mm toward the nut, and 2.5 ±0.2 mm toward the bass."),
        (1.5, 1.5, 2.5, "left", "moves 1.5 ±0.1 mm toward the tail, and 2.5 ±0.2 mm toward the bass."),
        (0.04, -0.04, 2.5, "right", "moves 2.5 ±0.2 mm toward the treble."),
        (1.5, 1.54, -0.04, "right", "moves 1.5 ±0.1 mm toward the tail."),  # 0.05 mm is no way to move
        (-0.04, 0.04, 0.04, "right", "stays where it was."),
        (1.5, -2.0, 0.0, "right", "moves 2.0 ±0.1 mm toward the nut at bass, 1.5 ±0.1 mm toward the tail at treble."),
        (1.5, -2.0, 0.0, "left", "moves 1.5 ±0.1 mm toward the tail at bass, 2.0 ±0.1 mm toward the nut at treble."),
        (0.04, 0.3, 0.0, "left", "moves 0.3 ±0.1 mm toward the tail at treble alone."),
        (0.04, 0.3, 0.0, "right", "moves 0.3 ±0.1 mm toward the tail at bass alone."),
        (-1.5, -2.0, 0.0, "right", "moves 2.0 ±0.1 mm at bass and 1.5 ±0.1 mm at treble toward the nut."),
        (1.5, 2.0, 0.0, "left", "moves 1.5 ±0.1 mm at bass and 2.0 ±0.1 mm at treble toward the tail."),
    ],
)
def test_which_way_the_front_edge_moves(left: float, right: float, across: float, hand: Hand, says: str) -> None:
    assert said(moved(left, right, across), hand) == [(f"The front edge {says}", "good")]


@pytest.mark.parametrize(
    ("side", "hand", "says"),
    [
        ("front", "right", "in front of the new bridge"),
        ("back", "right", "behind the new bridge"),
        ("left wing", "right", "at the treble wing"),
        ("right wing", "right", "at the bass wing"),
        ("left wing", "left", "at the bass wing"),
    ],
)
def test_where_the_old_footprint_shows(side: ScarAt, hand: Hand, says: str) -> None:
    found = Consequences(scar_sides=(ScarSide(side=side, widest=SURE, at=AT),))
    assert said(found, hand) == [(f"The old footprint shows {says}, by 2.0 ±0.5 mm at most.", "look")]
    assert lines(found)[0].at == AT


def test_what_is_no_wider_than_its_uncertainty_may_show() -> None:
    found = Consequences(scar_sides=(ScarSide(side="back", widest=Amount(value=0.4, pm95=0.5), at=AT),))
    assert said(found) == [("The old footprint may show behind the new bridge, by 0.4 ±0.5 mm at most.", "look")]


def areas(value: float) -> Amount:
    return Amount(value=value, pm95=3.0)


@pytest.mark.parametrize(("value", "told_of"), [(0.5, True), (0.49, False)])
def test_areas_that_are_too_small_to_be_seen(value: float, told_of: bool) -> None:
    """derived: half a square mm is the least that is told"""
    for found in (
        Consequences(scar_area=areas(value)),
        Consequences(finish_clear=areas(value)),
        Consequences(finish_save=areas(value)),
    ):
        assert bool(said(found)) is told_of
    (line,) = lines(Consequences(areas=(Bared(name="1", area=areas(value)),)))
    assert line.grade == ("look" if told_of else "good")
    assert line.where == "area:1"


def test_of_the_areas_the_scar_and_what_stays_bare_ask_to_look() -> None:
    given = Consequences(scar_area=areas(90.0), finish_clear=areas(80.0), finish_save=areas(70.0))
    assert [(text.split(": ")[-1], grade) for text, grade in said(given)] == [
        ("In all, 90 ±3 mm² of it stay uncovered.", "look"),
        ("80 ±3 mm².", "good"),
        ("70 ±3 mm².", "look"),
    ]


@pytest.mark.parametrize(
    ("cover", "says", "grade"),
    [
        (Amount(value=0.5, pm95=0.5), "by 0.5 ±0.5 mm where that is least.", "good"),
        (Amount(value=0.4, pm95=0.5), "by 0.4 ±0.5 mm where that is least: it may show.", "look"),
        (Amount(value=0.0, pm95=0.5), "by 0.0 ±0.5 mm where that is least: it may show.", "look"),
    ],
)
def test_a_footprint_that_is_covered(cover: Amount, says: str, grade: Grade) -> None:
    assert said(Consequences(cover=cover)) == [(f"The old footprint is covered, {says}", grade)]
    assert said(Consequences(cover=replace(cover, value=-0.1))) == []


def test_what_an_area_is_and_where() -> None:
    ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))
    old = OldPlan(areas=(OldArea(name="1", outline=ring, what="torn"),))
    found = Consequences(areas=(Bared(name="1", area=areas(9.0)), Bared(name="2", area=areas(0.0))))
    first, second = lines(found, old=old)
    assert (first.text, first.at) == ("Area 1, torn: 9 ±3 mm² of it stay uncovered.", (2.0, 1.0))
    assert (second.text, second.at) == ("Area 2, marked: the new bridge covers it.", None)


def wall(much: float, new: str = "pin:3") -> Gap:
    return Gap(new=new, old="point:hole.1", mm=much, pm95=0.5, new_xy=AT, old_xy=AT)


def fate(**changes: object) -> HoleFate:
    given: dict[str, object] = {"hole": "hole.1", "kind": "hole", "under": "covered", "inside": SURE, "plug": 6.0}
    return HoleFate(**given | changes)  # type: ignore[arg-type]  # the fields of a hole


@pytest.mark.parametrize(
    ("changes", "says", "grade"),
    [
        ({}, "under the new bridge", "good"),
        ({"under": "opened"}, "partly beside the new bridge", "look"),
        ({"under": "bare"}, "not covered", "look"),
        ({"under": "bare", "off_top": True}, "outside the body’s outline", "look"),
        ({"used_by": "pin:3"}, "under the new bridge, the new pin hole of string 3 takes it away", "good"),
        ({"under": "bare", "used_by": "pin:3"}, "not covered, the new pin hole of string 3 takes it away", "good"),
        ({"used_by": "slot", "walls": (wall(-1.0),)}, "under the new bridge, the slot takes it away", "good"),
        (
            {"walls": (wall(1.5), wall(9.0))},
            "under the new bridge, 1.5 ±0.5 mm of wood to the new pin hole of string 3",
            "good",
        ),
        ({"walls": (wall(0.5, "slot"),)}, "under the new bridge, 0.5 ±0.5 mm of wood to the slot", "good"),
        (
            {"walls": (wall(0.4, "slot"),)},
            "under the new bridge, 0.4 ±0.5 mm of wood to the slot, which is not sure",
            "look",
        ),
        ({"walls": (wall(0.0, "slot"),)}, "under the new bridge, the slot cuts it by 0.0 ±0.5 mm", "look"),
        ({"walls": (wall(-1.2, "slot"),)}, "under the new bridge, the slot cuts it by 1.2 ±0.5 mm", "look"),
    ],
)
def test_what_becomes_of_a_hole(changes: dict[str, object], says: str, grade: Grade) -> None:
    (line,) = lines(Consequences(holes=(fate(**changes),)))
    assert (line.text, line.grade, line.where) == (f"Old hole 1: {says}.", grade, "point:hole.1")


def test_the_old_slot_is_a_thing_of_its_own() -> None:
    ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))
    (line,) = lines(Consequences(holes=(fate(hole="slot", kind="slot", plug=None),)), old=OldPlan(slot=ring))
    assert (line.text, line.where, line.at) == ("The old slot: under the new bridge.", "old", (2.0, 1.0))


@pytest.mark.parametrize(
    ("changes", "asks"), [({"plug": None}, True), ({"plug": 6.0}, False), ({"plug": None, "used_by": "pin:3"}, False)]
)
def test_a_hole_that_is_too_wide_for_a_plug(changes: dict[str, object], asks: bool) -> None:
    found = lines(Consequences(holes=(fate(**changes),)))
    wide = [line for line in found if line.part == "plugs"]
    assert [(line.text, line.grade, line.where) for line in wide] == (
        [("Old hole 1 is too wide for a plug: let a piece in.", "look", "point:hole.1")] if asks else []
    )


@pytest.mark.parametrize(
    ("holes", "grain", "says"),
    [
        (("hole.1",), "end", "1 plug of 8 mm, end grain, before anything is drilled: for old hole 1."),
        (
            ("pin.1", "pin.2", "hole.1"),
            "face",
            "3 plugs of 8 mm, the grain along the top’s, before anything is drilled: for old pin holes 1 and 2 and old "
            "hole 1.",
        ),
    ],
)
def test_plugs(holes: Sequence[str], grain: str, says: str) -> None:
    plugs = Plugs(diameter=8.0, grain=grain, holes=tuple(holes))  # type: ignore[arg-type]  # one of the two
    (line,) = lines(Consequences(plugs=(plugs,)))
    assert (line.text, line.where) == (says, f"point:{holes[0]}")


def gap(old: str, much: float, new: str = "pin:3") -> Gap:
    return Gap(new=new, old=old, mm=much, pm95=0.5, new_xy=AT, old_xy=AT)


CLEARS, KEEP = "The new pin hole of string 3 clears the middle of metal 1 by", "and 6.0 mm is to be kept clear"
"""Where nothing is said, 6 mm are kept clear."""


@pytest.mark.parametrize(
    ("one", "says", "grade"),
    [
        (gap("brace:1", 2.0), "The new pin hole of string 3 clears brace 1 by 2.0 ±0.5 mm.", "good"),
        (gap("brace:1", 0.5), "The new pin hole of string 3 clears brace 1 by 0.5 ±0.5 mm.", "good"),
        (gap("brace:1", 0.4), "The new pin hole of string 3 clears brace 1 by 0.4 ±0.5 mm, which is not sure.", "look"),
        (gap("brace:1", 0.0), "The new pin hole of string 3 runs into brace 1, by 0.0 ±0.5 mm.", "stop"),
        (gap("brace:1", -1.0), "The new pin hole of string 3 runs into brace 1, by 1.0 ±0.5 mm.", "stop"),
        (gap("brace:1", -1.0, "slot"), "The slot lies over brace 1, by 1.0 ±0.5 mm.", "look"),
        (gap("plate", 2.0), "The new pin hole of string 3 lies 2.0 ±0.5 mm inside the plate’s edge.", "good"),
        (gap("plate", 0.0), "The new pin hole of string 3 lies 0.0 ±0.5 mm beyond the plate’s edge.", "stop"),
        (gap("plate", -2.0), "The new pin hole of string 3 lies 2.0 ±0.5 mm beyond the plate’s edge.", "stop"),
        (gap("metal:metal.1", 9.0), f"{CLEARS} 9.0 ±0.5 mm.", "good"),
        (gap("metal:metal.1", 6.4), f"{CLEARS} 6.4 ±0.5 mm, {KEEP}: it may be nearer.", "look"),
        (gap("metal:metal.1", 5.9), f"{CLEARS} 5.9 ±0.5 mm, {KEEP}: that is too near.", "stop"),
        (gap("metal:metal.1", -1.0, "slot"), "The slot lies over metal 1, by 1.0 ±0.5 mm.", "stop"),
    ],
)
def test_what_lies_under_the_top(one: Gap, says: str, grade: Grade) -> None:
    (line,) = lines(Consequences(gaps=(one,)))
    where = "old plate" if one.old == "plate" else one.old
    assert (line.text, line.grade, line.where, line.at) == (says, grade, where, AT)


def test_of_several_gaps_the_least_sure_is_told_for_holes_and_for_the_slot() -> None:
    """derived: 2.0 less its ± of 1.8 is nearer than 1.0 less 0.5; a plate lies under the slot however it goes"""
    wide = replace(gap("brace:1", 2.0, "pin:4"), pm95=1.8)
    found = lines(
        Consequences(gaps=(gap("brace:1", 1.0), wide, gap("brace:1", 3.0, "slot"), gap("plate", 1.0, "slot")))
    )
    assert [line.text.split(" clears")[0] for line in found] == ["The new pin hole of string 4", "The slot"]


@pytest.mark.parametrize(
    ("side", "hand", "says"), [("left", "right", "Treble"), ("right", "right", "Bass"), ("left", "left", "Bass")]
)
def test_from_a_wing_to_the_bodys_edge(side: str, hand: Hand, says: str) -> None:
    tip = WingTip(side=side, to_edge=SURE, tip_xy=AT, edge_xy=AT)  # type: ignore[arg-type]  # left or right
    (line,) = lines(Consequences(wings=(tip,)), hand)
    assert (line.text, line.at) == (f"{says} wing to the body’s edge: 2.0 ±0.5 mm.", AT)


@pytest.mark.parametrize(
    ("against", "off", "hand", "says", "where"),
    [
        ("seam", 1.0, "right", "Against the seam the bridge is turned by 1.1 ±0.6°, .* 1.0 .* treble", "seam"),
        ("seam", -1.0, "right", "Against the seam the bridge is turned by 1.1 ±0.6°, .* 1.0 .* bass", "seam"),
        ("body", 1.0, "left", "Against the body’s middle line .* 1.0 .* bass", "bridge"),
    ],
)
def test_what_the_eye_compares_it_with(against: str, off: float, hand: Hand, says: str, where: str) -> None:
    """derived: 0.02 rad is 1.146°, and 0.01 rad 0.573°, which is rounded up"""
    turn, offset = Amount(value=-0.02, pm95=0.01), Amount(value=off, pm95=0.3)
    seen = SeenAgainst(against=against, turn=turn, offset=offset)  # type: ignore[arg-type]  # one of the two
    (line,) = lines(Consequences(seen=(seen,)), hand)
    assert re.search(says, line.text)
    assert line.where == where
