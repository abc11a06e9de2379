"""What is typed of the nut, on both sides of each bound."""

from typing import Any

import pytest

from geometry.bounds.nut_sizes import findings
from geometry.job import Job, Nut
from geometry.job.neck.board import Board


def codes(**typed: Any) -> list[str]:
    return [found.code for found in findings(Job(nut=Nut(**typed)))]


@pytest.mark.parametrize(
    ("field", "low", "high"), [("fret_height", 0.4, 1.6), ("height", 4.0, 14.0)], ids=["frets", "blank"]
)
def test_sizes_that_hardly_any_nut_has(field: str, low: float, high: float) -> None:
    beyond = {low: low - 0.1, high: high + 0.1}
    for within, out in beyond.items():
        assert codes(**{field: within}) == []
        assert codes(**{field: out}) == [f"nut.{field}"]


def test_a_fret_read_as_three_thirty_seconds_for_three_sixty_fourths() -> None:
    # derived: 3/64 in is 1.19 mm, a new fret's; 3/32 in is 2.38 mm, and every slot would be 1.19 mm too high
    assert codes(fret_height="3/64 in") == []
    (found,) = findings(Job(nut=Nut(fret_height="3/32 in")))
    assert found.text.startswith("A fret is 2.4 mm high; few are under 0.4 mm or over 1.6 mm.")


@pytest.mark.parametrize(("wanted", "says"), [((0.5, 1.1), False), ((0.5, 1.2), True), ((1.2, None), True)])
def test_what_is_wanted_over_fret_1(wanted: tuple[float | None, float | None], says: bool) -> None:
    assert codes(over_fret1=wanted) == ["nut.over_fret1"] * says
    # behind a zero fret it is not used, which is said elsewhere
    assert not list(findings(Job(board=Board(zero_fret=True), nut=Nut(over_fret1=wanted))))


def test_nothing_without_a_nut() -> None:
    assert not list(findings(Job()))
