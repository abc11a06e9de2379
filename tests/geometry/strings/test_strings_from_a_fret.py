"""Strings that begin at a fret, and drones: their compensation against the same equation solved by another method, and
all that follows from where they begin.
"""

import math

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.optimize import minimize, minimize_scalar

from geometry.findings import Finding
from geometry.job import Action, Heard, Heights, Job, NotAJob, Spread, String, Strings
from geometry.layout import Layout, StringPlan
from geometry.pitch import frequency
from geometry.placed.small_nuts import height_told
from geometry.strings.compensation import FretPlaces, compensate, strings_as_played
from geometry.strings.string_heights import nut_and_saddle_heights, shares_to_bass
from geometry.strings.string_make import make
from geometry.strings.usual_sets import SETS
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.any_job.mirror_image import mirrored
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


def test_a_string_without_a_fret_of_its_own_is_a_drone() -> None:
    at_last = (*FIVE[:4], replace(FIVE[4], starts_at=FRETS))
    found = compensate(strings_as_played(played(at_last), "right", board(at_last)))[4]
    # common practice, no source: the treble's, for it is tuned high
    assert (found.source, found.saddle, found.cents) == ("drone", 1.5, {})


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


def test_the_others_are_laid_as_if_it_were_not_there() -> None:
    with_it, without = work_out(job_with(FIVE)), work_out(job_with(FIVE[:4]))
    assert with_it.frets is not None
    assert without.frets is not None
    assert with_it.frets.nominal.right == pytest.approx(without.frets.nominal.right, abs=0.05)
    for one, other in zip(with_it.strings[:4], without.strings, strict=True):
        assert one.nut_xy == pytest.approx(other.nut_xy, abs=1e-9)


def across_at_start(layout: Layout) -> tuple[float, float]:
    """From where string 5 starts to string 4, and to the bass edge of the board, along the fret, mm."""
    assert layout.frets is not None
    x, y = fifth(layout).nut_xy
    (ax, ay), (bx, by) = layout.strings[3].nut_xy, layout.strings[3].break_point
    return abs(y - (ay + (by - ay) * (x - ax) / (bx - ax))), abs(y - layout.frets.lines[5].right[1])


def test_it_lies_as_the_others_do_where_nothing_is_said() -> None:
    # derived: equal centres at nut and saddle are equal centres everywhere
    layout = work_out(job_with(FIVE))
    x = fifth(layout).nut_xy[0]
    ys = [
        a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])
        for a, b in ((s.nut_xy, s.break_point) for s in layout.strings[:4])
    ]
    assert across_at_start(layout)[0] == pytest.approx(abs(ys[0] - ys[1]), abs=0.01)


@pytest.mark.parametrize(("fields", "index"), [({"from_neighbour": 8.0}, 0), ({"from_edge": "1/8 in"}, 1)])
def test_it_starts_where_it_is_said_to(fields: dict[str, object], index: int) -> None:
    layout = work_out(job_with(moved(**fields)))
    (value,) = fields.values()
    assert across_at_start(layout)[index] == pytest.approx(mm(value), abs=0.01)  # type: ignore[arg-type]  # a length


def test_mirrored_it_starts_at_the_mirrored_place() -> None:
    job = job_with(moved(from_edge=2.5))
    one, other = fifth(work_out(job)), fifth(work_out(mirrored(job)))
    assert (other.nut_xy[0], -other.nut_xy[1]) == pytest.approx(one.nut_xy, abs=1e-6)


def test_a_short_first_string_lies_beyond_the_treble() -> None:
    job = job_with((replace(FIVE[4], name="0", from_edge=3.0), *FIVE[:4]))
    layout = work_out(job)
    assert layout.frets is not None
    assert layout.strings[0].nut_xy[1] == pytest.approx(layout.frets.lines[5].left[1] - 3.0, abs=0.01)


@pytest.mark.parametrize(
    ("size", "grade", "said"),
    [
        ("0.010 in", "look", "have only 0.1 mm between them"),
        ("0.018 in", "stop", "lie on each other"),
    ],
)
def test_touching_its_neighbour_is_told(size: str, grade: str, said: str) -> None:
    # derived: half a mm less half of 0.024 in and half of its own thickness
    layout = work_out(job_with(moved(from_neighbour=0.5, diameter=size)))
    found = {f.code: f for f in layout.findings}["strings.close_at_start"]
    assert (found.grade, found.where) == (grade, "string:5")
    assert found.text == (
        f"Where string 5 starts, at fret 5, strings 4 and 5 {said}. Start it farther from its neighbour."
    )


def starts_told(**fields: object) -> dict[str, Finding]:
    found = work_out(job_with(moved(**fields))).findings
    return {f.code: f for f in found if f.where == "string:5" or f.code == "margin.small"}


def test_a_start_on_the_wrong_side_of_others_stops_for_it_crosses_them() -> None:
    # derived: with 28 mm between four strings at the nut of a board 43 and more wide, 25 from the bass edge lies beyond
    # strings 4 and 3 and not beyond 2
    found = starts_told(from_edge=25.0)
    assert set(found) == {"strings.crosses"}
    assert found["strings.crosses"].grade == "stop"
    assert found["strings.crosses"].text == (
        "String 5 starts at fret 5 on the wrong side of strings 3 and 4, and crosses them on its way to the bridge. "
        "Look at how far from the board’s edge it is said to start."
    )


def test_a_start_off_the_board_stops_and_no_width_is_doubted() -> None:
    layout = work_out(job_with(moved(from_neighbour=30.0)))
    found = starts_told(from_neighbour=30.0)
    assert set(found) == {"strings.starts_off"}
    off = found["strings.starts_off"]
    assert layout.frets is not None
    # derived: the board's own half width at that fret, of which the start lies more than that off the middle
    assert off.values["mm"] == pytest.approx(layout.frets.lines[5].right[1] - fifth(layout).nut_xy[1], abs=0.01)
    assert off.grade == "stop"
    assert off.text.startswith("Where string 5 starts, at fret 5, it would lie ")
    assert off.text.endswith(" mm beyond the board’s edge. Look at how far from its neighbour it is said to start.")


def test_the_mirror_image_and_a_first_string_cross_as_well() -> None:
    crossing = job_with((replace(FIVE[4], name="0", from_edge=25.0), *FIVE[:4]))
    for job in (crossing, mirrored(crossing)):
        (found,) = (f for f in work_out(job).findings if f.code == "strings.crosses")
        assert "on the wrong side of strings 1 and 2, " in found.text


def test_two_strings_that_start_at_one_fret_cross_once() -> None:
    sixth = replace(FIVE[4], name="6", from_edge=18.0)
    job = job_with((*FIVE[:4], replace(FIVE[4], from_edge=6.0), sixth))
    found = [f for f in work_out(job).findings if f.code == "strings.crosses"]
    assert [f.where for f in found] == ["string:6"]
    assert "on the wrong side of strings 4 and 5, " in found[0].text


def test_margins_are_of_the_strings_that_are_there() -> None:
    layout = work_out(job_with(moved(from_edge=3.0)))
    assert layout.margins is not None
    # derived: at frets 1 to 4 the fourth string is the outer one, 14 mm off the middle at the nut
    assert layout.margins.right[0] == pytest.approx(21.5 - 14.0, abs=0.05)
    assert layout.margins.right[4] > 7.0
    assert layout.margins.right[5] == pytest.approx(3.0, abs=0.02)


# drones


def test_one_that_starts_at_the_last_fret_is_laid_as_a_drone_and_said_to_be() -> None:
    at_last, drone = work_out(job_with(moved(starts_at=FRETS))), work_out(job_with(moved(fretted=False)))
    four = work_out(job_with(FIVE[:4]))
    assert at_last.saddle is not None
    assert four.saddle is not None
    assert (fifth(at_last).compensation_from, fifth(at_last).fretted) == ("drone", False)
    # derived: it asks nothing, so the saddle is as sure as under the four that are fretted
    assert max(at_last.saddle.pm95) == pytest.approx(max(four.saddle.pm95), abs=0.1)
    assert fifth(at_last).compensation == pytest.approx(fifth(drone).compensation, abs=0.05)
    found = {f.code: f for f in at_last.findings}
    assert "compensation.habit" not in found
    assert found["strings.no_frets"].where == "string:5"
    assert found["strings.no_frets"].text == (
        "String 5 starts at the last fret, and no note of it can be fretted: it is taken for a drone, and has no say "
        "in where the saddle lies. Look at the fret it starts at."
    )
    assert "strings.no_frets" not in {f.code for f in drone.findings}


DRONES = SETS["drones steel 10-22"].strings


def test_a_drone_does_not_move_the_saddle() -> None:
    fretted = replace(DRONES[2], fretted=True), replace(DRONES[3], fretted=True)
    tried = [
        work_out(job_with((*DRONES[:2], replace(DRONES[2], diameter=size), DRONES[3]))).saddle
        for size in ("0.014 in", "0.020 in")
    ]
    assert tried[0] is not None
    assert tried[1] is not None
    assert tried[0].at_strings == tried[1].at_strings
    assert tried[0].pm95 == tried[1].pm95
    all_fretted = work_out(job_with((*DRONES[:2], *fretted))).saddle
    assert all_fretted is not None
    assert all_fretted.at_strings != tried[0].at_strings


def test_a_drone_lies_on_the_line_through_the_others() -> None:
    one, two, three = FIVE[:3]
    layout = work_out(job_with((one, replace(two, fretted=False), three)))
    a, drone, b = layout.strings
    assert drone.compensation == pytest.approx((a.compensation + b.compensation) / 2, abs=1e-6)
    assert (drone.compensation_from, drone.cents, drone.fretted) == ("drone", {}, False)
    assert drone.tension_n is not None


def test_a_pair_side_by_side_tells_no_slant() -> None:
    # derived: two strings of a course span 3 of 54 mm; their own difference is no slant of the saddle
    layout = work_out(job_with(DRONES))
    first, second, *drones = layout.strings
    mean = (first.compensation + second.compensation) / 2
    assert [one.compensation for one in drones] == pytest.approx([mean, mean])


def test_drones_alone_are_laid_by_common_practice() -> None:
    layout = work_out(job_with(tuple(replace(one, fretted=False) for one in FIVE[:4])))
    # common practice, no source: steel, four courses
    assert [one.compensation for one in layout.strings] == pytest.approx([1.5, 2.0, 2.5, 3.0])
    assert layout.saddle is not None


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
