"""The **proof**: distances read between real places of the instrument and of the new bridge, before the glue (as it is
clamped, or on the marks that the sheet left) and after it (as built).

A place of the new bridge is called `bridge.front.left` (a corner of its front edge; likewise `back`),
`bridge.slot.left` (an end of the slot's front edge) or `bridge.pin.N` (the hole for string N); of a base that is
screwed down, `base.front.left` and so on.
"""

import re
from collections.abc import Iterable
from typing import Literal

import msgspec

from geometry.job.checks import RENAME, NotAJob, WrongReading, known_points, no_repeats, number_between
from geometry.job.measured.kinds import FARTHEST
from geometry.job.measured.readings import Reading

Stage = Literal["clamped", "built"]
STAGES: dict[Stage, str] = {"clamped": "before the glue", "built": "as built"}
"""The stages in words."""
MOST = 40
"""No hand reads more distances of one bridge (common practice, no source)."""
ON_BOARD = tuple(f"{at}.{side}" for at in ("nut", "end", "fret12") for side in ("left", "right"))
"""Places of the board that a proof is read from, whether they were read as points or not."""
_NEW = re.compile(r"bridge\.(?:(?:front|back|slot)\.(?:left|right)|pin\..+)|base\.(?:front|back)\.(?:left|right)")
_WHEN = re.compile(r"(?:\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01]))?")


def is_new(name: str) -> bool:
    """Whether a name is that of a place of the new bridge."""
    return _NEW.fullmatch(name) is not None


class Proof(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What was read at one stage, and on which day (`when`, as 2026-11-28; empty where it is not known). `wanted`: what
    each reading, by its id, was to be when it was typed, mm; the layout may have been changed since.
    """

    stage: Stage
    when: str = ""
    readings: tuple[Reading, ...] = ()
    wanted: dict[str, float] = {}

    def __post_init__(self) -> None:
        if _WHEN.fullmatch(self.when) is None:
            raise NotAJob(f"The day of the proof {STAGES[self.stage]} is “{self.when}”; write it like 2026-11-28")
        if len(self.readings) > MOST:
            raise NotAJob(f"The proof {STAGES[self.stage]} has {len(self.readings)} distances; keep {MOST} at most")
        no_repeats("The proof’s reading", (reading.id for reading in self.readings), RENAME)
        for reading in self.readings:
            self._check(reading)
        for name, far in self.wanted.items():
            number_between(f"What “{name}” of the proof was to be, in mm,", far, 0, FARTHEST)

    def _check(self, reading: Reading) -> None:
        """A proof is a distance, and at least one end of it is on the new bridge."""
        if reading.kind != "distance":
            raise WrongReading(
                reading.id, f" of the proof is of the kind {reading.kind}; read a distance between two places instead"
            )
        if not any(map(is_new, reading.of)):
            raise WrongReading(
                reading.id,
                f" of the proof goes from “{reading.of[0]}” to “{reading.of[1]}”, and neither is a place of the new "
                "bridge; name one, such as “bridge.front.left”",
            )

    def check_points(self, known: Iterable[str]) -> None:
        """Refuse places that are neither on the new bridge nor on the board nor among the job's points."""
        places = (*ON_BOARD, *known)
        for reading in self.readings:
            try:
                known_points("", (name for name in reading.of if not is_new(name)), places)
            except NotAJob as wrong:
                raise WrongReading(reading.id, f" of the proof{wrong}") from None
