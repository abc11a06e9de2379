"""How far it is between two measured points, with the ± that the readings allow; the same in every frame."""

import math

import numpy as np

from geometry.job import Job
from geometry.layout import TWO_SIDED_95, Record
from geometry.survey import survey


class HowFar(Record, frozen=True):
    """A distance in mm and the half-width of its 95 % interval."""

    distance: float
    pm95: float


def how_far(job: Job, a: str, b: str) -> HowFar | None:
    """The distance between two points of the job; None where the readings do not hold them both.

    Its variance is J Σ Jᵀ with J the unit vector from a to b, minus at a, plus at b (JCGM 102:2011, 6.2.1).
    """
    found = survey(job)
    if a == b or a not in found.point_at or b not in found.point_at:
        return None
    at, to = found.point_at[a], found.point_at[b]
    step = found.state[to : to + 2] - found.state[at : at + 2]
    length = float(np.hypot(*step))
    if length == 0:
        return HowFar(distance=0.0, pm95=0.0)
    slopes = np.zeros(len(found.state))
    slopes[to : to + 2] = step / length
    slopes[at : at + 2] = -step / length
    variance = float(slopes @ found.cov @ slopes)
    return HowFar(distance=length, pm95=TWO_SIDED_95 * math.sqrt(max(variance, 0.0)))
