"""A **step**: something to be done to the wood, whether it may be done now, and what would change that."""

from typing import Literal

from geometry.job import Reading
from geometry.job.sides import Side
from geometry.layout import Record
from geometry.strings.string_heights import Missing

Work = Literal["glue", "pins", "slot", "fit", "clear", "stand", "crown", "screws", "through"]
Why = Literal["", "stop", "accused", "unchecked", "aside", "wide", "wood", "proof", "after", "untold"]


class Change(Record, frozen=True):
    """The one thing that would change a verdict most: a reading to take (its value null), readings to read `again`, a
    trial saddle, or the `action` that is wanted, of which the heights that are `missing` have only to be typed; and the
    ± (mm, 95 %) that it would bring, None where it is taken for a check: whether it alone `checks`, or is the first of
    several that do. `limit`: what is allowed then (mm), where that is another than now. `thicker` where it is not
    enough: whether a saddle that makes up for the rest stops nothing else. With `nothing` the ± stays as it is.
    """

    what: Literal["reading", "again", "trial", "action", "nothing"]
    reading: Reading | None = None
    again: tuple[str, ...] = ()
    missing: tuple[Missing, ...] = ()
    after: float | None = None
    limit: float | None = None
    checks: bool = True
    thicker: bool = True


class Step(Record, frozen=True):
    """Something to be done to the wood: whether it may be done now, and why not.

    `pm95` is its ± in mm on the `side` where that is widest (None: alike on both, or not told by side), `limit` what
    is allowed, `cents` what is told of the tune at fret 12 where that hangs on it; `across`: both are across the neck.
    `stop` is the finding's text that forbids it, `strings` names the strings that it waits for, or the one whose ridge
    has the least room; `takes_up` is that room and `spread` how far ridges stand from the saddle line, mm (None where a
    thicker saddle would let one stand farther). `wood` is what lies between slot and pin holes (mm). `unread`: no
    distance to check is read, or what is typed was copied; `changed`: what is typed was good until the layout moved.
    """

    what: Work
    go: bool
    pm95: float
    limit: float
    why: Why = ""
    side: Side | None = None
    cents: float | None = None
    stop: str = ""
    strings: tuple[str, ...] = ()
    across: bool = False
    takes_up: float | None = None
    spread: float | None = 0.0
    wood: float | None = None
    change: Change | None = None
    unread: bool = False
    changed: bool = False

    @property
    def unsure(self) -> bool:
        """Whether it waits for what is not known well enough, and not for something that is wrong."""
        return not self.go and self.why not in ("stop", "accused", "proof")
