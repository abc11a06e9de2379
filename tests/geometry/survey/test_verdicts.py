"""What the survey says of the readings, and in which words."""

import math
import re

import msgspec
import numpy as np
import pytest

from geometry import words
from geometry.job import Job, Point, Reading, SideHint
from geometry.placed.how_far import how_far
from geometry.survey import survey
from geometry.survey.judge.verdict import pm95_of_others
from geometry.work_out import work_out
from tests.geometry.survey.invented import BOARD, Wanted, job_of, taken

SQUARE: list[Wanted] = [
    ("distance", f"{a} {b}", "")
    for a, b in (
        p.split("-")
        for p in (
            "nut.left-nut.right",
            "end.left-end.right",
            "nut.left-end.left",
            "nut.right-end.right",
            "nut.left-end.right",
            "nut.right-end.left",
        )
    )
]
OLD = BOARD | {"old.1": 634 + 75j, "old.2": 631 - 78j}
TIED: list[Wanted] = [
    *SQUARE,
    ("distance", "end.left old.1", ""),
    ("distance", "end.right old.1", ""),
    ("distance", "nut.left old.1", ""),
    ("distance", "nut.right old.1", ""),
    ("off", "old.1", "nut.left end.left"),
    ("distance", "end.left old.2", ""),
    ("distance", "end.right old.2", ""),
    ("distance", "nut.right old.2", ""),
    ("off", "old.2", "nut.right end.right"),
    ("distance", "old.1 old.2", ""),
]


def tied(**of: dict[str, object]) -> Job:
    """A board and two old corners, readings without error but for the changed fields of some."""
    readings = tuple(msgspec.structs.replace(reading, **of.get(reading.id, {})) for reading in taken(OLD, TIED))
    return job_of(readings)


def value(key: str) -> float:
    found = next(reading for reading in taken(OLD, TIED) if reading.id == key)
    assert isinstance(found.value, float)
    return found.value


def test_clean() -> None:
    report = survey(tied()).report
    assert (report.verdict, report.suspects, report.groups) == ("clean", (), ())
    assert report.why.whole.startswith("All 16 readings agree.")


def test_no_reading_at_all() -> None:
    report = survey(Job()).report
    assert (report.verdict, report.dof) == ("unchecked", 0)
    assert report.why.whole == "No reading has been taken yet. Begin with the first one in the list."


def test_a_misread_distance_says_what_it_is_and_how_far_it_is_out() -> None:
    report = survey(tied(r13={"value": value("r13") + 3.2})).report
    assert (report.verdict, report.suspects) == ("misread", ("r13",))
    assert report.why.whole == (
        "“board end, bass to old footprint 2”: reads 3.2 mm more than the others allow: they say 208.5 ±0.6 mm. "
        "Read it again, or strike it out."
    )


def test_what_the_others_say_of_a_reading_has_the_pm_that_they_give_without_it() -> None:
    fit = next(fit for fit in survey(tied(r13={"value": value("r13") + 3.2})).fits if fit.id == "r13")
    without = how_far(tied(r13={"struck": True}), "point:end.right", "point:old.2")
    assert without is not None
    assert pm95_of_others(fit) == pytest.approx(without.pm95, rel=0.05)  # slopes where the slip pulled the fit


def test_in_an_inch_job_the_sentence_is_in_inches() -> None:
    job = msgspec.structs.replace(tied(r13={"value": value("r13") + 3.2}), unit="in")
    assert "reads 1/8 in more" in survey(job).report.why.whole


def test_a_side_given_wrongly_is_told_from_a_misreading() -> None:
    report = survey(tied(r11={"side": "right"})).report
    assert (report.verdict, report.suspects) == ("misread", ("r11",))
    assert report.why.whole.endswith(
        "It fits if it lies on the treble side of the treble edge. Look at the side again, or strike it out."
    )


def test_a_slip_of_the_decimal_point() -> None:
    report = survey(tied(r9={"value": value("r9") / 10})).report
    assert (report.verdict, report.suspects) == ("misread", ("r9",))
    assert "Its decimal point may be one place too far left." in report.why.whole


@pytest.mark.parametrize("key", ["r8", "r9", "r12", "r13", "r16"])
@pytest.mark.parametrize("by", [4.0, 8.0, 10.0, 12.0, 15.0, 20.0])
def test_an_error_of_any_size_is_named_and_holds_no_point_up(key: str, by: float) -> None:
    wrong: dict[str, dict[str, object]] = {key: {"value": value(key) + by}}
    report = survey(tied(**wrong)).report
    assert (report.verdict, report.suspects, report.loose) == ("misread", (key,), ())


def test_millimetres_typed_for_inches_are_told_as_such() -> None:
    report = survey(tied(r13={"value": value("r13") / 25.4})).report
    assert report.suspects == ("r13",)
    assert report.why.whole.endswith("Its unit may be the wrong one, mm or inches. Look at it again, or strike it out.")


@pytest.mark.parametrize(("unit", "by", "says"), [("mm", 10.0, "a whole centimetre"), ("in", -25.4, "an inch")])
def test_a_slip_in_counting_is_told_as_such(unit: str, by: float, says: str) -> None:
    job = msgspec.structs.replace(tied(r13={"value": value("r13") + by}), unit=unit)
    assert f"That is near {says}: perhaps a slip in counting." in survey(job).report.why.whole
    other = msgspec.structs.replace(job, unit="in" if unit == "mm" else "mm")
    assert "a slip in counting" not in survey(other).report.why.whole


def test_a_thousand_typed_for_a_hundred_leaves_the_figure_alone() -> None:
    """A reading that is grossly out is set aside: the plan keeps its shape until it is mended."""
    clean, wrong = survey(tied()), survey(tied(r10={"value": value("r10") + 900}))
    assert (wrong.report.verdict, wrong.report.suspects) == ("misread", ("r10",))
    assert "reads 900.0 mm more than the others allow" in wrong.report.why.whole
    assert wrong.state[:12] == pytest.approx(clean.state[:12], abs=0.2)
    fit = next(fit for fit in wrong.fits if fit.id == "r10")
    assert fit.residual == pytest.approx(-900, abs=0.5)
    assert fit.w is not None
    assert fit.w < -1000
    assert abs(fit.residual) > fit.believable


@pytest.mark.parametrize("slipped", [3, 5, 7, 9, 12])
@pytest.mark.parametrize("by", [0.1, 10.0])
def test_a_slip_of_the_decimal_point_at_a_fret(slipped: int, by: float) -> None:
    """However short the slip makes it, it is that reading and none of those along with it."""
    frets = tuple(
        Reading(id=f"f{n}", kind="fret", fret=n, on="left", value=round(642.0 * (1 - 2 ** (-n / 12)), 1), laid="A")
        for n in (1, 3, 5, 7, 9, 12)
    )
    wrong = tuple(
        msgspec.structs.replace(r, value=by * r.value) if r.fret == slipped and isinstance(r.value, float) else r
        for r in frets
    )
    report = survey(job_of((*tied().readings, *wrong))).report
    assert (report.verdict, report.suspects, report.groups) == ("misread", (f"f{slipped}",), ())
    assert "Its decimal point may be one place too far" in report.why.whole


def test_two_values_exchanged() -> None:
    report = survey(tied(r7={"value": value("r8")}, r8={"value": value("r7")})).report
    assert (report.verdict, set(report.suspects)) == ("swapped", {"r7", "r8"})
    assert "seem to be exchanged: the other way round all readings agree" in report.why.whole


def test_a_false_condition_counts_as_a_misreading() -> None:
    same = Reading(id="s1", kind="same", of=("end.left", "old.1", "end.right", "old.2"))
    job = job_of((*taken(OLD, TIED), same))
    report = survey(job).report
    assert (report.verdict, report.suspects) == ("misread", ("s1",))
    assert "they differ by" in report.why.whole


def test_one_reading_too_many_names_a_group_and_no_one() -> None:
    readings = list(taken(BOARD, SQUARE))
    readings[4] = msgspec.structs.replace(readings[4], value=BOARD["nut.left"].__abs__() + 437.0)
    report = survey(job_of(tuple(readings))).report
    assert report.verdict == "one of these"
    assert report.suspects == ()
    assert "r5" in report.groups[0]
    assert len(report.groups[0]) == 6


def test_a_group_is_out_by_no_more_than_the_slip_that_was_made() -> None:
    """The bass edge is read 12 mm too long, say. Derived: drawn with compasses from the other five readings, the edge
    is so long; by the difference it is out, and by no less than what is said of the whole group.
    """
    values = (43.2, 54.6, 446.3, 457.6, 449.4, 447.5)
    pairs = (
        "nut.left nut.right",
        "end.left end.right",
        "nut.left end.left",
        "nut.right end.right",
        "nut.left end.right",
        "nut.right end.left",
    )
    readings = tuple(
        Reading(id=f"r{k}", kind="distance", of=tuple(pair.split()), value=value, sigma=0.3)
        for k, (pair, value) in enumerate(zip(pairs, values, strict=True))
    )
    report = survey(job_of(readings)).report
    assert report.verdict == "one of these"
    said = float(report.why.whole.partition("is out, by ")[2].partition(" mm or more")[0])
    nut, _, edge, _, diagonal, other = values
    x = (nut**2 + edge**2 - other**2) / (2 * nut)  # nut.left at 0, nut.right at (nut, 0)
    end_left = complex(x, math.sqrt(edge**2 - x**2))
    along = (diagonal**2 - values[1] ** 2 + edge**2) / (2 * edge)
    end_right = end_left / edge * complex(along, -math.sqrt(diagonal**2 - along**2))
    by_compasses = abs(end_right - nut)
    assert 0.5 * abs(457.6 - by_compasses) < said < abs(457.6 - by_compasses) + 0.5


def test_three_distances_that_cannot_meet() -> None:
    readings = tuple(
        Reading(id=key, kind="distance", of=(a, b), value=length, sigma=0.2)
        for key, a, b, length in (("r1", "a", "b", 100.0), ("r2", "a", "c", 50.0), ("r3", "b", "c", 10.0))
    )
    report = survey(job_of(readings)).report
    assert report.groups == (("r1", "r2", "r3"),)
    assert report.why.whole.startswith("One of the readings “a to b”, “a to c” and “b to c” is out, by 40.0 mm or more")


def test_a_struck_reading_is_out_of_the_fit() -> None:
    wrong = {"value": value("r13") + 3.2, "struck": True, "why": "slipped"}
    solved = survey(tied(r13=wrong))
    assert solved.report.verdict == "clean"
    assert "r13" not in {fit.id for fit in solved.fits}


def test_a_second_suspect_is_named_after_the_first() -> None:
    report = survey(tied(r13={"value": value("r13") + 4.0}, r9={"value": value("r9") - 3.0})).report
    assert report.verdict == "misread"
    assert set(report.suspects) == {"r13", "r9"}
    assert "Then look at" in report.why.whole


def test_a_fit_worse_than_the_fineness_says_so_though_no_reading_stands_out() -> None:
    """Derived: ten readings of one length, each 2.2 sigma out: 48.4 over 9, whose root is 2.3; chi-square's 0.1 % point
    is 27.9.
    """
    readings = tuple(
        Reading(id=f"r{n}", kind="distance", of=("a", "b"), value=43.0 + 0.22 * (-1) ** n, sigma=0.1) for n in range(10)
    )
    report = survey(job_of(readings)).report
    assert report.vtpv == pytest.approx(48.4)
    assert report.verdict == "coarse"
    assert report.coarse == pytest.approx(2.319, abs=0.001)
    assert report.why.whole.startswith(
        "The readings agree 2.3 times worse than they were said to be read, and none stands out"
    )


# ---------------------------------------------------------------- loose points, and either side


def test_a_loose_point_says_which_reading_would_hold_it() -> None:
    readings = taken(OLD, [*SQUARE, ("distance", "end.left old.1", "")])
    solved = survey(job_of(readings))
    assert solved.report.verdict == "loose"
    (loose,) = solved.report.loose
    assert loose.direction is not None
    arm = complex(*solved.rough["old.1"]) - complex(*solved.state[solved.point_at["end.left"] :][:2])
    assert (arm.conjugate() * complex(*loose.direction)).real / abs(arm) == pytest.approx(0, abs=1e-6)
    assert loose.held_by.startswith(("Measure from", "Lay the straightedge"))
    assert solved.report.why.whole.startswith("Old footprint 1 is not fixed by the readings yet.")
    assert "old.1" not in solved.point_at
    assert "old.1" in solved.rough


ONE_READING: list[Wanted] = [
    ("distance", "end.left old.1", ""),
    ("distance", "nut.right old.1", ""),
    ("along", "old.1", "nut.left end.left"),
    ("off", "old.1", "nut.left end.left"),
    ("off", "old.1", "end.left end.right"),
    ("inline", "old.1", "nut.left end.left"),
]


@pytest.mark.parametrize("one", ONE_READING, ids=[f"{kind} {laid or of}" for kind, of, laid in ONE_READING])
def test_the_reading_that_is_proposed_does_hold_the_point(one: Wanted) -> None:
    places = OLD if one[0] != "inline" else OLD | {"old.1": OLD["nut.left"] + 1.5 * (OLD["end.left"] - OLD["nut.left"])}
    solved = survey(job_of(taken(places, [*SQUARE, one])))
    (loose,) = solved.report.loose
    known = {words.called(name, "right"): name for name in BOARD}
    if found := re.fullmatch(r"Measure from (.*) to old footprint 1\.", loose.held_by):
        proposed: Wanted = ("distance", f"{known[found[1]]} old.1", "")
    else:
        found = re.fullmatch(
            r"Lay the straightedge from (.*) to (.*) and read how far old footprint 1 lies off it\.", loose.held_by
        )
        assert found is not None
        proposed = ("off", "old.1", f"{known[found[1]]} {known[found[2]]}")
    assert survey(job_of(taken(places, [*SQUARE, one, proposed]))).report.loose == ()


def test_a_point_with_nothing_but_a_name_is_no_trouble() -> None:
    job = msgspec.structs.replace(tied(), points={**tied().points, "metal.1": Point()})
    solved = survey(job)
    assert solved.report.verdict == "clean"
    assert "metal.1" not in solved.point_at | solved.rough


BODY = BOARD | {"body.1": 391 + 140j}
BY_TWO: list[Wanted] = [*SQUARE, ("distance", "nut.left body.1", ""), ("distance", "end.left body.1", "")]


def body(**point: object) -> Job:
    job = job_of(taken(BODY, BY_TWO))
    return msgspec.structs.replace(job, points={**job.points, "body.1": Point(**point)})  # type: ignore[arg-type]


def test_two_distances_leave_either_side() -> None:
    solved = survey(body())
    assert solved.report.verdict == "either side"
    assert solved.report.why.whole.startswith("Body outline 1 may lie on either side: the readings fit both.")
    assert set(solved.report.elsewhere) == {"body.1"}
    assert "body.1" not in solved.point_at


def test_both_places_are_seen_in_the_neck_frame() -> None:
    """Derived: each lies as far from the nut's and the board's left corner as was read."""
    job = body()
    layout = work_out(job)
    assert layout.frame == "neck"
    for x, y in (layout.rough["body.1"], layout.survey.elsewhere["body.1"]):
        for corner, reading in zip(("nut.left", "end.left"), job.readings[-2:], strict=True):
            at = layout.points[corner]
            assert np.hypot(x - at.x, y - at.y) == pytest.approx(reading.value, abs=0.05)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_side_settles_it(side: str) -> None:
    solved = survey(body(side=(SideHint(of=("nut.left", "end.left"), is_=side),)))  # type: ignore[arg-type]
    assert solved.report.verdict == "clean"
    a, b, p = (complex(*solved.state[solved.point_at[n] :][:2]) for n in ("nut.left", "end.left", "body.1"))
    assert (((b - a).conjugate() * (p - a)).imag > 0) == (side == "left")


def test_a_rough_place_settles_it() -> None:
    solved = survey(body(near=(400, 120)))
    assert solved.report.verdict == "clean"
    assert "body.1" in solved.point_at


def test_a_side_that_the_readings_deny_is_said() -> None:
    hint = SideHint(of=("nut.left", "end.left"), is_="right")
    job = tied()
    job = msgspec.structs.replace(job, points={**job.points, "old.1": Point(side=(hint,))})
    report = survey(job).report
    assert report.verdict == "either side"
    assert report.why.what.startswith("Old footprint 1 is said to lie on the bass side of the treble edge, but the")


def test_contradictory_sides_are_said() -> None:
    hints = tuple(SideHint(of=("nut.left", "end.left"), is_=side) for side in ("left", "right"))
    report = survey(body(side=hints)).report
    assert report.verdict == "either side"
    assert "Body outline 1 is said to lie" in report.why.whole


# ---------------------------------------------------------------- checked


def test_a_point_held_by_just_enough_readings_is_not_checked() -> None:
    readings = taken(BODY, [*TIED[:6], *BY_TWO[6:]])
    job = job_of(readings)
    hint = SideHint(of=("nut.left", "end.left"), is_="left")
    solved = survey(msgspec.structs.replace(job, points={**job.points, "body.1": Point(side=(hint,))}))
    assert solved.checked["body.1"] is False
    assert "body outline 1" in solved.report.why.whole


def test_a_third_reading_checks_it() -> None:
    more: list[Wanted] = [*BY_TWO[6:], ("off", "body.1", "nut.left end.left")]
    solved = survey(job_of(taken(BODY | OLD, [*TIED, *more], fine="caliper 0.1")))
    assert solved.checked["body.1"] is True
