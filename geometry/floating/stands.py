"""Where a floating bridge stands today by its feet as they were measured, and where the marks of old feet lie."""

import math

import numpy as np

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import dot, unit, xys
from geometry.job import Floating
from geometry.job.bridges.floating import STANDS
from geometry.layout import XY, PlacedPoint, Slide
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm


def today(states: PerturbedStates, frame: NeckFrame, floating: Floating, seated: SeatedBridge) -> Slide | None:
    """How far the bridge is to go from where it stands; None while its feet are not measured. Of the bridge's length
    its own is taken: what was measured tells its place and its turn.
    """
    if not states.has(*STANDS):
        return None
    marked = frame.see(states, *STANDS)
    middle, leftward = marked.mean(axis=1), unit(marked[:, 0] - marked[:, 1])
    half = mm(floating.length) / 2
    stands = np.array([middle + leftward * half, middle - leftward * half]).T
    wanted = np.array([seated.place(0.0, half), seated.place(0.0, -half)]).T
    moves = wanted - stands
    turn = np.degrees(np.angle(seated.leftward / leftward))
    across = dot(seated.leftward, moves.mean(axis=1))
    whole = np.column_stack((moves.real, across, turn))
    pm = states.pm95(whole).tolist()
    left, right, aside, turned = whole[0].tolist()
    corners = xys(stands[0])
    return Slide(
        along=(left, right),
        along_pm95=(pm[0], pm[1]),
        across=aside,
        across_pm95=pm[2],
        turn=turned,
        turn_pm95=pm[3],
        corners=(corners[0], corners[1]),
    )


def marks(floating: Floating, points: dict[str, PlacedPoint]) -> tuple[tuple[XY, ...], ...]:
    """The marks of old feet all of whose points are placed, each as a ring."""
    return tuple(
        tuple((points[name].x, points[name].y) for name in mark)
        for mark in floating.marks
        if all(name in points for name in mark)
    )


def lean(slide: Slide, turn: float) -> float:
    """By how much the bridge leans today, in degrees: its own turn less what it is to be turned by."""
    return math.degrees(turn) - slide.turn
