"""What is said of old holes, and of what lies under the top, of consequences made by hand: each bound at the bound
itself and just beyond (common practice, no source), one hole and several.
"""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Bridge, Job, Old, Saddle
from geometry.layout import Amount, Consequences, Gap, Hole, HoleFate, OldPlan
from geometry.old_work.holes.old_holes_told import findings, hole_called, unread
from geometry.old_work.inside import under_told
from tests.in_one import in_one

SMALL = 2**-10
AT = (640.0, 0.0)


def gap(new: str, old: str, much: float, pm95: float = 0.25) -> Gap:
    return Gap(new=new, old=old, mm=much, pm95=pm95, new_xy=AT, old_xy=AT)


def fate(name: str = "hole.1", **changes: object) -> HoleFate:
    given: dict[str, object] = {"kind": "hole", "under": "covered", "inside": Amount(value=9.0, pm95=0.5)}
    return HoleFate(hole=name, **given | changes)  # type: ignore[arg-type]  # the fields of a hole


def told(*holes: HoleFate) -> dict[str, Finding]:
    return {found.code: found for found in findings(Job(), Consequences(holes=holes))}


def cut(name: str, by: str, much: float) -> HoleFate:
    return fate(name, cut_by=(by,), walls=(gap(by, f"point:{name}", much),))


def test_a_new_hole_runs_into_an_old_one() -> None:
    found = told(cut("hole.1", "pin:3", -1.25))["old.cut"]
    assert found.text.startswith("New pin holes run into old hole 1, by 1.3 ±0.3 mm at most. Plug it first")
    assert (found.values, found.where) == ({"mm": -1.25, "pm95": 0.25, "count": 1.0}, "old:hole.1")
    assert told(cut("hole.1", "pin:3", 0.0))["old.cut"].text.count("by no more than 0.0 mm at most") == 1
    assert told(fate()) == {}


def test_of_several_that_are_cut_the_worst_in_numbers() -> None:
    found = told(cut("hole.1", "slot", -0.5), cut("hole.2", "pin:3", -1.5))["old.cut"]
    assert found.text.startswith("The slot and new pin holes run into old hole 1 and old hole 2, by 1.5 ±0.3 mm")
    assert "Plug them first" in found.text
    assert found.values == {"mm": -1.5, "pm95": 0.25, "count": 2.0}
    assert told(cut("hole.1", "slot", -0.5))["old.cut"].text.startswith("The slot runs into old hole 1, by 0.5 ±0.3")


def test_the_old_slot_is_filled_with_a_strip() -> None:
    slot = replace(cut("slot", "pin:3", -0.5), kind="slot")
    found = told(slot)["old.cut"]
    assert "into the old slot, by 0.5 ±0.3 mm at most. Fill it with a strip first" in found.text
    assert found.where == "old"
    assert "Plug them first" in told(slot, cut("hole.1", "pin:3", -0.5))["old.cut"].text
    bare = replace(slot, under="bare", cut_by=(), walls=())
    assert told(bare)["old.shows"].text.startswith("Not hidden by the new bridge: the old slot. Fill it with a strip")


@pytest.mark.parametrize(("much", "said"), [(0.25, False), (0.25 - SMALL, True), (0.0, True)])
def test_a_thin_wall(much: float, said: bool) -> None:
    """A wall that is less than its ±; the first is the thinnest of a hole's."""
    wall = gap("pin:3", "point:hole.1", much)
    thin = fate(walls=(wall, gap("slot", "point:hole.1", 0.1)))
    found = told(thin, fate("hole.2", walls=(gap("slot", "point:hole.2", 5.0),))).get("old.thin_wall")
    assert (found is not None) is said
    if found is not None:
        assert found.text.startswith("Between old hole 1 and the new pin hole of string 3 stays ")
        assert found.values == {"mm": much, "pm95": 0.25, "count": 1.0}
    assert "old.thin_wall" not in told(replace(thin, used_by="pin:3"))
    assert "old.thin_wall" not in told(replace(thin, cut_by=("pin:3",)))


def test_the_thinnest_of_several_walls() -> None:
    holes = (
        fate(walls=(gap("pin:3", "point:hole.1", 0.2),)),
        fate("hole.2", walls=(gap("slot", "point:hole.2", 0.1),)),
    )
    found = told(*holes)["old.thin_wall"]
    assert found.text.startswith("Between old hole 1 and old hole 2 and the slot stays 0.1 ±0.3 mm of wood")
    assert "Plug them first" in found.text
    assert found.values == {"mm": 0.1, "pm95": 0.25, "count": 2.0}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, False),
        ({"under": "opened"}, True),
        ({"under": "bare"}, True),
        ({"under": "bare", "used_by": "pin:3"}, False),
    ],
)
def test_holes_that_are_not_hidden(changes: dict[str, object], said: bool) -> None:
    found = told(fate("hole.1", **changes))
    assert ("old.shows" in found) is said
    if said:
        assert "Plug it, the grain along the top’s." in found["old.shows"].text
        both = told(fate("hole.1", **changes), fate("hole.2", **changes))["old.shows"]
        assert "old hole 1 and old hole 2. Plug them, the grain" in both.text
        assert both.values == {"count": 2.0}


@pytest.mark.parametrize(("inside", "said"), [(0.5, False), (0.5 - SMALL, True), (0.0, True), (-SMALL, False)])
def test_holes_that_are_hardly_hidden(inside: float, said: bool) -> None:
    hardly = fate(inside=Amount(value=inside, pm95=0.5))
    found = told(hardly)
    assert ("old.may_show" in found) is said
    assert "old.may_show" not in told(replace(hardly, under="opened"))
    if said:
        assert found["old.may_show"].text.endswith("only: it may show.")
        less = fate("hole.2", inside=Amount(value=inside / 2, pm95=0.5))
        both = told(hardly, less)["old.may_show"]
        assert both.text.endswith("only: they may show.")
        assert both.values["mm"] == inside / 2


def test_holes_off_the_top() -> None:
    found = told(fate(off_top=True), fate("hole.2"))["old.off_top"]
    assert found.text.startswith("Outside the body’s outline: old hole 1. Look")
    assert found.values == {"count": 1.0}


def test_what_an_old_hole_is_called() -> None:
    assert [hole_called(Job(), name) for name in ("pin.2", "hole.1", "screw hole")] == [
        "old pin hole 2",
        "old hole 1",
        "the old hole “screw hole”",
    ]


@pytest.mark.parametrize(
    ("apart", "row", "count", "said"),
    [
        (20.0, None, 2, False),
        (20.0 + SMALL, None, 2, True),
        (53.0, 2, 2, False),
        (53.0, None, 3, False),
        (53.0, None, 1, False),
    ],
)
def test_holes_between_two_that_nobody_read(apart: float, row: int | None, count: int, said: bool) -> None:
    """derived: neighbours lie no more than 20 mm apart (common practice, no source)"""
    pins = tuple(Hole(name=f"pin.{at}", at=(640.0, apart * at), diameter=5.0) for at in range(1, count + 1))
    job = Job(old=Old(row=row))
    found = list(unread(job, OldPlan(pins=pins)))
    assert [one.values for one in found] == ([{"mm": apart}] if said else [])
    assert bool(list(unread(Job(), OldPlan(pins=pins)))) is (said or row is not None)


CUT_DEEP = Job(saddle=Saddle(slot_depth=8.0), bridge=Bridge(thickness=(8.0, 9.0)))


def under(*gaps: Gap, job: Job | None = None) -> dict[str, Finding]:
    return {found.code: found for found in under_told.findings(job or Job(), Consequences(gaps=gaps))}


@in_one(("much", "grade"), [(0.25, "good"), (0.25 - SMALL, "look"), (SMALL, "look"), (0.0, "stop"), (-1.0, "stop")])
@in_one(("old", "code"), [("brace:1", "brace.pin"), ("plate", "plate.pin")])
def test_pin_holes_at_braces_and_plate(much: float, grade: str, old: str, code: str) -> None:
    far = gap("pin:2", old, 9.0)
    found = under(far, gap("pin:3", old, much))[code]
    assert (found.grade, found.values) == (grade, {"mm": much, "pm95": 0.25})
    assert found.text.startswith("The new pin hole of string 3") is (grade != "good")


def test_of_several_gaps_the_least_sure() -> None:
    """derived: 2 less its ± of 1.8 is nearer than 1 less 0.25"""
    unsure, near = gap("pin:2", "brace:2", 2.0, 1.8), gap("pin:3", "brace:1", 1.0)
    assert under(near, unsure)["brace.pin"].values["mm"] == 2.0
    plate = replace(unsure, old="plate"), replace(near, old="plate")
    assert under(*plate)["plate.pin"].values["mm"] == 2.0


@pytest.mark.parametrize(
    ("depth", "thickness", "goes"),
    [
        (8.0, (8.0, 9.0), True),
        (8.0, (9.0, 8.0), True),
        (7.9, (8.0, 9.0), False),
        (8.0, (None, 8.0), True),
        (8.0, None, None),
        (None, (8.0, 9.0), None),
    ],
)
def test_whether_the_slot_goes_through(
    depth: float | None, thickness: tuple[float | None, float] | None, goes: bool | None
) -> None:
    assert under_told.through(Job(saddle=Saddle(slot_depth=depth), bridge=Bridge(thickness=thickness))) is goes
    assert under_told.through(Job()) is None


@pytest.mark.parametrize(
    ("much", "deep", "grade", "says"),
    [
        (0.25, True, None, ""),
        (0.25 - SMALL, True, "look", "comes too near to be sure to brace 1"),
        (0.0, True, "stop", "runs into brace 1"),
        (-1.0, None, "look", "lies over brace 1"),
        (SMALL, None, "look", "comes too near"),
        (-1.0, False, None, ""),
    ],
)
def test_the_slot_over_a_brace(much: float, deep: bool | None, grade: str | None, says: str) -> None:
    shallow = replace(CUT_DEEP, saddle=Saddle(slot_depth=6.0))
    job = {True: CUT_DEEP, False: shallow, None: Job()}[deep]
    found = under(gap("slot", "brace:2", 9.0), gap("slot", "brace:1", much), job=job).get("brace.slot")
    assert (None if found is None else found.grade) == grade
    assert found is None or says in found.text
