"""Which readings do not go with the others, and how surely one of them can be named.

Words: a row's **control** is its redundancy number r; **w** its residual over its own standard deviation; two rows are
**inseparable** where their w correlate beyond `ALIKE`, so that either may be the wrong one; the **smallest error** that
would show is `SHOWS` × σ / √r, found with 80 % certainty at one false alarm in a thousand.
(W. Baarda, A testing procedure for use in geodetic networks, Publ. on Geodesy 2(5), 1968.)

What is snooped is each reading, and the zero of each laying of the rule as well: a hand that lays it on its 10 mm mark,
or on the wrong edge, makes all readings of that laying wrong alike, of which none stands out by itself.

A whole job may be read more **coarsely** than it was said to be. A reading is accused only where it stands out from the
others as they are, which is judged by how well they agree without it (A. J. Pope, The statistics of residuals and the
detection of outliers, NOAA Tech. Rep. NOS 65 NGS 1, 1976), and from so many as there are (after C. E. Bonferroni).
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist

import msgspec
import numpy as np

from geometry.layout import TWO_SIDED_95
from geometry.median import median
from geometry.survey.adjust.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.adjust.datum import Datum, Fixed, Free
from geometry.survey.adjust.network import NO_COLUMNS, Network
from geometry.survey.result import Array
from geometry.survey.rows.row import BELIEVABLE, Row

SHOWS = 4.13214796506484
"""`BELIEVABLE` plus the normal distribution's 80 % point, 0.8416."""
ALIKE = 0.98
FALSELY = 0.03
"""The share of jobs without a misreading in which one is accused all the same, at most."""
AS_SAID, SOMEWHAT = 8, 1.8
"""Before anything is read, hands are taken to be somewhat coarser than said: their variance is `SOMEWHAT` times what it
should be, known as well as from `AS_SAID` redundant readings (derived: the campaign's share of innocents accused)."""
CLIPPED, MIDDLE = 3.0, 0.6744897501960817
"""Among the others one more may stand out: it counts for so many standard deviations at most. And the normal
distribution's middle absolute deviation."""
AS_LIKELY = 6.0
"""Readings are as likely the wrong one whose w² differ by less: twenty to one (derived: exp(6 / 2) = 20)."""
SAID = 4
"""How finely readings were said to be read is known as well as from so many redundant ones that agree so (derived: the
campaign's ± of hands 1.5 times as coarse as said, which one in a thousand's chance mostly lets pass)."""
EVEN = 0.1
"""mm. Rows of a group whose errors would have to be as nearly alike stay in the order in which they were read."""
MOST = 12
"""How many of the worst readings are looked at one by one."""
FAR_LESS, TRIED = 4.0, 4
"""An exchange explains what is wrong where it leaves the sum of squares this much smaller; how many are tried."""


class Suspects(msgspec.Struct, frozen=True):
    """Row numbers, of readings or of a laying's zero: `named` one by one with the error of each (mm, readings less
    truth), a `group` that none can be named from with the least of their errors, a `swap`. `coarse`: how many times
    more coarsely the others were read than was said, where that is beyond chance; 1 otherwise. `wider`: how many times
    as wide every ± is for how the others agree, beyond chance or not; never finer than said.
    """

    named: tuple[int, ...] = ()
    errors: tuple[float, ...] = ()
    group: tuple[int, ...] = ()
    group_error: float = 0.0
    swap: tuple[int, ...] = ()
    coarse: float = 1.0
    wider: float = 1.0


@lru_cache(maxsize=1024)
def beyond_belief(count: int, dof: int) -> float:
    """From how many standard deviations on one of `count` residuals is not believed, where these are known from `dof`
    redundant readings: Student's t at `FALSELY` shared out among all.
    """
    return max(BELIEVABLE, students_t(NormalDist().inv_cdf(1 - FALSELY / (2 * max(count, 1))), dof))


def students_t(z: float, dof: int) -> float:
    """The point of Student's t that is passed as rarely as the normal distribution's `z` (M. Abramowitz and I. A.
    Stegun, Handbook of Mathematical Functions, 1964, 26.7.5).
    """
    one, two = (z**3 + z) / 4, (5 * z**5 + 16 * z**3 + 3 * z) / 96
    three = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    return z + one / dof + two / dof**2 + three / dof**3


def find_suspects(done: Adjusted) -> Suspects:
    """The suspects of a fit: an exchange that explains all where no single misreading does, else what is snooped."""
    found = snoop(done)
    if len(found.named) + len(found.group) < 2:
        return _as_likely(done, found)
    if _explaining(done):
        return found
    swaps = find_swaps(done)
    if len(swaps) > 1:
        either = tuple(dict.fromkeys(row for pair in swaps for row in pair))
        return Suspects(
            group=either,
            group_error=min(_apart(done.net, *pair) for pair in swaps),
            coarse=found.coarse,
            wider=found.wider,
        )
    return msgspec.structs.replace(found, swap=swaps[0]) if swaps else found


def _apart(net: Network, i: int, j: int) -> float:
    return abs(float(net.value[i] - net.value[j]))


def _as_likely(done: Adjusted, found: Suspects) -> Suspects:
    """The one reading that is named, or it and those that explain what is wrong as well as it does."""
    if len(found.named) != 1:
        return found
    leader = found.named[0]
    w = np.nan_to_num(done.w)
    as_well = [row for row in _explaining(done) if w[row] ** 2 > w[leader] ** 2 - AS_LIKELY]
    if len(as_well) < 2 or leader not in as_well:
        return found
    out = np.abs(done.residual / np.where(done.redundancy > 10 * NO_CONTROL, done.redundancy, NO_CONTROL))
    group = _least_first(as_well, out)
    return Suspects(group=group, group_error=float(out[group[0]]), coarse=found.coarse, wider=found.wider)


def _least_first(group: Sequence[int], out: Array) -> tuple[int, ...]:
    """A group by how far out each of its rows would have to be, mm (m,): a small slip is likelier than a large one."""
    return tuple(sorted(group, key=lambda row: (round(float(out[row]) / EVEN), row)))


def _explaining(done: Adjusted) -> list[int]:
    """The readings, and the layings, of which each one, left out, leaves nothing beyond belief."""
    v, r, doubted = done.residual / done.net.sigma, done.redundancy, done.net.doubted
    sure = r > 10 * NO_CONTROL
    w = np.where(sure, v / np.sqrt(np.where(sure, r, 1.0)), 0.0)[:doubted]
    most = beyond_belief(int(sure[:doubted].sum()), AS_SAID + max(done.dof - 1, 0))
    found = []
    for row in np.argsort(-np.abs(w))[:MOST].tolist():
        if abs(w[row]) <= BELIEVABLE:
            break
        column = control(done, row)
        rest, left = v - column * (v[row] / r[row]), r - column**2 / r[row]
        seen = np.flatnonzero(left[:doubted] > 10 * NO_CONTROL)
        if (np.abs(rest[seen]) <= most * np.sqrt(left[seen])).all():
            found.append(row)
    return found


def control(done: Adjusted, row: int) -> Array:
    """One column (m,) of the matrix C that makes residuals of readings: v/σ = −C l/σ."""
    column = -done.slopes @ done.gain[:, row] * done.net.sigma[row]
    column[row] += 1
    return np.asarray(column)


def snoop(done: Adjusted) -> Suspects:
    """Take out the row with the largest w, over and over, until none is beyond belief or the leader is inseparable.

    How the others' residuals change follows from the control matrix: over a few mm the fit hardly bends.
    """
    doubted = done.net.doubted
    v, r = done.residual / done.net.sigma, done.redundancy.copy()
    squares, dof = done.squares, done.dof
    taken: list[tuple[int, Array]] = []
    errors: list[float] = []
    group: tuple[int, ...] = ()
    least = 0.0
    while doubted:
        sure = r > 10 * NO_CONTROL
        w = np.where(sure, v / np.sqrt(np.where(sure, r, 1.0)), 0.0)
        w[doubted:] = 0
        w[[row for row, _ in taken]] = 0
        leader = int(np.argmax(np.abs(w)))
        seen = np.abs(w[:doubted][sure[:doubted]])
        if abs(w[leader]) <= _most(seen, squares, dof):
            break
        column = control(done, leader)
        for row, earlier in taken:
            column = column - earlier * (column[row] / earlier[row])
        error = float(-v[leader] / r[leader] * done.net.sigma[leader])
        alike = np.abs(column) / np.sqrt(np.where(sure, r, 1.0) * r[leader])
        same = [int(i) for i in np.flatnonzero((alike > ALIKE) & sure) if i < doubted]
        squares, dof = squares - float(w[leader]) ** 2, dof - 1
        if len(same) > 1:
            out = np.abs(v / np.where(sure, r, 1.0) * done.net.sigma)
            group = _least_first(same, out)
            least = float(out[group[0]])
            break
        taken.append((leader, column))
        errors.append(error if leader < done.net.fitted else -error)  # a zero says 0: its readings err the other way
        v = v - column * (v[leader] / r[leader])
        r = r - column**2 / r[leader]
    coarse = math.sqrt(squares / dof) if dof > 0 and squares > chi_square(dof) else 1.0
    return Suspects(_rows(taken), tuple(errors), group, least, coarse=coarse, wider=_wider(squares, dof, coarse))


def _wider(squares: float, dof: int, coarse: float) -> float:
    """How many times as wide every ± is. Beyond chance the readings alone tell, and Student's t with them how little so
    few can; within it, what is said beforehand counts as `SAID` readings' worth.
    """
    if coarse > 1:
        return coarse * students_t(TWO_SIDED_95, dof) / TWO_SIDED_95
    return math.sqrt(max(1.0, (SAID + squares) / (SAID + max(dof, 0))))


def _most(w: Array, squares: float, dof: int) -> float:
    """How far the largest of the absolute `w` (k,) may reach, going by how well the others agree.

    These tell how coarsely all were read: their root mean square, with what is expected of hands beforehand.
    """
    if len(w) < 2:
        return BELIEVABLE
    first, second = np.partition(w, -2)[[-1, -2]].tolist()
    middle = max(1.0, median(w) / MIDDLE)
    rest = squares - first**2 - max(0.0, second**2 - (CLIPPED * middle) ** 2)
    known = AS_SAID + max(dof - 1, 0)
    coarse = math.sqrt(max(1.0, (AS_SAID * SOMEWHAT + max(rest, 0.0)) / known))
    return beyond_belief(len(w), known) * coarse


ONE_SIDED_999 = 3.0902
"""The normal distribution's one-sided 0.1 % point."""


def chi_square(dof: int) -> float:
    """The point that a weighted sum of squares with `dof` redundant readings stays below in all but 0.1 % of cases.

    E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17, 684 (1931).
    """
    part = 2 / (9 * dof)
    return float(dof * (1 - part + ONE_SIDED_999 * math.sqrt(part)) ** 3)


def _rows(taken: list[tuple[int, Array]]) -> tuple[int, ...]:
    return tuple(row for row, _ in taken)


def find_swaps(done: Adjusted) -> list[tuple[int, int]]:
    """The pairs of readings of one kind whose values, exchanged, make all agree."""
    return [(i, j) for i, j in exchanges(done) if agrees(exchanged(done.net, i, j), done.x)]


def exchanges(done: Adjusted) -> list[tuple[int, int]]:
    """The pairs of one kind that leave the least sum of squares if their values are exchanged, the worse one first."""
    net, m = done.net, done.net.fitted
    left = squares_if_exchanged(done)
    forms = {key: k for k, key in enumerate(dict.fromkeys(_form(row) for row in net.rows[:m]))}
    kinds = np.array([forms[_form(row)] for row in net.rows[:m]])
    may = np.triu(kinds[:, None] == kinds[None, :]) & (left < done.squares / FAR_LESS)  # equal values leave all of it
    pairs = sorted(zip(*np.nonzero(may), strict=True), key=lambda pair: float(left[pair]))
    w = np.nan_to_num(np.abs(done.w))
    return [(int(i), int(j)) if w[i] >= w[j] else (int(j), int(i)) for i, j in pairs[:TRIED]]


def squares_if_exchanged(done: Adjusted) -> Array:
    """The sum of squares (m, m) that the readings leave if the values of any two are exchanged.

    With C the control matrix and e the change over sigma it becomes S − 2 v e + eᵀ C e (derived: v = −C l, and C is its
    own square).
    """
    net, m = done.net, done.net.fitted
    values, sigma = net.value[:m], net.sigma[:m]
    v = done.residual[:m] / sigma
    c = np.eye(m) - (done.slopes @ done.gain)[:m, :m] * sigma
    by = values[None, :] - values[:, None]
    own, other = by / sigma[:, None], -by / sigma[None, :]
    each = np.diagonal(c)
    left = done.squares - 2 * (v[:, None] * own + v[None, :] * other)
    return np.asarray(left + each[:, None] * own**2 + each[None, :] * other**2 + 2 * c * own * other)


def _form(row: Row) -> tuple[str, str, int, str]:
    """What tells readings of one kind from those of another; of what has no points, the unknown it is of."""
    return row.form, row.component, len(row.points), "" if row.points else row.extras[0][0].partition(".")[0]


def exchanged(net: Network, i: int, j: int) -> Network:
    """The network with the values of two rows exchanged."""
    value = net.value.copy()
    value[[i, j]] = value[[j, i]]
    return msgspec.structs.replace(net, value=value)


def agrees(net: Network, x: Array) -> bool:
    """Whether the network, fitted from x (p,), leaves no reading beyond belief."""
    still = np.arange(2 * len(net.points)) if len(net.points) < 2 else NO_COLUMNS
    again = come_to_rest(net, x, still)
    datum: Datum = Free(net.points) if len(net.points) > 1 else Fixed(dict.fromkeys(net.points, "xy"))
    there = describe(net, again.x, datum)
    w = np.nan_to_num(there.w[: net.fitted])
    return again.resting and float(np.abs(w).max()) <= beyond_belief(len(w), AS_SAID + max(there.dof, 0))
