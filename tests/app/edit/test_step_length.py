"""A step goes by the fineness of what was typed."""

import pytest

from app.edit.step_length import parts_of, step
from tests.in_one import in_one


@in_one(
    ("typed", "count", "expected"),
    [
        ("43", 1, "44"),
        ("43.2", 1, "43.3"),
        ("43.25", -1, "43.24"),
        ("43,2", 1, "43,3"),
        ("43.9", 1, "44.0"),
        ("25 11/32", 1, "25 3/8"),
        ("25 11/32 in", -1, "25 5/16 in"),
        ("1/16", 1, "1/8"),
        ("1/16", -1, "0"),
        ("632 ½", 1, "633"),
        ("63/64 in", 1, "1 in"),
        ("-1/16 in", 1, "0 in"),
        ("-1 1/16 in", 1, "-1 in"),
        ("0 in", -1, "-1 in"),
        ("2.5 in", 10, "3.5 in"),
        ("abc", 1, "abc"),
        ("", 1, ""),
    ],
)
def test_step(typed: str, count: int, expected: str) -> None:
    assert step(typed, count) == expected


@pytest.mark.parametrize(("typed", "up"), [("25 11/32", "25 3/8"), ("1 3/32 in", "1 1/8 in"), ("7/64", "1/8")])
def test_a_step_back_returns_however_the_fraction_was_cut_down(typed: str, up: str) -> None:
    parts = parts_of(typed)
    assert step(typed, 1, parts) == up
    assert step(up, -1, parts) == typed


def test_the_fineness_holds_over_whole_inches() -> None:
    assert [step("25 31/32", n, 32) for n in (1, 2)] == ["26", "26 1/32"]
    assert step("26", 1, 32) == "26 1/32"
    assert step("1 in", -1, 32) == "31/32 in"


def test_steps_go_through_nought_and_back() -> None:
    """A shift to the left may be less than nothing."""
    assert [step("1/16", -n, 16) for n in (1, 2)] == ["0", "-1/16"]
    assert step("0", -1, 16) == "-1/16"
    assert step("-1/16", 1, 16) == "0"


def test_a_decimal_is_no_fraction_whatever_was_stepped_before() -> None:
    assert step("43.2", 1, 32) == "43.3"
