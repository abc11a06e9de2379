"""What a bridge's parts are called and what is asked of it, by how it is held: one entry a kind, found by its name."""

import msgspec

from geometry.job import Job
from geometry.job.bridges import Held


class HowHeld(msgspec.Struct, frozen=True, kw_only=True):
    """`answer` to “How is the bridge held?”; what a rule is read to at the saddle, the `stop`, and the code of that
    distance, `check`; where the strings break, the `ridge`. `checks`: what stands over all distances to read.
    `instead`: the template that takes the place of those of a glued bridge.
    """

    answer: str
    stop: str
    ridge: str
    check: str = "fret12.slot"
    checks: str = "Check before the glue"
    instead: str = ""


HOW_HELD: dict[Held, HowHeld] = {
    "glue": HowHeld(answer="glued to the top", stop="slot front", ridge="saddle"),
    "strings": HowHeld(answer="by the strings alone", stop="saddle", ridge="saddle"),
    "screws": HowHeld(
        answer="each string's saddle on a base that is screwed down",
        stop="saddles",
        ridge="saddles",
        check="fret12.saddle",
        checks="Read before you drill",
        instead="saddle-bases",
    ),
}


def how_held(job: Job) -> HowHeld:
    """The entry of a job's bridge."""
    return HOW_HELD[job.held]
