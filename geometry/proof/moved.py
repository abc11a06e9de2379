"""How far the bridge has moved from where the old one stood."""

import math

import numpy as np

from geometry.bridge.footprint_front import front_of
from geometry.bridge.laid_bridge import laid, laid_by
from geometry.frame import into
from geometry.job import Job
from geometry.placed.place_everything import place_everything
from geometry.proof.where_it_stands import Pose
from geometry.survey import Surveyed


def moved_by(job: Job, surveyed: Surveyed) -> Pose | None:
    """From the middle of the old footprint's front edge, its side nearest the nut, to the new bridge's.

    None where either is not known. The new one lies where its sheet puts it: the ± is that of both places together, and
    what moves one with the other comes into it once.
    """
    placed = place_everything(job, surveyed)
    names = job.old.outline if job.old is not None else ()
    if placed.neck is None or placed.saddle is None or placed.saddle.seated is None:
        return None
    if len(names) < 3 or not placed.states.has(*names):
        return None
    wider = placed.states.with_points(names)
    frame, seated = placed.neck.frame, placed.saddle.seated
    corners = into(wider.states.points(names), wider.lifted(frame.origin), wider.lifted(frame.direction))
    was = front_of(corners)
    sheet = laid_by(job.bridge, placed.neck.frame)
    front, beside = (wider.lifted(laid(sheet, place)) for place in (seated.front, seated.front + seated.leftward))
    gone = front - was.middle
    turned = np.angle((beside - front) / was.leftward)
    values = np.column_stack((gone.real, gone.imag, turned))
    pms = wider.states.pm95(values)
    return Pose(
        along=float(values[0, 0]),
        across=float(values[0, 1]),
        turn=math.degrees(values[0, 2]),
        along_pm95=float(pms[0]),
        across_pm95=float(pms[1]),
        turn_pm95=math.degrees(pms[2]),
    )
