"""What is to be said of the saddle between its outer strings: of these themselves the saddle's height tells already."""

from collections.abc import Iterator, Sequence

from geometry import words
from geometry.findings import Finding
from geometry.job import Job
from geometry.saddle.heights.break_angle import saddle_height_findings
from geometry.solids.saddle_blank import SolidSaddle
from geometry.units import said_pm, said_roughly

OF_THE_LEAST = ("saddle.none", "saddle.low", "saddle.shallow")
"""What is worst where the saddle stands out least; all else is where it stands out most."""
SEEN = 0.05
"""A crown of less, mm, is not spoken of: no file is finer."""


def findings(job: Job, solid: SolidSaddle, told: Sequence[Finding]) -> Iterator[Finding]:
    """The crown, and what is wrong under an inner string alone: each once, where it is worst, and nothing that is said
    of an outer string already (`told`).
    """
    yield from crown_findings(job, solid)
    known = {finding.code for finding in told}
    standing = [
        (height.projection, one.string, height)
        for one, height in zip(solid.blank.strings, solid.heights, strict=True)
        if height.projection is not None
    ]
    ordered = sorted(standing, key=lambda one: one[0])
    for by_height, codes_of_least in ((ordered, True), (ordered[::-1], False)):
        for _, name, height in by_height:
            for found in saddle_height_findings(height, unit=job.unit, at=f" under {words.string(name)}"):
                if found.code not in known and (found.code in OF_THE_LEAST) == codes_of_least:
                    known.add(found.code)
                    yield found


def crown_findings(job: Job, solid: SolidSaddle) -> Iterator[Finding]:
    """How the saddle, or the crown of a bridge that is held by the strings, stands over a straight one."""
    blank, floats = solid.blank, job.held == "strings"
    if blank.radius is None or blank.crown[0] < SEEN:
        return
    (radius, _), (rise, pm95) = blank.radius, blank.crown
    what = "The crown is rounded" if floats else "The saddle is crowned"
    yield Finding(
        grade="good",
        code="floating.crown" if floats else "saddle.crown",
        text=f"{what} as the board is, by a radius of {said_roughly(radius, job.unit)}: in its middle it stands "
        f"{said_pm(pm95, job.unit, rise)} over a straight line from outer string to outer string.",
        values={"radius": radius, "radius_pm95": blank.radius[1], "crown": rise, "crown_pm95": pm95},
        where="bridge" if floats else "saddle",
    )
