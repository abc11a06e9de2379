"""Strings that begin at a fret, and drones: their compensation against the same equation solved by another method, and
all that follows from where they begin.
"""

import math

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.optimize import minimize, minimize_scalar

from geometry.job import Action, Heard, Heights, Job, NotAJob, Spread, String, Strings
from geometry.layout import Layout, StringPlan
from geometry.pitch import frequency
from geometry.placed.small_nuts import height_told
from geometry.strings.compensation import FretPlaces, compensate, strings_as_played
from geometry.strings.string_heights import nut_and_saddle_heights, shares_to_bass
from geometry.strings.string_make import make
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.geometry.slanted_made import plain

LOW, RISE, BOARD, FRETS = 0.5, 3.4, 660.0, 22
FIVE = SETS["short fifth steel 10-24"].strings


def cents_by_hand(string: String, length: float, steps: int, saddle: float, nut: float = 0.0) -> float:
    """How sharp a string of that length sounds, stopped so many frets beyond where it begins (Anderson & Beausoleil, J.
    Acoust. Soc. Am. 156(1), 683, 2024: the string from saddle over fret to nut, its tension by kappa Q, its mass by Q,
    its stiffness by 1 + B + (1 + pi²/2) B²). Written out for one note in plain numbers.
    """
    made = make(string)
    assert made is not None
    assert string.pitch is not None
    tension = made.mass * (2 * length / 1000 * frequency(string.pitch, 440)) ** 2
    kappa, fret = made.kappa(tension), length * (1 - 2 ** (-steps / 12))
    open_length = math.hypot(length + saddle + nut, RISE)
    sounding = math.hypot(length + saddle - fret, LOW + RISE)
    q = (sounding + math.hypot(fret + nut, LOW)) / open_length - 1

    def pitch(vibrating: float, tighter: float, thinner: float) -> float:
        b = math.sqrt(kappa / tighter) * made.rho / (2 * vibrating)
        return math.sqrt(tighter / thinner) / vibrating * (1 + b + (1 + math.pi**2 / 2) * b * b)

    fretted, open_string = pitch(sounding, 1 + kappa * q, 1 / (1 + q)), pitch(open_length, 1.0, 1.0)
    return 1200 * math.log2(fretted / open_string) - 100 * steps


def by_minimising(string: String, length: float, steps: range) -> float:
    """The saddle's place of the least sum of squared cents, by a search that knows no slopes."""

    def squares(saddle: float) -> float:
        return sum(cents_by_hand(string, length, n, saddle) ** 2 for n in steps)

    return float(minimize_scalar(squares, bounds=(-5.0, 20.0), method="bounded", options={"xatol": 1e-7}).x)


def board(strings: tuple[String, ...], frets: int = FRETS) -> FretPlaces:
    """Equal-tempered frets from where each string begins."""
    first = np.array([string.first for string in strings])
    begin = BOARD * (1 - 2.0 ** (-first / 12))
    row = BOARD * (1 - 2.0 ** (-np.arange(1, frets + 1) / 12))
    return FretPlaces(nominal=BOARD - begin, frets=row - begin[:, None], begin=begin, first=first)


def played(strings: tuple[String, ...], **fields: object) -> Strings:
    return Strings(list=strings, height=Heights(nut=LOW, saddle=RISE), **fields)  # type: ignore[arg-type]  # a test's own


@pytest.mark.parametrize("name", ["short fifth steel 10-24", "octave courses steel 11-40", "steel 12-54"])
def test_each_string_is_compensated_as_another_method_finds(name: str) -> None:
    strings = SETS[name].strings
    places = board(strings)
    found = compensate(strings_as_played(played(strings), "right", places))
    for index, (string, one) in enumerate(zip(strings, found, strict=True)):
        length = float(places.nominal[index])
        assert one.saddle == pytest.approx(by_minimising(string, length, range(1, 13)), abs=2e-4)
        assert one.cents[string.first + 7] == pytest.approx(cents_by_hand(string, length, 7, one.saddle), abs=1e-5)


def test_saddle_and_small_nut_together_as_another_method_finds() -> None:
    places = board(FIVE)
    found = compensate(strings_as_played(played(FIVE, nut_compensation="worked out"), "right", places))[4]

    def squares(ends: np.ndarray) -> float:
        own = (cents_by_hand(FIVE[4], float(places.nominal[4]), n, *map(float, ends)) for n in range(1, 13))
        return sum(cents**2 for cents in own)

    best = minimize(squares, (2.0, 0.0), method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-10})
    assert (found.saddle, found.nut) == pytest.approx(tuple(best.x), abs=2e-3)


def test_a_short_string_is_a_whole_one_on_a_shorter_board() -> None:
    # derived: frets from fret 5 on are those of a board of 2^(-5/12) of the scale
    short = compensate(strings_as_played(played(FIVE), "right", board(FIVE)))[4]
    length = BOARD * 2 ** (-5 / 12)
    row = length * (1 - 2.0 ** (-np.arange(1, 18) / 12))
    whole = (replace(FIVE[4], starts_at=None),)
    alone = FretPlaces(nominal=np.array([length]), frets=row[None])
    (found,) = compensate(strings_as_played(played(whole), "right", alone))
    assert short.saddle == pytest.approx(found.saddle, abs=1e-9)
    assert short.tension_n == pytest.approx(found.tension_n)
    assert short.pm95 == pytest.approx(found.pm95)
    assert {fret - 5: cents for fret, cents in short.cents.items()} == pytest.approx(found.cents)
    assert short.cents_before.keys() == short.cents.keys() == set(range(6, FRETS + 1))


def test_only_its_own_frets_count_whatever_the_weights_say() -> None:
    weights = {fret: 1.0 for fret in (1, 3, 5, 8, 12)}
    found = compensate(strings_as_played(played(FIVE, weights=weights), "right", board(FIVE)))
    length = BOARD * 2 ** (-5 / 12)

    def squares(saddle: float) -> float:
        return sum(cents_by_hand(FIVE[4], length, n, saddle) ** 2 for n in (3, 7))

    best = minimize_scalar(squares, bounds=(-5.0, 20.0), method="bounded", options={"xatol": 1e-7}).x
    assert found[4].saddle == pytest.approx(best, abs=2e-4)


def test_one_number_for_the_nut_is_not_the_small_nuts() -> None:
    found = compensate(strings_as_played(played(FIVE, nut_compensation=-0.4), "right", board(FIVE)))
    assert [one.nut for one in found] == [-0.4, -0.4, -0.4, -0.4, 0.0]


# on an instrument


def job_with(strings: tuple[String, ...], nut: float = 28.0, **fields: object) -> Job:
    job = plain(FRETS)
    assert job.strings is not None
    return replace(job, strings=replace(job.strings, list=strings, nut=Spread(spread=nut), **fields))


def fifth(layout: Layout) -> StringPlan:
    return layout.strings[-1]


def moved(**fields: object) -> tuple[String, ...]:
    return (*FIVE[:4], replace(FIVE[4], **fields))


def test_it_runs_from_its_fret_and_all_is_told_from_there() -> None:
    layout = work_out(job_with(FIVE))
    found = fifth(layout)
    assert layout.frets is not None
    line = layout.frets.lines[5]
    # derived: fret 5 stands at 1 − 2^(−5/12) of the 650 mm along the outer strings, 0.25 of which are lost across
    assert found.nut_xy[0] == pytest.approx((line.left[0] + line.right[0]) / 2, abs=0.05)
    assert found.nominal == pytest.approx(650 * 2 ** (-5 / 12), abs=0.1)
    assert found.length == pytest.approx(math.dist(found.nut_xy, found.break_point), abs=1e-6)
    # the same pull as string 1, of the same gauge: the same product of pitch and length within the temperament
    assert found.tension_n == pytest.approx(layout.strings[0].tension_n, rel=1e-3)
    assert min(found.cents) == 6
    assert (found.starts_at, found.compensation_from) == (5, "worked out")


def test_taken_from_the_nut_it_would_be_near_breaking_and_from_its_fret_it_is_not() -> None:
    def near(strings: tuple[String, ...]) -> set[str]:
        found = work_out(job_with(strings)).findings
        return {finding.code for finding in found if finding.where == "string:5"}

    assert "strings.near_break" in near(moved(starts_at=None, pitch="A4"))
    assert near(moved(pitch="A4")) == set()


def test_margins_are_of_the_strings_that_are_there() -> None:
    layout = work_out(job_with(moved(from_edge=3.0)))
    assert layout.margins is not None
    # derived: at frets 1 to 4 the fourth string is the outer one, 14 mm off the middle at the nut
    assert layout.margins.right[0] == pytest.approx(21.5 - 14.0, abs=0.05)
    assert layout.margins.right[4] > 7.0
    assert layout.margins.right[5] == pytest.approx(3.0, abs=0.02)


# drones


# what cannot be


def refusal(make_it: object) -> str:
    assert callable(make_it)
    with pytest.raises(NotAJob) as refused:
        make_it()
    return str(refused.value)


@pytest.mark.parametrize("fret", [0, -3])
def test_no_string_starts_before_fret_1(fret: int) -> None:
    assert refusal(lambda: String(name="5", starts_at=fret)) == (
        f"String 5 starts at fret {fret}, but such a string starts at fret 1 or beyond; leave it out for one that "
        "begins at the nut"
    )


def test_no_string_starts_beyond_the_last_fret() -> None:
    assert refusal(lambda: Job(strings=Strings(list=moved(starts_at=21)))) == (
        "String 5 starts at fret 21, and the board has 20 frets; look at both numbers"
    )


def test_one_string_at_least_begins_at_the_nut() -> None:
    assert refusal(lambda: Strings(list=FIVE[4:])) == (
        "Every string starts at a fret, and one at least must begin at the nut; look at starts_at"
    )


def test_where_it_starts_is_said_once_and_only_of_one_that_does() -> None:
    both = refusal(lambda: String(name="5", starts_at=5, from_edge=3.0, from_neighbour=9.0))
    assert both == "String 5 starts at a distance from its neighbour and at one from the board’s edge; give one"
    assert refusal(lambda: String(name="5", from_edge=3.0)) == (
        "String 5 has a place where it starts, but no fret it starts at; give that too"
    )


def test_nothing_is_heard_before_a_string_starts_or_of_a_drone() -> None:
    heard = (Heard(string="5", cents=2.0, trial="1", fret=5),)
    assert refusal(lambda: Strings(list=FIVE, heard=heard)) == (
        "String 5 starts at fret 5, and was heard at fret 5; look at both frets"
    )
    assert refusal(lambda: Strings(list=moved(starts_at=None, fretted=False), heard=heard)) == (
        "String 5 is never fretted, and was heard at fret 5; mend one"
    )


@pytest.mark.parametrize(
    ("starts", "at", "says"),
    [
        ({5: 5}, 4, "The height of string 5 is taken as that of string 4, over frets 1 and 12 and where it breaks."),
        ({1: 5}, 0, "The height of string 1 is taken as that of string 2, over frets 1 and 12 and where it breaks."),
        ({3: 5}, 2, "The height of string 3 is taken by its place between strings 1 and 5."),
        ({5: 5}, 0, ""),
    ],
)
def test_from_what_a_short_strings_height_is_taken(starts: dict[int, int], at: int, says: str) -> None:
    """derived: of two heights, at the outer strings that begin at the nut, those beyond have the nearer one's"""
    listed = tuple(String(name=str(number), starts_at=starts.get(number)) for number in range(1, 6))
    strings = Strings(list=listed, action=Action(fret1=(1.0, 2.0), fret12=(3.0, 4.0)))
    assert height_told(strings, at) == says
    nut, _ = nut_and_saddle_heights(strings, False, np.full(5, 650.0))
    if "as that of" in says:
        assert nut[at] == nut[3 if at == 4 else 1]


@pytest.mark.parametrize(
    ("short", "shares"),
    [
        ((), [0.0, 0.25, 0.5, 0.75, 1.0]),
        ((0,), [0.0, 0.0, 1 / 3, 2 / 3, 1.0]),  # one beyond the outer ones as they do
        ((4,), [0.0, 1 / 3, 2 / 3, 1.0, 1.0]),
        ((0, 4), [0.0, 0.0, 0.5, 1.0, 1.0]),
        ((2,), [0.0, 0.25, 0.5, 0.75, 1.0]),
        ((0, 1, 2, 4), [0.5] * 5),  # one alone lies between
    ],
)
def test_how_far_each_lies_from_treble_to_bass(short: tuple[int, ...], shares: list[float]) -> None:
    """derived: evenly from the first to the last of those that begin at the nut"""
    listed = tuple(String(name=f"{at}", starts_at=5 if at in short else None) for at in range(5))
    assert shares_to_bass(Strings(list=listed)).tolist() == pytest.approx(shares)
