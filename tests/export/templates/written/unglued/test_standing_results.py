"""A floating bridge and its tail in the job sheet's tables, of plans made by hand: numbers, signs and sides."""

import pytest
from msgspec.structs import replace

from export.templates.written.unglued.standing_results import _standing, _tail, moved_rows
from geometry.job import Job
from geometry.job.job import Hand
from geometry.layout import FloatingPlan, Slide, TailPlan, TailString
from tests.in_one import in_one

CORNER = (660.0, 38.0)
TODAY = Slide(
    along=(1.2, -0.8),
    along_pm95=(0.4, 0.5),
    across=0.7,
    across_pm95=0.3,
    turn=0.44,
    turn_pm95=0.2,
    corners=(CORNER, CORNER),
)


def plan(today: Slide | None) -> FloatingPlan:
    window = (0.6, 0.7)
    crown = ((664.0, 30.0), (664.0, -30.0))
    return FloatingPlan(feet=(), crown=crown, window=window, turn_pm95=0.5, feet_pm95=0.3, cents_per_mm={}, today=today)


@pytest.mark.parametrize(
    ("hand", "feet", "side"),
    [
        ("right", [("bass", "0.8 ±0.5 mm", "nut"), ("treble", "1.2 ±0.4 mm", "tail")], "treble"),
        ("left", [("bass", "1.2 ±0.4 mm", "tail"), ("treble", "0.8 ±0.5 mm", "nut")], "bass"),
    ],
)
def test_from_where_it_stands_to_where_it_belongs(hand: Hand, feet: list[tuple[str, str, str]], side: str) -> None:
    """derived: left is +y, and the treble of a right-handed job"""
    assert moved_rows(Job(hand=hand), plan(TODAY)) == [
        *([f"Its {foot} foot, along the neck", far, f"toward the {way}"] for foot, far, way in feet),
        ["Across the neck", "0.7 ±0.3 mm", f"to the {side} side"],
        ["Turned", "0.4 ±0.2°", "counter-clockwise, as seen from above"],
    ]


@in_one(("hand", "wide"), [("right", ["0.7", "0.6"]), ("left", ["0.6", "0.7"])])
def test_each_end_of_the_feet_has_its_own_window(hand: Hand, wide: list[str]) -> None:
    """derived: the left end's is 0.6, the right end's 0.7, and the bass of a right-handed job is on the right"""
    rows = _standing(Job(hand=hand), plan(None))
    assert [(row[0], row[2]) for row in rows] == list(zip(("Feet, bass end", "Feet, treble end"), wide, strict=True))


def test_the_other_way_round() -> None:
    rows = moved_rows(Job(), plan(replace(TODAY, across=-0.7, turn=-0.44)))
    assert [row[2] for row in rows[2:]] == ["to the bass side", "clockwise, as seen from above"]


def test_a_bridge_that_stands_nowhere_has_no_way_to_go() -> None:
    assert moved_rows(Job(), plan(None)) == []


TAIL = TailPlan(middle=(730.0, 2.24), across_pm95=0.31, by="pulls", strings=())
STRINGS = tuple(
    TailString(name=name, at=(730.0, 0.0), sideways=0.0, breaks=breaks, breaks_pm95=wide)
    for name, breaks, wide in (("1", 12.4, 1.2), ("2", 15.6, 0.4), ("3", None, 0.0))
)


@pytest.mark.parametrize(
    ("tail", "hand", "rows"),
    [
        (
            TAIL,
            "right",
            [["Tail’s middle belongs", "2.2 mm", "0.4", "to the treble of the centre line; the pulls balance"]],
        ),
        # derived: what a rule does not show lies to no side
        (
            replace(TAIL, middle=(730.0, 0.04)),
            "right",
            [["Tail’s middle belongs", "0.0 mm", "0.4", "on the centre line; the pulls balance"]],
        ),
        (
            replace(TAIL, middle=(730.0, -2.24), by="middle"),
            "right",
            [
                [
                    "Tail’s middle belongs",
                    "2.2 mm",
                    "0.4",
                    "to the bass of the centre line; the outer strings’ middle carried on",
                ]
            ],
        ),
        (
            replace(TAIL, off=1.5, off_pm95=0.5),
            "left",
            [
                ["Tail’s middle belongs", "2.2 mm", "0.4", "to the bass of the centre line; the pulls balance"],
                ["The tail hangs off by", "1.5 mm", "0.5", "to the bass"],
            ],
        ),
        (
            replace(TAIL, off=-1.5, off_pm95=0.5, push=-0.84, push_pm95=0.26),
            "left",
            [
                ["Tail’s middle belongs", "2.2 mm", "0.4", "to the bass of the centre line; the pulls balance"],
                ["The tail hangs off by", "1.5 mm", "0.5", "to the treble; pulls the bridge with 0.8 ±0.3 N"],
            ],
        ),
        (
            replace(TAIL, strings=STRINGS, down=51.6),
            "right",
            [
                ["Tail’s middle belongs", "2.2 mm", "0.4", "to the treble of the centre line; the pulls balance"],
                # derived: the least and the greatest known, with the widest ± of these, rounded up
                ["Strings break over it by", "12 to 16°", "2", "presses the bridge down with 52 N"],
            ],
        ),
        (
            replace(TAIL, strings=STRINGS[:1]),
            "right",
            [
                ["Tail’s middle belongs", "2.2 mm", "0.4", "to the treble of the centre line; the pulls balance"],
                ["Strings break over it by", "12°", "2", ""],
            ],
        ),
    ],
)
def test_the_tail(tail: TailPlan, hand: Hand, rows: list[list[str]]) -> None:
    assert _tail(Job(hand=hand), tail) == rows
