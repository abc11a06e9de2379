"""Lengths as typed, as kept, and as shown again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry import units
from geometry.units import (
    LONGEST,
    Length,
    NotALength,
    Unit,
    keep,
    mm,
    parse,
    said,
    said_pm,
    show,
    show_off,
    show_pm,
    typed,
)
from tests.in_one import in_one


@in_one(
    ("text", "millimetres"),
    # derived: 1 in = 25.4 mm, 1 cm = 10 mm
    [
        ("643.5", 643.5),
        ("643,5", 643.5),
        (" 643.5 mm ", 643.5),
        ("64,4 cm", 644.0),
        (".5", 0.5),
        ("25.34 in", 643.636),
        ("25 11/32 in", 643.73125),
        ('25-11/32"', 643.73125),
        ("25 11/32 inches", 643.73125),
        ('1/16"', 1.5875),
        ("1 ½ in", 38.1),
        ("1½ in", 38.1),
        ("-4", -4.0),
        ("−4", -4.0),
    ],
)
def test_a_length_is_read(text: str, millimetres: float) -> None:
    assert parse(text) == pytest.approx(millimetres, rel=1e-12)


def test_a_bare_number_is_in_the_jobs_unit_and_a_named_unit_outranks_it() -> None:
    assert parse("2", "in") == pytest.approx(50.8)
    assert parse("2 mm", "in") == 2.0


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is not a length"),
        ("abc", "is not a length"),
        ("12 13", "is not a length"),
        ("1.2.3", "is not a length"),
        ("12 ft", "a unit that is not known here; use mm, cm or in"),
        ("1/0 in", "divides by nothing"),
        ("1 5/4 in", "a fraction of one or more beside a whole number"),
        ("1 4/4 in", "a fraction of one or more beside a whole number"),
        ("9" * (LONGEST + 1), "too long to be a length"),
    ],
)
def test_what_is_no_length_is_refused_in_one_sentence(text: str, said: str) -> None:
    with pytest.raises(NotALength, match=said):
        parse(text)


@pytest.mark.parametrize("stored", ["12", float("nan"), float("inf")])
def test_a_stored_text_must_name_its_unit_and_a_number_be_one(stored: str | float) -> None:
    with pytest.raises(NotALength):
        mm(stored)


@pytest.mark.parametrize(
    ("text", "unit", "kept"),
    [
        ("643.5", "mm", 643.5),
        ("643,5", "mm", "643,5 mm"),
        ("643.50", "mm", "643.50 mm"),
        ("25 11/32", "in", "25 11/32 in"),
        ("12 mm", "in", "12 mm"),
        ("1/16  in", "mm", "1/16 in"),
    ],
)
def test_what_was_typed_is_kept_to_the_letter(text: str, unit: Unit, kept: float | str) -> None:
    assert keep(text, unit) == kept


@given(st.floats(0.001, 5000).map(lambda n: f"{n:.4g}"), st.sampled_from(["mm", "cm", "in"]))
def test_what_is_shown_again_is_what_was_typed(text: str, unit: Unit) -> None:
    stored = keep(text, unit)
    assert typed(stored, unit) == text
    assert mm(stored) == pytest.approx(parse(text, unit))


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    # derived: 0.1 / 25.4 x 64 = 0.252, 1.2 / 25.4 x 64 = 3.02, 0.1 / 10 = 0.010
    [
        (0.1, "in", "<1/64"),
        (-0.3, "in", "−1/64"),
        (1.2, "in", "3/64"),
        (-0.19, "in", "<1/64"),
        (25.4 / 128, "in", "<1/64"),
        (0.004, "in", "0"),
        (0.1, "cm", "0.010"),
        (0.104, "mm", "0.10"),
    ],
)
def test_how_far_a_reading_is_off(value: float, unit: Unit, shown: str) -> None:
    assert show_off(value, unit) == shown


@in_one(
    ("value", "unit", "shown"),
    # derived: 0.15 / 25.4 = 0.0059, 0.0128 / 25.4 = 0.0005
    [
        (-0.15, "in", "−0.006"),
        (0.0128, "in", "0.001"),
        (0.012, "in", "<0.001"),
        (0.0, "in", "<0.001"),
        (-0.3, "in", "−1/64"),
        (0.15, "mm", "0.15"),
    ],
)
def test_how_far_an_accused_reading_is_off_is_never_nought(value: float, unit: Unit, shown: str) -> None:
    assert show_off(value, unit, accused=True) == shown


@in_one(
    ("value", "unit", "decimals", "shown"),
    [
        (643.04, "mm", 1, "643.0"),
        (-0.26, "mm", 1, "−0.3"),
        (-0.01, "mm", 1, "0.0"),
        (643.04, "cm", 1, "64.30"),
        (643.73125, "in", 1, "25 11/32"),
        (25.4, "in", 1, "1"),
        (12.7, "in", 1, "1/2"),
        (-38.1, "in", 1, "−1 1/2"),
        (-0.1, "in", 1, "0"),
        # derived: 2.54 / 25.4, one place finer than the millimetre's two
        (2.54, "in", 2, "0.100"),
        (-2.54, "in", 2, "−0.100"),
        (-0.001, "in", 2, "0.000"),
    ],
)
def test_a_length_is_shown_in_the_jobs_unit(value: float, unit: Unit, decimals: int, shown: str) -> None:
    assert show(value, unit, decimals) == shown


@pytest.mark.parametrize(
    ("stored", "unit", "text"),
    [("1/2 in", "in", "1/2"), ('1/2"', "in", '1/2"'), ("1/2 in", "mm", "1/2 in"), ("5 mm", "in", "5 mm")],
)
def test_a_stored_length_is_typed_without_the_jobs_unit_alone(stored: str, unit: Unit, text: str) -> None:
    assert typed(stored, unit) == text


@pytest.mark.parametrize("text", ["1/160", "25 3/640", "1/7 in", "1/256"])
def test_a_fraction_that_no_rule_shows_is_a_slip(text: str) -> None:
    below = text.removesuffix(" in").rpartition("/")[2]
    with pytest.raises(NotALength, match=f"has {below} below the line, which no rule shows"):
        keep(text, "in")


@pytest.mark.parametrize("below", [2, 4, 8, 16, 32, 64, 128, 3, 6, 12, 24, 48, 5, 10, 20, 25, 50, 100])
def test_halves_twelfths_and_tenths_stand_on_rules(below: int) -> None:
    """common practice, no source"""
    assert keep(f"3 1/{below}", "in") == f"3 1/{below} in"


def test_an_old_job_keeps_the_fraction_that_it_has() -> None:
    assert mm("1/160 in") == pytest.approx(25.4 / 160)


@pytest.mark.parametrize(("unit", "text"), [("mm", "−2.7 mm"), ("cm", "−0.27 cm"), ("in", "−7/64 in")])
def test_a_small_length_in_a_sentence(unit: Unit, text: str) -> None:
    # derived: 2.7 / 25.4 × 64 = 6.8
    assert said(-2.7, unit) == text


def test_less_than_half_a_64th_is_not_called_nothing() -> None:
    # derived: half a 64th of an inch is 0.198 mm
    assert [said(value, "in") for value in (0.19, 0.2, 0.0)] == ["less than 1/64 in", "1/64 in", "0 in"]


@pytest.mark.parametrize(
    ("unit", "least"),
    # derived: half of the last place that is shown, 0.1 mm or 1/64 in
    [("mm", 0.05), ("cm", 0.05), ("in", 25.4 / 128)],
)
def test_from_what_length_on_a_rule_shows_it(unit: Unit, least: float) -> None:
    assert [units.shows(value, unit) for value in (0.999 * least, least, -least)] == [False, True, True]


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    # derived: 0.255 mm are 0.64 of a 64th; 1.505 mm are 0.1505 cm; 1/32 in is 0.79375 mm
    [
        (0.71, "mm", "0.8"),
        (0.7, "mm", "0.7"),
        (0.01, "mm", "0.1"),
        (0.0, "mm", "0.1"),
        (1.505, "cm", "0.16"),
        (0.255, "in", "1/64"),
        (0.793, "in", "1/32"),
        (0.795, "in", "3/64"),
    ],
)
def test_a_plus_minus_is_rounded_up(value: float, unit: Unit, shown: str) -> None:
    assert show_pm(value, unit) == shown


@pytest.mark.parametrize(
    ("pm95", "places", "said"),
    [(0.8, 1, "3.4 ±0.8°"), (0.81, 1, "3.4 ±0.9°"), (0.81, 0, "3 ±1°"), (1.0, 0, "3 ±1°"), (0.801, 2, "3.42 ±0.81°")],
)
def test_an_angles_plus_minus_is_rounded_up(pm95: float, places: int, said: str) -> None:
    assert units.said_angle(3.42, pm95, places) == said


@pytest.mark.parametrize(("text", "degrees"), [("87.5", 87.5), ("87,5°", 87.5), ("87 1/2 degrees", 87.5), ("0", 0.0)])
def test_an_angle_is_typed_in_degrees(text: str, degrees: float) -> None:
    assert units.keep_degrees(text) == degrees


@pytest.mark.parametrize("text", ["87.5 mm", "3 in", "square", "", "°"])
def test_what_is_no_angle_is_refused(text: str) -> None:
    with pytest.raises(units.NotALength, match="write it in degrees"):
        units.keep_degrees(text)


def test_an_angle_is_shown_as_it_can_be_typed_again() -> None:
    assert units.show_degrees(87.0) == "87°"
    assert units.keep_degrees(units.show_degrees(87.25)) == 87.25


def test_what_is_known_roughly() -> None:
    # derived: 12 in are 304.8 mm
    assert [units.said_roughly(304.8, unit) for unit in ("mm", "cm", "in")] == ["305 mm", "30.5 cm", "12.0 in"]


def test_a_pm_beside_decimals_of_an_inch() -> None:
    # derived: 0.4 mm are 0.01575 in, rounded up
    assert units.show_fine_pm(0.4, "in") == "0.016"
    assert units.show_fine_pm(0.41, "mm") == show_pm(0.41, "mm") == "0.5"


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (2.96, "mm", "just under 3.0 mm"),
        (2.9, "mm", "2.9 mm"),
        (2.98, "in", "just under 1/8 in"),
        (2.9, "in", "7/64 in"),
    ],
)
def test_what_falls_short_does_not_read_as_its_limit(value: float, unit: Unit, text: str) -> None:
    """Derived: in sixty-fourths of an inch 3 mm are 7.56, 2.98 mm 7.51 and 2.9 mm 7.31: they read as 8, 8 and 7."""
    assert units.said_under(value, 3.0, unit) == text
    with_pm = units.said_under(value, 3.0, unit, 0.25)
    assert with_pm == text.replace(" mm", " ±0.3 mm").replace(" in", " ±1/64 in")


def test_what_is_no_less_than_its_limit_is_not_called_under_it() -> None:
    assert units.said_under(3.02, 3.0, "mm") == "3.0 mm"


@pytest.mark.parametrize(
    ("length", "is_so"),
    [
        ("25 11/32 in", True),
        ("25 11/64 in", True),
        ("1½ in", True),
        ("25 11/128 in", False),  # finer than a rule of 64ths
        ("25.5 in", False),  # no fraction
        ("643.5 mm", False),
        ("1/2 mm", False),
        ("1/2 cm", False),
        (12.7, False),
    ],
)
def test_what_a_rule_of_64ths_reads(length: units.Length, is_so: bool) -> None:
    assert units.in_64ths(length) is is_so


def test_the_longest_length_that_is_read() -> None:
    assert parse("9" + " " * (LONGEST - 1)) == 9.0
    with pytest.raises(NotALength, match="too long"):
        parse("9" + " " * LONGEST)


@pytest.mark.parametrize(
    ("least", "most", "typed", "says"),
    [
        (15.0, 130.0, "1/2 in", ("19/32", "5 7/64 in")),
        (0.0, 12.0, "2 in", ("0", "15/32 in")),
        (0.1, 3.0, ".2 in", ("0.004", "0.118 in")),
        (15.0, 130.0, "1 cm", ("1.5", "13 cm")),
        (15.0, 130.0, 10.0, ("15", "130 mm")),
    ],
)
def test_limits_are_told_as_a_rule_of_the_unit_shows_them_and_may_be_typed(
    least: float, most: float, typed: Length, says: tuple[str, str]
) -> None:
    """derived: 15 mm is 37.8 64ths and 130 mm 327.6, rounded inward; a string of 0.1 mm is thinner than a 64th"""
    assert units.limits(least, most, typed) == says


@pytest.mark.parametrize(
    ("value", "unit", "says"),
    [
        (5.159375, "in", "13/64"),
        (5.2, "in", "0.205"),
        (25.4, "in", "1"),
        (5.159375, "mm", "5.16"),
        (6.0, "cm", "0.600"),
    ],
)
def test_a_size_is_a_fraction_where_a_rule_of_64ths_shows_it(value: float, unit: units.Unit, says: str) -> None:
    """derived: 13/64 of 25.4 is 5.159375; 5.2 / 25.4 = 0.2047"""
    assert units.show_size(value, unit) == says


@pytest.mark.parametrize(("unit", "shown"), [("mm", "8"), ("cm", "8 mm"), ("in", "8 mm")])
def test_a_size_that_nobody_typed_is_shown_in_the_unit_it_is_round_in(unit: Unit, shown: str) -> None:
    assert typed(8.0, unit) == shown


@pytest.mark.parametrize(
    ("apart", "one", "other", "unit", "told"),
    [
        # derived: 648.148 and 645.885 are shown as 648.1 and 645.9, so 2.2 apart, though 2.263 would be shown as 2.3
        (2.263, 648.148, 645.885, "mm", 2.2),
        (2.263, 645.885, 648.148, "cm", 2.2),
        # derived: 25.4961 and 25.4089 in are 25 32/64 and 25 26/64 to the nearest 64th: 6/64, though 5.58 apart
        (0.0872 * 25.4, 25.4961 * 25.4, 25.4089 * 25.4, "in", 6 * 25.4 / 64),
        (0.4, 648.2, 648.0, "mm", 0.4),  # something else than rounding parts them
        (0.29, 648.2, 648.0, "mm", 0.2),
        (0.3, 648.2, 648.0, "mm", 0.3),  # rounding parts them by less than a whole step
        (0.0, 648.04, 647.96, "mm", 0.0),
    ],
)
def test_how_far_apart_two_lengths_are_told_to_be(
    apart: float, one: float, other: float, unit: Unit, told: float
) -> None:
    assert units.shown_apart(apart, one, other, unit) == pytest.approx(told, abs=1e-9)


def test_what_no_rule_shows_is_nought_beside_its_plus_or_minus() -> None:
    """derived: 0.1 mm is a quarter of a 64th"""
    assert said_pm(1.5, "in", 0.1) == "0 ±1/16 in"
    assert said_pm(0.4, "mm", 0.04) == "0.0 ±0.4 mm"
    assert said_pm(1.5, "in", 0.2) == "1/64 ±1/16 in"


@pytest.mark.parametrize(
    ("value", "says"), [(3.175, "3.18"), (-3.175, "−3.18"), (1.005, "1.01"), (3.1749, "3.17"), (0.0, "0.00")]
)
def test_a_half_is_told_away_from_nought_on_both_sides(value: float, says: str) -> None:
    """derived: 1/8 in is 3.175 mm"""
    assert units.show(value, "mm", 2) == says


@pytest.mark.parametrize(
    ("number", "places", "sign", "said"),
    [
        (-0.72, 1, False, "−0.7"),
        (0.72, 1, False, "0.7"),
        (-0.72, 1, True, "−0.7"),
        (0.72, 1, True, "+0.7"),
        (-0.04, 1, True, "0.0"),
        (0.04, 1, True, "0.0"),
        (-0.4, 0, False, "0"),
        (-12.0, 0, False, "−12"),
    ],
)
def test_a_number_has_a_minus_sign_of_its_own_and_nought_has_none(
    number: float, places: int, sign: bool, said: str
) -> None:
    assert units.in_decimals(number, places, sign=sign) == said


def test_the_width_of_an_angles_pm_is_rounded_up_as_behind_the_angle() -> None:
    assert units.pm_angle(0.31) == "0.4°"
    assert units.said_angle(9.2, 0.31) == "9.2 ±0.4°"
