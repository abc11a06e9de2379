"""A list of strings that climbs from first to last was begun at the bass."""

import pytest

from geometry.job import String, Strings
from geometry.saddle.string_plan_findings import _order


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
    assert [found.code for found in _order(given)] == (["strings.order"] if climbs else [])


@pytest.mark.parametrize(
    ("pairs", "climbs"),
    [
        ("G3 G3 D4 D4 A4 A4 E5 E5", True),
        ("E5 E5 A4 A4 D4 D4 G3 G3", False),
        # octave pairs either way about: of each the lower one counts
        ("E3 E2 A3 A2 D4 D3 G4 G3 B3 B3 E4 E4", True),
        ("E4 E4 B3 B3 G4 G3 D4 D3 A3 A2 E3 E2", False),
        ("E4 E4 B3 B3 G3 G4 D3 D4 A2 A3 E2 E3", False),
    ],
)
def test_a_course_counts_by_its_lowest_string(pairs: str, climbs: bool) -> None:
    given = [String(name=f"{at}", course=1 + at // 2, pitch=pitch) for at, pitch in enumerate(pairs.split())]
    assert bool(_order(Strings(list=tuple(given)))) == climbs


def test_what_is_said_of_a_list_that_climbs() -> None:
    (all_up,), (mostly,) = _order(strings("G3", "B3", "E4")), _order(strings("G4", "C4", "E4", "A4"))
    assert all_up.text.startswith("The strings climb from the first")
    assert mostly.text.startswith("The strings climb more often than they fall from the first")
