"""How readings become rows: values, sigmas, extra unknowns."""

import math

import pytest

from geometry.job import Frets, Job, Point, Reading
from geometry.job.measured.measuring_tools import INSTRUMENTS, greatest_error
from geometry.job.neck.fretting import Spacing
from geometry.job.sides import Side
from geometry.survey import Row, rows_of
from geometry.survey.rows.one_scale import NUT, TWO_IN_ONE, prior

SIDES: tuple[Side, Side] = ("left", "right")
POINTS = {name: Point() for name in ("a", "b", "c", "d")}


def rows(*readings: Reading, frets: Frets | None = None) -> list[Row]:
    return rows_of(Job(points=POINTS, readings=readings, frets=frets or Frets()))


def distance(key: str = "r1", value: float = 100.0, **more: object) -> Reading:
    return Reading(id=key, kind="distance", of=("a", "b"), value=value, **more)  # type: ignore[arg-type]


def test_a_sigma_is_taken_as_it_is() -> None:
    assert rows(distance(sigma=0.4)) == [Row("r1", "distance", ("a", "b"), 100.0, 0.4)]


def test_within_is_rectangular() -> None:
    """JCGM 100:2008, 4.3.7: the standard deviation of a rectangular distribution is its half-width over √3."""
    assert rows(distance(within=0.3))[0].sigma == pytest.approx(0.3 / math.sqrt(3))


def test_a_reading_that_does_not_say_was_read_with_the_half_millimetre_rule() -> None:
    assert rows(distance()) == rows(distance(with_="rule 0.5"))


def test_reading_and_zero_add_up_where_the_zero_is_not_shared() -> None:
    assert rows(distance(with_="caliper 0.1"))[0].sigma == pytest.approx(math.hypot(0.10, 0.05))


def test_readings_laid_together_share_a_zero_known_beforehand() -> None:
    one, two, before = rows(
        distance(with_="caliper 0.1", laid="A"), distance("r2", 50.0, with_="caliper 0.1", laid="A")
    )
    assert one.extras == two.extras == (("zero.A", 1.0),)
    assert (one.sigma, two.sigma) == (0.10, 0.10)
    assert before == Row("", "none", (), 0.0, 0.05, extras=(("zero.A", 1.0),))


def test_a_laying_of_one_reading_has_no_zero_to_solve_for() -> None:
    assert rows(distance(with_="caliper 0.1", laid="A")) == rows(distance(with_="caliper 0.1"))


def test_a_rules_own_error_is_shared_in_proportion_to_the_length() -> None:
    one, two, before = rows(distance(value=250.0, with_="rule 1"), distance("r2", 500.0, with_="rule 1"))
    assert one.extras == (("rule.rule 1", 0.25),)
    assert two.extras == (("rule.rule 1", 0.5),)
    assert before.sigma == pytest.approx(0.5 / math.sqrt(3))


@pytest.mark.parametrize(
    ("legal", "length", "expected"),
    [("I", 650, 0.2), ("II", 650, 0.5), ("III", 650, 1.0), ("I", 1200, 0.3), ("II", 1200, 0.7), ("III", 300, 1.0)],
)
def test_the_legal_error_of_a_rule(legal: str, length: float, expected: float) -> None:
    """Directive 2014/32/EU, annex X (MI-008), chapter I, table 1; read in UK SI 2016/1153, schedule 1I."""
    assert greatest_error(legal, length) == pytest.approx(expected)


def test_a_caliper_has_no_legal_class_here() -> None:
    assert INSTRUMENTS["caliper 0.05"].per_metre == 0.0
    assert INSTRUMENTS["tape 1/32"].per_metre == pytest.approx(0.5 / math.sqrt(3))


def test_a_struck_or_open_reading_takes_no_part() -> None:
    open_one = Reading(id="r2", kind="distance", of=("a", "b"))
    assert rows(distance(sigma=0.1, struck=True, why="slipped"), open_one) == []


def test_off_gives_its_side_as_the_lean() -> None:
    off = Reading(id="o", kind="off", of=("c",), from_=("a", "b"), side="right", value="1 in", sigma=0.1)
    assert rows(off) == [Row("o", "laid", ("c", "a", "a", "b"), 25.4, 0.1, -1j)]


def test_rims_are_a_distance_and_a_diameter() -> None:
    middle, across = rows(Reading(id="p", kind="rims", of=("a", "b"), value=(50.0, 55.2), sigma=0.1))
    assert (middle.form, middle.value, middle.component) == ("distance", 52.6, "nominal")
    assert middle.sigma == pytest.approx(0.1 / math.sqrt(2))
    assert across.value == pytest.approx(5.2)
    assert across.sigma == pytest.approx(0.1 * math.sqrt(2))
    assert across.extras == (("diameter.b", 1.0),)


def test_frets_far_apart_settle_a_shift() -> None:
    first, twelfth, *taken = rows(
        Reading(id="f1", kind="fret", fret=1, on="left", value=36.0, sigma=0.1),
        Reading(id="f12", kind="fret", fret=12, on="left", value=324.0, sigma=0.1),
    )
    assert not taken
    assert dict(first.extras) == pytest.approx({"scale.left": 1 - 2 ** (-1 / 12), "shift.left": -1.0})
    assert twelfth.extras == (("scale.left", 0.5), ("shift.left", -1.0))


def test_frets_near_each_other_settle_none_and_what_it_may_be_is_carried() -> None:
    *_, last = rows(
        Reading(id="f10", kind="fret", fret=10, on="left", value=284.2, sigma=0.3),
        Reading(id="f12", kind="fret", fret=12, on="left", value=324.0, sigma=0.3),
    )
    assert (last.id, last.extras, last.carried) == ("", (("shift.left", 1.0),), NUT)


def test_frets_near_each_other_that_put_the_nut_elsewhere_are_believed() -> None:
    """Derived: of a scale of 648, fret 11 stands at 304.7; read 3 mm nearer it puts the nut some 50 mm away."""
    found = rows(
        Reading(id="f11", kind="fret", fret=11, on="left", value=301.7, sigma=0.3),
        Reading(id="f12", kind="fret", fret=12, on="left", value=324.0, sigma=0.3),
    )
    assert all(not row.carried for row in found)


def test_one_scale_is_taken_for_both_sides_and_two_where_frets_are_slanted() -> None:
    readings = tuple(
        Reading(id=f"{on}{n}", kind="fret", fret=n, on=on, value=648 * (1 - 2 ** (-n / 12)), sigma=0.2)
        for on in SIDES
        for n in (1, 5, 9, 12)
    )
    tie = prior((("scale.left", 1.0), ("scale.right", -1.0)), TWO_IN_ONE)
    assert tie in rows(*readings)
    assert tie not in rows(*readings, frets=Frets(slanted=True))


@pytest.mark.parametrize(("farther", "shown"), [(0.0, False), (0.5, False), (4.0, True), (8.0, True)])
def test_frets_that_lean_beyond_chance_are_given_two_scales(farther: float, shown: bool) -> None:
    # derived: 4 mm between the scales are 2 mm at fret 12, seven standard deviations of its two readings
    readings = tuple(
        Reading(id=f"{on}{n}", kind="fret", fret=n, on=on, value=scale * (1 - 2 ** (-n / 12)), sigma=0.2)
        for on, scale in zip(SIDES, (648.0 + farther, 648.0), strict=True)
        for n in (1, 3, 5, 7, 9, 12)
    )
    tie = prior((("scale.left", 1.0), ("scale.right", -1.0)), TWO_IN_ONE)
    assert (tie not in rows(*readings)) == shown


def test_one_misread_fret_is_not_taken_for_slanted_frets() -> None:
    readings = tuple(
        Reading(id=f"{on}{n}", kind="fret", fret=n, on=on, value=648 * (1 - 2 ** (-n / 12)) + slip, sigma=0.2)
        for on in SIDES
        for n in (1, 3, 5, 7, 9, 12)
        for slip in (4.0 if (on, n) == ("left", 12) else 0.0,)
    )
    assert prior((("scale.left", 1.0), ("scale.right", -1.0)), TWO_IN_ONE) in rows(*readings)


def test_the_rule_of_eighteen_has_its_own_fractions() -> None:
    twelfth = Reading(id="f", kind="fret", fret=12, on="right", value=313.7, sigma=0.1)
    assert rows(twelfth, frets=Frets(spacing="eighteen"))[0].extras[0][1] == pytest.approx(1 - (17 / 18) ** 12)


def test_a_height_is_an_unknown_of_its_own() -> None:
    height = Reading(id="h", kind="height", at="fret 12", on="left", value=2.1, sigma=0.05)
    assert rows(height) == [Row("h", "none", (), 2.1, 0.05, extras=(("height.fret 12.left", 1.0),))]


def test_a_place_read_off_a_sheet_is_two_rows() -> None:
    x, y = rows(Reading(id="s", kind="at", of=("a",), value=(12.0, -3.0), sigma=0.5))
    assert (x.value, x.component, y.value, y.component) == (12.0, "x", -3.0, "y")


@pytest.mark.parametrize(("spacing", "sigma"), [("equal", 0.2), ("eighteen", 0.2), ("measured", math.hypot(0.2, 0.5))])
def test_a_fret_of_a_board_that_is_taken_as_measured_tells_less_of_the_scale(spacing: Spacing, sigma: float) -> None:
    """Its frets stand 0.5 mm (one standard deviation; common practice, no source) from where a rule has them."""
    taken = Reading(id="f", kind="fret", fret=5, on="left", value=163.0, sigma=0.2)
    assert rows(taken, frets=Frets(spacing=spacing))[0].sigma == pytest.approx(sigma)
