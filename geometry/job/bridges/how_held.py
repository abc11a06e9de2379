"""What a bridge's parts are called and what is asked of it, by how it is held: one entry a kind, found by its name."""

import msgspec

from geometry.job import Job
from geometry.job.bridges import Held


class HowHeld(msgspec.Struct, frozen=True, kw_only=True):
    """`answer` to “How is the bridge held?”; what a rule is read to at the saddle, the `stop`, and the code of that
    distance, `check`; where a string breaks, the `ridge`, which each has for its own where there are `several`, the
    `line` that it breaks on, and what that must be long enough in, the `seat`; `before` what the distances are checked,
    and the `trial` that the strings are heard on. `instead`: the template that takes the place of those of a glued
    bridge, `placed_by` the one that every job of the kind wants. `shallow` and `steep`: what too little and too much of
    a break does.
    """

    answer: str
    stop: str
    ridge: str
    seat: str
    before: str
    trial: str = "a trial saddle"
    check: str = "fret12.slot"
    instead: str = ""
    placed_by: str = "placement"
    shallow: str = "lets a string rattle and leave its notch"
    steep: str = "presses hard on the top"
    several: bool = False
    line: str = "saddle line"

    @property
    def ridges(self) -> str:
        """Where the strings break, one or several."""
        return f"{self.ridge}s" if self.several else self.ridge


HOW_HELD: dict[Held, HowHeld] = {
    "glue": HowHeld(answer="glued to the top", stop="slot front", ridge="saddle", seat="slot", before="the glue"),
    "strings": HowHeld(
        answer="by the strings alone",
        stop="crown front",
        line="crown line",
        placed_by="bridge-place",
        ridge="crown",
        seat="crown",
        before="tuning up",
        trial="hearing it once it stands",
        shallow="lets a bridge rattle and walk",
        steep="presses hard on what is under its feet",
    ),
    "screws": HowHeld(
        answer="by screws, a saddle for each string",
        stop="saddles",
        ridge="saddle",
        seat="base",
        before="you drill",
        check="fret12.saddle",
        instead="saddle-bases",
        placed_by="saddle-bases",
        steep="presses hard on the saddles",
        several=True,
    ),
}


def how_held(job: Job) -> HowHeld:
    """The entry of a job's bridge."""
    return HOW_HELD[job.held]
