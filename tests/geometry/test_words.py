"""Points, lines and readings in the trade's words."""

from typing import Any

import msgspec
import pytest

from geometry import words
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import SHAPES, Kind
from geometry.words.names_of_places import edge_side
from tests.in_one import in_one

EDGE = ("nut.left", "end.left")


@in_one(
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


def test_a_persons_own_names_stand_in_quotes_in_a_sentence() -> None:
    assert [words.called(name, "right") for name in ("nut.left", "pin.3", "pin.x", "a nut.left")] == [
        "nut treble",
        "old pin hole 3",
        "old pin hole “x”",
        "“a nut.left”",
    ]
    assert words.strings(("1", "2a", "low E")) == "strings 1, 2a and “low E”"
    assert words.trial("1") == "trial saddle 1"


def test_of_readings_called_alike_it_is_said_which_one_is_meant() -> None:
    twice = tuple(Reading(id=name, kind="fret", fret=12, on="left", value=323.0) for name in ("a", "b"))
    assert words.readings_called(Job(readings=twice), ("b",)) == ["“nut to fret 12, treble string” (second time)"]
    assert words.readings_called(Job(readings=twice[:1]), ("a", "gone")) == ["“nut to fret 12, treble string”"]


def test_a_side_of_a_line_is_bass_or_treble_where_the_line_is_known_to_run_along_the_neck() -> None:
    """Left is left as one sights from the first point to the second: the other way round, it is the other side."""
    assert words.beside("left", "nut.right", "end.right", "right") == "on the treble side of the bass edge"
    assert words.beside("left", "end.right", "nut.right", "right") == "on the bass side of the bass edge"
    assert words.beside("left", "nut.right", "end.right", "left") == "on the bass side of the treble edge"
    assert words.beside("left", "old.1", "x", "right") == (
        "to the left of the line from old footprint 1 to “x”, as you sight along it"
    )


def test_the_other_hand_exchanges_bass_and_treble() -> None:
    assert (words.point("nut.left", "left"), words.side("right", "left")) == ("nut, bass", "treble")
    assert words.side("centre", "left") == "middle"


@in_one(
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


OWN = ("alder", "birch", "cedar", "elm")


@in_one("kind", SHAPES)
def test_a_reading_names_each_point_it_was_read_at(kind: Kind) -> None:
    """Names that a person gave, which stand for nothing else, in the order of the points."""
    shape = SHAPES[kind]
    of, from_ = OWN[: shape.of], OWN[shape.of :][: shape.laid_from]
    place = {
        "fret": 7 if shape.fret else None,
        "at": "bridge" if shape.at else None,
        "on": "left" if shape.on else None,
    }
    side = "left" if shape.side else None
    said = words.reading(Reading(id="r", kind=kind, of=of, from_=from_, side=side, **place), "right")  # type: ignore[arg-type]  # as a file holds them
    assert [name for name in OWN if name in said] == [*of, *from_]


@pytest.mark.parametrize(
    ("fineness", "said"),
    [
        ({"within": 0.5}, "± 0.5 mm"),
        ({"within": "1/64 in"}, "± 1/64 in"),
        ({"sigma": 0.2}, "σ 0.2 mm"),
        ({"with_": "caliper 0.1"}, "caliper 0.1 mm"),
        ({}, "rule ½ mm"),
    ],
)
def test_a_fineness_names_its_unit(fineness: dict[str, object], said: str) -> None:
    taken = Reading(id="r", kind="distance", of=EDGE, **fineness)  # type: ignore[arg-type]  # the fields of a reading
    assert words.fineness(taken) == said


def test_what_lies_under_the_top_and_round_about_has_words() -> None:
    names = ("brace.1.a", "plate.2", "hole.1", "bare.3", "area.1.c", "brace.long.a")
    assert [words.called(name, "left") for name in names] == [
        "brace 1 a",
        "plate 2",
        "old hole 1",
        "edge of the finish 3",
        "area 1 c",
        "brace “long” a",
    ]
    assert (words.brace("1"), words.brace("long"), words.area("2")) == ("brace 1", "the brace “long”", "area 2")


def test_a_reading_taken_inside_says_so() -> None:
    at = Reading(id="r1", kind="at", of=("brace.1.a",), value=(1.0, 2.0), inside=True)
    assert words.reading(at, "right").endswith(", from inside")
    assert "from inside" not in words.reading(msgspec.structs.replace(at, inside=False), "right")


@pytest.mark.parametrize(
    ("a", "b", "said"),
    [
        ("nut.left", "nut.right", "nut"),
        ("end.right", "end.left", "board end"),
        ("fret12.left", "fret12.right", "fret 12"),
        ("nut.left", "edge.left.2", "treble edge"),
        ("seam.1", "seam.2", "seam"),
        ("nut.left", "end.right", "nut, treble to board end, bass"),
        ("old.1", "old.4", "old footprint 1 to 4"),
        ("headslot.1.1", "headslot.1.4", "headstock slot 1 corner 1 to 4"),
        ("headslot.1.1", "headslot.2.4", "headstock slot 1 corner 1 to headstock slot 2 corner 4"),
        ("old.1", "seam.4", "old footprint 1 to seam 4"),
    ],
)
def test_lines_as_the_trade_calls_them(a: str, b: str, said: str) -> None:
    assert words.line(a, b, "right") == said


@pytest.mark.parametrize(("count", "said"), [(0, "no old screws"), (1, "1 old screw"), (2, "2 old screws")])
def test_a_count_of_nought_is_none(count: int, said: str) -> None:
    assert words.how_many(count, "old screw") == said


@pytest.mark.parametrize(
    ("name", "long", "short"),
    [
        ("rule 0.5", "Steel rule, half millimetres", "Rule ½ mm"),
        ("caliper 0.1", "Caliper, tenths of a millimetre", "Caliper 0.1 mm"),
        ("pencil", "Pencil mark on a straightedge", "Pencil mark"),
        ("bevel gauge", "Bevel gauge and protractor, whole degrees", "Bevel gauge"),
    ],
)
def test_an_instrument_is_called_in_full_and_in_short(name: str, long: str, short: str) -> None:
    assert (words.instrument(name), words.instrument_short(name)) == (long, short)


@pytest.mark.parametrize(
    ("fineness", "kind", "said"),
    [
        ({}, "distance", "½ mm"),
        ({}, "inline", ""),
        ({"with_": "pencil"}, "inline", "pencil"),
        ({"with_": "caliper 0.1"}, "distance", "caliper"),
        ({"within": 0.5}, "distance", "±0.5 mm"),
        ({"sigma": 0.5}, "distance", "σ 0.5 mm"),
        ({"times": 1.0}, "distance", "½ mm"),
        ({"times": 2.0}, "distance", "rule ½ mm, 2.0 × as coarse"),
    ],
)
def test_a_tool_is_said_in_few_words(fineness: dict[str, Any], kind: Any, said: str) -> None:
    of: dict[str, Any] = (
        {"of": ("old.1",), "from_": ("nut.left", "end.left")} if kind == "inline" else {"of": ("a", "b")}
    )
    assert words.tool(Reading(id="r1", kind=kind, **of, **fineness)) == said


@pytest.mark.parametrize(
    ("within", "unit", "said"),
    [("0.005 in", "in", "±0.005"), ("1/64 in", "in", "±1/64"), (0.5, "mm", "±0.5"), (0.5, "in", "±0.5 mm")],
)
def test_a_pm_in_the_unit_of_the_values_beside_it_needs_no_unit(within: Any, unit: Any, said: str) -> None:
    assert words.tool(Reading(id="r1", kind="distance", of=("a", "b"), within=within), unit) == said
    twice = Reading(id="r1", kind="distance", of=("a", "b"), within=within, times=2.0)
    assert words.tool(twice, unit).endswith(", 2.0 × as coarse")


def test_what_was_answered_without_a_tool_was_seen_by_eye() -> None:
    asked = Reading(id="r1", kind="inline", of=("seam.1",), from_=("nut.left", "end.left"))
    assert words.fineness(asked) == "by eye"
    assert words.fineness(msgspec.structs.replace(asked, times=2.0)) == "by eye, 2.0 × as coarse"
    assert words.fineness(msgspec.structs.replace(asked, with_="pencil")) == "pencil mark"


@pytest.mark.parametrize(
    ("name", "side"),
    [
        ("nut.left", "left"),
        ("end.right", "right"),
        ("fret12.left", "left"),
        ("edge.right.2", "right"),
        ("edge", ""),
        ("edge.left", ""),
        ("headslot.1.2", ""),
        ("nut.left.2", ""),
        ("old.1", ""),
    ],
)
def test_which_side_of_the_board_a_points_name_says(name: str, side: str) -> None:
    assert edge_side(name) == side


def test_what_a_person_calls_the_middle_of_something() -> None:
    assert words.point("fret12.centre", "right") == "fret 12 middle"


@pytest.mark.parametrize(
    ("count", "said"), [(1, "a"), (2, "a and b"), (6, "a, b, c, d, e and f"), (7, "a, b, c, d, e, f and 1 more")]
)
def test_of_more_than_six_names_the_others_are_counted(count: int, said: str) -> None:
    """Six names in one sentence (common practice, no source)."""
    assert words.several("abcdefg"[:count]) == said


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_line_across_the_neck_has_a_headstock_side_and_a_body_side(hand: Hand) -> None:
    """derived: sighted from the left corner to the right one, the headstock is on the right, whatever the hand."""
    assert words.beside("right", "nut.left", "nut.right", hand) == "on the headstock side of the nut"
    assert words.beside("left", "nut.left", "nut.right", hand) == "on the body side of the nut"
    assert words.beside("left", "end.right", "end.left", hand) == "on the headstock side of the board end"
    assert words.side_typed("right", "fret12.right", "fret12.left", hand) == "body"
    assert words.sides_typed("nut.right", "nut.left", hand) == ("headstock", "body")
    assert words.side_typed("left", "nut.left", "end.right", hand) == "left"


def test_what_stands_in_quotes_ends_no_sentence() -> None:
    said = f"Look at {words.quoted('a. b: “c”; d. ')} again: it is out. Then read on."
    assert said == "Look at “a. b: ‘c’; d. ” again: it is out. Then read on."
    assert words.first_sentence(said) == "Look at “a. b: ‘c’; d. ” again: it is out"
    assert words.first_sentence("It is 2.5 mm.") == "It is 2.5 mm"
