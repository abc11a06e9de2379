"""What may be done now with a floating bridge. It can be stood up and tuned by ear however badly its place is known,
for nothing is lost by that; a crown that is cut stays cut.
"""

import msgspec

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import fit, held_back, judged
from geometry.job import Job
from geometry.layout import Layout

SLIDES = 10.0
"""As far a floating bridge is slid to tune it, mm: more is not looked for with the ear (common practice, no source)."""


def floating_verdicts(job: Job, layout: Layout) -> tuple[Step, ...]:
    """Standing it up, and cutting its crown."""
    saddle = layout.saddle
    assert saddle is not None
    by_pm = judged("stand", saddle.by_sheet.pm95, (SLIDES, SLIDES), saddle.tune95)  # as far as the crown is tuned by it
    stand = held_back(job, layout, by_pm)
    if stand.why == "unchecked":
        stand = by_pm
    crown = fit(job, layout, msgspec.structs.replace(stand, go=True))
    return stand, held_back(job, layout, msgspec.structs.replace(crown, what="crown"))
