"""What would be found without the readings that are accused: worked out from the fit that has them in, not anew.

Leaving out the rows S changes the state by G C⁻¹ v and adds G C⁻¹ Gᵀ to its covariance, with G what each of them does
to the state, C their part of the control matrix and v their residuals, all over their sigma (derived: the normal
equations less S, by the Sherman-Morrison-Woodbury formula). Over a few mm the fit hardly bends; what would move a point
farther is fitted anew.
"""

from collections.abc import Iterable, Sequence

import msgspec
import numpy as np

from geometry.survey.adjust.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.adjust.datum import Fixed, Moving, moved_to_datum
from geometry.survey.adjust.network import Network
from geometry.survey.judge.suspects import Suspects, control
from geometry.survey.result import Alternative, Array
from geometry.survey.rows.row import BELIEVABLE

MOST = 12
"""How many readings beyond belief are looked at, the worst first."""
FAR = 5.0
"""A change larger than this, mm, is worked out anew."""
LITTLE = 1e4
"""How little say a reading has that is left out of a fit."""
LEAST = 1e-3
"""Rows that cannot be left out together, for little would hold what they hold."""


def alternatives(done: Adjusted, net: Network, found: Suspects, aside: Sequence[int]) -> tuple[Alternative, ...]:
    """What may be instead, by every reading accused or beyond belief, and by all that are accused together.

    `net` is the network as read, `done` the fit in which the rows `aside` have no say.
    """
    named = [row for row in found.named if row not in aside]
    sure = done.redundancy[: net.doubted] > 10 * NO_CONTROL
    w = np.where(sure, np.nan_to_num(done.w[: net.doubted]), 0.0)
    accused = bool(named or found.group or found.swap)
    beyond = [int(i) for i in np.argsort(-np.abs(w))[:MOST] if abs(w[i]) > BELIEVABLE] if accused else []
    alone = dict.fromkeys((*named, *found.group, *found.swap, *beyond))
    sets: list[tuple[int, ...]] = [(row,) for row in alone if row not in aside]
    if named and len(named) + bool(found.group) > 1:
        sets += [(*named, row) for row in found.group] or [tuple(named)]
    if found.swap:
        sets.append(found.swap)
    return (*_left_out(done, sets), *(_let_in(done, net, row) for row in aside))


def _left_out(done: Adjusted, sets: Iterable[tuple[int, ...]]) -> Iterable[Alternative]:
    sigma, columns = done.net.sigma, dict[int, Array]()
    size = 2 * len(done.net.points)
    for rows in sets:
        for row in rows:
            if row not in columns:
                columns[row] = control(done, row)
        own = np.array([[columns[j][i] for j in rows] for i in rows])
        own = (own + own.T) / 2
        values, vectors = np.linalg.eigh(own)
        if values.min() < LEAST * max(values.max(), LEAST):
            continue
        pull = done.gain[:, list(rows)] * sigma[list(rows)] @ vectors / np.sqrt(values)
        miss = vectors.T @ (done.residual[list(rows)] / sigma[list(rows)]) / np.sqrt(values)
        change = pull @ miss
        if not isinstance(done.datum, Fixed) and np.abs(change[:size]).max(initial=0.0) > FAR:
            change, pull = _anew(done, done.datum, rows)
        ids = tuple(dict.fromkeys(name for row in rows for name in done.net.ids(row)))
        yield Alternative(ids=ids, change=change, more=pull)


def _anew(done: Adjusted, base: Moving, rows: Sequence[int]) -> tuple[Array, Array]:
    """The change of the state (p,) and what its covariance gains, as a factor (p, k), by a fit without some rows."""
    sigma = done.net.sigma.copy()
    sigma[list(rows)] *= LITTLE
    lighter = msgspec.structs.replace(done.net, sigma=sigma)
    fit = come_to_rest(lighter, done.x)
    again = describe(lighter, moved_to_datum(lighter, fit.x, base, {}), base)
    values, vectors = np.linalg.eigh(again.cov - done.cov)
    more = values > 0
    return again.x - done.x, np.asarray(vectors[:, more] * np.sqrt(values[more]))


def _let_in(done: Adjusted, net: Network, row: int) -> Alternative:
    """What a millimetre in a row set aside would do if it had its say."""
    own = done.gain[:, row] * done.net.sigma[row] ** 2
    held = max(1 - float(done.redundancy[row]), 0.0) * done.net.sigma[row] ** 2
    return Alternative(
        ids=(net.rows[row].id,), change=own / (net.sigma[row] ** 2 + held), more=np.zeros((len(own), 0)), aside=True
    )
