"""What stays uncovered: areas against closed formulas, their ± against moving the bridge by hand."""

import cmath
import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.bridge.belly import Belly
from geometry.frame import Points
from geometry.job import Bridge, Old
from geometry.layout import XY
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.uncovered import ARC_STEP, _weights, bare_areas, followed, left_bare
from tests.geometry.made import BOARD
from tests.geometry.old_work.everything import OLD, PLACES, laid, told

FOUR = ("old.1", "old.2", "old.3", "old.4")


def circle(radius: float, count: int = 720) -> Points:
    return np.array([cmath.rect(radius, math.tau * step / count) for step in range(count)])


def round_bridge(radius: float) -> Bridge:
    """A traced outline that is round, its front at 0 and its middle on the bridge's."""
    points = tuple((z.real + radius, z.imag) for z in circle(radius).tolist())
    return Bridge(outline="traced", traced=points, length=2 * radius, width=2 * radius)


def lens(one: float, other: float, apart: float) -> float:
    """The overlap of two circles: two circular segments over their common chord (derived: sectors less triangles)."""
    a = math.acos((apart**2 + one**2 - other**2) / (2 * apart * one))
    b = math.acos((apart**2 + other**2 - one**2) / (2 * apart * other))
    return one**2 * (a - math.sin(a) * math.cos(a)) + other**2 * (b - math.sin(b) * math.cos(b))


def test_two_equal_circles_through_each_others_middles() -> None:
    # derived, and in every handbook: two circles of radius R, R apart, share R² (2π/3 − √3/2)
    assert lens(1.0, 1.0, 1.0) == pytest.approx(2 * math.pi / 3 - math.sqrt(3) / 2)


@pytest.mark.parametrize(("sweep", "area"), [(60, 0.0906), (90, 0.2854), (120, 0.6142)])
def test_a_segment_has_the_area_that_the_handbook_prints(sweep: float, area: float) -> None:
    """Machinery's Handbook, the table of segments of circles for radius 1, four places (from memory). Two circles whose
    middles lie twice the segment's distance apart share two of it.
    """
    apart = 2 * math.cos(math.radians(sweep) / 2)
    bare = left_bare(circle(50.0) + 50.0 + 50.0 * apart * 1j, round_bridge(50.0))
    assert bare is not None
    assert math.pi * 50.0**2 - bare.area == pytest.approx(2 * area * 50.0**2, abs=0.5)


def test_circles_share_what_mathworld_says() -> None:
    """Weisstein, "Circle-Circle Intersection", MathWorld: the area by three terms (from memory, as is its form)"""
    r, big, d = 18.0, 30.0, 20.0
    kite = math.sqrt((-d + r + big) * (d + r - big) * (d - r + big) * (d + r + big)) / 2
    printed = (
        r**2 * math.acos((d**2 + r**2 - big**2) / (2 * d * r))
        + big**2 * math.acos((d**2 + big**2 - r**2) / (2 * d * big))
        - kite
    )
    bare = left_bare(circle(r) + 30.0 + d * 1j, round_bridge(big))
    assert bare is not None
    assert math.pi * r**2 - bare.area == pytest.approx(printed, abs=0.1)


def test_a_polygon_has_the_area_of_the_well_known_example() -> None:
    """The five corners (3, 4), (5, 11), (12, 8), (9, 5), (5, 6) enclose 30: worked out in Wikipedia's "Shoelace
    formula" (from memory)
    """
    corners = np.array([5 + 6j, 9 + 5j, 12 + 8j, 5 + 11j, 3 + 4j], dtype=np.complex128)
    assert nearest.area(corners) == pytest.approx(30.0, abs=1e-9)
    bare = left_bare(corners + 500.0, round_bridge(30.0))
    assert bare is not None
    assert bare.area == pytest.approx(30.0, abs=1e-6)


@pytest.mark.parametrize(("radius", "apart"), [(30.0, 30.0), (30.0, 55.0), (18.0, 20.0)])
def test_a_round_old_footprint_under_a_round_bridge_leaves_all_but_the_lens(radius: float, apart: float) -> None:
    # a polygon of n corners in a circle has 1 − (2π/n)²/6 of its area (derived): 1.3e-5 for 720
    bare = left_bare(circle(radius) + 30.0 + apart * 1j, round_bridge(30.0))
    assert bare is not None
    assert bare.area == pytest.approx(math.pi * radius**2 - lens(30.0, radius, apart), abs=0.1)


def test_a_bellys_area_is_that_of_its_segments() -> None:
    # derived: a segment of radius R and sweep θ has R²/2 (θ − sin θ); the hollows' are taken off the triangles under
    # their chords
    bridge = Bridge(length=152.0, width=26.0, belly_depth=11.0)
    belly = Belly(bridge)
    (x, y), sweep = belly.joint, 2 * belly.angle
    crown = belly.crown**2 / 2 * (sweep - math.sin(sweep))
    hollow = belly.hollow**2 / 2 * (belly.angle - math.sin(belly.angle))
    foot = (x - 26.0) * (belly.reach - y) / 2 - hollow
    exact = 152.0 * 26.0 + 2 * y * (x - 26.0) + crown + 2 * foot
    # chords of ARC_STEP lose at most a share ARC_STEP²/4 of the segments (derived: θ³/12 and θ (step)²/12 a sweep)
    assert nearest.area(followed(bridge)) == pytest.approx(exact, abs=crown * ARC_STEP**2)
    assert nearest.area(followed(replace(bridge, outline="reversed belly"))) == pytest.approx(
        exact, abs=crown * ARC_STEP**2
    )


def test_a_strip_in_front_has_its_area_width_and_their_pm() -> None:
    # derived: a footprint of 100 by 20 whose front lies `before` the bridge's leaves 100 × before uncovered, known to
    # 100 times what `before` is; finish to clear is the bridge less what they share
    corners: dict[str, XY] = {"old.1": (625.0, 50.0), "old.2": (625.0, -50.0), "old.3": (645.0, -50.0)}
    places = BOARD | corners | {"old.4": (645.0, 50.0)}
    layout = laid(places, Old(outline=FOUR), outline="straight")
    assert layout.bridge is not None
    front, found = layout.bridge.corners[0][0], told(layout)
    before = front - 625.0
    assert found.scar_area is not None
    assert found.finish_clear is not None
    assert found.scar_area.value == pytest.approx(100.0 * before, abs=1e-6)
    assert found.finish_clear.value == pytest.approx(152.0 * 26.0 - 100.0 * (20.0 - before), abs=1e-6)
    assert found.finish_save == found.scar_area
    (side,) = found.scar_sides
    assert side.side == "front"
    assert side.widest.value == pytest.approx(before)
    # the mean of the two front corners is known better than one of them by what is their own (0.1 each); the bridge's
    # turn, which moves the one and not the mean, is under a hundredth of it
    own = (1.959963984540054 * 0.1) ** 2
    assert (found.scar_area.pm95 / 100.0) ** 2 == pytest.approx(side.widest.pm95**2 - own / 2, rel=1e-2)


def test_the_uncovered_areas_of_many_places_are_those_of_each() -> None:
    bridge = Bridge(length=152.0, width=26.0)
    footprint = np.array([-3 + 76j, -3 - 76j, 24 - 76j, 24 + 76j])
    moved = footprint + np.array([0, 2.5, -4 + 3j])[:, None]
    for area, own in zip(bare_areas(moved, bridge).tolist(), moved, strict=True):
        bare = left_bare(own, bridge)
        assert bare is not None
        assert area == pytest.approx(bare.area)
    assert bare_areas(moved, bridge)[0] == pytest.approx(3.0 * 152.0)  # derived: 3 in front, all its length


def test_a_footprint_that_crosses_itself_has_no_area() -> None:
    assert left_bare(np.array([0, 10 + 10j, 10, 10j]), Bridge()) is None


def test_an_areas_pm_is_what_moving_its_corners_does() -> None:
    """The ± of what a stain shows against its change when its corners are moved one by one."""
    old = Old(areas=OLD.areas)
    still = told(laid(PLACES, old, sd=1e-6)).areas[0].area
    step, slopes = 0.01, []
    for name in ("stain.1", "stain.2", "stain.3"):
        for axis in (0, 1):
            at = list(PLACES[name])
            at[axis] += step
            moved = told(laid(PLACES | {name: (at[0], at[1])}, old, sd=1e-6)).areas[0].area
            slopes.append((moved.value - still.value) / step)
    alone = 1.959963984540054 * 0.1 * math.hypot(*slopes)
    found = told(laid(PLACES, old, sd=0.1)).areas[0].area
    assert found.pm95 > alone * 0.999  # the bridge's own place comes on top
    assert found.pm95 < alone * 3.0


def test_what_is_cleared_round_a_footprint_that_is_covered() -> None:
    """derived: nothing of it shows; a corner that moves by 1 changes the area by half of what its neighbours lie apart,
    so that four corners known to 0.1 leave an area known to 0.1 times the diagonal
    """
    x = 636.0
    corners: dict[str, XY] = {"old.1": (x, 50.0), "old.2": (x, -50.0), "old.3": (x + 15, -50.0)}
    found = told(laid(BOARD | corners | {"old.4": (x + 15, 50.0)}, Old(outline=FOUR), outline="straight"))
    assert found.scar_area is not None
    assert found.finish_clear is not None
    assert (found.scar_area.value, found.scar_area.pm95) == pytest.approx((0.0, 0.0), abs=1e-9)
    assert found.finish_clear.value == pytest.approx(152.0 * 26.0 - 1500.0)
    assert found.finish_clear.pm95 == pytest.approx(1.959963984540054 * 0.1 * math.hypot(100.0, 15.0), rel=1e-4)


@pytest.mark.parametrize("turned", [False, True])
def test_the_areas_grow_with_each_corner_as_they_do_when_it_is_moved(turned: bool) -> None:
    """derived: by moving one corner of an outline at a time and taking the areas anew, either way round"""
    bridge = Bridge(outline="straight", length=150.0, width=28.0)
    ring = np.array([-4 + 80j, 20 + 78j, 35 - 70j, -6 - 82j])
    ring = ring[::-1] if turned else ring
    weights = _weights(ring, bridge)
    whole = nearest.area(followed(bridge))
    step = 1e-5
    for corner in range(len(ring)):
        for way, part in ((1.0, weights[:, corner].real), (1j, weights[:, corner].imag)):
            areas = []
            for sign in (1.0, -1.0):
                moved = ring.copy()
                moved[corner] += sign * step * way
                bare = float(bare_areas(moved[None], bridge)[0])
                areas.append((bare, whole - abs(nearest.area(moved)) + bare))
            grows = [(more - less) / (2 * step) for more, less in zip(*areas, strict=True)]
            assert part.tolist() == pytest.approx(grows, abs=1e-3)
