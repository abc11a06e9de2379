"""Bounds of what is typed of the nut: nothing else tells of it, and every slot is as far out as it is."""

from collections.abc import Iterator

from geometry.bounds.saddle_and_bridge import odd_size
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.units import mm, said, told_alike

FRETS = (0.4, 1.6)
"""mm. Few frets stand lower over the board's face, worn, or higher, new (common practice, no source)."""
BLANKS = (4.0, 14.0)
"""mm. Few nuts are lower or higher (common practice, no source)."""
WANTED = 1.1
"""mm. Few strings are wanted higher over fret 1 (common practice, no source)."""


def findings(job: Job) -> Iterator[Finding]:
    """Frets, a blank or a height over fret 1 as hardly any nut has them."""
    nut = job.nut
    if nut is None:
        return
    if nut.fret_height is not None:
        yield from odd_size(job, "A fret", "high", mm(nut.fret_height), FRETS, "nut.fret_height")
    if nut.height is not None:
        yield from odd_size(job, "The nut’s blank", "high", mm(nut.height), BLANKS, "nut.height")
    highest = max((mm(wanted) for wanted in nut.over_fret1 if wanted is not None), default=0.0)
    if highest > WANTED and not (job.board.zero_fret or told_alike(highest, WANTED, job.unit)):
        yield look(
            "nut.over_fret1",
            f"A string is wanted {said(highest, job.unit)} over fret 1, and few are over {said(WANTED, job.unit)}: "
            "look at the unit and the decimal point.",
            "field:nut.over_fret1",
            mm=highest,
        )
