"""What a line of the readings' table shows: a reading and how well it fits, or a group and how many of it are taken."""

from collections import Counter
from functools import lru_cache
from typing import NamedTuple

from app.edit import list_answers
from app.edit.measure.reading_groups import Group, group_of
from geometry import units, words
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import SHAPES
from geometry.layout import Fit
from geometry.units import Unit


class Head(NamedTuple):
    """The line of a group: how many are taken of how many, and whether its readings are folded away."""

    group: Group
    taken: int
    of: int
    folded: bool
    suspect: bool

    @property
    def counted(self) -> str:
        return f"{self.taken or 'none'} of {self.of}"

    def said(self) -> str:
        """The line in words."""
        again = ", one to look at again" if self.suspect else ""
        return f"{self.group}, {self.counted} taken, {'folded' if self.folded else 'open'}{again}"


UNCHECKED = "a slip would not show"
"""What is said of a reading that no other checks, or hardly."""


SHARES = "look again, number {} of the {} of which one is out"
"""What is said of a reading that is accused with others, in the order in which they are to be read again: how much of
the slip falls to it tells nothing.
"""


class Row(NamedTuple):
    """What one row shows."""

    reading: Reading
    name: str
    how: str
    tool: str
    value: str
    fits: tuple[Fit, ...]
    suspect: bool
    wrong: str
    turn: int = 0
    """Its number among readings of which one is out, in the order in which they are to be read again; else 0."""
    turns: int = 0

    @property
    def id(self) -> str:
        return self.reading.id

    @property
    def group(self) -> Group:
        return group_of(self.reading)

    @property
    def plain(self) -> tuple[object, ...]:
        """What can be seen besides how it fits."""
        return *self[:5], self.suspect, self.wrong, self.turn, self.turns

    @property
    def takes_value(self) -> bool:
        """Whether there is a number to type, or a question to answer."""
        return bool(SHAPES[self.reading.kind].values or self.reading.asked) and not self.reading.struck

    @property
    def waits(self) -> bool:
        """Whether it is still to be measured."""
        return not (self.reading.taken or self.reading.struck)

    @property
    def shown(self) -> str:
        """What stands in the value's cell where nobody types: the value, or the question."""
        return self.value or list_answers.question(self.reading)

    @property
    def worst(self) -> Fit | None:
        """The fit that is farthest from believable."""
        return max(self.fits, key=lambda f: abs(f.residual) / f.believable if f.believable else 0.0, default=None)

    @property
    def unchecked(self) -> bool:
        """Whether a slip in it, or in one of its numbers, would not show. What is to be looked at again has shown."""
        return not self.suspect and not all(fit.checked for fit in self.fits)

    @property
    def looks(self) -> tuple[tuple[float, float, bool], ...]:
        """What of the fits can be seen: hundredths of a mm, and of what is believable; whether a slip would show."""
        return tuple((round(f.residual, 2), round(f.residual / (f.believable or 1.0), 2), f.checked) for f in self.fits)

    @property
    def lacks(self) -> str:
        """What is said of a value's cell that is empty, to those who don't see it."""
        asks = list_answers.question(self.reading)
        if asks:
            return f"{asks} Not answered"
        return "still to be measured" if SHAPES[self.reading.kind].values else "yes"

    def said(self, unit: Unit = "mm") -> str:
        """How the reading fits, in words."""
        worst = self.worst
        if self.reading.struck:
            return "struck out"
        if self.wrong:
            return "wrong entry, the last good value is used"
        if self.reading.asked:
            return "not answered"
        if worst is None:
            return "still to be measured" if not self.reading.taken else "not worked out yet"
        if self.unchecked:
            return UNCHECKED
        if self.turn:
            return SHARES.format(self.turn, self.turns)
        how = "look again, " if self.suspect else "fits, "
        much = words.much(self.reading, worst.residual) or units.said(abs(worst.residual), unit, 2)
        return f"{how}{much} {'less' if worst.residual > 0 else 'more'} than the others say"


Named = tuple[str, str, str]


@lru_cache(maxsize=2048)
def named(reading: Reading, hand: Hand, unit: Unit) -> Named:
    """A reading's name, in smaller letters how it is taken, and with what."""
    return *words.reading_parts(reading, hand), words.tool(reading, unit)


def told_apart(named: list[Named]) -> list[Named]:
    """The same, with which one it is behind the name of each of those called alike: “second time”."""
    alike, seen = Counter(names[:2] for names in named), Counter[tuple[str, str]]()
    told = []
    for name, how, tool in named:
        seen[name, how] += 1
        which = words.time_read(seen[name, how]) if alike[name, how] > 1 else ""
        told.append((name, ", ".join(filter(None, (how, which))), tool))
    return told
