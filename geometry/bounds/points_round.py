"""Points round the body's edge or a sound hole whose numbers do not go round it."""

from collections.abc import Iterator, Mapping

import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import PlacedPoint
from geometry.rings import numbered, sides_that_cross

ROUND = {"body": "the body", "soundhole": "the sound hole"}


def findings(job: Job, points: Mapping[str, PlacedPoint]) -> Iterator[Finding]:
    """Points that, joined in the order of their numbers, cross their own line."""
    for kind, whole in ROUND.items():
        names = numbered(points, kind)
        crossed = sides_that_cross(np.array([complex(points[name].x, points[name].y) for name in names]))
        if crossed is None:
            continue
        ends = [(names[at], names[(at + 1) % len(names)]) for at in crossed]
        one, other = (words.line_called(*two, job.hand) for two in ends)
        yield Finding(
            grade="look",
            code=f"{kind}.crossed",
            text=f"The points round {whole} do not follow each other: {one} crosses {other}. Look at their names and "
            f"readings; they are numbered in order round {whole}. Until then nothing is compared with it.",
            where=f"point:{ends[0][1]}",
        )
