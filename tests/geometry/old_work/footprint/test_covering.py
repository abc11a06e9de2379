"""The outline that covers: it does, nothing smaller does, the slot stays, and what it costs is told."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from app.edit.bridge.cover_old import cover_old
from geometry.bridge.seat_bridge import FRONT_SHARE
from geometry.frame import Points
from geometry.job import Bridge, Job, SlotFront
from geometry.layout import Covering, Layout
from geometry.old_work.footprint.covering import DENSITY, ROUNDING, _along, covering_of, find_covering, front_of, grown
from geometry.old_work.gaps.uncovered import bare_areas, followed
from geometry.units import mm
from geometry.work_out import lay_out
from tests.geometry.made import scales, surveyed
from tests.geometry.old_work.everything import PLACES, laid, made, told

FOOTPRINT = np.array([-2 + 77j, -1 - 78j, 27 - 78j, 29 + 77j])
FAMILIES = ("straight", "belly", "reversed belly", "stepped wings", "tapered wings", "pyramid")
LESS = 0.02
"""mm. A bridge that is so much smaller on any side no longer covers."""


def bare(bridge: Bridge, usual: Bridge, own: Points) -> float:
    """What a bridge leaves of an outline that is seen from another with the same slot."""
    return float(bare_areas(own[None] + front_of(bridge, usual), bridge)[0])


def usual(family: str) -> Bridge:
    return Bridge(outline=family, length=152.0, width=26.0)  # type: ignore[arg-type]  # one of the outlines' names


def test_a_straight_bridge_grows_by_what_stands_out() -> None:
    # derived: 2 in front, 3 behind (29 − 26), 2 at the farther wing (78 − 76), which both wings gain
    found = grown(usual("straight"), FOOTPRINT)
    assert (found.length, found.width) == (156.0, 31.0)
    assert found.front_to_slot == pytest.approx(FRONT_SHARE * 26.0 + 2.0)


@pytest.mark.parametrize("family", FAMILIES)
def test_it_covers_and_nothing_smaller_does(family: str) -> None:
    bridge = usual(family)
    found = grown(bridge, FOOTPRINT)
    assert found.outline == family
    assert bare(found, bridge, FOOTPRINT) == pytest.approx(0.0, abs=1e-3)
    front, width, length = mm(found.front_to_slot or 0), mm(found.width), mm(found.length)
    less = [replace(found, length=length - 2 * LESS)]
    if width > 26.0 + 1e-6:
        less += [replace(found, front_to_slot=front - LESS, width=width - LESS), replace(found, width=width - LESS)]
    for smaller in less[: 1 if family == "reversed belly" else None]:
        assert bare(smaller, bridge, FOOTPRINT) > 1e-5


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(FAMILIES),
    st.lists(st.floats(-6.0, 6.0), min_size=8, max_size=8),
    st.floats(0.0, 2.0),
)
def test_any_footprint_is_covered_by_its_margin(family: str, moves: list[float], margin: float) -> None:
    own = FOOTPRINT + np.array(moves).view(np.complex128)
    bridge = usual(family)
    found = grown(bridge, own, (margin, margin))
    assert bare(found, bridge, own) == pytest.approx(0.0, abs=0.02)
    for off in (margin, -margin, margin * 1j, -margin * 1j):
        assert bare(found, bridge, own + off) == pytest.approx(0.0, abs=0.02)


def test_the_smallest_of_all_that_cover_on_a_grid() -> None:
    """By trying every straight bridge on a grid of half mm."""
    own = np.array([-1.5 + 70j, -1.5 - 78j, 27.5 - 78j, 27.5 + 70j])
    bridge, best = usual("straight"), None
    for front in np.arange(0.0, 3.1, 0.5).tolist():
        for back in np.arange(0.0, 3.1, 0.5).tolist():
            for wings in np.arange(0.0, 3.1, 0.5).tolist():
                tried = replace(
                    bridge,
                    length=152.0 + 2 * wings,
                    width=26.0 + front + back,
                    front_to_slot=FRONT_SHARE * 26.0 + front,
                )
                if bare(tried, bridge, own) < 1e-9 and (best is None or mm(tried.width) * mm(tried.length) < best[0]):
                    best = mm(tried.width) * mm(tried.length), tried
    assert best is not None
    found = grown(bridge, own)
    assert (found.length, found.width) == (best[1].length, best[1].width)


def test_a_footprint_that_is_covered_asks_for_nothing() -> None:
    bridge = usual("belly")
    assert grown(bridge, np.array([5 + 60j, 5 - 60j, 20 - 60j, 20 + 60j])) == bridge


def test_what_it_costs_in_wood_and_weight() -> None:
    bridge = Bridge(outline="straight", length=152.0, width=26.0, thickness=(8.0, 10.0))
    found = find_covering(bridge, FOOTPRINT)
    assert found is not None
    assert found.grown == ("front", "back", "wings")
    # derived: 156 × 31 less 152 × 26 of wood 9 thick
    assert found.area - found.usual_area == pytest.approx(156.0 * 31.0 - 152.0 * 26.0)
    assert found.volume == pytest.approx((156.0 * 31.0 - 152.0 * 26.0) * 9.0)
    assert found.weight == pytest.approx((156.0 * 31.0 - 152.0 * 26.0) * 9.0 * DENSITY)
    assert found.uncovered == pytest.approx(0.0)
    assert found.usual_uncovered > 0
    unknown = find_covering(replace(bridge, thickness=None), FOOTPRINT)
    assert unknown is not None
    assert (unknown.volume, unknown.weight) == (None, None)


@pytest.mark.parametrize(
    "bridge",
    [
        Bridge(seat="old footprint"),
        Bridge(slot_front=SlotFront(left=6.0, right=8.0)),
        Bridge(
            outline="traced", length=40.0, width=20.0, traced=((0.0, 20.0), (0.0, -20.0), (20.0, -20.0), (20.0, 20.0))
        ),
    ],
)
def test_a_bridge_that_cannot_grow_is_left_alone(bridge: Bridge) -> None:
    assert find_covering(bridge, FOOTPRINT) is None


def test_a_footprint_that_no_bridge_covers_is_left_alone() -> None:
    assert find_covering(usual("belly"), FOOTPRINT * 6) is None


def covering(job: Job, layout: Layout) -> Covering | None:
    assert job.bridge is not None
    return covering_of(job.bridge, layout)


def taken(unit: str) -> tuple[Job, Layout, Job, Layout]:
    job = replace(made(outline="straight"), unit=unit)
    found = surveyed(PLACES, scales(640.0, 640.0))
    layout = lay_out(job, found)
    larger = cover_old(job, layout)
    return job, layout, larger, lay_out(larger, found)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_taken_up_it_surely_covers_and_the_slot_stays_where_it_was(unit: str) -> None:
    small, layout, job, after = taken(unit)
    assert covering(small, layout) is not None
    assert layout.saddle is not None
    assert after.saddle is not None
    for one, other in zip(after.saddle.front, layout.saddle.front, strict=True):
        assert one == pytest.approx(other, abs=1e-9)
    assert after.bridge is not None
    assert after.bridge.pins == layout.bridge.pins if layout.bridge else None
    cover = told(after).cover
    assert cover is not None
    assert cover.value >= cover.pm95
    assert next(found.grade for found in after.findings if found.code == "scar") == "good"
    assert covering(job, after) is None
    assert job.bridge is not None
    step = 0.1 if unit == "mm" else 25.4 / 64
    assert mm(job.bridge.width) / step == pytest.approx(round(mm(job.bridge.width) / step))
    assert mm(job.bridge.length) in (152.0, pytest.approx(round(mm(job.bridge.length) / step) * step))


def test_without_an_outline_to_take_up_the_job_stays() -> None:
    job = made()
    assert cover_old(job, None) is job
    assert cover_old(job, replace(laid(), consequences=None)) is job


def test_the_outline_is_followed_all_round_in_short_steps() -> None:
    """derived: a side of so many mm has a place at each quarter of a mm, its first corner among them"""
    at = _along(FOOTPRINT, usual("belly"))
    sides = list(zip(FOOTPRINT, np.roll(FOOTPRINT, -1), strict=True))
    on_each = []
    for start, stop in sides:
        share = (at - start) / (stop - start)
        on = np.sort(share[(abs(share.imag) < 1e-9) & (share.real > -1e-9) & (share.real < 1)].real)
        assert on[0] == pytest.approx(0.0, abs=1e-9)
        assert np.diff([*on, 1.0]).max() * abs(stop - start) <= 0.25 + 1e-9
        on_each.append(len(on))
    assert sum(on_each) == len(at)


def test_the_outline_has_places_on_either_side_of_the_bridges_corners() -> None:
    """derived: where stepped wings begin and end, at 76 mm either way and at the step, the room changes at once; a
    straight side that crosses these has a place just before and just after each
    """
    bridge = usual("stepped wings")
    side = np.array([3 - 90j, 5 + 90j, 60 + 90j, 60 - 90j])
    at = _along(side, bridge)
    for y in np.unique(np.round(followed(bridge).imag, 6)):
        for beyond in (y - ROUNDING, y + ROUNDING):
            assert np.abs(at.imag - beyond).min() < 1e-12 + ROUNDING / 10
