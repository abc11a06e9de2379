"""One stay where a value is typed: what is settled stays, what is refused or given up leaves what was there before."""

import pytest

from app.edit.typing_visit import Refused, Visit, drop_stale


class Held:
    """Holds whole numbers, and undoes by word as the desk does."""

    def __init__(self) -> None:
        self.value = 27
        self.before: dict[str, int] = {}

    def put(self, text: str, word: str) -> None:
        number = int(text)
        self.before.setdefault(word, self.value)
        self.value = number

    def take_back(self, word: str) -> None:
        self.value = self.before.pop(word, self.value)


@pytest.fixture
def held() -> Held:
    return Held()


@pytest.fixture
def visit(held: Held) -> Visit:
    return Visit(held.put, held.take_back)


def type_keys(visit: Visit, text: str) -> None:
    for end in range(1, len(text) + 1):
        visit.put(text[:end])


def test_every_key_is_put_into_force(held: Held, visit: Visit) -> None:
    assert visit.put("3") == ""
    assert held.value == 3


def test_what_cannot_be_says_why_and_changes_nothing(held: Held, visit: Visit) -> None:
    assert "invalid literal" in visit.put("x")
    assert held.value == 27


def test_half_of_a_wrong_entry_is_not_left_in_force(held: Held, visit: Visit) -> None:
    type_keys(visit, "31x")
    assert visit.settle("31x")
    assert held.value == 27


def test_giving_up_comes_back_to_what_was_there_before_the_visit(held: Held, visit: Visit) -> None:
    type_keys(visit, "31")
    visit.give_up()
    assert held.value == 27


@pytest.mark.parametrize("wrong", [False, True])
def test_what_was_settled_is_never_swallowed(held: Held, visit: Visit, wrong: bool) -> None:
    visit.settle("31")
    type_keys(visit, "32")
    if wrong:
        visit.settle("32x")
    else:
        visit.give_up()
    assert held.value == 31


def test_no_two_visits_have_the_same_word(held: Held) -> None:
    one, other = Visit(held.put, held.take_back), Visit(held.put, held.take_back)
    words = [one.word, other.word]
    one.begin()
    other.begin()
    assert len({*words, one.word, other.word}) == 4


def test_a_refused_entry_ends_when_the_value_beside_it_changes_or_goes() -> None:
    refused = {name: Refused("9x", "why", "44.4") for name in ("kept", "changed", "gone")}
    drop_stale(refused, {"kept": "44.4", "changed": "45"}.get)
    assert list(refused) == ["kept"]
