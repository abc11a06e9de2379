"""The figure that the readings describe, out of all its mirror images.

Two distances leave a point on either side. Of the ways to settle every such choice the one is taken that agrees with
what the person said, then with the readings, then with names, habits and rough places. What none of them settles is
reported with both places.
"""

from collections.abc import Iterable

import msgspec
import numpy as np

from geometry import units
from geometry.job import Job
from geometry.layout import XY
from geometry.survey.adjustment import come_to_rest
from geometry.survey.datum import Straightedge, moved
from geometry.survey.gross import stubborn
from geometry.survey.least_squares import Settled
from geometry.survey.loci import cost, crossings, locus
from geometry.survey.network import Network, evaluate, network_of
from geometry.survey.result import Array
from geometry.survey.sides import Turn, turns
from geometry.survey.start import APART, NEVER, RATHER_NOT, Choice, Placed, Sought, find, rough, sought

AS_WELL = 10.8
"""Figures fit alike whose weighted sums of squares differ by less: chi-square, 1 degree of freedom, 0.1 %."""
ATTEMPTS = 8
FAR_WORSE = 100.0
"""A figure partly turned over whose readings agree so much worse, the rest staying put, is not fitted as a whole."""
DENIED = 100.0
"""A side is denied where doing without it betters the weighted sum of squares by so much."""
MISFIT, GOOD = 25.0, 3.0
"""A fit that is out by five standard deviations a row all over is no fit. One is good enough that is out by less than
two, with no row counted for more than five.
"""
NOTHING = np.array([], dtype=np.intp)


class Figure(msgspec.Struct, frozen=True, eq=False):
    """The fit at rest, x (p,), standing on its `base`, and its `start` places; the points that may lie `elsewhere` as
    well, with that place; what the person said that the readings deny (`denied`); whether it did come to rest.
    """

    x: Array
    start: Array
    base: Straightedge
    elsewhere: dict[str, XY]
    denied: tuple[Turn, ...]
    resting: bool


def solve(job: Job, net: Network, base: Straightedge) -> Figure:
    """The figure of a network with at least two points. A side that the person gave outranks the readings where they
    leave a choice; where they deny it outright, the figure is theirs, and the side is reported as denied.
    """
    sides = turns(job, net.points, net.rows)
    figure = _solve(job, net, base, sides)
    said = [turn for turn in sides if turn.said]
    if not said or _misfit(net, figure.x) < DENIED + 4.0 * len(net.rows):
        return figure
    other = _solve(job, net, base, tuple(turn for turn in sides if not turn.said))
    if _misfit(net, other.x) > _misfit(net, figure.x) - DENIED:
        return figure
    return msgspec.structs.replace(other, denied=_denied(net, other.x, sides))


def _solve(job: Job, net: Network, base: Straightedge, sides: tuple[Turn, ...]) -> Figure:
    what = sought(net.rows, net.points, sides, _near(job))
    placed = _best_start(net, what, sides)
    fit, start, placed = _settle_down(net, what, sides, placed)
    x = moved(net, fit.x, base, {})
    elsewhere: dict[str, XY] = {}
    if placed.open:
        x, elsewhere = _turn_over(net, what, sides, x, placed, base)
    return Figure(x, start, base, elsewhere, _denied(net, x, sides), fit.resting)


def _turn_over(
    net: Network, what: Sought, sides: tuple[Turn, ...], x: Array, placed: Placed, base: Straightedge
) -> tuple[Array, dict[str, XY]]:
    """Try the other side of every open choice: the better figure of each two, and what may lie elsewhere as well."""
    best = _cost(net, x, sides)
    elsewhere: dict[str, XY] = {}
    flipped: frozenset[str] = frozenset()
    for choice in placed.open:
        if _settled(choice, _at(net, x)):
            continue
        turned = flipped ^ {choice.point}
        start = _turned(net, x, find(what, turned, placed.attempt).at, placed.at)
        if start is None:
            continue
        other = moved(net, come_to_rest(net, start, NOTHING).x, base, {})
        differ = _differ(net, x, other)
        if not differ:
            continue
        value = _cost(net, other, sides)
        nearer = _nearer(what, _at(net, x), _at(net, other), differ)
        if value < best - AS_WELL or (value < best + AS_WELL and nearer > 0):
            x, best, flipped = other, value, turned
        elif value < best + AS_WELL and nearer == 0:
            at = _at(net, other)
            elsewhere |= {name: (at[name].real, at[name].imag) for name in differ}
    return x, elsewhere


def _turned(net: Network, x: Array, there: dict[str, complex], here: dict[str, complex]) -> Array | None:
    """The figure x (p,) with the points that lie elsewhere in another start fitted there, the rest staying put.

    None where their readings then agree so much worse that fitting all could not mend it.
    """
    base = [name for name in net.points if abs(there[name] - here[name]) < APART]
    names = [name for name in net.points if abs(there[name] - here[name]) >= APART]
    if len(base) < 2 or not names:
        return _vector(net, there) if names else None
    part = network_of([row for row in net.rows if not set(names).isdisjoint(row.points)])
    at = _at(net, x)
    now, then = (np.array([places[name] for name in base]) for places in (at, there))
    spin = complex(np.vdot(then - then.mean(), now - now.mean()))
    places = {name: now.mean() + (there[name] - then.mean()) * spin / abs(spin) for name in names}
    y = _vector(part, at | places)
    y[2 * len(part.points) :] = [x[net.column(name)] for name in part.extras]
    before = _misfit(part, _with(part, y, at))
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
    x[: 2 * len(net.points)] = _vector(net, at)[: 2 * len(net.points)]
    return x


def _denied(net: Network, x: Array, sides: tuple[Turn, ...]) -> tuple[Turn, ...]:
    """What the person said of sides that the figure denies."""
    said = [turn for turn in sides if turn.said]
    at = _at(net, x) if said else {}
    return tuple(turn for turn in said if not turn.agrees(at))


def _near(job: Job) -> dict[str, complex]:
    return {
        name: complex(units.mm(point.near[0]), units.mm(point.near[1]))
        for name, point in job.points.items()
        if point.near is not None
    }


def _best_start(net: Network, what: Sought, sides: tuple[Turn, ...]) -> Placed:
    """The start whose open choices disturb the readings least, one choice settled after the other."""
    placed = find(what)
    if not placed.open:
        return placed
    flipped: frozenset[str] = frozenset()
    least = _start_cost(net, placed, sides)
    for choice in placed.open:
        if least < 9.0 * len(net.rows):
            break
        other = find(what, flipped | {choice.point})
        value = _start_cost(net, other, sides)
        if value < least - 1:
            placed, least, flipped = other, value, flipped | {choice.point}
    return placed


def _settle_down(net: Network, what: Sought, sides: tuple[Turn, ...], placed: Placed) -> tuple[Settled, Array, Placed]:
    """The fit from the start and its start places. Where the readings do not agree at all, the place is sought where
    most of them do, from several beginnings, and the fit starts there.
    """
    start = _start(net, placed)
    fit = come_to_rest(net, start, NOTHING)
    if fit.squares < MISFIT * (len(net.rows) + 4):
        return fit, start, placed
    best = np.inf
    for attempt in range(ATTEMPTS):
        again = find(what, attempt=attempt) if attempt else placed
        y = stubborn(net, _start(net, again))
        value = _cost(net, y, sides, most=MISFIT)
        if value < best:
            start, best, placed = y, value, again
        if best < GOOD * (len(net.rows) + 4):
            break
    return come_to_rest(net, start, NOTHING), start, placed


def _start(net: Network, placed: Placed) -> Array:
    """The start places as a vector; those that stand on a guess are first fitted to the firm ones, which stay put."""
    x = _vector(net, placed.at)
    firm = [place for place, name in enumerate(net.points) if name not in placed.soft]
    if len(firm) < 2 or len(firm) == len(net.points):
        return x
    columns = np.array([2 * place + axis for place in firm for axis in (0, 1)], dtype=np.intp)
    return come_to_rest(net, x, columns).x


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
    one, two = _at(net, x), _at(net, other)
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


def _vector(net: Network, at: dict[str, complex]) -> Array:
    x = np.zeros(net.p)
    x[: 2 * len(net.points)] = np.array([at[name] for name in net.points], dtype=complex).view(float)
    return x


def _at(net: Network, x: Array) -> dict[str, complex]:
    return dict(zip(net.points, x[: 2 * len(net.points)].view(complex).tolist(), strict=True))


def _start_cost(net: Network, placed: Placed, sides: tuple[Turn, ...]) -> float:
    x = _vector(net, placed.at)
    tied = np.array([bool(row.points) and row.form != "at" for row in net.rows])
    miss = ((evaluate(net, x)[0] - net.value) / np.hypot(net.sigma, 1.0))[tied]
    return float(np.minimum(miss**2, 400).sum()) + _against(net, x, sides)


def _cost(net: Network, x: Array, sides: tuple[Turn, ...], most: float = np.inf) -> float:
    miss = (evaluate(net, x)[0] - net.value) / net.sigma
    return float(np.minimum(miss**2, most).sum()) + _against(net, x, sides)


def _misfit(net: Network, x: Array) -> float:
    return _cost(net, x, ())


def _against(net: Network, x: Array, sides: tuple[Turn, ...]) -> float:
    at = _at(net, x)
    return sum((NEVER if turn.said else RATHER_NOT) for turn in sides if not turn.agrees(at))
