"""What is said of the bases' holes, of walls made by hand: each bound at the bound itself and just beyond (common
practice, no source), and who is named.
"""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Job, Separate
from geometry.layout import Gap, Hole, Metal, OldPlan
from geometry.separate.base_holes_told import findings, new_called, takes
from tests.geometry.separate.slanted_sample import plan_of, sample

SMALL = 2**-10
SEPARATE = Separate(screw=3.0)
PLAN = replace(plan_of(sample())[1], walls=(), over=())


def gap(new: str, old: str, much: float, pm95: float = 0.25, apart: float = 9.0) -> Gap:
    return Gap(new=new, old=old, mm=much, pm95=pm95, new_xy=(640.0, 0.0), old_xy=(640.0 + apart, 0.0))


def told(*walls: Gap, over: tuple[Gap, ...] = (), old: OldPlan | None = None) -> dict[str, Finding]:
    plan = replace(PLAN, walls=walls, over=over)
    return {found.code: found for found in findings(Job(), SEPARATE, plan, old or OldPlan())}


@pytest.mark.parametrize(
    ("name", "called"),
    [
        ("through:6", "the through hole of string 6"),
        ("screw:2", "screw hole 2"),
        ("screw:5.1", "screw hole 1 of the base of string 5"),
    ],
)
def test_what_a_new_hole_is_called(name: str, called: str) -> None:
    assert new_called(name) == called


@pytest.mark.parametrize(
    ("much", "grade"), [(2.0, None), (2.0 - SMALL, "look"), (SMALL, "look"), (0.0, "stop"), (-1.0, "stop")]
)
def test_wood_between_new_holes(much: float, grade: str | None) -> None:
    """The thinnest is told; walls to old holes and to metal are told by themselves."""
    others = gap("screw:3", "through:1", 5.0), gap("screw:4", "point:hole.1", 9.0), gap("screw:4", "metal:m", 9.0)
    found = told(others[0], gap("screw:1", "screw:2", much), *others[1:]).get("separate.wall")
    assert (None if found is None else found.grade) == grade
    if found is not None:
        assert "crew hole 1 and " in found.text
        assert found.values == {"mm": much}
        assert found.where == "field:separate.screws"
        assert "ferrules" not in found.text


@pytest.mark.parametrize(
    ("new", "old", "where", "beneath"),
    [
        ("through:1", "through:2", "through", True),
        ("screw:1", "through:2", "through", False),
        ("through:1", "screw:2", "through", False),
        ("screw:1", "screw:2", "screws", False),
    ],
)
def test_where_a_thin_wall_leads(new: str, old: str, where: str, beneath: bool) -> None:
    found = told(gap(new, old, 1.0))["separate.wall"]
    assert found.where == f"field:separate.{where}"
    assert ("Their ferrules count" in found.text) is beneath


@pytest.mark.parametrize(
    ("new", "apart", "wide", "again"),
    [
        ("screw:1", 0.296875, 3.0, True),
        ("screw:1", 0.3125, 3.0, False),
        ("screw:1", 0.0, 3.125, True),
        ("screw:1", 0.0, 3.1875, False),
        ("through:1", 0.0, 3.0, False),
    ],
)
def test_a_screw_that_takes_an_old_hole(new: str, apart: float, wide: float, again: bool) -> None:
    """derived: within 0.3 mm, and a hole at most 0.15 mm wider than the screw's, which is 3 mm"""
    near = gap(new, "point:hole.1", -2.0, apart=apart)
    hole = Hole(name="hole.1", at=(640.0, 0.0), diameter=wide)
    for old in (OldPlan(holes=(hole,)), OldPlan(pins=(hole,))):
        assert takes(near, SEPARATE, old) is again
    assert ("separate.used_again" in told(near, old=OldPlan(holes=(hole,)))) is again
    assert ("separate.into_old" in told(near, old=OldPlan(holes=(hole,)))) is not again


@pytest.mark.parametrize(
    ("much", "pm95", "code"),
    [
        (0.0, 0.25, "separate.into_old"),
        (-1.0, 0.25, "separate.into_old"),
        (SMALL, 0.25, "separate.near_old"),
        (1.0, 0.25, "separate.near_old"),  # half of the least wood
        (1.0 + SMALL, 0.25, None),
        (1.5, 1.5, "separate.near_old"),  # as much as is not known
        (1.5 + SMALL, 1.5, None),
    ],
)
def test_how_near_an_old_hole_is_too_near(much: float, pm95: float, code: str | None) -> None:
    found = told(gap("screw:1", "point:hole.1", much, pm95))
    assert set(found) == (set() if code is None else {code})
    if code is not None:
        assert found[code].values == {"mm": much, "pm95": pm95}
        assert found[code].where == "point:hole.1"


def test_one_hole_and_several() -> None:
    one = told(gap("screw:1", "point:hole.1", -1.0))["separate.into_old"].text
    assert one.startswith("Screw hole 1 runs into old hole 1, by 1.0 ±0.3 mm at most. Plug the old hole first, let it")
    may = told(gap("screw:1", "point:hole.1", -0.25))["separate.into_old"].text  # no more than the ± of 0.25 mm
    assert may.startswith("Screw hole 1 may run into old hole 1, by 0.3 ±0.3 mm at most.")
    new = told(gap("screw:1", "point:hole.1", -1.0), gap("screw:2", "point:hole.1", -1.5))["separate.into_old"].text
    assert new.startswith("Screw holes 1 and 2 run into old hole 1, by 1.5 ±0.3 mm at most. Plug the old hole first")
    old = told(gap("screw:1", "point:hole.1", 0.5), gap("screw:1", "point:hole.2", 0.75))["separate.near_old"].text
    assert old.startswith(
        "Screw hole 1 comes near old hole 1 and old hole 2: 0.5 ±0.3 mm of wood stays. Plug the old holes"
    )
    mixed = told(gap("screw:5.1", "point:hole.1", 0.5), gap("through:2", "point:hole.1", 0.75))[
        "separate.near_old"
    ].text
    assert mixed.startswith(
        "Screw hole 1 of the base of string 5 and the through hole of string 2 come near old hole 1"
    )
    hole = OldPlan(holes=(Hole(name="hole.1", at=(640.0, 0.0), diameter=3.0),))
    again = told(gap("screw:1", "point:hole.1", -2.0, apart=0.0), old=hole)["separate.used_again"]
    assert again.text.startswith("Screw hole 1 comes on old hole 1")
    assert (again.values, again.where) == ({"count": 1.0}, "point:hole.1")


@pytest.mark.parametrize(
    ("much", "pm95", "grade"),
    [
        (6.25, 0.25, "good"),  # its ± lies outside of what is kept clear
        (6.25 - SMALL, 0.25, "look"),
        (6.0, 0.25, "look"),
        (6.0 - SMALL, 0.25, "stop"),
        (-1.0, 0.25, "stop"),
    ],
)
def test_metal(much: float, pm95: float, grade: str) -> None:
    old = OldPlan(metal=(Metal(name="metal.1", at=(640.0, 0.0), keep_out=6.0),))
    far = gap("screw:2", "metal:metal.1", 20.0)
    found = told(far, gap("screw:1", "metal:metal.1", much, pm95), old=old)["separate.metal"]
    assert found.grade == grade
    assert found.values == {"room": much, "keep_out": 6.0, "pm95": pm95}
    assert found.where == "metal:metal.1"
    assert found.text.startswith("Metal 1 " if grade == "good" else "The middle of metal 1 lies ")
    assert ("screw hole 1" in found.text) is (grade != "good")


def test_of_several_the_least_sure_is_told_and_metal_met_stops_without_a_keep_out() -> None:
    """derived: 9 less its ± of 4 is nearer than 6.5 less 0.25"""
    bare = OldPlan(metal=(Metal(name="metal.1", at=(640.0, 0.0), keep_out=0.0),))
    near, unsure = gap("screw:1", "metal:metal.1", 6.5), gap("screw:2", "metal:metal.1", 9.0, 4.0)
    assert told(near, unsure, old=bare)["separate.metal"].values["room"] == 9.0
    assert told(gap("screw:1", "metal:metal.1", 0.0, 0.0), old=bare)["separate.metal"].grade == "stop"
    assert told(gap("screw:1", "metal:metal.1", SMALL, 0.0), old=bare)["separate.metal"].grade == "good"
    assert "separate.metal" not in told(old=bare)


@pytest.mark.parametrize(
    ("much", "grade"),
    [(0.25 + SMALL, None), (0.25, "look"), (-0.25 + SMALL, "look"), (-0.25, "stop"), (-2.0, "stop")],
)
def test_a_hole_over_the_opening(much: float, grade: str | None) -> None:
    found = told(over=(gap("screw:2", "opening", 9.0), gap("screw:1", "opening", much))).get("separate.hole_over")
    assert (None if found is None else found.grade) == grade
    if found is not None:
        assert found.text.startswith(f"Screw hole 1 {'comes' if grade == 'stop' else 'may come'} out in")


@pytest.mark.parametrize(("much", "said"), [(0.0, False), (-SMALL, True), (-2.0, True)])
def test_a_base_over_the_opening(much: float, said: bool) -> None:
    found = told(over=(gap("base", "opening", much), gap("base", "opening", 3.0)))
    assert set(found) == ({"separate.over"} if said else set())
    if said:
        assert found["separate.over"].values == {"mm": much, "pm95": 0.25}
