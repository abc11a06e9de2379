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
    ],
)
def test_whether_it_climbs(given: Strings, climbs: bool) -> None:
    assert [found.code for found in _order(given)] == (["strings.order"] if climbs else [])
