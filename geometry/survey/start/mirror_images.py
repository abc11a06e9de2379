"""Mirror images: every choice that was left open while places were sought is tried the other way round.

Of two figures the one is taken that agrees with what the person said, then with the readings, then with names, habits
and rough places. What none of them settles is reported with both places.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from geometry.layout import XY
from geometry.survey.adjust.adjustment import come_to_rest
from geometry.survey.adjust.datum import Straightedge, moved_to_datum
from geometry.survey.adjust.network import Network, network_of
from geometry.survey.result import Array
from geometry.survey.rows.forms import locus
from geometry.survey.rows.loci import cost, crossings, is_line
from geometry.survey.rows.which_side import Turn
from geometry.survey.start.misfit import misfit, places, vector, whole_cost
from geometry.survey.start.rough_places import APART, Choice, ProvisionalPlaces, provisional_places, rough_place
from geometry.survey.start.search_input import SearchInput

AS_WELL = 10.8
"""Figures fit alike whose weighted sums of squares differ by less: chi-square, 1 degree of freedom, 0.1 %."""
FAR_WORSE = 100.0
"""A figure partly turned over whose readings agree so much worse, the rest staying put, is not fitted as a whole."""
FEW, ELSEWHERE = 4, 5.0
"""Points held by so few readings are looked at for another place, which is another from so many mm on."""
USUAL = 25.0
"""A point so far from where it usually lies may be turned over, mm (common practice, no source)."""


def turn_over(
    net: Network, what: SearchInput, sides: tuple[Turn, ...], x: Array, placed: ProvisionalPlaces, base: Straightedge
) -> tuple[Array, dict[str, XY]]:
    """Try the other side of every open choice: the better figure of each two, and what may lie elsewhere as well."""
    chosen = _Chosen(x, whole_cost(net, x, sides), {}) if placed.open else None
    flipped = placed.flipped
    for choice in placed.open:
        if chosen is None or _settled(choice, places(net, chosen.x)):
            continue
        turned = flipped ^ {choice.point}
        start = _turned(net, chosen.x, provisional_places(what, turned, placed.attempt).at, placed.at)
        better = _tried(net, what, sides, base, chosen, start)
        flipped = turned if better is not None and better.x is not chosen.x else flipped
        chosen = better or chosen
    for name, there in _also(net, what, x if chosen is None else chosen.x):
        chosen = chosen or _Chosen(x, whole_cost(net, x, sides), {})
        if name in chosen.elsewhere:
            continue
        start, at = chosen.x.copy(), 2 * net.points.index(name)
        start[at], start[at + 1] = there.real, there.imag
        chosen = _tried(net, what, sides, base, chosen, start) or chosen
    begun = _from_usual(net, what, x if chosen is None else chosen.x)
    if begun is not None:
        chosen = chosen or _Chosen(x, whole_cost(net, x, sides), {})
        chosen = _tried(net, what, sides, base, chosen, begun) or chosen
    return (x, {}) if chosen is None else (chosen.x, chosen.elsewhere)


def _from_usual(net: Network, what: SearchInput, x: Array) -> Array | None:
    """A start from where the points lie by the person, or usually; None where the figure has them all about there.

    Several points that hang together may be turned over as one, which no choice at a single point shows.
    """
    at, known = places(net, x), {**what.usual, **what.near}
    there = {name: z for name in net.points if (z := rough_place(known, at, name)) is not None}
    if all(abs(at[name] - z) <= USUAL for name, z in there.items()):
        return None
    start = x.copy()
    start[: 2 * len(net.points)] = np.array([there.get(name, at[name]) for name in net.points]).view(float)
    return start


class _Chosen(NamedTuple):
    """The figure chosen so far, its cost, and what may lie elsewhere as well."""

    x: Array
    cost: float
    elsewhere: dict[str, XY]


def _tried(
    net: Network,
    what: SearchInput,
    sides: tuple[Turn, ...],
    base: Straightedge,
    chosen: _Chosen,
    start: Array | None,
) -> _Chosen | None:
    """What is chosen after another start was tried; None where it leads nowhere else."""
    if start is None:
        return None
    other = moved_to_datum(net, come_to_rest(net, start).x, base, {})
    differ = _differ(net, chosen.x, other)
    if not differ:
        return None
    value = whole_cost(net, other, sides)
    nearer = _nearer(what, places(net, chosen.x), places(net, other), differ)
    if value < chosen.cost - AS_WELL or (value < chosen.cost + AS_WELL and nearer > 0):
        return _Chosen(other, value, chosen.elsewhere)
    if value < chosen.cost + AS_WELL and nearer == 0:
        at = places(net, other)
        return chosen._replace(elsewhere=chosen.elsewhere | {name: (at[name].real, at[name].imag) for name in differ})
    return None


def _also(net: Network, what: SearchInput, x: Array) -> Iterator[tuple[str, complex]]:
    """Points that few readings hold, and where these agree with each other as well, the others staying put. The search
    does not leave a choice open where its first places make two circles only touch.
    """
    at = places(net, x)
    for name, rows in what.touching.items():
        if len(rows) > FEW:
            continue
        loci = [found for row in rows if (found := locus(row, name, at, slack=0.0)) is not None]
        if len(loci) < 2 or all(is_line(one) for one in loci[:2]):
            loci.sort(key=is_line)
        if len(loci) < 2 or (is_line(loci[0]) and is_line(loci[1])):
            continue
        here = at[name]
        for z in crossings(loci[0], loci[1]):
            if abs(z - here) > ELSEWHERE and cost(z, loci) < 4 * AS_WELL:
                yield name, z


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


def _nearer(what: SearchInput, here: dict[str, complex], there: dict[str, complex], names: Iterable[str]) -> int:
    """+1 where rough places speak clearly for the other figure, −1 for this one, 0 where they say nothing."""
    off_here = off_there = 0.0
    for name in names:
        near_here, near_there = rough_place(what.near, here, name), rough_place(what.near, there, name)
        if near_here is not None and near_there is not None:
            off_here += abs(here[name] - near_here)
            off_there += abs(there[name] - near_there)
    return int(off_there < 0.5 * off_here) - int(off_here < 0.5 * off_there)
