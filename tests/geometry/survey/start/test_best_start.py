"""Which of the choices that readings leave open are taken: one settled after the other, the least disturbing kept."""

from types import SimpleNamespace
from typing import Any

import pytest

from geometry.job import Job, Point
from geometry.survey.start import configuration

TEN = SimpleNamespace(rows=(None,) * 10)


@pytest.mark.parametrize(
    ("costs", "taken"),
    [
        ({"": 500.0, "a": 100.0, "ab": 98.0}, "ab"),  # one after the other
        ({"": 500.0, "a": 100.0, "ab": 99.5}, "a"),  # no better by one
        ({"": 500.0, "a": 499.5, "b": 100.0}, "b"),
        ({"": 500.0, "a": 499.0, "b": 499.0}, ""),
        ({"": 500.0, "a": 89.0, "ab": 1.0}, "a"),  # good enough: nine a reading
        ({"": 89.0, "a": 1.0}, ""),
        ({"": 90.0, "a": 1.0}, "a"),
    ],
)
def test_choices_are_settled_until_it_is_good_enough(
    monkeypatch: pytest.MonkeyPatch, costs: dict[str, float], taken: str
) -> None:
    """derived: of ten readings, so that less than 90 is good enough; what is not listed costs more than all else"""
    choices = tuple(SimpleNamespace(point=name) for name in "ab")

    def places(_what: object, flipped: frozenset[str] = frozenset()) -> SimpleNamespace:
        return SimpleNamespace(open=choices, turned="".join(sorted(flipped)))

    monkeypatch.setattr(configuration, "provisional_places", places)
    monkeypatch.setattr(configuration, "start_cost", lambda _net, placed, _sides: costs.get(placed.turned, 1e6))
    found = configuration._best_start(TEN, SimpleNamespace(), ())  # type: ignore[arg-type]  # only its rows are counted
    assert found.turned == taken  # type: ignore[attr-defined]  # what stands for places here


def test_without_an_open_choice_the_first_start_is_it(monkeypatch: pytest.MonkeyPatch) -> None:
    placed: Any = SimpleNamespace(open=())
    monkeypatch.setattr(configuration, "provisional_places", lambda _what: placed)
    found = configuration._best_start(TEN, SimpleNamespace(), ())  # type: ignore[arg-type]  # nothing is counted
    assert found is placed


@pytest.mark.parametrize(
    ("cost", "squares", "resting", "taken"),
    [
        (98.9, 100.0, True, True),
        (99.0, 100.0, True, True),  # better by one
        (99.1, 100.0, True, False),
        (100.5, 100.0, True, False),
        (50.0, 100.0, False, False),
        (50.0, 10.0, True, False),  # a fit that leaves no more than chance is kept
    ],
)
def test_rough_places_are_begun_from_where_that_fits_better(
    monkeypatch: pytest.MonkeyPatch, cost: float, squares: float, resting: bool, taken: bool
) -> None:
    """derived: the fit costs 100; chance leaves 20 at the most; ten readings, nine unknowns"""
    net = SimpleNamespace(rows=(None,) * 10, p=9, points=("a", "b"))
    what = SimpleNamespace(usual={"a": 0j}, near={"b": 1j})
    fit, other = SimpleNamespace(squares=squares, x="fit"), SimpleNamespace(resting=resting, x="other")
    monkeypatch.setattr(configuration, "chi_square", lambda _dof: 20.0)
    monkeypatch.setattr(configuration, "vector", lambda _net, _places: "near")
    monkeypatch.setattr(configuration, "come_to_rest", lambda _net, _start: other)
    monkeypatch.setattr(configuration, "whole_cost", lambda _net, x, _sides: {"fit": 100.0, "other": cost}[x])
    found, start = configuration._from_near(net, (), what, fit, "start")  # type: ignore[arg-type]  # what it asks of them
    assert (found, start) == ((other, "near") if taken else (fit, "start"))  # type: ignore[comparison-overlap]  # as above


def test_rough_places_of_a_person_and_of_a_list_are_kept_apart() -> None:
    """derived: 2 inches are 50.8 mm"""
    points = {"a": Point(near=(1, 2)), "b": Point(near=("2 in", -3), usual=True), "c": Point()}
    job = Job(points=points)
    assert configuration._near(job, usual=False) == {"a": 1 + 2j}
    assert configuration._near(job, usual=True) == {"b": pytest.approx(50.8 - 3j)}
