"""What sides say against a rough place: one that was given forbids it, one that follows speaks against it."""

from types import SimpleNamespace

import pytest

from geometry.survey.start.rough_places import NEVER, RATHER_NOT, _Search


def side(b: str, *, said: bool, agrees: bool) -> SimpleNamespace:
    return SimpleNamespace(a="a", b=b, p="p", said=said, agrees=lambda at: agrees and at["p"] == 5j)


@pytest.mark.parametrize(
    ("sides", "against"),
    [
        ([side("b", said=True, agrees=False)], NEVER),
        ([side("b", said=False, agrees=False)], RATHER_NOT),
        ([side("b", said=True, agrees=True)], 0.0),
        ([side("b", said=True, agrees=False), side("b", said=False, agrees=False)], NEVER + RATHER_NOT),
        ([side("c", said=True, agrees=False)], 0.0),  # a line through a point that has no place yet
    ],
)
def test_what_speaks_against_a_place(sides: list[SimpleNamespace], against: float) -> None:
    places = {"a": 0j, "b": 10 + 0j}
    search = SimpleNamespace(at=places, what=SimpleNamespace(turning={"p": sides}))
    assert _Search._against(search, "p", 5j) == against  # type: ignore[arg-type]  # what it asks of itself
    assert places == {"a": 0j, "b": 10 + 0j}  # the place was only tried
