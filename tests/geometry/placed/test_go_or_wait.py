"""What may be done now and what must wait, on both sides of each threshold."""

import msgspec
import pytest

from geometry.job import Bridge, Job
from geometry.job.seating import SlotFront
from geometry.layout import Layout
from geometry.placed.go_or_wait import CUT_WITHIN, GLUE_WITHIN, go_or_wait, said
from tests.export.conftest import job, layout


def goes(bridge: float, saddle: float, *, waits: bool = False, slot_is_cut: bool = False) -> dict[str, bool]:
    return {step.what: step.go for step in go_or_wait(bridge, saddle, waits=waits, slot_is_cut=slot_is_cut)}


def test_the_thresholds() -> None:
    """common practice, no source; docs/numbers.md names both"""
    assert (GLUE_WITHIN, CUT_WITHIN) == (2.0, 1.0)


@pytest.mark.parametrize(
    ("bridge", "saddle", "glue", "slot"),
    [
        (2.0, 1.0, True, True),
        (2.01, 1.0, False, True),
        (2.0, 1.01, True, False),
        (2.01, 1.01, False, False),
        (0.8, 1.6, True, False),
    ],
)
def test_each_waits_beyond_its_own(bridge: float, saddle: float, glue: bool, slot: bool) -> None:
    assert goes(bridge, saddle) == {"glue": glue, "slot": slot}


def test_both_wait_for_accused_readings() -> None:
    assert goes(0.1, 0.1, waits=True) == {"glue": False, "slot": False}
    assert goes(0.1, 0.1, waits=True, slot_is_cut=True) == {"glue": False}


@pytest.mark.parametrize(("bridge", "saddle", "glue"), [(1.0, 1.0, True), (1.01, 0.2, False), (0.2, 1.01, False)])
def test_a_cut_slot_is_placed_by_the_glue(bridge: float, saddle: float, glue: bool) -> None:
    assert goes(bridge, saddle, slot_is_cut=True) == {"glue": glue}


def with_saddle(known: Layout, pm95: float, waits_for: tuple[str, ...] = ()) -> Layout:
    assert known.saddle is not None
    saddle = msgspec.structs.replace(known.saddle, pm95=(0.3, pm95), waits_for=waits_for)
    return msgspec.structs.replace(known, saddle=saddle)


def test_the_sentences_round_up_and_take_the_worse_side() -> None:
    """The conftest's bridge front is known to 0.6 and 0.7 mm."""
    assert said(job(), with_saddle(layout(), 0.94)) == ("Glue the bridge: ±0.7 mm.", "Cut the slot: ±1.0 mm.")
    assert said(job(), with_saddle(layout(), 1.53)) == ("Glue the bridge: ±0.7 mm.", "Don't cut the slot yet: ±1.6 mm.")


def test_they_name_the_readings_to_read_again() -> None:
    assert said(job(), with_saddle(layout(), 0.5, ("r1",))) == (
        "Don't glue the bridge yet: ±0.7 mm; first read “nut, edge to edge” again.",
        "Don't cut the slot yet: ±0.5 mm; first read “nut, edge to edge” again.",
    )


def test_inches() -> None:
    """derived: 0.7 mm is 1.76 sixty-fourths, said as 2."""
    inches = msgspec.structs.replace(job(), unit="in")
    assert said(inches, with_saddle(layout(), 0.5)) == ("Glue the bridge: ±1/32 in.", "Cut the slot: ±1/32 in.")


def test_a_bridge_with_its_slot_has_no_slot_to_cut() -> None:
    cut: Job = msgspec.structs.replace(job(), bridge=Bridge(slot_front=SlotFront(left=5.0, right=9.0)))
    assert said(cut, with_saddle(layout(), 1.53)) == ("Don't glue the bridge yet: ±1.6 mm.",)


def test_without_a_bridge_there_is_nothing_to_say() -> None:
    assert said(job(), msgspec.structs.replace(layout(), bridge=None)) == ()
