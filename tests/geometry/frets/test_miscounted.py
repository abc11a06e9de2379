"""A miscounted fret stops the work; a fret that is merely read badly does not."""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frets.miscounted import _Counted, _counted, _misfits, counted_wrong, miscounted
from geometry.job import Frets, Job, Point, Reading
from geometry.job.neck.fretting import Spacing
from geometry.layout import Fit
from geometry.spacing import fraction
from geometry.work_out import work_out
from tests.geometry.made import BOARD, surveyed
from tests.in_one import in_one

CORNERS = {"nut.left": (0, 22), "nut.right": (0, -22), "end.left": (440, 28), "end.right": (440, -28)}  # invented


def job(changes: dict[str, tuple[int, float]], spacing: Spacing = "equal", scale: float = 640.0) -> Job:
    """Frets 1 to 12 read on both sides of an invented neck; `changes` gives a reading another fret, or adds to it."""
    readings = [
        Reading(id=f"d{a}{b}", kind="distance", of=(a, b), value=((x - u) ** 2 + (y - v) ** 2) ** 0.5)
        for a, (x, y) in CORNERS.items()
        for b, (u, v) in CORNERS.items()
        if a < b
    ]
    for side in ("left", "right"):
        for fret in (1, 3, 5, 7, 9, 12):
            said, more = changes.get(f"{side}{fret}", (fret, 0.0))
            value = round(scale * float(fraction(spacing, fret)), 1) + more
            readings.append(Reading(id=f"{side}{fret}", kind="fret", fret=said, on=side, value=value, laid=side))
    return Job(points={name: Point() for name in CORNERS}, readings=tuple(readings), frets=Frets(spacing=spacing))


def stops(of: Job) -> list[Finding]:
    return [finding for finding in work_out(of).findings if finding.code == "fret.miscounted"]


@pytest.mark.parametrize("spacing", ["equal", "eighteen"])
def test_fret_12_said_to_be_13(spacing: Spacing) -> None:
    (found,) = stops(job({"right12": (13, 0.0)}, spacing))
    assert found.grade == "stop"
    assert found.values == {"fret": 13.0, "fits": 12.0}
    assert found.where == "reading:right12"
    assert found.text.startswith("“nut to fret 13, bass string”: by the other readings this value is that of fret 12")


def test_both_sides_miscounted() -> None:
    assert {found.where for found in stops(job({"left12": (13, 0.0), "right12": (13, 0.0)}))} == {
        "reading:left12",
        "reading:right12",
    }


def test_fret_5_said_to_be_4() -> None:
    (found,) = stops(job({"left5": (4, 0.0)}))
    assert found.values == {"fret": 4.0, "fits": 5.0}


def test_a_slip_of_the_rule_is_no_miscount() -> None:
    assert stops(job({"right7": (7, 3.0)})) == []


def test_good_readings_are_left_alone() -> None:
    assert stops(job({})) == []


def test_all_frets_but_the_first_counted_one_too_high() -> None:
    """Fret 2 read for 3, 4 for 5, and so on, on both sides: the saddle would stand 34 mm wrong."""
    wrong = {
        f"{side}{fret}": (fret, round(640.0 * float(fraction("equal", fret - 1) - fraction("equal", fret)), 1))
        for side in ("left", "right")
        for fret in (3, 5, 7, 9, 12)
    }
    (found,) = (one for one in work_out(job(wrong)).findings if one.code == "frets.miscounted")
    assert (found.grade, found.values) == ("stop", {"from": 3.0, "by": 1.0})
    assert "The frets from 3 on (bass and treble) read as if each was counted one too high" in found.text


def test_every_fret_counted_one_too_high_asks_to_count_again() -> None:
    """Fret 1 read for 2, 2 for 3, and so on, on both sides: derived, 640 mm from the nut on would be 678 mm."""
    counted = {f"{side}{fret}": (fret + 1, 0.0) for side in ("left", "right") for fret in (1, 3, 5, 7, 9, 12)}
    told = [
        one for one in work_out(job(counted)).findings if one.grade == "stop" and "count the frets again" in one.text
    ]
    assert {one.code for one in told} == {"frets.miscounted", "nut.miscounted"}


def test_a_nut_that_was_moved_is_not_taken_for_a_miscount() -> None:
    moved = {f"{side}{fret}": (fret, -1.5) for side in ("left", "right") for fret in (1, 3, 5, 7, 9, 12)}
    codes = {one.code for one in work_out(job(moved)).findings}
    assert "nut.moved" in codes
    assert not {"frets.miscounted", "fret.miscounted", "nut.miscounted"} & codes


@pytest.mark.parametrize(("by", "said"), [(2, "two too high"), (1, "one too high"), (-1, "one too low")])
def test_by_how_many_all_frets_from_one_on_are_miscounted_is_said(by: int, said: str) -> None:
    """The fret that each reading names less so many is the one it was read at (derived)."""
    wrong = {
        f"{side}{fret}": (fret, round(640.0 * float(fraction("equal", fret - by) - fraction("equal", fret)), 1))
        for side in ("left", "right")
        for fret in (5, 7, 9, 12)
    }
    (found,) = (one for one in work_out(job(wrong)).findings if one.code == "frets.miscounted")
    assert found.values == {"from": 5.0, "by": float(by)}
    assert f"as if each was counted {said}" in found.text


@in_one(
    ("place", "counted"),
    [
        *((n, n) for n in (1.0, 4.0, 6.0, 12.0, 35.0)),
        # within 0.12 of a fret (common practice, no source); between frets the place goes as a straight line
        (7.09, 7),
        (6.91, 7),
        (7.14, 5),
        (6.86, 5),
        # half of fret 1 is half of nothing; behind fret 36 there is none
        (0.6, 1),
        (0.4, 5),
        (36.5, 5),
    ],
)
def test_which_fret_a_value_is_of(place: float, counted: int) -> None:
    """Said to be fret 5 of 640 mm, and its value that of another place (derived)."""
    value, fifth = (640.0 * (1 - 2 ** (-n / 12)) for n in (place, 5.0))
    taken = Reading(id="f", kind="fret", fret=5, on="left", value=value)
    fit = Fit(id="f", value=value, adjusted=value, residual=0.0, sigma=0.2, redundancy=0.25, w=0.0, believable=0.7)
    assert _counted(Job(readings=(taken,)), taken, replace(fit, w=(fifth - value) * 0.5 / 0.2)) == counted


@pytest.mark.parametrize(("redundancy", "counted"), [(0.049, 5), (0.051, 7), (0.06, 7)])
def test_what_is_hardly_checked_is_not_counted_again(redundancy: float, counted: int) -> None:
    value, fifth = (640.0 * (1 - 2 ** (-n / 12)) for n in (7, 5))
    taken = Reading(id="f", kind="fret", fret=5, on="left", value=value)
    w = (fifth - value) * redundancy**0.5 / 0.2
    fit = Fit(id="f", value=value, adjusted=value, residual=0.0, sigma=0.2, redundancy=redundancy, w=w, believable=0.7)
    assert _counted(Job(readings=(taken,)), taken, fit) == counted


@pytest.mark.parametrize(
    ("groups", "suspects", "layings", "told"),
    [((), ("f",), (), True), ((("f", "g"),), (), (), True), ((), ("f",), ("L",), False), ((), ("g",), (), False)],
)
def test_one_that_is_accused_with_its_whole_laying_is_not_counted_again(
    groups: tuple[tuple[str, ...], ...], suspects: tuple[str, ...], layings: tuple[str, ...], told: bool
) -> None:
    """A rule that began elsewhere makes all its readings wrong alike: their frets are those that they say."""
    value, fifth = (640.0 * (1 - 2 ** (-n / 12)) for n in (7, 5))
    taken = Reading(id="f", kind="fret", fret=5, on="left", value=value, laid="L")
    w = (fifth - value) * 0.5 / 0.2
    fit = Fit(id="f", value=value, adjusted=value, residual=0.0, sigma=0.2, redundancy=0.25, w=w, believable=0.7)
    known = surveyed(BOARD, {})
    report = replace(known.report, verdict="misread", suspects=suspects, groups=groups, layings=layings)
    found = miscounted(Job(readings=(taken,)), replace(known, fits=(fit,), report=report))
    assert [one.values for one in found] == ([{"fret": 5.0, "fits": 7.0}] if told else [])


FIVE, ELEVEN, TWELVE = (1 - 2 ** (-n / 12) for n in (5, 11, 12))


def squares(value: float, fret: float, sigma: float) -> float:
    """What fret 5 at its place on 640 mm and another value leave, in units of their own: derived, the only scale and
    nut through both put the nut t off, which is known to 1 mm beforehand and to its readings' part of `sigma` by them.
    """
    t = (640 * FIVE * fret - value * FIVE) / (FIVE - fret)
    return t**2 / (1 + sigma**2 * (fret**2 + FIVE**2) / (FIVE - fret) ** 2)


def counted_again(value: float, sigma: float) -> bool:
    taken = tuple(
        Reading(id=f"f{n}", kind="fret", fret=n, on="left", value=v, sigma=sigma)
        for n, v in ((5, 640 * FIVE), (12, value))
    )
    made = Job(readings=taken)
    plain = Fit(id="", value=0.0, adjusted=0.0, residual=0.0, sigma=sigma, redundancy=0.5, w=0.0, believable=0.7)
    known = replace(surveyed(BOARD, {}), fits=tuple(replace(plain, id=one.id) for one in taken))
    return bool(counted_wrong(made, known))


@pytest.mark.parametrize(("left", "told"), [(24.9, False), (25.1, True), (25.9, True)])
def test_from_what_misfit_on_frets_are_counted_again(left: float, told: bool) -> None:
    """Fret 11 said to be 12: where that leaves 25 or more (common practice, no source)."""
    value, sigma = 640 * ELEVEN, 1.0
    for _ in range(60):  # the sigma at which just so much is left
        sigma *= (squares(value, TWELVE, sigma) / left) ** 0.5
    assert squares(value, TWELVE, sigma) == pytest.approx(left, rel=1e-6)
    assert counted_again(value, sigma) == told


@pytest.mark.parametrize(("left", "told"), [(7.9, True), (8.1, False), (9.9, False)])
def test_another_count_must_fit_well(left: float, told: bool) -> None:
    """It may leave four a reading (common practice, no source)."""
    low, high = 0.0, 12.0
    for _ in range(60):  # how far the value lies from fret 11 for so much to be left by it
        off = (low + high) / 2
        low, high = (off, high) if squares(640 * ELEVEN + off, ELEVEN, 0.2) < left else (low, off)
    assert squares(640 * ELEVEN + off, TWELVE, 0.2) > 25 + left
    assert counted_again(640 * ELEVEN + off, 0.2) == told


@pytest.mark.parametrize(("left", "told"), [(1, False), (2, True)])
def test_slanted_frets_are_counted_again_where_each_path_has_two(left: int, told: bool) -> None:
    """Of one reading a path's own scale would follow, however it was counted. Fret 13 on the right is said to be 12."""
    read = [("right", 5, 5), ("right", 7, 7), ("right", 12, 13), ("left", 3, 3), ("left", 9, 9)][: 3 + left]
    rows = [_Counted(on, said, 640 * float(fraction("equal", fret)), 0.3) for on, said, fret in read]
    slanted = Job(frets=Frets(slanted=True))
    as_said, as_is = _misfits(slanted, rows, [[said for _, said, _ in read], [fret for *_, fret in read]]).tolist()
    assert (as_said > 25) is told
    assert as_is == pytest.approx(0.0, abs=1e-6)
