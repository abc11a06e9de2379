"""The adjustment: all rows at once by weighted least squares, in any datum, with what it says of every row."""

from collections.abc import Mapping

import msgspec
import numpy as np

from geometry.layout import XY
from geometry.survey.adjust.datum import Datum, Fixed, Free, datum_transform, held_columns, moved_to_datum
from geometry.survey.adjust.least_squares import Normal, Settled, settle
from geometry.survey.adjust.looseness import inverse, is_covariance, loose_points
from geometry.survey.adjust.network import NO_COLUMNS, Index, Network, dense, evaluate, normal, rigid, sparse_normal
from geometry.survey.adjust.sparse import SPARSE, Pattern, product
from geometry.survey.adjust.sparse import inverse as sparse_inverse
from geometry.survey.result import Array

NO_CONTROL = 1e-6
"""Below this redundancy number a row is checked by nothing and its w says nothing."""


class Adjusted(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The fit at rest. `x` (p,) in the datum, `cov` (p, p) a priori, `gain` (p, m), `redundancy` and `residual` (m,)
    for every row of the network, `slopes` (m, p) over sigma, `squares` the weighted sum of squares, `dof` rows less
    rank. `free` (p, k) are the movements that nothing holds, `loose` the points that they move or that are held too
    weakly to be of use. `datum` is what it stands on. `resting`: whether the steps came to an end.
    """

    net: Network
    x: Array
    cov: Array
    gain: Array
    slopes: Array
    redundancy: Array
    residual: Array
    squares: float
    dof: int
    free: Array
    loose: frozenset[str]
    datum: Datum
    resting: bool = True

    def place(self, name: str) -> XY:
        """Where a point lies."""
        i = 2 * self.net.points.index(name)
        return float(self.x[i]), float(self.x[i + 1])

    def spread(self, name: str) -> Array:
        """A point's covariance (2, 2)."""
        i = 2 * self.net.points.index(name)
        return self.cov[i : i + 2, i : i + 2]

    @property
    def w(self) -> Array:
        """Standardised residuals v / (σ √r) (m,), NaN where nothing checks the row.

        W. Baarda, A testing procedure for use in geodetic networks, Publ. on Geodesy 2(5), 1968.
        """
        control = np.where(self.redundancy > NO_CONTROL, self.redundancy, np.nan)
        return np.asarray(self.residual / self.net.sigma / np.sqrt(control))

    @property
    def tau(self) -> Array:
        """W over the standard deviation of unit weight (m,), NaN where nothing checks the row (A. J. Pope 1976)."""
        return self.w / np.sqrt(self.squares / self.dof) if self.dof else self.w * np.nan


def adjust(net: Network, datum: Datum, start: Mapping[str, XY]) -> Adjusted:
    """Weighted least squares of a network in a datum, from start places of all its points (any unit of length).

    Covariances are a priori (σ₀ = 1). The fit runs about the points' middle, so that coordinates of thousands of
    metres lose nothing. Raises KeyError for a point without a start place.
    """
    places = np.array([start[name] for name in net.points], dtype=float).reshape(-1, 2)
    middle = places.mean(axis=0) if len(places) else np.zeros(2)
    x = np.zeros(net.p)
    x[: places.size] = (places - middle).ravel()
    fit = come_to_rest(net, x, held_columns(net, datum))
    x = fit.x
    if not isinstance(datum, Fixed):
        near = {name: (at[0] - middle[0], at[1] - middle[1]) for name, at in start.items()}
        x = moved_to_datum(net, x, datum, near)
    done = msgspec.structs.replace(describe(net, x, datum), resting=fit.resting)
    if isinstance(datum, Fixed | Free):
        back = done.x.copy()
        back[: places.size] += np.tile(middle, len(places))
        done = msgspec.structs.replace(done, x=back)
    return done


class Model(msgspec.Struct, frozen=True, eq=False):
    """A network's normal equations; `fixed` columns stay put, `gauge` (p, 3) stills the figure as a whole."""

    net: Network
    fixed: Index
    gauge: Array

    def __call__(self, x: Array) -> Normal:
        """The normal equations at x."""
        net = self.net
        g, jac = evaluate(net, x)
        miss = (net.value - g) / net.sigma
        scaled = jac / net.sigma[:, None]
        if net.pattern is not None:
            return self._large(net.pattern, scaled, miss)
        matrix, pull = normal(net, scaled, miss)
        matrix += self.gauge @ self.gauge.T
        if len(self.fixed):
            matrix[self.fixed, :] = matrix[:, self.fixed] = 0
            matrix[self.fixed, self.fixed] = 1
            pull[self.fixed] = 0
        return Normal(float(miss @ miss), matrix, pull)

    def _large(self, pattern: Pattern, scaled: Array, miss: Array) -> Normal:
        """Those of a large network, some of whose columns always stay put."""
        matrix, pull = sparse_normal(self.net, pattern, scaled, miss)
        pull[self.fixed] = 0
        return Normal(float(miss @ miss), matrix.held(self.fixed), pull)


def come_to_rest(net: Network, x: Array, fixed: Index = NO_COLUMNS, steps: int = 40) -> Settled:
    """Fit the network from the start x (p,), the `fixed` columns held where they are."""
    still = np.zeros((net.p, 0))
    if not len(fixed) and net.p <= SPARSE:
        still = _gauge(net, x)
    elif not len(fixed):
        fixed = _anchors(net, x)
    return settle(Model(net, fixed, still), x, steps=steps)


def _gauge(net: Network, x: Array) -> Array:
    """Three movements of all points (p, 3), each of length 1: they hold the figure still while it is fitted."""
    if not net.points:
        return np.zeros((net.p, 0))
    moves = rigid(net, x)
    moves[2 * len(net.points) :] = 0
    return np.asarray(moves / np.maximum(np.sqrt((moves**2).sum(axis=0)), 1e-9))


def _anchors(net: Network, x: Array) -> Index:
    """Three columns that hold the figure still: one point, and the bearing to the one farthest from it.

    For a large network, whose normal matrix a gauge would fill.
    """
    z = x[: 2 * len(net.points)].view(complex)
    far = int(np.argmax(np.abs(z - z[0])))
    sideways = 0 if abs((z[far] - z[0]).imag) > abs((z[far] - z[0]).real) else 1
    return np.array([0, 1, 2 * far + sideways], dtype=np.intp)


def describe(net: Network, x: Array, datum: Datum) -> Adjusted:
    """What the fit says where it came to rest at x, already in the datum: covariance, redundancy, what is loose."""
    g, jac = evaluate(net, x)
    residual = g - net.value
    scaled, miss = jac / net.sigma[:, None], residual / net.sigma
    slopes = dense(net, scaled)
    fixed = held_columns(net, datum)
    matrix, _ = normal(net, scaled, miss)
    cov, free = _covariance(net, x, matrix, fixed)
    if not isinstance(datum, Fixed) and net.points:
        into = datum_transform(net, x, datum)
        cov, free = into.covariance(cov), into(free)
    reach = slopes @ cov if net.p <= SPARSE else product(slopes, cov)
    gain = (reach / net.sigma[:, None]).T
    rank = net.p - len(fixed) - (0 if len(fixed) or not net.points else 3) - free.shape[1]
    return Adjusted(
        net=net,
        x=x,
        cov=_with_carried(net, cov, gain),
        gain=gain,
        slopes=slopes,
        redundancy=np.clip(1 - (slopes * reach).sum(axis=1), 0.0, 1.0),
        residual=residual,
        squares=float(miss @ miss),
        dof=len(net.rows) - rank,
        free=free,
        loose=loose_points(net, x, cov, free),
        datum=datum,
    )


def _with_carried(net: Network, cov: Array, gain: Array) -> Array:
    """The covariance (p, p) with what the fit takes as given and may be otherwise (B. D. Tapley, B. E. Schutz and G. H.
    Born, Statistical Orbit Determination, 2004, on consider covariance; from memory).
    """
    for i, row in enumerate(net.rows[net.fitted :], net.fitted):
        if row.carried:
            cov = cov + np.outer(gain[:, i], gain[:, i]) * (row.carried**2 - row.sigma**2)
    return cov


def _covariance(net: Network, x: Array, matrix: Array, fixed: Index) -> tuple[Array, Array]:
    """The covariance (p, p) in some datum, the fixed columns or one that holds the figure still; and what is free."""
    if not len(fixed) and net.p > SPARSE:
        quick = _large(net, x, matrix)
        if quick is not None:
            return quick, np.zeros((net.p, 0))
    if not len(fixed):
        gauge = _gauge(net, x)
        return inverse(matrix + gauge @ gauge.T)
    keep = _others(net.p, fixed)
    inside, free_inside = inverse(matrix[np.ix_(keep, keep)])
    cov, free = np.zeros((net.p, net.p)), np.zeros((net.p, free_inside.shape[1]))
    cov[np.ix_(keep, keep)] = inside
    free[keep] = free_inside
    return cov, free


def _large(net: Network, x: Array, matrix: Array) -> Array | None:
    """The covariance of a large network with its anchors held; None where some of it is free."""
    keep = _others(net.p, _anchors(net, x))
    try:
        inside = sparse_inverse(matrix[np.ix_(keep, keep)])
    except RuntimeError:
        return None
    if not is_covariance(inside):
        return None
    cov = np.zeros((net.p, net.p))
    cov[np.ix_(keep, keep)] = inside
    return cov


def _others(p: int, some: Index) -> Index:
    """Of p unknowns all but some."""
    stays = np.ones(p, dtype=bool)
    stays[some] = False
    return np.flatnonzero(stays)
