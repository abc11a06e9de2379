"""Points, lines and readings in the trade's words."""

import pytest

from geometry import words
from geometry.job import Reading
from geometry.job.job import Hand

EDGE = ("nut.left", "end.left")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("nut.left", "nut, treble"),
        ("end.right", "board end, bass"),
        ("edge.left.2", "treble edge 2"),
        ("seam.1", "seam 1"),
        ("pin.3", "old pin hole 3"),
        ("trial.2.right", "trial saddle 2, bass"),
        ("brace_end.1", "brace_end.1"),
        ("pin.x", "old pin hole x"),
        ("nut", "nut"),
        ("edge.of.it", "edge.of.it"),
    ],
)
def test_points_by_name(name: str, said: str) -> None:
    assert words.point(name, "right") == said


def test_the_other_hand_exchanges_bass_and_treble() -> None:
    assert (words.point("nut.left", "left"), words.side("right", "left")) == ("nut, bass", "treble")
    assert words.side("centre", "left") == "middle"


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        (Reading(id="r", kind="distance", of=("nut.left", "nut.right")), "Nut, edge to edge"),
        (Reading(id="r", kind="distance", of=EDGE), "Nut to board end, treble edge"),
        (Reading(id="r", kind="distance", of=("nut.left", "end.right")), "Nut treble to board end bass"),
        (Reading(id="r", kind="distance", of=("old.1", "old.4")), "Old footprint 1 to 4"),
        (
            Reading(id="r", kind="distance", of=("trial.1.left", "trial.1.right")),
            "Trial saddle 1, treble to trial saddle 1, bass",
        ),
        (
            Reading(id="r", kind="off", of=("pin.1",), from_=("old.1", "old.2"), side="left"),
            "Old pin hole 1, off old footprint 1 to 2",
        ),
        (Reading(id="r", kind="off", of=("seam.1",), from_=EDGE, side="right"), "Seam 1, off treble edge"),
        (Reading(id="r", kind="meets", of=("old.1", "old.2"), from_=EDGE), "Old footprint, along treble edge"),
        (Reading(id="r", kind="rims", of=("old.1", "pin.1")), "Old footprint 1 to old pin hole 1, both rims"),
        (Reading(id="r", kind="fret", fret=12, on="right"), "Nut to fret 12, bass string"),
        (Reading(id="r", kind="height", at="bridge", on="left"), "String over the top, treble, at the bridge"),
    ],
)
def test_readings_are_called_by_what_the_hand_does(reading: Reading, said: str) -> None:
    hand: Hand = "right"
    assert words.reading(reading, hand) == said


@pytest.mark.parametrize(
    ("fineness", "said"),
    [
        ({"within": 0.5}, "± 0.5 mm"),
        ({"within": "1/64 in"}, "± 1/64 in"),
        ({"sigma": 0.2}, "σ 0.2 mm"),
        ({"with_": "caliper 0.1"}, "caliper 0.1"),
        ({}, "rule ½ mm"),
    ],
)
def test_a_fineness_names_its_unit(fineness: dict[str, object], said: str) -> None:
    taken = Reading(id="r", kind="distance", of=EDGE, **fineness)  # type: ignore[arg-type]  # the fields of a reading
    assert words.fineness(taken) == said
