"""Which readings do not go with the others, and how surely one of them can be named.

Words: a row's **control** is its redundancy number; **w** its residual over its own standard deviation (W. Baarda, A
testing procedure for use in geodetic networks, Publ. on Geodesy 2(5), 1968); two rows are **inseparable** where their w
correlate beyond `ALIKE`, so that either may be the wrong one; the **smallest error** that would show is
`SHOWS` × σ / √r, found with 80 % certainty at a false alarm in a thousand.
"""

import msgspec
import numpy as np

from geometry.survey.adjust import NO_CONTROL, Adjusted
from geometry.survey.result import Array

BELIEVABLE = 3.2905267314919255
"""The normal distribution's two-sided 0.1 % point."""
SHOWS = 4.13214796506484
"""`BELIEVABLE` plus the normal distribution's 80 % point, 0.8416 (Baarda 1968)."""
ALIKE = 0.98


class Suspects(msgspec.Struct, frozen=True):
    """Row numbers: single suspects in the order found, and the group that none can be named from; a swap if found."""

    named: tuple[int, ...] = ()
    group: tuple[int, ...] = ()
    swap: tuple[int, ...] = ()


def control_matrix(done: Adjusted) -> Array:
    """The matrix C of SIGMA-scaled residuals: v/σ = −C l/σ; its diagonal is the redundancy, (m, m)."""
    scaled = done.gain * done.net.sigma
    from geometry.survey.network import dense, evaluate

    full = dense(done.net, evaluate(done.net, done.x)[1]) / done.net.sigma[:, None]
    return np.asarray(np.eye(len(done.net.rows)) - full @ scaled)


def snoop(done: Adjusted) -> Suspects:
    """Take out the row with the largest w, over and over, until none is beyond belief or the leader is inseparable.

    Each time the others' residuals follow from the control matrix (the fit hardly bends over a few mm).
    """
    fitted = done.net.fitted
    c = control_matrix(done)
    v = done.residual / done.net.sigma
    named: list[int] = []
    while True:
        r = np.diagonal(c)
        sure = r > NO_CONTROL * 10
        w = np.where(sure, v / np.sqrt(np.where(sure, r, 1.0)), 0.0)
        w[fitted:] = 0
        if named:
            w[named] = 0
        if not fitted or abs(w[leader := int(np.argmax(np.abs(w)))]) <= BELIEVABLE:
            return Suspects(tuple(named))
        alike = np.abs(c[leader]) / np.sqrt(np.where(sure, r, 1.0) * r[leader])
        group = [int(i) for i in np.flatnonzero((alike > ALIKE) & sure) if i < fitted]
        if len(group) > 1:
            return Suspects(tuple(named), tuple(group))
        named.append(leader)
        column = c[:, leader] / r[leader]
        v = v - column * v[leader]
        c = c - np.outer(column, c[leader])
