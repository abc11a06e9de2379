"""Which of the choices that readings leave open are taken: one settled after the other, the least disturbing kept."""

from types import SimpleNamespace

import pytest

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
    placed = SimpleNamespace(open=())
    monkeypatch.setattr(configuration, "provisional_places", lambda _what: placed)
    found = configuration._best_start(TEN, SimpleNamespace(), ())  # type: ignore[arg-type]  # nothing is counted
    assert found is placed  # type: ignore[comparison-overlap]  # what stands for places here
