"""The new bridge lies where its sheet puts it: how surely it is known where it belongs parts it from no old work."""

from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Old, OldPin, SlotFront
from geometry.layout import Consequences, Gap
from geometry.work_out import lay_out
from tests.geometry.made import scales, surveyed
from tests.geometry.old_work.everything import OLD, PLACES, laid, made, told

WIDE = 2.0
"""The scales' standard deviation, mm: twenty times that of the points."""


SCALES = ("scale.left", "scale.right")


def unsure_of(*names: str, old: Old = OLD, **changes: Any) -> Consequences:
    """What follows where these points or scales are known to `WIDE` alone, all else as well as ever."""
    found = surveyed(PLACES, scales(640.0, 640.0))
    cov = found.cov.copy()
    for name in names:
        first = found.extra_at.get(name, found.point_at.get(name, 0))
        for column in (first,) if name in found.extra_at else (first, first + 1):
            cov[column, column] = WIDE**2
    return told(lay_out(made(PLACES, old, **changes), replace(found, cov=np.asarray(cov))))


def walls(found: Consequences, new: str) -> list[Gap]:
    """The wood between old holes and what is new, of one sort."""
    return [gap for hole in found.holes for gap in hole.walls if gap.new.startswith(new)]


def test_gaps_to_bridge_and_pin_holes_are_as_sure_while_the_scales_are_not() -> None:
    sure, unsure = told(laid()), unsure_of(*SCALES)
    assert unsure.cover == sure.cover
    assert unsure.scar_sides == sure.scar_sides
    assert [hole.inside for hole in unsure.holes] == [hole.inside for hole in sure.holes]
    assert walls(unsure, "pin:") == walls(sure, "pin:") != []


def test_a_slot_cut_afterwards_is_cut_where_it_belongs() -> None:
    """derived: two scales of their own, out by s each, move the slot's middle along the neck by s/√2; the hole that it
    comes near lies before it.
    """
    (gap,) = walls(unsure_of(*SCALES, old=Old(pins={"pin.1": OldPin(diameter=4.0)})), "slot")
    assert gap.pm95 > 1.9 * WIDE / 2**0.5


def test_a_slot_that_comes_with_the_bridge_is_laid_with_it() -> None:
    cut = SlotFront(left=9.0, right=12.0)
    assert walls(unsure_of(*SCALES, slot_front=cut), "slot") == walls(told(laid(slot_front=cut)), "slot") != []


def test_a_bridge_seated_on_the_old_footprint_is_laid_to_that_and_not_by_its_sheet() -> None:
    ends = ("end.left", "end.right")
    for seat, alike in (("old footprint", True), ("square", False)):
        sure, unsure = told(laid(seat=seat)).cover, unsure_of(*ends, seat=seat).cover
        assert sure is not None
        assert unsure is not None
        assert (unsure.pm95 == pytest.approx(sure.pm95, abs=1e-6)) == alike
