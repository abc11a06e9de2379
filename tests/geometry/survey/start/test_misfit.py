"""What a figure costs, by readings whose residuals are given."""

import cmath
import math

import pytest

from geometry.survey.adjust.network import network_of
from geometry.survey.rows.row import Row
from geometry.survey.rows.which_side import Turn
from geometry.survey.start.misfit import misfit, start_cost, vector, whole_cost
from geometry.survey.start.rough_places import ProvisionalPlaces

AT = {"a": 0j, "b": 100 + 0j, "c": 60 + 80j}
ROWS = [
    Row("ab", "distance", ("a", "b"), 97.0, 0.5),
    Row("ac", "distance", ("a", "c"), 101.0, 2.0),
    Row("bc", "distance", ("b", "c"), math.hypot(40, 80) - 70, 0.5),
    Row("", "distance", ("b", "c"), 5.0, 1.0),  # what is known beforehand
    Row("s.x", "at", ("c",), 900.0, 0.3, extras=(("sheet.x", 1.0),)),
]
LEFT, RIGHT = Turn("a", "b", "c", 1), Turn("a", "b", "c", -1)
SAID = Turn("a", "b", "c", -1, said=True)


def test_a_misfit_is_counted_by_how_surely_was_read() -> None:
    net = network_of(ROWS[:3])
    # derived: 3 / 0.5, 1 / 2 and 70 / 0.5
    assert misfit(net, vector(net, AT)) == pytest.approx(6**2 + 0.5**2 + 140**2)
    assert whole_cost(net, vector(net, AT), (), most=100.0) == pytest.approx(36 + 0.25 + 100)


@pytest.mark.parametrize(
    ("sides", "against"), [((), 0.0), ((LEFT,), 0.0), ((RIGHT,), 200.0), ((SAID,), 1e6), ((SAID, RIGHT), 1000200.0)]
)
def test_sides_speak_against_it(sides: tuple[Turn, ...], against: float) -> None:
    """A side that the person said far more than one that is usual."""
    net = network_of(ROWS[:2])
    assert whole_cost(net, vector(net, AT), sides) == pytest.approx(36.25 + against)


def test_first_places_are_out_by_a_millimetre_themselves() -> None:
    """derived: each reading's variance is 1 mm² more, none counts for more than twenty standard deviations, and what is
    known beforehand or lies on a sheet does not count.
    """
    net = network_of(ROWS)
    placed = ProvisionalPlaces(AT, (), frozenset(), frozenset(), 0)
    assert start_cost(net, placed, (RIGHT,)) == pytest.approx(9 / 1.25 + 1 / 5 + 400 + 200)


@pytest.mark.parametrize("turns", [{"at": 3.0}, {"inside": -2.0}, {"at": 3.0, "inside": 1.0}])
def test_a_sheet_is_laid_on_what_was_read_off_it_whichever_way_round(turns: dict[str, float]) -> None:
    """derived: places turned by so many radians and shifted by 500 + 300i, read without error, y mirrored inside, leave
    nothing; two sheets do not mind each other.
    """
    rows = [Row("ab", "distance", ("a", "b"), 100.0, 0.5)]
    for sheet, turn in turns.items():
        up = 1 if sheet == "at" else -1
        for name, at in AT.items():
            read, tied = cmath.rect(1, turn) * at + 500 + 300j, (f"{sheet}.turn", 0.0)
            rows += [
                Row(f"{name}x", "at", (name,), read.real, 0.1, 1, (tied, (f"{sheet}.x", 1.0)), "x"),
                Row(f"{name}y", "at", (name,), up * read.imag, 0.1, up * 1j, (tied, (f"{sheet}.y", 1.0)), "y"),
            ]
    net = network_of(rows)
    assert misfit(net, vector(net, AT)) == pytest.approx(0.0, abs=1e-9)
