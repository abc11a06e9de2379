"""What a job holds at most and at least: at each limit, and just beyond it.

The limits are what no instrument goes beyond (common practice, no source); they catch slips of unit and decimal point.
"""

from collections.abc import Callable

import pytest

from geometry.job import (
    Action,
    Bridge,
    Frets,
    Heights,
    NotAJob,
    OldMetal,
    OldPin,
    Pins,
    Point,
    Reading,
    Saddle,
    SlotFront,
    Spread,
    String,
    Strings,
)
from geometry.job.sheets import Sheets
from geometry.job.stringing import Heard

ONE = (String(name="1"),)
LIMITS: dict[str, tuple[Callable[[float], object], float, float]] = {
    "diameter": (lambda v: String(name="1", diameter=v), 0.1, 4.0),
    "core": (lambda v: String(name="1", core=v), 0.05, 3.0),
    "kg_per_m": (lambda v: String(name="1", kg_per_m=v), 1e-5, 0.1),
    "stretch_ratio": (lambda v: String(name="1", stretch_ratio=v), 1.0, 1000.0),
    "spread": (lambda v: Spread(spread=v), 5.0, 200.0),
    "pair": (lambda v: Spread(spread=50.0, pair=v), 0.5, 12.0),
    "height at the nut": (lambda v: Heights(nut=v), 0.0, 5.0),
    "height at the saddle": (lambda v: Heights(saddle=v), 0.0, 30.0),
    "action at fret 1, left": (lambda v: Action(fret1=(v, None)), 0.0, 5.0),
    "action at fret 1, right": (lambda v: Action(fret1=(None, v)), 0.0, 5.0),
    "action at fret 12, left": (lambda v: Action(fret12=(v, None)), 0.0, 12.0),
    "action at fret 12, right": (lambda v: Action(fret12=(None, v)), 0.0, 12.0),
    "cents": (lambda v: Heard(string="1", cents=v, trial="1"), -200.0, 200.0),
    "fret heard at": (lambda v: Heard(string="1", cents=0.0, trial="1", fret=v), 1, 36),  # type: ignore[arg-type]  # what a file may hold
    "a4": (lambda v: Strings(a4=v), 300.0, 600.0),
    "shift": (lambda v: Strings(shift=v), -20.0, 20.0),
    "relief": (lambda v: Strings(relief=v), 0.0, 3.0),
    "press_behind": (lambda v: Strings(press_behind=v), 0.0, 25.0),
    "compensation": (lambda v: Strings(list=ONE, compensation=(v,)), -15.0, 25.0),
    "nut compensation": (lambda v: Strings(list=ONE, nut_compensation=v), -15.0, 25.0),
    "nut compensations": (lambda v: Strings(list=ONE, nut_compensation=(v,)), -15.0, 25.0),
    "fret weighed": (lambda v: Strings(weights={v: 1.0}), 1, 36),  # type: ignore[dict-item]  # what a file may hold
    "weight": (lambda v: Strings(weights={3: v}), 0.0, 1000.0),
    "margin": (lambda v: Sheets(margin=v), 5.0, 40.0),
    "ledge": (lambda v: Sheets(ledge=v), 0.0, 5.0),
    "kerf": (lambda v: Sheets(kerf=v), 0.0, 2.0),
    "cutter": (lambda v: Sheets(cutter=v), 0.1, 25.0),
    "saddle's thickness": (lambda v: Saddle(thickness=v), 0.5, 15.0),
    "peak_at": (lambda v: Saddle(peak_at=v), 0.0, 1.0),
    "slot_length": (lambda v: Saddle(slot_length=v), 10.0, 300.0),
    "slot_depth": (lambda v: Saddle(slot_depth=v), 0.5, 30.0),
    "slot_front, left": (lambda v: SlotFront(left=v, right=9.0), 0.0, 60.0),
    "slot_front, right": (lambda v: SlotFront(left=9.0, right=v), 0.0, 60.0),
    "behind_slot": (lambda v: Pins(behind_slot=v), 0.5, 60.0),
    "pins' diameter": (lambda v: Pins(diameter=v), 1.0, 12.0),
    "second_row": (lambda v: Pins(second_row=v), 0.0, 40.0),
    "bridge's length": (lambda v: Bridge(length=v), 30.0, 400.0),
    "bridge's width": (lambda v: Bridge(width=v), 5.0, 120.0),
    "bridge's thickness": (lambda v: Bridge(thickness=v), 2.0, 40.0),
    "bridge's thickness, left": (lambda v: Bridge(thickness=(v, None)), 2.0, 40.0),
    "bridge's thickness, right": (lambda v: Bridge(thickness=(None, v)), 2.0, 40.0),
    "belly_depth": (lambda v: Bridge(length=400.0, belly_depth=v), 0.0, 60.0),
    "belly's reach": (lambda v: Bridge(length=100.0, belly_depth=v), 0.0, 31.0),  # 0.31 of the length
    "old pin": (lambda v: OldPin(diameter=v), 0.5, 30.0),
    "keep_out": (lambda v: OldMetal(keep_out=v), 0.0, 60.0),
    "frets": (lambda v: Frets(count=v), 1, 36),  # type: ignore[arg-type]  # what a file may hold
    "scale": (lambda v: Frets(scale=v), 200.0, 1500.0),
    "near x": (lambda v: Point(near=(v, 0.0)), -5000.0, 5000.0),
    "near y": (lambda v: Point(near=(0.0, v)), -5000.0, 5000.0),
    "value": (lambda v: Reading(id="r", kind="off", of=("p",), from_=("a", "b"), side="left", value=v), 0.0, 5000.0),
    "place": (lambda v: Reading(id="r", kind="at", of=("p",), value=(v, 0.0)), -5000.0, 5000.0),
    "times": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), times=v), 1.0, 20.0),
    "within": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), within=v), 0.001, 50.0),
    "sigma": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), sigma=v), 0.001, 50.0),
    "fret read": (lambda v: Reading(id="r", kind="fret", on="left", fret=v, value=30.0), 1, 36),  # type: ignore[arg-type]  # what a file may hold
}


@pytest.mark.parametrize("name", LIMITS)
def test_what_lies_at_a_limit_is_taken(name: str) -> None:
    make, least, most = LIMITS[name]
    assert make(least) is not None
    assert make(most) is not None


@pytest.mark.parametrize("name", LIMITS)
@pytest.mark.parametrize("above", [False, True])
def test_what_lies_beyond_a_limit_is_refused(name: str, above: bool) -> None:
    """One hundredth of the way between the limits, and of a count one."""
    make, least, most = LIMITS[name]
    step = 1 if isinstance(least, int) else (most - least) / 100
    with pytest.raises(NotAJob):
        make(most + step if above else least - step)


def test_twelve_strings_are_taken_and_thirteen_are_not() -> None:
    strings = tuple(String(name=str(n)) for n in range(13))
    assert len(Strings(list=strings[:12]).list) == 12
    with pytest.raises(NotAJob, match="13 strings"):
        Strings(list=strings)
