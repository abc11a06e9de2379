"""The best straight saddle line through what the strings want, and the saddle's peak under each string.

A saddle has thickness: its peak may be filed anywhere between front and back under each string. The line is laid so
that as little as possible stays outside that room; where the room holds all strings, it is the line of least squares.
"""

import msgspec
import numpy as np

from geometry.frame import Array

TIE = 1e-3
"""How little a deviation inside the saddle's room counts against one outside it."""
LEVEL = 1e-6
"""Strings whose places spread over less than this (mm) tell no slant."""
ROUNDS, SHORTEST = 60, 1e-6
"""Steps toward the least sum, and the least share of one that is taken."""
ROUNDING = 1e-12


class Line(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """A saddle line x = `at` + `slope` y, with at `at` for y = 0 (mm).

    Per string: `line` its x on the line, `peak` where its peak lies in the thickness (0 front, 1 back), `break_x` the
    x of that peak, `stays` (mm) how far the wanted place still lies behind it (+) or in front (−).
    """

    at: float
    slope: float
    line: Array
    peak: Array
    break_x: Array
    stays: Array


def best_line(
    y: Array, wanted: Array, weights: Array | None, thickness: float, peak_at: float, straight: bool = False
) -> Line:
    """The best line for break points wanted at x `wanted` (strings,) on places `y` (strings,), mm.

    `weights` (strings,) or None for alike. The room runs from `peak_at` × thickness in front of the line to the rest
    behind it. `straight` keeps x the same for all y. One string, or strings all at one y, give an unslanted line.
    Weighted least squares of what lies outside the room (a convex sum, solved by its active set: the strings that press
    against the room's sides, until they are the same twice; a step that would not lessen it is halved).
    """
    share = np.ones_like(wanted) if weights is None else np.asarray(weights, dtype=np.float64)
    middle = float(y @ share / share.sum())
    off = y - middle
    slanted = not straight and float(off.max() - off.min()) > LEVEL
    ahead, behind = -peak_at * thickness, (1 - peak_at) * thickness
    at, slope = _fit(off, wanted, share, slanted)
    pressed, whole = np.zeros(len(wanted)), True
    for _ in range(ROUNDS):
        left = wanted - at - slope * off
        inside = np.minimum(np.maximum(left, ahead), behind)
        side = np.sign(left - inside)
        if whole and (side == pressed).all():
            break
        pressed, out = side, side != 0
        aim = wanted - np.where(out, inside / (1 + TIE), 0.0)
        to_at, to_slope = _fit(off, aim, share * np.where(out, 1 + TIE, TIE), slanted)
        step, whole = _step(left, (to_at - at) + (to_slope - slope) * off, share, (ahead, behind))
        at, slope = at + step * (to_at - at), slope + step * (to_slope - slope)
    line = at + slope * off
    return Line(
        at=at - slope * middle,
        slope=slope,
        line=line,
        peak=peak_at + inside / thickness,
        break_x=line + inside,
        stays=left - inside,
    )


def _step(left: Array, moves: Array, share: Array, room: tuple[float, float]) -> tuple[float, bool]:
    """How much of a step lessens the sum, and whether it is the whole of it: a step that goes too far presses other
    strings than it reckoned with, and would come back by the next. `moves` (strings,) is what the whole step does.
    """

    def cost(step: float) -> float:
        stays = left - step * moves
        outside = stays - np.minimum(np.maximum(stays, room[0]), room[1])
        return float(share @ (outside**2 + TIE * stays**2))

    now, step = cost(0.0), 1.0
    while cost(step) > now * (1 + ROUNDING) and step > SHORTEST:
        step /= 2
    return step, step == 1.0


def _fit(off: Array, aim: Array, held: Array, slanted: bool) -> tuple[float, float]:
    """Weighted straight line aim = at + slope off."""
    total = held.sum()
    mean_off, mean_aim = held @ off / total, held @ aim / total
    if not slanted:
        return float(mean_aim), 0.0
    across = off - mean_off
    weighed = held * across
    slope = weighed @ aim / (weighed @ across)
    return float(mean_aim - slope * mean_off), float(slope)
