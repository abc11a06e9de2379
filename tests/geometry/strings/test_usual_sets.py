"""The usual sets."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Strings
from geometry.pitch import frequency
from geometry.strings.tension import tension_findings, tensions
from geometry.strings.usual_sets import SETS
from geometry.units import mm
from tests.in_one import in_one
from tests.published.string_cases import case

SCALES = {
    "ukulele nylon 0.60-0.90": 350.0,
    "baritone ukulele nylon 0.65-0.90": 500.0,
    "tenor steel 10-32": 580.0,
    "mandolin steel 11-40": 350.0,
    "short fifth steel 10-24": 660.0,
}
OUT_OF_ORDER = {"ukulele nylon 0.60-0.90": "4", "short fifth steel 10-24": "5"}
"""The string of a set that is tuned out of order."""
IN_OCTAVES = {
    "steel twelve 10-46": ["3b", "4b", "5b", "6b"],
    "octave courses steel 11-40": ["3b", "4b"],
    "five courses nylon 0.50-0.80": ["4b", "5b"],
}
"""The thinner strings of octave pairs."""


@in_one("name", list(SETS))
def test_no_string_of_a_usual_set_breaks_or_hangs_slack(name: str) -> None:
    one = SETS[name]
    lengths = SCALES.get(name, 648.0) * 2.0 ** (-np.array([string.first for string in one.strings]) / 12)
    codes = {finding.code for finding in tension_findings(Strings(list=one.strings), lengths)}
    assert codes <= {"strings.total", "strings.near_break"}


@in_one("name", list(SETS))
def test_a_usual_set_makes_a_job(name: str) -> None:
    strings = Strings(list=SETS[name].strings)
    assert len({string.name for string in strings.list}) == SETS[name].count


@in_one("name", [name for name in SETS if name not in (*OUT_OF_ORDER, *IN_OCTAVES)])
def test_the_list_runs_from_treble_to_bass(name: str) -> None:
    hertz = [frequency(string.pitch or "", 440) for string in SETS[name].strings]
    assert hertz == sorted(hertz, reverse=True)


def test_octave_pairs_share_a_course() -> None:
    strings = SETS["steel twelve 10-46"].strings
    assert [s.course for s in strings] == [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6]
    hertz = [frequency(s.pitch or "", 440) for s in strings]
    assert [hertz[i + 1] / hertz[i] for i in range(0, 12, 2)] == pytest.approx([1, 1, 2, 2, 2, 2])


@pytest.mark.parametrize(("name", "low", "high"), [("nylon 0.70-1.10", 340, 400), ("ukulele nylon 0.60-0.90", 60, 130)])
def test_soft_sets_pull_what_such_sets_pull(name: str, low: float, high: float) -> None:
    # nylon: Anderson & Beausoleil 2024 print 374.9 N for six of normal tension; ukulele: common practice, from memory
    one = SETS[name]
    total = float(tensions(one.strings, 440, np.full(one.count, SCALES.get(name, 650.0))).sum())
    assert low < total < high


ROUND_IN, ROUND_MM = 0.0254, 0.05
"""What gauges are rounded to, mm: a thousandth of an inch for steel, 0.05 mm for all else."""


def sizes(name: str, build: str) -> list[float]:
    """The diameters (mm) of a set's plain or wound strings in the order of their pitch, one of each course."""
    seen = {s.course: s for s in reversed(SETS[name].strings)}
    falling = sorted(seen.values(), key=lambda s: -frequency(s.pitch or "", 440))
    return [mm(s.diameter or 0) for s in falling if s.build == build and not out_of_order(name, s.name)]


def out_of_order(name: str, string: str) -> bool:
    return OUT_OF_ORDER.get(name) == string


@in_one("name", list(SETS))
@in_one("build", ["plain", "wound"])
def test_the_strings_between_grow_by_equal_ratios(name: str, build: str) -> None:
    # derived: the rule of the module
    found = sizes(name, build)
    step = ROUND_IN if "steel" in name else ROUND_MM
    for index, size in enumerate(found):
        wanted = found[0] * (found[-1] / found[0]) ** (index / max(1, len(found) - 1))
        assert size == pytest.approx(round(wanted / step) * step, abs=1e-9)


def test_a_figure_off_the_rule_would_be_seen() -> None:
    # the middle one of three plain strings, a step thicker
    low, middle, high = sizes("nylon 0.70-1.10", "plain")
    assert (middle, high) == (0.85, 1.0)
    assert round(math.sqrt(low * high) / ROUND_MM) * ROUND_MM != pytest.approx(middle + ROUND_MM)


@in_one("name", list(SETS))
def test_a_set_is_named_by_its_material_and_its_outer_gauges(name: str) -> None:
    one = SETS[name]
    outer = [mm(s.diameter or 0) for s in one.strings if not s.name.endswith("b")]
    ends = (min(outer), max(outer))
    said = "-".join(f"{end / 0.0254:.0f}" if "steel" in name else f"{end:.2f}" for end in ends)
    assert name.endswith(f" {said}")
    assert one.says.endswith(said)
    assert one.strings[0].material in one.says


@pytest.mark.parametrize("name", IN_OCTAVES)
def test_the_thinner_of_an_octave_pair_pulls_what_the_first_string_does(name: str) -> None:
    strings = SETS[name].strings
    length = np.full(1, 650.0)
    wanted = tensions(strings[:1], 440, length)[0]
    step = ROUND_IN if "steel" in name else ROUND_MM
    for string in (one for one in strings if one.name in IN_OCTAVES[name]):
        each = {
            gauge: abs(tensions((replace(string, diameter=gauge * step),), 440, length)[0] - wanted)
            for gauge in range(7, 30)
        }
        assert mm(string.diameter or 0) == pytest.approx(min(each, key=each.__getitem__) * step)


def test_a_short_string_starts_at_its_fret_and_drones_are_never_fretted() -> None:
    short = SETS["short fifth steel 10-24"].strings
    assert [string.starts_at for string in short] == [None, None, None, None, 5]
    drones = SETS["drones steel 10-22"].strings
    assert [(string.name, string.fretted) for string in drones] == [
        ("1a", True),
        ("1b", True),
        ("2", False),
        ("3", False),
    ]


@pytest.mark.parametrize("published", ["PROP-NYL-N", "PROP-NYL-H"])
def test_no_set_is_a_published_one(published: str) -> None:
    # the two nylon sets whose radii Anderson & Beausoleil 2024 print
    printed = 2 * np.array(case(published)[0]["rho_mm"])
    for one in SETS.values():
        if one.count == 6:
            own = np.array([mm(s.diameter or 0) for s in one.strings])
            assert np.abs(own - printed).max() > 0.02
