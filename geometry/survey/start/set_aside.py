"""Readings that are out by centimetres, such as 1,000 typed for 100: set aside before they bend the whole figure.

Least squares spreads an error over all readings, which tells the wrong one as long as the figure keeps its shape. A
gross one bends it out of shape. It is found by a fit that trusts each reading the less the worse it agrees, and is then
**set aside**: it keeps its row, at a ten-thousandth of its say, until the person mends it or strikes it out.
"""

import msgspec
import numpy as np

from geometry.median import median
from geometry.survey.adjust.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.adjust.datum import Straightedge, moved_to_datum
from geometry.survey.adjust.network import Network, evaluate
from geometry.survey.judge.suspects import ALIKE, control
from geometry.survey.result import Array
from geometry.survey.rows.row import BELIEVABLE

GROSS = 15.0
"""Errors beyond this (mm) bend the figure of an instrument out of shape (common practice, no source)."""
ASIDE = 1e4
ROUNDS, STEPS_A_ROUND, NEAR = 8, 6, 0.01


def suspicious(done: Adjusted) -> bool:
    """Whether some reading may be grossly out, or the fit did not come to rest."""
    if not done.resting:
        return True
    sure = done.redundancy > 0.02
    w = np.where(sure, done.w, 0.0)
    beyond = np.abs(w) > BELIEVABLE
    return bool(np.any(beyond & (np.abs(done.residual) > 0.5 * GROSS * np.maximum(done.redundancy, 0.2))))


def robust_fit(net: Network, x: Array) -> Array:
    """The place x (p,) where most readings agree, each trusted the less the worse it does (after A. L. Cauchy's law of
    errors: the weight of a miss of w standard deviations is 1 / (1 + (w / 2)²)).
    """
    x = _by_most(net, x)
    for _ in range(ROUNDS):
        miss = (evaluate(net, x)[0] - net.value) / net.sigma
        trusted = msgspec.structs.replace(net, sigma=net.sigma * np.sqrt(1 + (miss / 2.0) ** 2))
        before = x
        x = come_to_rest(trusted, x, steps=STEPS_A_ROUND).x
        if np.abs(x - before).max(initial=0.0) < NEAR:
            break
    return x


def _by_most(net: Network, x: Array) -> Array:
    """X (p,) with each scale and height as the middle one of its readings has it. Begun at 0, a fit that trusts what
    agrees would trust the shortest reading, which the slip may have made short.
    """
    told: dict[str, list[float]] = {}
    for row in net.rows[: net.fitted]:
        if row.form == "none":
            name, slope = row.extras[0]
            told.setdefault(name, []).append(row.value / slope)
    x = x.copy()
    for name, values in told.items():
        x[net.column(name)] = median(np.array(values))
    return x


def set_aside(net: Network, start: Array, base: Straightedge) -> tuple[tuple[int, ...], Network]:
    """The rows that are grossly out, and the network in which they have next to no say; none where no reading can be
    told from the others.
    """
    x = robust_fit(net, start)
    off = np.abs(evaluate(net, x)[0] - net.value)
    rows = [int(i) for i in np.flatnonzero((off > GROSS) & (off > 2 * BELIEVABLE * net.sigma)) if i < net.fitted]
    if not rows:
        return (), net
    done = describe(net, moved_to_datum(net, x, base, {}), base)
    rows = [row for row in rows if _alone(done, row)]
    sigma = net.sigma.copy()
    sigma[rows] *= ASIDE
    return tuple(rows), msgspec.structs.replace(net, sigma=sigma)


def _alone(done: Adjusted, row: int) -> bool:
    r = done.redundancy
    if r[row] < 100 * NO_CONTROL:
        return False
    alike = np.abs(control(done, row)) / np.sqrt(np.maximum(r, NO_CONTROL) * r[row])
    alike[row] = 0
    return bool(np.all(alike[: done.net.fitted][r[: done.net.fitted] > 10 * NO_CONTROL] <= ALIKE))
