"""What is said of wood that is less than usual, and when there is none (common practice, no source)."""

import pytest
from msgspec.structs import replace

from geometry.bridge.bridge_told import NO_WOOD, _thin, thin_wood
from geometry.bridge.wood_left import _where_least
from geometry.job import Bridge, Job, Pins
from tests.export.conftest import layout
from tests.in_one import in_one


@pytest.mark.parametrize(
    ("left", "grade", "says"),
    [
        (NO_WOOD, "look", "Only 0.0 mm of wood stays here; 3.0 mm is usual. Mend it."),
        (0.011, "look", "Only 0.0 mm"),
        (0.009, "stop", "There is no wood left here: it is cut into by 0.0 mm. Mend it."),
        (-1.26, "stop", "it is cut into by 1.3 mm."),
        (1.26, "look", "Only 1.3 mm of wood stays here"),
        (2.96, "look", "Only just under 3.0 mm of wood stays here"),
    ],
)
def test_thin_wood(left: float, grade: str, says: str) -> None:
    """derived: less than a hundredth of a mm is none; what falls short does not read as what is usual"""
    found = thin_wood(Job(), left, 3.0, "here", "Mend it.")
    assert found[0] == grade
    assert says in found[1]


ONE, TWO, BOTH = ("1",), ("2",), ("1", "2")


@in_one(
    ("places", "where"),
    # alike within 0.05 mm (no rule shows it): the one, or the two, that are less than all others
    [
        ([], ()),
        ([(3.0, ONE)], ()),
        ([(3.0, ONE), (3.04, TWO)], ()),
        ([(3.0, ONE), (3.06, TWO)], ONE),
        ([(3.06, ONE), (3.0, TWO)], TWO),
        ([(3.0, ONE), (3.04, TWO), (4.0, ("3",))], BOTH),
        ([(3.0, ONE), (3.06, TWO), (4.0, ("3",))], ONE),
        ([(3.0, ONE), (3.0, TWO), (3.0, ("3",)), (4.0, ("4",))], ()),
        ([(3.0, BOTH), (4.0, ("2", "3"))], BOTH),
        ([(3.0, BOTH), (3.0, ("2", "3")), (4.0, ("3", "4"))], ()),
    ],
)
def test_where_the_least_wood_is(places: list[tuple[float, tuple[str, ...]]], where: tuple[str, ...]) -> None:
    assert _where_least(places) == where


@pytest.mark.parametrize(
    ("pins", "place", "mend"),
    [
        (Pins(), "behind", "Set the pins nearer to the slot, or make the bridge wider."),
        (None, "behind", "Move the slot forward in the bridge, or make the bridge wider."),
        (None, "front", "Move the slot back in the bridge, or make the bridge wider."),
        (Pins(), "front", "Move the slot back in the bridge, or make the bridge wider."),
    ],
)
def test_the_mend_goes_by_what_there_is(pins: Pins | None, place: str, mend: str) -> None:
    plan = layout().bridge
    assert plan is not None
    seen = replace(plan, pins=plan.pins if pins else (), wood={place: 0.5})
    found = _thin(Job(), place, seen, Bridge(pins=pins))
    assert found.text.endswith(mend)
    assert (found.code, found.values) == (f"wood.{place}", {"wood": 0.5})
