"""A **visit**: one stay in a place where a value is typed, be it a field, a cell of a table or a line on the plan.

A value is *in force* when the job holds it, *settled* by Enter or by leaving, *given up* by Escape. Each key puts what
is typed into force if it can be; where the settled entry cannot be, what was in force before the visit is so again.
"""

from collections.abc import Callable
from itertools import count
from typing import NamedTuple, TypeVar

Key = TypeVar("Key")
_numbers = count()


class Refused(NamedTuple):
    """A settled entry that cannot be: what was typed, why not, and what is in force in its stead."""

    text: str
    why: str
    in_force: str


class Visit:
    """`put` takes what was typed and the visit's word, and raises `NotAJob` or `NotALength` with the sentence to show;
    `take_back` undoes all that was put with a word.
    """

    def __init__(self, put: Callable[[str, str], None], take_back: Callable[[str], None]) -> None:
        self._put, self._take_back = put, take_back
        self.word = ""
        """What merges all keys of one visit into one change; no two visits have the same."""
        self.begin()

    def begin(self) -> None:
        """What is typed from now on is a change of its own, and taken back by itself."""
        self.word = f"visit {next(_numbers)}"

    def put(self, text: str) -> str:
        """Put a text into force; the sentence that says why not, or nothing."""
        try:
            self._put(text, self.word)
        except ValueError as error:  # NotAJob and NotALength are such
            return str(error)
        return ""

    def settle(self, text: str) -> str:
        """The text is meant; the sentence that says why it cannot be, or nothing."""
        why = self.put(text)
        if why:
            self._take_back(self.word)  # not half of what was typed
        self.begin()
        return why

    def give_up(self) -> None:
        """As it was before the visit, or before what was settled last."""
        self._take_back(self.word)
        self.begin()


def drop_stale(refused: dict[Key, Refused], in_force: Callable[[Key], str | None]) -> None:
    """Forget the entries whose value has since come from elsewhere, or whose place (None) is gone."""
    for key in [key for key, entry in refused.items() if in_force(key) != entry.in_force]:
        del refused[key]
