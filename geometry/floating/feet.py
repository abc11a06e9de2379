"""Where a floating bridge's feet touch the top."""

import cmath

import numpy as np

from geometry.bridge.seat_bridge import across, pm95s
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Points, xy, xys
from geometry.job import Floating, Job
from geometry.layout import XY, BridgePlan, FootPlan
from geometry.layout.floating_plan import FootName
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm


def corners(floating: Floating, seated: SeatedBridge) -> Points:
    """The outermost corners of its feet in all rows: front left, front right, back right, back left, (rows, 4)."""
    half, width = mm(floating.length) / 2, mm(floating.width)
    places = ((0.0, half), (0.0, -half), (width, -half), (width, half))
    return np.array([seated.place(*place) for place in places]).T


def describe(states: PerturbedStates, frame: NeckFrame, floating: Floating, seated: SeatedBridge) -> BridgePlan:
    """The bridge as the layout holds it: what it covers, its corners and their ±."""
    placed = corners(floating, seated)
    fl, fr, br, bl = xys(placed[0])
    pm = pm95s(states, frame, placed)
    return BridgePlan(
        outline=tuple((x, y, 0.0) for x, y in (fl, bl, br, fr)),
        corners=(fl, fr, br, bl),
        pins=(),
        turn=cmath.phase(complex(seated.tailward[0])),
        front_pm95=(pm[0][0], pm[1][0]),
        corners_pm95=pm,
        across_checked=states.checked(across(frame, placed)),
    )


def feet(job: Job, floating: Floating, seated: SeatedBridge) -> tuple[FootPlan, ...]:
    """Each foot's place, from the left to the right."""
    spans, width = list(floating.spans), mm(floating.width)
    found = []
    for left, right in spans:
        places = ((0.0, left), (0.0, right), (width, right), (width, left))
        a, b, c, d = (_at(seated, *place) for place in places)
        found.append(FootPlan(name=_name(job, (left + right) / 2, len(spans)), corners=(a, b, c, d)))
    return tuple(found)


def _at(seated: SeatedBridge, back: float, left: float) -> XY:
    return xy(complex(seated.place(back, left)[0]))


def _name(job: Job, left: float, count: int) -> FootName:
    if count == 1:
        return "whole"
    return "middle" if left == 0 else job.bass_or_treble("left" if left > 0 else "right")
