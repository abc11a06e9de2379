"""A ± never falls when something is no longer known: heights, diameters, cores, pitches, stretch ratios, masses."""

from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Action, Spread, String, Strings
from geometry.job.sides import Side
from geometry.layout import Layout
from geometry.strings.compensation import compensate, strings_as_played
from geometry.strings.string_make import make, usual_core
from geometry.strings.usual_compensation import PM95, usual_pm95
from geometry.strings.usual_sets import SETS
from geometry.units import mm
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, job, scales, surveyed
from tests.in_one import in_one
from tests.published.string_cases import equal_frets

ROUNDING = 0.005
"""mm. The slope of the cents is taken where each string's own place is found, which moves with its make: half of the
last figure that is ever shown."""
SHORT = {
    "mandolin steel 11-40": 350.0,
    "ukulele nylon 0.60-0.90": 380.0,
    "baritone ukulele nylon 0.65-0.90": 510.0,
    "tenor steel 10-32": 580.0,
}
"""Usual scales in mm (common practice, no source); 645 for the others."""


@st.composite
def strings_of_a_job(draw: st.DrawFn) -> tuple[float, Strings]:
    """A usual set at about its usual scale, its gauges varied, some of its cores, masses and stretch ratios known, and
    some or all of its heights. What is typed lies where such strings lie: within what is assumed without it.
    """
    name = draw(st.sampled_from(sorted(SETS)))
    scale = SHORT.get(name, 645.0) * draw(st.floats(0.97, 1.03))
    share = scale / 650.0

    def height(least: float, most: float) -> float | None:
        return None if draw(st.integers(0, 5)) == 0 else round(draw(st.floats(least, most)), 2)

    def varied(string: String) -> String:
        string = replace(string, diameter=round(mm(string.diameter or 0) * draw(st.floats(0.93, 1.07)), 3))
        made, known = make(string), draw(st.sets(st.sampled_from(["core", "mass", "ratio"])))
        assert made is not None
        assert isinstance(string.diameter, float)
        changes: dict[str, Any] = {}
        if "core" in known and string.build == "wound":
            changes["core"] = round(usual_core(string, string.diameter) * draw(st.floats(0.85, 1.15)), 3)
        if "mass" in known:
            changes["kg_per_m"] = made.mass * draw(st.floats(0.95, 1.05))
        if "ratio" in known and made.ratio is not None:
            changes["stretch_ratio"] = made.ratio * draw(st.floats(0.7, 1.4))
        return replace(string, **changes)

    # derived: 1.8 mm, what is assumed over fret 12 at the treble of steel, and two standard deviations of 0.8
    metal = SETS[name].strings[0].material in ("steel", "silk and steel")
    high = 3.0 if share <= 0.9 else 3.4 if metal else 4.0
    action = Action(
        fret1=(height(0.2 * share, 1.1 * share), height(0.2 * share, 1.1 * share)),
        fret12=(height(1.0 * share, high * share), height(1.0 * share, high * share)),
    )
    return scale, Strings(
        list=tuple(varied(s) for s in SETS[name].strings),
        saddle=Spread(spread=50.0),
        action=action,
        relief=draw(st.sampled_from([0.0, 0.2])),
    )


def fewer(strings: Strings) -> Iterator[tuple[str, Strings]]:
    """The same strings with one thing less known of them."""
    action = strings.action or Action()
    yield "all heights", replace(strings, action=None)
    for fret in ("fret1", "fret12"):
        left, right = getattr(action, fret)
        yield f"{fret} left", replace(strings, action=replace(action, **{fret: (None, right)}))
        yield f"{fret} right", replace(strings, action=replace(action, **{fret: (left, None)}))
    for index, string in enumerate(strings.list):
        for field in ("diameter", "core", "kg_per_m", "stretch_ratio", "pitch"):
            if getattr(string, field) is not None:
                gone = {field: None} | ({"core": None} if field == "diameter" else {})
                less = replace(string, **gone)
                each = tuple(less if i == index else s for i, s in enumerate(strings.list))
                yield f"{field} of {string.name}", replace(strings, list=each)


def laid_out(scale: float, strings: Strings) -> Layout:
    points: dict[str, XY] = {name: (x * scale / 645.0, y) for name, (x, y) in BOARD.items()}
    return lay_out(job(points, "right", strings=strings), surveyed(points, scales(scale, scale)))


@given(strings_of_a_job(), st.sampled_from(["left", "right"]))
@settings(max_examples=15, deadline=None)
def test_no_strings_spread_falls_when_less_is_known(drawn: tuple[float, Strings], bass: Side) -> None:
    scale, strings = drawn
    places = equal_frets(scale, len(strings.list), 18)
    before = compensate(strings_as_played(strings, bass, places))
    for what, less in fewer(strings):
        after = compensate(strings_as_played(less, bass, places))
        for more_known, less_known in zip(before, after, strict=True):
            assert less_known.pm95 >= more_known.pm95 - ROUNDING, what


@given(strings_of_a_job())
@settings(max_examples=6, deadline=None)
def test_no_end_of_the_saddle_is_surer_when_less_is_known(drawn: tuple[float, Strings]) -> None:
    scale, strings = drawn
    before = laid_out(scale, strings).saddle
    assert before is not None
    for what, less in fewer(strings):
        after = laid_out(scale, less).saddle
        assert after is not None
        for more_known, less_known in zip(before.pm95, after.pm95, strict=True):
            assert less_known >= more_known - ROUNDING, what


@in_one("name", SETS)
@in_one("heights", ["read", "assumed"])
def test_a_start_value_by_common_practice_is_never_finer_than_what_is_worked_out(name: str, heights: str) -> None:
    action = Action(fret1=(0.5, 0.5), fret12=(2.0, 3.0)) if heights == "read" else None
    strings = Strings(list=SETS[name].strings, action=action)
    found = compensate(strings_as_played(strings, "right", equal_frets(SHORT.get(name, 645.0), len(strings.list), 18)))
    assert [one.source for one in found] == ["worked out" if s.fretted else "drone" for s in strings.list]
    assert all(one.pm95 <= most + 1e-9 for one, most in zip(found, usual_pm95(strings), strict=True))
    assert max(PM95.values()) <= 4.0


def test_taking_the_heights_away_widens_the_bass() -> None:
    # once it fell, for the usual heights are lower than those that were read
    read = Strings(
        list=SETS["steel 12-54"].strings,
        saddle=Spread(spread=56.0),
        action=Action(fret1=(0.6, 0.6), fret12=(2.2, 3.6)),
    )
    more, less = (laid_out(645.0, strings).saddle for strings in (read, replace(read, action=None)))
    assert more is not None
    assert less is not None
    assert all(b > a + 0.3 for a, b in zip(more.pm95, less.pm95, strict=True))
