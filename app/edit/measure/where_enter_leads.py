"""Where Enter leads in the table of readings, and the link to those that are to be looked at again.

Words: a **stay** is what is known of the time that one reading has been in hand; the **accused** are the readings that
are to be looked at again, in the order in which they are named; the **done** are those of them that were looked at.
"""

from collections.abc import Container, Iterable, Sequence
from typing import NamedTuple, Protocol


class Listed(Protocol):
    """What is asked of a row: its reading's id, whether a number is typed in it, whether it waits for one, and why what
    was typed there cannot be.
    """

    @property
    def id(self) -> str: ...
    @property
    def takes_value(self) -> bool: ...
    @property
    def waits(self) -> bool: ...
    @property
    def wrong(self) -> str: ...


class Stay(NamedTuple):
    """Whether the reading still waited when it was taken in hand, and whether it was taken in hand to be looked at
    again; whether it was typed since, and whether Enter found since that nothing waits.
    """

    waited: bool = False
    visited: bool = False
    typed: bool = False
    full: bool = False


class Looked(NamedTuple):
    """Which of the `accused` were looked at: those `confirmed`, typed once more as long as the same are accused, and
    those `left` with Enter as they are, in one round through them. To be shown a reading is not to look at it: those
    `shown`, which the link led to in one round of its own, are not `done`.
    """

    accused: frozenset[str] = frozenset()
    confirmed: frozenset[str] = frozenset()
    left: frozenset[str] = frozenset()
    shown: frozenset[str] = frozenset()

    @property
    def done(self) -> frozenset[str]:
        return self.confirmed | self.left

    def while_accused(self, accused: Iterable[str]) -> "Looked":
        """The same while the same are accused; of others none was looked at yet."""
        now = frozenset(accused)
        return self if now == self.accused else Looked(now)

    def typed(self, reading_id: str) -> "Looked":
        return self._replace(confirmed=self.confirmed | {reading_id})

    def behind(self, reading_id: str, stay: Stay) -> "Looked":
        """Enter is pressed on a reading. One that was taken in hand to be looked at is done with for this round; from
        any other a new round begins, so that what was left as it was is led to once more.
        """
        return self._replace(left=self.left | {reading_id} if stay.visited else frozenset())

    def led_to(self, reading_id: str, from_visited: str) -> "Looked":
        """The link leads to a reading from one that was taken in hand to be looked at, if any: behind the last of them
        it begins anew.
        """
        again = reading_id in self.done | self.shown
        return self._replace(shown=(frozenset() if again else self.shown) | {reading_id, from_visited} - {""})


def next_accused(accused: Sequence[str], in_hand: str, done: Container[str], *, visited: bool) -> str:
    """The next of them that was not looked at: behind the one in hand, where that was taken in hand to be looked at
    again, and round to the first; else from the first on. Empty where there is none.
    """
    order = list(accused)
    if visited and in_hand in order:
        behind = order.index(in_hand) + 1
        order = order[behind:] + order[: behind - 1]
    return next((name for name in order if name not in done), "")


def lead(
    rows: Sequence[Listed], at: int, step: int, stay: Stay, accused: Sequence[str], done: Container[str]
) -> int | None:
    """Where Enter leads from a place: on to the next reading that has a number to type. From one that was to be looked
    at again, and from one that was typed where nothing waits any more, to the next that is to be looked at again;
    behind the last of these, and at the end, to one that still waits. None where the hand stays.
    """
    ahead = range(at + step, len(rows) if step > 0 else -1, step)
    onward = next((place for place in ahead if rows[place].takes_value), None)
    if step < 0:
        return at + step if onward is None else onward
    waiting = [place for place, row in enumerate(rows) if row.waits or row.wrong]
    listed = stay.visited or (not waiting and (stay.typed or stay.full or onward is None))
    if listed and (name := next_accused(accused, rows[at].id, done, visited=stay.visited)):
        return next(place for place, row in enumerate(rows) if row.id == name)
    if stay.visited or onward is None:
        return waiting[0] if waiting else None
    came_last = not waiting and ((stay.waited and not rows[at].waits) or stay.full)
    return None if came_last else onward
