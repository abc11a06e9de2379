"""Which readings do not go with the others, and how surely one of them can be named.

Words: a row's **control** is its redundancy number r; **w** its residual over its own standard deviation; two rows are
**inseparable** where their w correlate beyond `ALIKE`, so that either may be the wrong one; the **smallest error** that
would show is `SHOWS` × σ / √r, found with 80 % certainty at one false alarm in a thousand.
(W. Baarda, A testing procedure for use in geodetic networks, Publ. on Geodesy 2(5), 1968.)
"""

import math

import msgspec
import numpy as np

from geometry.survey.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.datum import Datum, Fixed, Free
from geometry.survey.network import Network
from geometry.survey.result import Array

BELIEVABLE = 3.2905267314919255
"""The normal distribution's two-sided 0.1 % point."""
SHOWS = 4.13214796506484
"""`BELIEVABLE` plus the normal distribution's 80 % point, 0.8416."""
ALIKE = 0.98
MOST_SWAPS = 12
"""Exchanges are tried among so many of the worst readings."""


class Suspects(msgspec.Struct, frozen=True):
    """Row numbers: `named` one by one with the error of each (mm, reading less truth), a `group` that none can be
    named from with the least of their errors, a `swap`.
    """

    named: tuple[int, ...] = ()
    errors: tuple[float, ...] = ()
    group: tuple[int, ...] = ()
    group_error: float = 0.0
    swap: tuple[int, ...] = ()


def find_suspects(done: Adjusted) -> Suspects:
    """The suspects of a fit: an exchange that explains all, else what snooping names."""
    found = snoop(done)
    if len(found.named) + len(found.group) < 2:
        return found
    swap = find_swap(done)
    return msgspec.structs.replace(found, swap=swap) if swap else found


def control(done: Adjusted, row: int) -> Array:
    """One column (m,) of the matrix C that makes residuals of readings: v/σ = −C l/σ."""
    column = -done.slopes @ done.gain[:, row] * done.net.sigma[row]
    column[row] += 1
    return np.asarray(column)


def snoop(done: Adjusted) -> Suspects:
    """Take out the row with the largest w, over and over, until none is beyond belief or the leader is inseparable.

    How the others' residuals change follows from the control matrix: over a few mm the fit hardly bends.
    """
    fitted = done.net.fitted
    v, r = done.residual / done.net.sigma, done.redundancy.copy()
    taken: list[tuple[int, Array]] = []
    errors: list[float] = []
    while fitted:
        sure = r > 10 * NO_CONTROL
        w = np.where(sure, v / np.sqrt(np.where(sure, r, 1.0)), 0.0)
        w[fitted:] = 0
        w[[row for row, _ in taken]] = 0
        leader = int(np.argmax(np.abs(w)))
        if abs(w[leader]) <= BELIEVABLE:
            break
        column = control(done, leader)
        for row, earlier in taken:
            column = column - earlier * (column[row] / earlier[row])
        error = float(-v[leader] / r[leader] * done.net.sigma[leader])
        alike = np.abs(column) / np.sqrt(np.where(sure, r, 1.0) * r[leader])
        group = [int(i) for i in np.flatnonzero((alike > ALIKE) & sure) if i < fitted]
        if len(group) > 1:
            least = np.abs(v / np.where(sure, r, 1.0) * done.net.sigma)[group].min()
            return Suspects(_rows(taken), tuple(errors), tuple(group), float(least))
        taken.append((leader, column))
        errors.append(error)
        v = v - column * (v[leader] / r[leader])
        r = r - column**2 / r[leader]
    return Suspects(_rows(taken), tuple(errors))


def _rows(taken: list[tuple[int, Array]]) -> tuple[int, ...]:
    return tuple(row for row, _ in taken)


def find_swap(done: Adjusted) -> tuple[int, ...]:
    """Two readings of one kind whose values, exchanged, leave nothing beyond belief; empty where there are none."""
    net, w = done.net, np.nan_to_num(done.w[: done.net.fitted])
    worst = [int(i) for i in np.argsort(-np.abs(w))[:MOST_SWAPS] if abs(w[i]) > BELIEVABLE]
    columns = {row: control(done, row) for row in worst}
    sure = done.redundancy > 10 * NO_CONTROL
    root = np.sqrt(np.where(sure, done.redundancy, 1.0))
    best: tuple[float, tuple[int, ...]] = (math.inf, ())
    for n, i in enumerate(worst):
        for j in worst[n + 1 :]:
            one, two = net.rows[i], net.rows[j]
            if (one.form, one.component, len(one.points)) != (two.form, two.component, len(two.points)):
                continue
            by = two.value - one.value
            v = done.residual / net.sigma - columns[i] * (by / net.sigma[i]) + columns[j] * (by / net.sigma[j])
            beyond = float(np.abs(np.where(sure, v / root, 0.0))[: net.fitted].max())
            if by and beyond < min(best[0], 1.5 * BELIEVABLE):
                best = beyond, (i, j)
    return best[1] if best[1] and agrees(exchanged(net, *best[1]), done.x) else ()


def exchanged(net: Network, i: int, j: int) -> Network:
    """The network with the values of two rows exchanged."""
    value = net.value.copy()
    value[[i, j]] = value[[j, i]]
    return msgspec.structs.replace(net, value=value)


def agrees(net: Network, x: Array) -> bool:
    """Whether the network, fitted from x (p,), leaves no reading beyond belief."""
    still = np.arange(2 * len(net.points)) if len(net.points) < 2 else np.array([], dtype=np.intp)
    again = come_to_rest(net, x, still)
    datum: Datum = Free(net.points) if len(net.points) > 1 else Fixed(dict.fromkeys(net.points, "xy"))
    w = np.nan_to_num(describe(net, again.x, datum).w[: net.fitted])
    return again.resting and float(np.abs(w).max()) <= BELIEVABLE
