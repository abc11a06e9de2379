"""The adjustment: all rows at once by weighted least squares, in any datum, with what it says of every row."""

import math
from collections.abc import Mapping

import msgspec
import numpy as np

from geometry.layout import XY
from geometry.survey.datum import Datum, Fixed, held, moved, onto
from geometry.survey.least_squares import Normal, settle
from geometry.survey.network import Index, Network, dense, evaluate, normal, pulled, rigid
from geometry.survey.result import Array

LOOSE = 10.0
"""A point whose standard deviation in its worst direction is over this (mm) counts as loose.

The limit on the singular values: the weighted slopes' least singular value is one over the standard deviation of the
movement that belongs to it, so a movement held no better than this is as good as free at the bench.
"""
FREE = 1e-9
"""A movement whose singular value squared (1/mm²) is below this is held by nothing at all."""
NO_CONTROL = 1e-6
"""Below this redundancy number a row is checked by nothing and its w says nothing."""


class Adjusted(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The fit at rest. `x` (p,) in the datum, `cov` (p, p) a priori, `gain` (p, m), `redundancy` and `residual` (m,)
    for every row of the network, `squares` the weighted sum of squares, `dof` rows less rank. `free` (p, k) are the
    movements that nothing holds; `loose` the points that they move, or that are held worse than `LOOSE`.
    """

    net: Network
    x: Array
    cov: Array
    gain: Array
    redundancy: Array
    residual: Array
    squares: float
    dof: int
    free: Array
    loose: frozenset[str]
    resting: bool

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
        """Standardised residuals v / (σ √r), NaN where nothing checks the row (W. Baarda 1968)."""
        control = np.where(self.redundancy > NO_CONTROL, self.redundancy, np.nan)
        return np.asarray(self.residual / self.net.sigma / np.sqrt(control))


def model_of(net: Network, fixed: Index, gauge: Array | None) -> "NetworkModel":
    """The network's normal equations as `settle` wants them."""
    return NetworkModel(net, fixed, gauge)


class NetworkModel(msgspec.Struct, frozen=True, eq=False):
    """Normal equations of a network; `fixed` columns stay put, `gauge` (p, 3) stills the figure as a whole."""

    net: Network
    fixed: Index
    gauge: Array | None

    def __call__(self, x: Array) -> Normal:
        """The normal equations at x."""
        net = self.net
        g, jac = evaluate(net, x)
        miss = (net.value - g) / net.sigma
        scaled = jac / net.sigma[:, None]
        matrix, pull = normal(net, scaled), pulled(net, scaled, miss)
        if self.gauge is not None:
            matrix += self.gauge @ self.gauge.T
        if len(self.fixed):
            matrix[self.fixed, :] = 0
            matrix[:, self.fixed] = 0
            matrix[self.fixed, self.fixed] = 1
            pull[self.fixed] = 0
        return Normal(float(miss @ miss), matrix, pull)


def still(net: Network, x: Array) -> Array:
    """Three movements of the points as a whole (p, 3), of one size, to hold the figure still while it is fitted."""
    moves = rigid(net, x)
    moves[2 * len(net.points) :] = 0
    middle = moves.copy()
    lengths = np.sqrt((middle**2).sum(axis=0))
    return np.asarray(middle / np.where(lengths > 0, lengths, 1.0))


def come_to_rest(net: Network, x: Array, fixed: Index) -> tuple[Array, bool]:
    """Fit the network from the start x (p,); returns the resting place and whether there is one."""
    gauge = None if len(fixed) else still(net, x)
    size = max(float(np.ptp(x[: 2 * len(net.points)])) if net.points else 1.0, 1.0)
    done = settle(NetworkModel(net, fixed, gauge), x, tolerance=1e-11 * size)
    return done.x, done.resting


def adjust(net: Network, datum: Datum, start: Mapping[str, XY], extras: Mapping[str, float] | None = None) -> Adjusted:
    """Weighted least squares of a network in a datum, from start places of all its points.

    Values and covariances are a priori (σ₀ = 1). Raises KeyError for a point without a start place.
    """
    places = np.array([start[name] for name in net.points], dtype=float).reshape(-1, 2)
    away = places.mean(axis=0) if len(places) and isinstance(datum, (Fixed,)) else np.zeros(2)
    if len(places) and not isinstance(datum, Fixed):
        away = places.mean(axis=0)
    near = {name: (float(x - away[0]), float(y - away[1])) for name, (x, y) in start.items()}
    x = np.zeros(net.p)
    x[: 2 * len(net.points)] = (places - away).ravel()
    for name, value in (extras or {}).items():
        if name in net.extras:
            x[net.column(name)] = value
    x, resting = come_to_rest(net, x, held(net, datum))
    done = described(net, moved(net, x, datum, near), datum, resting)
    if isinstance(datum, Fixed) or type(datum).__name__ == "Free":
        back = done.x.copy()
        back[: 2 * len(net.points)] += np.tile(away, len(net.points))
        return msgspec.structs.replace(done, x=back)
    return done


def described(net: Network, x: Array, datum: Datum, resting: bool = True) -> Adjusted:
    """What the fit says where it came to rest at x: covariance, redundancy, what is loose."""
    g, jac = evaluate(net, x)
    scaled = jac / net.sigma[:, None]
    fixed = held(net, datum)
    matrix = normal(net, scaled)
    keep = np.setdiff1d(np.arange(net.p), fixed)
    gauge = np.zeros((net.p, 0)) if len(fixed) else still(net, x)
    inside = (matrix + gauge @ gauge.T)[np.ix_(keep, keep)]
    cov = np.zeros((net.p, net.p))
    cov[np.ix_(keep, keep)], free_inside = inverse(inside)
    free = np.zeros((net.p, free_inside.shape[1]))
    free[keep] = free_inside
    loose = _loose(net, cov, free) if isinstance(datum, Fixed) else frozenset[str]()
    if not isinstance(datum, Fixed):
        carry = onto(net, x, datum)
        centre = onto(net, x, _all(net))
        loose = _loose(net, centre @ cov @ centre.T, carry @ free)
        cov = carry @ cov @ carry.T
        free = carry @ free
    full = dense(net, scaled)
    reach = cov @ full.T
    redundancy = 1 - np.einsum("mp,pm->m", full, reach)
    rank = net.p - (0 if len(fixed) else 3) - len(fixed) - free.shape[1]
    residual = g - net.value
    return Adjusted(
        net=net,
        x=x,
        cov=cov,
        gain=reach / net.sigma,
        redundancy=np.clip(redundancy, 0.0, 1.0),
        residual=residual,
        squares=float(((residual / net.sigma) ** 2).sum()),
        dof=len(net.rows) - rank,
        free=free,
        loose=loose,
        resting=resting,
    )


def _all(net: Network) -> Datum:
    from geometry.survey.datum import Free

    return Free(net.points)


def inverse(matrix: Array) -> tuple[Array, Array]:
    """The inverse of a normal matrix (p, p), and the movements (p, k) that it does not hold, left out of the inverse.

    The quick way where all is held; else by its eigenvalues, which are the squares of the singular values of the
    weighted slopes.
    """
    if not len(matrix):
        return matrix, np.zeros((0, 0))
    try:
        quick = np.linalg.inv(matrix)
        if np.all(np.diagonal(quick) > 0) and float(np.diagonal(quick).max()) < 1 / FREE / 100:
            return (quick + quick.T) / 2, np.zeros((len(matrix), 0))
    except np.linalg.LinAlgError:
        pass
    values, vectors = np.linalg.eigh(matrix)
    kept = values > FREE
    half = vectors[:, kept] / np.sqrt(values[kept])
    return half @ half.T, vectors[:, ~kept]


def _loose(net: Network, cov: Array, free: Array) -> frozenset[str]:
    n2 = 2 * len(net.points)
    at = np.arange(0, n2, 2)
    xx, yy, xy = cov[at, at], cov[at + 1, at + 1], cov[at, at + 1]
    worst = (xx + yy) / 2 + np.hypot((xx - yy) / 2, xy)
    moving = (free[:n2] ** 2).sum(axis=1).reshape(-1, 2).sum(axis=1) > 1e-8
    return frozenset(net.points[i] for i in np.flatnonzero(moving | (worst > LOOSE**2)))


def half_width(sd: float) -> float:
    """The half-width of the 95 % interval of a standard deviation."""
    return 1.959963984540054 * sd if math.isfinite(sd) else math.inf
