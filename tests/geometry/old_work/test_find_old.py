"""What of the old work could be placed."""

from collections.abc import Callable

import pytest

from geometry.job import Area, Brace, Job, NotAJob, Old, OldHole, OldPin, OldSlot, Point
from geometry.layout import XY, OldPlan, PlacedPoint
from geometry.old_work.find_old import find_old

PLACES: dict[str, XY] = {
    "pin.1": (650.0, 30.0),
    "pin.6": (655.0, -20.0),
    "hole.1": (600.0, 0.0),
    "s.1": (640.0, 35.0),
    "s.2": (640.0, -35.0),
    "b.1": (600.0, 10.0),
    "b.2": (700.0, 60.0),
    "a.1": (610.0, 0.0),
    "a.2": (620.0, 0.0),
    "a.3": (620.0, 10.0),
}


def found(old: Old, measured: dict[str, float] | None = None, without: str = "") -> OldPlan:
    points = {
        name: PlacedPoint(x=x, y=y, sx=0.1, sy=0.1, sxy=0.0, checked=True)
        for name, (x, y) in PLACES.items()
        if name != without
    }
    return find_old(Job(points={name: Point() for name in PLACES}, old=old), points, measured or {})


def test_holes_between_the_outer_two_are_taken_as_evenly_spaced_and_say_so() -> None:
    # derived: five even steps from (650, 30) to (655, -20) are (1, -10) each; 5.0 to 6.0 mm wide in steps of 0.2
    pins = found(Old(pins={"pin.1": OldPin(diameter=5.0), "pin.6": OldPin(diameter=6.0)}, row=6)).pins
    assert [hole.at for hole in pins] == [pytest.approx((650 + k, 30 - 10 * k)) for k in range(6)]
    assert [hole.diameter for hole in pins] == pytest.approx([5.0, 5.2, 5.4, 5.6, 5.8, 6.0])
    assert [hole.assumed for hole in pins] == [False, True, True, True, True, False]
    assert len({hole.name for hole in pins}) == 6


def test_a_row_that_was_read_whole_or_in_one_place_gets_no_more() -> None:
    three = {name: OldPin(diameter=5.0) for name in ("pin.1", "pin.6", "hole.1")}
    assert len(found(Old(pins=three, row=6)).pins) == 3
    assert len(found(Old(pins={"pin.1": OldPin(diameter=5.0)}, row=6)).pins) == 1


def test_the_old_slot_is_as_wide_as_it_says_round_its_middle_line() -> None:
    # derived: half of 3 mm to either side of x = 640, from y = 35 to -35
    slot = found(Old(slot=OldSlot(of=("s.1", "s.2"), width=3.0))).slot
    assert sorted(slot) == [(638.5, -35.0), (638.5, 35.0), (641.5, -35.0), (641.5, 35.0)]


def test_braces_areas_and_plate_wait_for_all_their_points() -> None:
    old = Old(
        braces={"long": Brace(of=("b.1", "b.2"), width="5/16 in")},
        areas={"stain": Area(of=("a.1", "a.2", "a.3"), what="damaged")},
        plate=("a.1", "a.2", "b.2"),
        bare=("a.1", "a.3", "b.2"),
    )
    whole = found(old)
    assert whole.braces[0].line == (PLACES["b.1"], PLACES["b.2"])
    assert whole.braces[0].width == pytest.approx(7.9375)  # 5/16 of 25.4
    assert (whole.areas[0].what, len(whole.areas[0].outline)) == ("damaged", 3)
    assert len(whole.plate) == len(whole.bare) == 3
    part = found(old, without="b.2")
    assert (part.braces, part.plate, part.bare) == ((), (), ())
    assert part.areas == whole.areas


def test_a_measured_hole_keeps_its_measure_and_its_kind() -> None:
    old = found(Old(holes={"hole.1": OldHole(diameter=4.0)}), measured={"hole.1": 4.4})
    assert [hole.diameter for hole in old.holes] == [4.4]
    assert old.pins == ()


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Brace(of=("b.1",)), "A brace needs two points or more"),
        (lambda: Area(of=("a.1", "a.2")), "An area needs three points or more"),
        (lambda: Area(of=("a.1", "a.2", "a.1")), "stands twice"),
        (lambda: Old(outline=("a.1", "a.2", "a.1")), "stands twice"),
        (lambda: Old(row=1), "must have 2 to 24"),
        (lambda: Old(row=25), "must have 2 to 24"),
        (lambda: OldSlot(of=("a.1", "a.1")), "stands twice"),
        (lambda: Job(old=Old(braces={"x": Brace(of=("b.1", "b.2"))})), "not among the job’s points"),
    ],
)
def test_what_no_old_work_can_be_is_refused_in_a_sentence(make: Callable[[], object], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        make()
