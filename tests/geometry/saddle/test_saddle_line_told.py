"""What is said of the saddle line, of plans made by hand: each bound at the bound itself and just beyond (common
practice, no source), the sides by the hand.
"""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Bridge, Floating, Frets, Job, Point, Reading, Separate, SlotFront
from geometry.job.job import Hand
from geometry.job.seating import Moved, Seat
from geometry.layout import SaddlePlan
from geometry.saddle.saddle_line import LEVEL
from geometry.saddle.saddle_line_told import LEANS, findings
from tests.export.conftest import layout

SMALL = 2**-10


def plan(**changes: object) -> SaddlePlan:
    """A saddle that is level, checked and as the strings want it, but for some fields."""
    made = layout().saddle
    assert made is not None
    level = {"at_strings": ((640.0, 28.0), (640.0, -28.0)), "slant": 0.0, "longer": "neither", "checked": True}
    bare = {"left_over": (0.0, 0.0), "left_over_cents": (0.0, 0.0), "waits_for": ()}
    return replace(made, **level | bare | changes)


def told(made: SaddlePlan, job: Job | None = None) -> dict[str, Finding]:
    return {found.code: found for found in findings(job or Job(), made)}


def slanted(by: float, longer: str, hand: Hand = "right") -> SaddlePlan:
    """Without a cut slot, so that none is left over; the bass of a right-handed job lies right."""
    right = by if (longer == "bass") == (hand == "right") else -by
    return plan(slant=by, longer=longer, at_strings=((640.0, 28.0), (640.0 + right, -28.0)))


@pytest.mark.parametrize(
    ("longer", "hand", "side", "grade"),
    [
        ("bass", "right", "right", "good"),
        ("bass", "left", "left", "good"),
        ("treble", "right", "left", "look"),
        ("treble", "left", "right", "look"),
    ],
)
def test_which_side_stands_farther(longer: str, hand: Hand, side: str, grade: str) -> None:
    found = told(slanted(2.5, longer, hand), Job(hand=hand))["saddle.slant"]
    assert (
        f"The saddle stands 2.5 mm farther on the {longer} side, the {side} as you sight down the neck." in found.text
    )
    assert found.grade == grade
    assert ("check whether bass and treble are exchanged" in found.text) is (grade == "look")
    assert found.values == {"slant": 2.5 if longer == "bass" else -2.5}


def test_a_level_saddle_says_nothing_and_several_stand() -> None:
    assert told(plan()) == {}
    assert told(slanted(2.5, "bass"), Job(separate=Separate()))["saddle.slant"].text.startswith("The saddles stand")
    assert told(slanted(2.5, "bass"), Job(floating=Floating()))["saddle.slant"].text.startswith("The crown stands")


@pytest.mark.parametrize(
    ("by", "slanted_frets", "grade"),
    [(LEANS, False, "good"), (LEANS + SMALL, False, "look"), (LEANS + SMALL, True, "good")],
)
def test_from_what_slant_on_a_hand_could_tell(by: float, slanted_frets: bool, grade: str) -> None:
    assert told(slanted(by, "treble"), Job(frets=Frets(slanted=slanted_frets)))["saddle.slant"].grade == grade


def cut(left: float, right: float, wanted: float, longer: str) -> SaddlePlan:
    """A slot that is cut so far off the line at [left, right], where the strings want the bass or the treble so much
    farther."""
    bass = wanted if longer == "bass" else -wanted
    return plan(slant=wanted, longer=longer, at_strings=((640.0, 28.0), (640.0 + bass, -28.0)), left_over=(left, right))


@pytest.mark.parametrize(
    ("leaning", "wanted", "stops"),
    [
        (-2.0, 2.0, True),
        (2.0, 2.0, False),
        (-LEANS - SMALL, 2.0, True),
        (-LEANS + SMALL, 2.0, False),
        (-2.0, LEANS + SMALL, True),
        (-2.0, LEANS, False),
        (0.0, 2.0, False),
    ],
)
def test_a_slot_that_leans_the_wrong_way(leaning: float, wanted: float, stops: bool) -> None:
    """derived: the bass lies right; with the left on the line it leans by what is left over and what is wanted"""
    found = told(cut(0.0, leaning - wanted, wanted, "bass"))
    assert ("slot.leans" in found) is stops
    if stops:
        assert found["slot.leans"].values["cut"] == pytest.approx(leaning)
        assert found["slot.leans"].values["slant"] == wanted
        assert "farther on the treble side" in found["slot.leans"].text
        assert "more on the bass side" in found["slot.leans"].text


def test_the_same_for_the_other_hand_and_the_other_side() -> None:
    """derived: for the left hand the bass lies left; 2 mm farther there is what a cut of 4 mm at the right undoes"""
    made = plan(slant=2.0, longer="bass", at_strings=((642.0, 28.0), (640.0, -28.0)), left_over=(0.0, 4.0))
    found = told(made, Job(hand="left"))["slot.leans"]
    assert found.values == {"slant": 2.0, "cut": -2.0}
    assert "for a left-handed instrument" in found.text
    treble = told(cut(0.0, 4.0, 2.0, "treble"))["slot.leans"]
    assert treble.values == {"slant": -2.0, "cut": 2.0}
    assert "farther on the bass side" in treble.text


@pytest.mark.parametrize(
    ("left", "right", "worst"),
    [
        (LEVEL, 0.0, LEVEL),
        (0.0, -LEVEL, -LEVEL),
        (LEVEL - SMALL, 0.0, None),
        (0.0, SMALL - LEVEL, None),
        (0.75, -1.0, -1.0),
    ],
)
def test_what_a_cut_slot_leaves_over(left: float, right: float, worst: float | None) -> None:
    made = replace(cut(left, right, 2.5, "bass"), left_over_cents=(1.5, -2.25))
    found = told(made)
    assert ("slot.left_over" in found) is (worst is not None)
    assert ("saddle.slant" in found) is (worst is None)
    if worst is not None:
        assert found["slot.left_over"].values == {"mm": worst, "cents": -2.25}
        assert "2.2 cents at fret 12" in found["slot.left_over"].text


def test_a_saddle_that_nothing_checks() -> None:
    unchecked = plan(checked=False)
    assert told(unchecked)["saddle.unchecked"].text.startswith(
        "The saddle’s place is not checked: one of the readings that hold it"
    )
    several = told(unchecked, Job(separate=Separate()))["saddle.unchecked"].text
    assert several.startswith("The saddles’ places are not checked: one of the readings that hold them")
    waits = replace(unchecked, waits_for=("r1",))
    assert "saddle.unchecked" not in told(waits, WAITING)


WAITING = Job(
    points={name: Point() for name in ("nut.left", "nut.right", "end.left")},
    readings=(
        Reading(id="r1", kind="distance", of=("nut.left", "nut.right"), value=44.0),
        Reading(id="r2", kind="distance", of=("nut.left", "end.left"), value=440.0),
    ),
)


def test_a_saddle_that_waits_for_readings() -> None:
    one = told(plan(waits_for=("r2",), pm95=(0.5, 2.5)), WAITING)["saddle.unsettled"]
    assert "not settled until “nut to board end, treble edge” is read again" in one.text
    assert one.text.endswith("with and without it.")
    assert (one.values, one.where) == ({"pm95": 2.5}, "reading:r2")
    both = told(plan(waits_for=("r1", "r2")), WAITING)["saddle.unsettled"]
    assert "are read again" in both.text
    assert both.text.endswith("with and without them.")
    frets = tuple(Reading(id=f"f{k}", kind="fret", fret=k, on="left", value=30.0 * k, laid="once") for k in (1, 2, 3))
    laying = replace(WAITING, readings=(*WAITING.readings, *frets))
    all_of_it = told(plan(waits_for=("f1", "f2", "f3")), laying)["saddle.unsettled"]
    assert "not settled until all 3 readings of one laying, “nut to fret 1, " in all_of_it.text


@pytest.mark.parametrize(
    ("moved", "what", "mend"),
    [
        (None, "The slot as cut cannot", "ill the slot and cut it anew."),
        (
            Moved(turn=1.0, slot="goes along"),
            "The slot that moves with the bridge cannot",
            "move the bridge less.",
        ),
    ],
)
def test_a_slot_that_is_not_cut_is_not_called_so(moved: Moved | None, what: str, mend: str) -> None:
    held = Bridge(moved=moved) if moved else Bridge(slot_front=SlotFront(left=8.0, right=8.0))
    off = told(cut(1.0, -1.0, 2.5, "bass"), Job(bridge=held))["slot.left_over"]
    assert off.text.startswith(what)
    assert off.text.endswith(mend)
    leans = told(cut(0.0, 4.0, 2.0, "treble"), Job(bridge=held))["slot.leans"]
    assert ("cut it anew" in leans.text) is (moved is None)
    assert leans.text.endswith(mend)


@pytest.mark.parametrize(
    ("seat", "moved", "mend"),
    [
        ("square", None, "Seat the bridge with the slot, or fill the slot and cut it anew."),
        ("with slot", None, "Fill the slot and cut it anew."),
        ("with slot", Moved(turn=3.0), "Move the bridge less, or fill the slot and cut it anew."),
    ],
)
def test_what_mends_a_cut_slot_is_what_is_not_done_yet(seat: Seat, moved: Moved | None, mend: str) -> None:
    held = Bridge(slot_front=SlotFront(left=8.0, right=8.0), seat=seat, moved=moved)
    off = told(cut(1.0, -1.0, 2.5, "bass"), Job(bridge=held))["slot.left_over"]
    assert off.text.endswith(f"before any filing. {mend}")
