"""The **configuration** of the points that the readings describe: provisional places, the fit, and the choice between
mirror images.
"""

import msgspec
import numpy as np

from geometry import units
from geometry.job import Job
from geometry.layout import XY
from geometry.survey.adjust.adjustment import come_to_rest
from geometry.survey.adjust.datum import Straightedge, moved_to_datum
from geometry.survey.adjust.least_squares import Settled
from geometry.survey.adjust.network import Network
from geometry.survey.judge.suspects import chi_square
from geometry.survey.result import Array
from geometry.survey.rows.which_side import Turn, turns
from geometry.survey.start.mirror_images import turn_over
from geometry.survey.start.misfit import misfit, places, start_cost, vector, whole_cost
from geometry.survey.start.rough_places import ProvisionalPlaces, provisional_places
from geometry.survey.start.search_input import SearchInput, search_input
from geometry.survey.start.set_aside import robust_fit

ATTEMPTS = 8
DENIED = 100.0
"""A side is denied where the weighted sum of squares falls by this when it is left out."""
SAME = 5.0
"""Where trusting the readings that agree leads no farther off than this (mm), the fineness is wrong, not the place."""
MISFIT, GOOD = 25.0, 3.0
"""Weighted sums of squares a row: a fit beyond the first, five standard deviations all over, is none; one below the
second, 1.7 all over, is good enough, no row counted for more than the first.
"""


BETTER = 1.0
"""A fit is the better one whose weighted sum of squares is less by this."""


class Configuration(msgspec.Struct, frozen=True, eq=False):
    """The fit at rest, x (p,), standing on its `base`, and its `start` places; the points that may lie `elsewhere` as
    well, with that place; what the person said that the readings deny (`denied`); whether it did come to rest.
    """

    x: Array
    start: Array
    base: Straightedge
    elsewhere: dict[str, XY]
    denied: tuple[Turn, ...]
    resting: bool


def find_configuration(job: Job, net: Network, base: Straightedge) -> Configuration:
    """The figure of a network with at least two points. A side that the person gave outranks the readings where they
    leave a choice; where they deny it outright, the figure is theirs, and the side is reported as denied.
    """
    sides = turns(job, net.points, net.rows)
    configuration = _solve(job, net, base, sides)
    said = [turn for turn in sides if turn.said]
    if not said or misfit(net, configuration.x) < DENIED + 4.0 * len(net.rows):
        return configuration
    other = _solve(job, net, base, tuple(turn for turn in sides if not turn.said))
    if misfit(net, other.x) > misfit(net, configuration.x) - DENIED:
        return configuration
    return msgspec.structs.replace(other, denied=_denied(net, other.x, sides))


def _solve(job: Job, net: Network, base: Straightedge, sides: tuple[Turn, ...]) -> Configuration:
    what = search_input(net.rows, net.points, sides, _near(job, usual=False), _near(job, usual=True))
    placed = _best_start(net, what, sides)
    fit, start, placed = _settle_down(net, what, sides, placed)
    fit, start = _from_near(net, sides, what, fit, start)
    x = moved_to_datum(net, fit.x, base, {})
    x, elsewhere = turn_over(net, what, sides, x, placed, base)
    return Configuration(x, start, base, elsewhere, _denied(net, x, sides), fit.resting)


def _denied(net: Network, x: Array, sides: tuple[Turn, ...]) -> tuple[Turn, ...]:
    """What the person said of sides that the figure denies."""
    said = [turn for turn in sides if turn.said]
    at = places(net, x) if said else {}
    return tuple(turn for turn in said if not turn.agrees(at))


def _near(job: Job, usual: bool) -> dict[str, complex]:
    """The rough places that the person gave, or where points of a list usually lie."""
    return {
        name: complex(units.mm(point.near[0]), units.mm(point.near[1]))
        for name, point in job.points.items()
        if point.near is not None and point.usual == usual
    }


def _from_near(
    net: Network, sides: tuple[Turn, ...], what: SearchInput, fit: Settled, start: Array
) -> tuple[Settled, Array]:
    """The fit and its start; where it leaves more than chance would, the one from the rough places, if that is better.

    Start places that were found from readings which are all a little out may lead into a false minimum.
    """
    dof = len(net.rows) - net.p + 3
    rough = {**what.usual, **what.near}
    if fit.squares <= chi_square(max(dof, 1)) or not rough.keys() >= set(net.points):
        return fit, start
    near = vector(net, rough)
    other = come_to_rest(net, near)
    if not other.resting or whole_cost(net, other.x, sides) > whole_cost(net, fit.x, sides) - BETTER:
        return fit, start
    return other, near


def _best_start(net: Network, what: SearchInput, sides: tuple[Turn, ...]) -> ProvisionalPlaces:
    """The start whose open choices disturb the readings least, one choice settled after the other."""
    placed = provisional_places(what)
    if not placed.open:
        return placed
    flipped: frozenset[str] = frozenset()
    least = start_cost(net, placed, sides)
    for choice in placed.open:
        if least < 9.0 * len(net.rows):
            break
        other = provisional_places(what, flipped | {choice.point})
        value = start_cost(net, other, sides)
        if value < least - 1:
            placed, least, flipped = other, value, flipped | {choice.point}
    return placed


def _settle_down(
    net: Network, what: SearchInput, sides: tuple[Turn, ...], placed: ProvisionalPlaces
) -> tuple[Settled, Array, ProvisionalPlaces]:
    """The fit from the start and its start places. Where the readings do not agree at all, the place is sought where
    most of them do, from several beginnings, and the fit starts there.
    """
    start = _start(net, placed)
    fit = come_to_rest(net, start)
    if fit.squares < MISFIT * (len(net.rows) + 4):
        return fit, start, placed
    best = np.inf
    for attempt in range(ATTEMPTS):
        again = provisional_places(what, attempt=attempt) if attempt else placed
        y = robust_fit(net, _start(net, again))
        if not attempt and np.abs(y - fit.x).max() < SAME:
            return fit, start, placed
        value = whole_cost(net, y, sides, most=MISFIT)
        if value < best:
            start, best, placed = y, value, again
        if best < GOOD * (len(net.rows) + 4):
            break
    return come_to_rest(net, start), start, placed


def _start(net: Network, placed: ProvisionalPlaces) -> Array:
    """The start places as a vector; those that stand on a guess are first fitted to the firm ones, which stay put."""
    x = vector(net, placed.at)
    firm = [place for place, name in enumerate(net.points) if name not in placed.soft]
    if len(firm) < 2 or len(firm) == len(net.points):
        return x
    columns = np.array([2 * place + axis for place in firm for axis in (0, 1)], dtype=np.intp)
    return come_to_rest(net, x, columns).x
