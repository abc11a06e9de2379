"""What speaks for and against a figure: how its readings fit, and the sides that its points lie on."""

import numpy as np

from geometry.survey.adjust.network import Network, evaluate
from geometry.survey.result import Array
from geometry.survey.rows.which_side import Turn
from geometry.survey.start.rough_places import NEVER, RATHER_NOT, ProvisionalPlaces


def vector(net: Network, at: dict[str, complex]) -> Array:
    """Places by name as the vector of unknowns (p,), the extra ones at 0."""
    x = np.zeros(net.p)
    x[: 2 * len(net.points)] = np.array([at[name] for name in net.points], dtype=complex).view(float)
    return x


def places(net: Network, x: Array) -> dict[str, complex]:
    """Places by name out of x (p,)."""
    return dict(zip(net.points, x[: 2 * len(net.points)].view(complex).tolist(), strict=True))


def misfit(net: Network, x: Array) -> float:
    """The weighted sum of squares at x (p,)."""
    return whole_cost(net, x, ())


def whole_cost(net: Network, x: Array, sides: tuple[Turn, ...], most: float = np.inf) -> float:
    """The weighted sum of squares at x (p,), no row counted for more than `most`, and what speaks against the sides."""
    miss = (evaluate(net, x)[0] - net.value) / net.sigma
    return float(np.minimum(miss**2, most).sum()) + cost_of_sides(net, x, sides)


def start_cost(net: Network, placed: ProvisionalPlaces, sides: tuple[Turn, ...]) -> float:
    """The same for start places, which are out by a millimetre or so themselves."""
    x = vector(net, placed.at)
    tied = np.array([bool(row.id and row.points) and row.form != "at" for row in net.rows])
    miss = ((evaluate(net, x)[0] - net.value) / np.hypot(net.sigma, 1.0))[tied]
    return float(np.minimum(miss**2, 400).sum()) + cost_of_sides(net, x, sides)


def cost_of_sides(net: Network, x: Array, sides: tuple[Turn, ...]) -> float:
    """What the sides that x (p,) puts points on cost."""
    at = places(net, x)
    return sum((NEVER if turn.said else RATHER_NOT) for turn in sides if not turn.agrees(at))
