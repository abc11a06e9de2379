"""A step goes by the fineness of what was typed."""

import pytest

from app.stepping import step


@pytest.mark.parametrize(
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
        ("2.5 in", 10, "3.5 in"),
        ("abc", 1, "abc"),
        ("", 1, ""),
    ],
)
def test_step(typed: str, count: int, expected: str) -> None:
    assert step(typed, count) == expected
