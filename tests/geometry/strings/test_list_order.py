"""What is asked about the order of a list of strings, and about one that may be lacking in it."""

import pytest
from msgspec.structs import replace

from geometry.job import String, Strings
from geometry.strings.list_order import findings
from geometry.strings.usual_sets import SETS


def order(given: Strings) -> list[str]:
    """What is said of the order of a list of strings."""
    return [found.text for found in findings(given) if found.code == "strings.order"]


def strings(*pitches: str | None, **short: int) -> Strings:
    """Strings of these pitches, by their places from 1; those that `short` names start at a fret."""
    given = [String(name=f"{at}", pitch=pitch, starts_at=short.get(f"s{at}")) for at, pitch in enumerate(pitches, 1)]
    return Strings(list=tuple(given))


@pytest.mark.parametrize(
    ("given", "climbs"),
    [
        (strings("G3", "B3", "E4"), True),
        (strings("E4", "B3", "G3"), False),
        (strings("G3", "B3", "B3"), False),  # two alike do not climb
        (strings("G3", "E4", "B3"), False),
        (strings("B3", "E4"), False),  # two strings tell too little
        (strings("G3", "B3", None), False),  # as long as one is not known
        (strings("D3", "G3", "B3", "C3", s4=5), True),  # one that starts at a fret says nothing
        (strings("D3", "G3", "C3", s3=5), False),
        # one course out of order, the high fourth of a small four-string: two climbs and a fall, or the reverse
        (strings("G4", "C4", "E4", "A4"), True),
        (strings("A4", "E4", "C4", "G4"), False),
        (strings("E3", "A3", "D4", "G4", "B3", "E4"), True),  # six, the low four an octave up
        (strings("E4", "B3", "G4", "D4", "A3", "E3"), False),
        (strings("E3", "D3", "A3"), False),  # as often as it falls
        (strings("B3", "F#4", "D4", "A3"), False),
    ],
)
def test_whether_it_climbs(given: Strings, climbs: bool) -> None:
    assert bool(order(given)) == climbs


@pytest.mark.parametrize(
    ("pairs", "climbs"),
    [
        ("G3 G3 D4 D4 A4 A4 E5 E5", True),
        ("E5 E5 A4 A4 D4 D4 G3 G3", False),
        # octave pairs either way about: of each the lower one counts
        ("E3 E2 A3 A2 D4 D3 G4 G3 B3 B3 E4 E4", True),
        ("E4 E4 B3 B3 G4 G3 D4 D3 A3 A2 E3 E2", False),
        ("E4 E4 B3 B3 G3 G4 D3 D4 A2 A3 E2 E3", False),
        ("A4 A3 E4 E4 C4 C5 G4 G4", False),  # two of four in octaves, the last one high: their lowest climb by right
        ("E4 E3 C4 C4 G4 G4", False),  # three, the first in octaves and the last one high
    ],
)
def test_courses_count_by_their_lowest_strings_and_by_their_highest(pairs: str, climbs: bool) -> None:
    given = [String(name=f"{at}", course=1 + at // 2, pitch=pitch) for at, pitch in enumerate(pairs.split())]
    assert bool(order(Strings(list=tuple(given)))) == climbs


def test_what_is_said_of_a_list_that_climbs() -> None:
    (all_up,), (mostly,) = order(strings("G3", "B3", "E4")), order(strings("G4", "C4", "E4", "A4"))
    assert all_up.startswith("The strings climb from the first")
    assert mostly.startswith("The strings climb more often than they fall from the first")


def drones(given: Strings, *names: str) -> Strings:
    return replace(given, list=tuple(replace(one, fretted=one.name not in names) for one in given.list))


@pytest.mark.parametrize("basses", [("D2", "C2", "B1", "A1"), ("G1", "A1", "B1", "D2")])
@pytest.mark.parametrize("turned", [False, True])
def test_drones_beside_the_board_are_tuned_in_any_order(basses: tuple[str, ...], turned: bool) -> None:
    six = ("E4", "B3", "G3", "D3", "A2", "E2")
    given = drones(strings(*(six[::-1] if turned else six), *basses), "7", "8", "9", "10")
    assert [found.code for found in findings(given)] == (["strings.order"] if turned else [])


def test_of_a_course_in_octaves_the_lowest_string_is_named() -> None:
    """derived: E4 to B2 is 17 semitones; string 2, B3, lies 5 below it."""
    given = [
        String(name="1", course=1, pitch="E4"),
        *(String(name=n, course=2, pitch=p) for n, p in (("2", "B3"), ("3", "B2"))),
    ]
    (found,) = findings(Strings(list=tuple(given)))
    assert found.where == "string:3"
    assert found.text.startswith("String 3 is tuned 17 semitones below string 1,")


@pytest.mark.parametrize(
    ("given", "where"),
    [
        (strings("E4", "B3", "G3", "D3", "A2", "E2"), []),
        (strings("E4", "B3", "G3", "A2", "E2"), ["string:4"]),  # G3 to A2 is 10 semitones
        (strings("E4", "G3"), ["string:2"]),  # 9
        (strings("E4", "G#3"), []),  # 8
        (strings("E5", "A4", "D4", "G3"), []),  # fifths, 7
        (strings("E5", "D4", "G3"), ["string:2"]),  # two fifths, 14
        (strings("E4", "B3", "G4", "D4", "A3", "E3"), []),
        (strings("D4", "B3", "G3", "D3", "G4", s5=5), []),
        (strings("E4", None, "G3"), []),
    ],
)
def test_a_step_as_wide_as_if_a_string_were_left_out(given: Strings, where: list[str]) -> None:
    assert [found.where for found in findings(given) if found.code == "strings.gap"] == where


@pytest.mark.parametrize(("semitones", "told"), [(8.45, False), (8.55, True)])
def test_how_wide_a_step_may_be(semitones: float, told: bool) -> None:
    """Halfway between 8 semitones and 9, at 440 Hz (derived: 440 / 2^(n/12))."""
    low = f"{440 / 2 ** (semitones / 12):.4f} Hz"
    assert ("strings.gap" in [one.code for one in findings(strings("A4", low))]) == told


@pytest.mark.parametrize(("short", "told"), [({"s1": 5}, True), ({"s4": 5}, False), ({}, False)])
def test_a_short_string_at_the_treble(short: dict[str, int], told: bool) -> None:
    given = strings("G4", "D4", "B3", "G3", **short)
    assert ("strings.short_treble" in [one.code for one in findings(given)]) == told


@pytest.mark.parametrize("name", SETS)
def test_nothing_is_said_of_the_usual_sets(name: str) -> None:
    assert findings(Strings(list=SETS[name].strings)) == ()


@pytest.mark.parametrize(
    ("courses", "where"),
    [
        ("11 22 33 44", []),
        ("11 2 33 44", ["string:3"]),
        ("11 22 3 44", ["string:5"]),
        ("1 22 33 44", []),  # a single first string
        ("11 22 33 4", []),
        ("11 2 3 44", []),  # two single ones
        ("111 22 333 444", ["string:4"]),
        ("11 222 33 44", []),  # one more
        ("11 2 33", []),  # of three the middle one may be single
    ],
)
def test_a_course_of_which_a_string_is_lacking(courses: str, where: list[str]) -> None:
    given = tuple(String(name=f"{at}", course=int(one)) for at, one in enumerate(courses.replace(" ", ""), 1))
    assert [one.where for one in findings(Strings(list=given)) if one.code == "strings.lone"] == where


@pytest.mark.parametrize("course", [2, None])
def test_a_string_of_no_course_among_pairs_is_called_by_its_name(course: int | None) -> None:
    given = [String(name=f"{at}", course=1 + at // 2) for at in range(8)]
    given[2:4] = [String(name="x", course=course)]
    (found,) = findings(Strings(list=tuple(given)))
    assert found.text.startswith("String “x” is alone in its course, and each other course has 2 strings:")
