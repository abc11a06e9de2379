"""Mirror images: every choice that was left open while places were sought is tried the other way round.

Of two figures the one is taken that agrees with what the person said, then with the readings, then with names, habits
and rough places. What none of them settles is reported with both places.
"""

from collections.abc import Iterable

import numpy as np

from geometry.layout import XY
from geometry.survey.adjustment import come_to_rest
from geometry.survey.costs import misfit, places, vector, whole_cost
from geometry.survey.datum import Straightedge, moved
from geometry.survey.loci import cost, crossings, locus
from geometry.survey.network import Network, network_of
from geometry.survey.result import Array
from geometry.survey.sides import Turn
from geometry.survey.start import APART, Choice, Placed, Sought, find, rough

AS_WELL = 10.8
"""Figures fit alike whose weighted sums of squares differ by less: chi-square, 1 degree of freedom, 0.1 %."""
FAR_WORSE = 100.0
"""A figure partly turned over whose readings agree so much worse, the rest staying put, is not fitted as a whole."""
NOTHING = np.array([], dtype=np.intp)


def turn_over(
    net: Network, what: Sought, sides: tuple[Turn, ...], x: Array, placed: Placed, base: Straightedge
) -> tuple[Array, dict[str, XY]]:
    """Try the other side of every open choice: the better figure of each two, and what may lie elsewhere as well."""
    best = whole_cost(net, x, sides)
    elsewhere: dict[str, XY] = {}
    flipped = placed.flipped
    for choice in placed.open:
        if _settled(choice, places(net, x)):
            continue
        turned = flipped ^ {choice.point}
        start = _turned(net, x, find(what, turned, placed.attempt).at, placed.at)
        if start is None:
            continue
        other = moved(net, come_to_rest(net, start, NOTHING).x, base, {})
        differ = _differ(net, x, other)
        if not differ:
            continue
        value = whole_cost(net, other, sides)
        nearer = _nearer(what, places(net, x), places(net, other), differ)
        if value < best - AS_WELL or (value < best + AS_WELL and nearer > 0):
            x, best, flipped = other, value, turned
        elif value < best + AS_WELL and nearer == 0:
            at = places(net, other)
            elsewhere |= {name: (at[name].real, at[name].imag) for name in differ}
    return x, elsewhere


def _turned(net: Network, x: Array, there: dict[str, complex], here: dict[str, complex]) -> Array | None:
    """The figure x (p,) with the points that lie elsewhere in another start fitted there, the rest staying put.

    None where their readings then agree so much worse that fitting all could not mend it.
    """
    base = [name for name in net.points if abs(there[name] - here[name]) < APART]
    names = [name for name in net.points if abs(there[name] - here[name]) >= APART]
    if len(base) < 2 or not names:
        return vector(net, there) if names else None
    part = network_of([row for row in net.rows if not set(names).isdisjoint(row.points)])
    at = places(net, x)
    now, then = (np.array([where[name] for name in base]) for where in (at, there))
    spin = complex(np.vdot(then - then.mean(), now - now.mean()))
    spots = {name: now.mean() + (there[name] - then.mean()) * spin / abs(spin) for name in names}
    y = vector(part, at | spots)
    y[2 * len(part.points) :] = [x[net.column(name)] for name in part.extras]
    before = misfit(part, _with(part, y, at))
    free = {2 * part.points.index(name) + axis for name in names for axis in (0, 1)}
    fit = come_to_rest(part, y, np.array([c for c in range(part.p) if c not in free], dtype=np.intp))
    if fit.squares > before + FAR_WORSE:
        return None
    whole = x.copy()
    for name in names:
        i, k = 2 * net.points.index(name), 2 * part.points.index(name)
        whole[i : i + 2] = fit.x[k : k + 2]
    return whole


def _with(net: Network, y: Array, at: dict[str, complex]) -> Array:
    """Y (p,) with the points at other places."""
    x = y.copy()
    x[: 2 * len(net.points)] = vector(net, at)[: 2 * len(net.points)]
    return x


def _settled(choice: Choice, at: dict[str, complex]) -> bool:
    """Whether the rows that once left a choice open settle it now that the places are known exactly."""
    loci = [found for row in choice.rows if (found := locus(row, choice.point, at, slack=0.0)) is not None]
    here = at[choice.point]
    others = [
        z
        for i, one in enumerate(loci)
        for two in loci[i + 1 :]
        for z in crossings(one, two)
        if abs(z - here) > 0.5 * abs(choice.here - choice.there)
    ]
    return all(cost(z, loci) > cost(here, loci) + 4 * AS_WELL for z in others)


def _differ(net: Network, x: Array, other: Array) -> list[str]:
    one, two = places(net, x), places(net, other)
    return [name for name in net.points if abs(one[name] - two[name]) > APART]


def _nearer(what: Sought, here: dict[str, complex], there: dict[str, complex], names: Iterable[str]) -> int:
    """+1 where rough places speak clearly for the other figure, −1 for this one, 0 where they say nothing."""
    off_here = off_there = 0.0
    for name in names:
        near_here, near_there = rough(what.near, here, name), rough(what.near, there, name)
        if near_here is not None and near_there is not None:
            off_here += abs(here[name] - near_here)
            off_there += abs(there[name] - near_there)
    return int(off_there < 0.5 * off_here) - int(off_here < 0.5 * off_there)
