"""The heights that stand in for those that nobody read or typed, said where they would be typed."""

from geometry import units
from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.layout import Layout

NOT_READ = "usual, not read"
Place = tuple[str, str]
"""Over which fret, on which side."""


def usual_heights(job: Job, layout: Layout | None) -> dict[Place, str]:
    """For each height that is missing, what is assumed: “1.8 mm: usual, not read”. Empty while nothing rests on it."""
    if job.strings is None or not job.strings.list or layout is None or not layout.strings:
        return {}
    import numpy as np  # the window does without until a layout is there

    from geometry.strings.string_heights import FRETS, known_heights

    action = job.strings.action
    nominal = np.array([plan.nominal for plan in layout.strings])
    known = known_heights(job.strings, job.bass == "left", nominal, action, job.board.zero_fret)
    said: dict[Place, str] = {}
    for fret, side in known.missing:
        over = float(known.over[FRETS.index(fret), SIDES.index(side)])
        said[fret, side] = f"{units.said(over, job.unit)}: {NOT_READ}"
    return said
