"""What a job holds at most and at least: at each limit, and just beyond it.

The limits are what no instrument goes beyond (common practice, no source); they catch slips of unit and decimal point.
"""

import ast
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import geometry.job
from geometry.job import (
    Action,
    Brace,
    Bridge,
    Choosing,
    FaceMarkers,
    Frets,
    Headstock,
    Heights,
    Moved,
    NotAJob,
    OldHole,
    OldMetal,
    OldPin,
    OldSlot,
    OtherHole,
    Pins,
    Point,
    Reading,
    Saddle,
    SideMarkers,
    SlotFront,
    Spread,
    String,
    Strings,
    TunerPlate,
    Tuners,
    Weights,
)
from geometry.job.sheets import Sheets
from geometry.job.stringing import Heard
from tests.geometry.job.more_limits import MORE_LIMITS, Limits
from tests.in_one import in_one

ONE = (String(name="1"),)
LIMITS: Limits = {
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
    "fret heard at": (lambda v: Heard(string="1", cents=0.0, trial="1", fret=v), 1, 36),
    "a4": (lambda v: Strings(a4=v), 300.0, 600.0),
    "shift": (lambda v: Strings(shift=v), -20.0, 20.0),
    "relief": (lambda v: Strings(relief=v), 0.0, 3.0),
    "press_behind": (lambda v: Strings(press_behind=v), 0.0, 25.0),
    "compensation": (lambda v: Strings(list=ONE, compensation=(v,)), -15.0, 25.0),
    "nut compensation": (lambda v: Strings(list=ONE, nut_compensation=v), -15.0, 25.0),
    "nut compensations": (lambda v: Strings(list=ONE, nut_compensation=(v,)), -15.0, 25.0),
    "fret weighed": (lambda v: Strings(weights={v: 1.0}), 1, 36),
    "weight": (lambda v: Strings(weights={3: v}), 0.0, 1000.0),
    "margin": (lambda v: Sheets(margin=v), 5.0, 40.0),
    "ledge": (lambda v: Sheets(ledge=v), 0.0, 5.0),
    "kerf": (lambda v: Sheets(kerf=v), 0.0, 2.0),
    "cutter": (lambda v: Sheets(cutter=v), 0.1, 25.0),
    "saddle’s thickness": (lambda v: Saddle(thickness=v), 0.5, 15.0),
    "peak_at": (lambda v: Saddle(peak_at=v), 0.0, 1.0),
    "slot_length": (lambda v: Saddle(slot_length=v), 10.0, 300.0),
    "slot_depth": (lambda v: Saddle(slot_depth=v), 0.5, 30.0),
    "slot_front, left": (lambda v: SlotFront(left=v, right=9.0), 0.0, 60.0),
    "slot_front, right": (lambda v: SlotFront(left=9.0, right=v), 0.0, 60.0),
    "behind_slot": (lambda v: Pins(behind_slot=v), 0.5, 60.0),
    "pins’ diameter": (lambda v: Pins(diameter=v), 1.0, 12.0),
    "second_row": (lambda v: Pins(second_row=v), 0.0, 40.0),
    "bridge’s length": (lambda v: Bridge(length=v), 30.0, 400.0),
    "bridge’s width": (lambda v: Bridge(width=v), 5.0, 120.0),
    "bridge’s thickness": (lambda v: Bridge(thickness=v), 2.0, 40.0),
    "bridge’s thickness, left": (lambda v: Bridge(thickness=(v, None)), 2.0, 40.0),
    "bridge’s thickness, right": (lambda v: Bridge(thickness=(None, v)), 2.0, 40.0),
    "belly_depth": (lambda v: Bridge(length=400.0, belly_depth=v), 0.0, 60.0),
    "belly’s reach": (lambda v: Bridge(length=100.0, belly_depth=v), 0.0, 31.0),  # 0.31 of the length
    "old pin": (lambda v: OldPin(diameter=v), 0.5, 30.0),
    "keep_out": (lambda v: OldMetal(keep_out=v), 0.0, 60.0),
    "frets": (lambda v: Frets(count=v), 1, 36),
    "scale": (lambda v: Frets(scale=v), 200.0, 1500.0),
    "near x": (lambda v: Point(near=(v, 0.0)), -5000.0, 5000.0),
    "near y": (lambda v: Point(near=(0.0, v)), -5000.0, 5000.0),
    "value": (lambda v: Reading(id="r", kind="off", of=("p",), from_=("a", "b"), side="left", value=v), 0.0, 5000.0),
    "place": (lambda v: Reading(id="r", kind="at", of=("p",), value=(v, 0.0)), -5000.0, 5000.0),
    "times": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), times=v), 1.0, 20.0),
    "within": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), within=v), 0.001, 50.0),
    "sigma": (lambda v: Reading(id="r", kind="distance", of=("a", "b"), sigma=v), 0.001, 50.0),
    "fret read": (lambda v: Reading(id="r", kind="fret", on="left", fret=v, value=30.0), 1, 36),
    "weighed for the choice": (lambda v: Weights(tune=v), 0.0, 1000.0),
    "choice along": (lambda v: Choosing(along=v), 0.0, 30.0),
    "choice across": (lambda v: Choosing(across=v), 0.0, 15.0),
    "choice’s turn": (lambda v: Choosing(turn=v), 0.0, 5.0),
    "choice’s cents": (lambda v: Choosing(cents=v), 0.0, 50.0),
    "choice within": (lambda v: Choosing(within=v), 0.0, 30.0),
    "side marker’s diameter": (lambda v: SideMarkers(diameter=v, below=15.0), 0.5, 10.0),
    "side marker below": (lambda v: SideMarkers(below=v, diameter=0.5), 0.5, 15.0),
    "side marker’s depth": (lambda v: SideMarkers(deep=v), 0.5, 15.0),
    "side markers apart": (lambda v: SideMarkers(apart=v), 1.0, 40.0),
    "face marker’s diameter": (lambda v: FaceMarkers(diameter=v), 1.0, 20.0),
    "face marker’s depth": (lambda v: FaceMarkers(deep=v), 0.3, 10.0),
    "face markers apart": (lambda v: FaceMarkers(apart=v), 2.0, 60.0),
    "hole anywhere": (lambda v: OtherHole(where="heel", diameter=v), 0.5, 80.0),
    "hole’s depth": (lambda v: OtherHole(where="heel", diameter=6.0, depth=v), 0.5, 200.0),
    "hole’s plug": (lambda v: OtherHole(where="heel", diameter=0.5, plug=v), 0.5, 80.0),
    "headstock’s thickness": (lambda v: Headstock(thickness=v), 3.0, 60.0),
    "plate past its posts": (lambda v: TunerPlate(past=v), 0.0, 60.0),
    "plate’s width": (lambda v: TunerPlate(wide=v), 3.0, 60.0),
    "plate’s inner edge": (lambda v: TunerPlate(inner=v), -30.0, 40.0),
    "plate’s screw hole": (lambda v: TunerPlate(screw_hole=v), 0.5, 5.0),
    "screw along": (lambda v: TunerPlate(screws=((v, 0.0),)), -60.0, 300.0),
    "screw across": (lambda v: TunerPlate(screws=((0.0, v),)), -40.0, 40.0),
    "tuners’ spacing": (lambda v: Tuners(spacing=v, post=2.0), 8.0, 120.0),
    "tuners’ post": (lambda v: Tuners(post=v, spacing=120.0), 2.0, 20.0),
    "tuners’ bushing": (lambda v: Tuners(bushing=v, post=2.0, spacing=120.0), 2.0, 25.0),
    "bushing’s depth": (lambda v: Tuners(bushing_deep=v), 0.5, 40.0),
    "roller": (lambda v: Tuners(roller=v), 3.0, 20.0),
    "posts below the face": (lambda v: Tuners(below=v, post=2.0), 1.0, 60.0),
    "posts from the middle": (lambda v: Tuners(from_middle=v), 3.0, 80.0),
    "old hole": (lambda v: OldHole(diameter=v), 0.5, 60.0),
    "old hole’s depth": (lambda v: OldHole(diameter=5.0, depth=v), 0.1, 60.0),
    "old slot’s width": (lambda v: OldSlot(of=("a", "b"), width=v), 0.5, 15.0),
    "brace’s width": (lambda v: Brace(of=("a", "b"), width=v), 1.0, 60.0),
    "pins’ small end": (lambda v: Pins(diameter=12.0, small_end=v), 1.0, 12.0),
    "moved along": (lambda v: Moved(along=v), -60.0, 60.0),
    "moved across": (lambda v: Moved(across=v), -30.0, 30.0),
    "moved by a turn": (lambda v: Moved(turn=v), -10.0, 10.0),
    "edge round a template": (lambda v: Sheets(edge=v), 2.0, 50.0),
    "pilot": (lambda v: Sheets(pilot=v), 0.5, 12.0),
    "stock's width": (lambda v: Sheets(stock=(v, 3000.0)), 10.0, 3000.0),
    "stock's height": (lambda v: Sheets(stock=(10.0, v)), 10.0, 3000.0),
} | MORE_LIMITS


@in_one("name", LIMITS)
def test_what_lies_at_a_limit_is_taken(name: str) -> None:
    make, least, most = LIMITS[name]
    assert make(least) is not None
    assert make(most) is not None


@in_one("name", LIMITS)
@in_one("above", [False, True])
def test_what_lies_beyond_a_limit_is_refused(name: str, above: bool) -> None:
    is_refused_beyond(name, above)


def is_refused_beyond(name: str, above: bool) -> None:
    """One hundredth of the way between the limits, or less than half a mm where that is less; of a count one."""
    make, least, most = LIMITS[name]
    step = 1 if isinstance(least, int) else min((most - least) / 100, 0.4)
    with pytest.raises(NotAJob):
        make(most + step if above else least - step)


CHECKS = ("length_between", "number_between", "_degrees_between", "between")


def test_each_limit_of_a_job_stands_in_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    """Derived: the lines that call a check, as Python reads them, against those where it refused at both ends."""
    folder, refused = Path(geometry.job.__file__).parent, set[tuple[str, int, bool]]()

    def spied(check: Callable[..., None], *, above: bool) -> Callable[..., None]:
        def spy(what: str, given: float, least: float, most: float) -> None:
            frame = sys._getframe(1)
            try:
                check(what, given, least, most)
            except NotAJob:
                refused.add((frame.f_code.co_filename, frame.f_lineno, above))
                raise

        return spy

    for above in (False, True):
        with monkeypatch.context() as patched:
            for module in [one for name, one in sys.modules.items() if name.startswith("geometry.job")]:
                for name in CHECKS[:3]:
                    if hasattr(module, name) and module.__name__ != "geometry.job.checks":
                        patched.setattr(module, name, spied(getattr(module, name), above=above))
            for name in LIMITS:
                is_refused_beyond(name, above)
            with pytest.raises(NotAJob):  # nearer to its limits a diameter is taken for one in another unit
                String(name="1", diameter=200.0 if above else 0.001)
    called = {
        (str(file), node.lineno)
        for file in folder.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CHECKS
    }
    assert {at for at in called if not {(*at, False), (*at, True)} <= refused} == set()


@pytest.mark.parametrize(
    ("sheets", "named"),
    [
        (Sheets(), False),
        (Sheets(kerf=0.2), True),
        (Sheets(cutter=3.0), True),
        (Sheets(cutters={"slot": 2.0}), True),
        (Sheets(pilot=1.0), False),  # as without being asked: the diameter of a scriber
        (Sheets(pilot=1.5), True),
        (Sheets(edge=None, ledge=2.0, turning=True), False),
    ],
)
def test_what_may_not_fit_what_it_is_to_cut(sheets: Sheets, named: bool) -> None:
    assert sheets.names_tool is named


def test_twelve_strings_are_taken_and_thirteen_are_not() -> None:
    strings = tuple(String(name=str(n)) for n in range(13))
    assert len(Strings(list=strings[:12]).list) == 12
    with pytest.raises(NotAJob, match="13 strings"):
        Strings(list=strings)
