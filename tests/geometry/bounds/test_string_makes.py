"""How the strings of a set pull beside each other, by pulls given (common practice, no source: docs/numbers.md)."""

import msgspec
import pytest

from geometry.bounds.string_makes import findings
from geometry.job import Job, String, Strings
from tests.export.conftest import strings as six


def said(*pulls: float | None) -> list[tuple[str, str]]:
    plans = [msgspec.structs.replace(plan, tension_n=pull) for plan, pull in zip(six(), pulls, strict=False)]
    strings = tuple(String(name=plan.name, material="nylon") for plan in plans)
    found = findings(Job(strings=Strings(list=strings)), plans)
    return [(one.code, one.where) for one in found if one.code == "strings.uneven"]


@pytest.mark.parametrize(
    ("pulls", "named"),
    [
        ((100.0, 100.0, 164.9), ""),
        ((100.0, 100.0, 165.1), "3"),
        ((100.0, 60.7, 100.0), ""),
        ((100.0, 60.5, 100.0), "2"),
        ((60.5, 100.0, 100.0, 170.0), "4"),
        ((55.0, 100.0, 100.0, 170.0), "1"),
        ((50.0, 200.0), ""),  # of two neither is the middle one
        ((100.0, None, 300.0), ""),
        ((100.0, 0.0, 100.0), "2"),
    ],
)
def test_one_string_against_the_middle_one(pulls: tuple[float | None, ...], named: str) -> None:
    assert said(*pulls) == ([("strings.uneven", f"string:{named}")] if named else [])


PAIR = (String(name="1", pitch="E4", course=1), String(name="2", pitch="E4", course=1))


@pytest.mark.parametrize(
    ("strings", "said"),
    [
        ((String(name="1", pitch="E4"), String(name="2", pitch="E4")), ["strings.alike"]),
        ((String(name="1", pitch="E4"), String(name="2", pitch="D#4")), []),
        ((String(name="1", pitch="E4"), String(name="2", pitch="B3"), String(name="3", pitch="E4")), []),
        (PAIR, []),
    ],
)
def test_neighbours_of_one_pitch_that_are_no_pair(strings: tuple[String, ...], said: list[str]) -> None:
    found = findings(Job(strings=Strings(list=strings)), ())
    assert [one.code for one in found if one.code == "strings.alike"] == said
