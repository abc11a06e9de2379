"""What may be done now with a floating bridge. It can be stood up and tuned by ear however badly its place is known,
for nothing is lost by that; a crown that is cut stays cut.
"""

import msgspec

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import fit, held_back
from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.layout import Layout

SLIDES = 10.0
"""As far a floating bridge is slid to tune it, mm: more is not looked for with the ear (common practice, no source)."""


def floating_verdicts(job: Job, layout: Layout) -> tuple[Step, ...]:
    """Standing it up, and cutting its crown."""
    saddle, bridge = layout.saddle, layout.bridge
    assert saddle is not None
    assert bridge is not None
    pms = bridge.front_pm95
    worse = 0 if pms[0] >= pms[1] else 1
    go = pms[worse] <= SLIDES
    alike = abs(pms[0] - pms[1]) < 0.05 * max(pms)
    stand = held_back(
        job,
        layout,
        Step(
            what="stand",
            go=go,
            pm95=pms[worse],
            limit=SLIDES,
            why="" if go else "wide",
            side=None if alike else SIDES[worse],
            cents=saddle.tune95[worse],
        ),
    )
    if stand.why == "unchecked":
        stand = msgspec.structs.replace(stand, go=go, why="" if go else "wide")
    crown = fit(job, layout, msgspec.structs.replace(stand, go=True))
    return stand, held_back(job, layout, msgspec.structs.replace(crown, what="crown"))
