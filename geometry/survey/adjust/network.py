"""A **network**: rows gathered by form into arrays, and their values and slopes at given places.

The unknowns stand in one vector x of length p: first x and y of each point, then the extra unknowns, all in mm (the
turn of a sheet of `at` readings too: the path of a point `LEVER` away). Slopes are kept sparse: row i has its slopes
`jac[i]` (K of them) in the columns `cols[i]`; a column may stand twice and then counts twice.
"""

from collections.abc import Iterable, Iterator, Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from geometry.job.measured.kinds import PointForm
from geometry.survey.adjust.sparse import SPARSE, Pattern, Sparse, gathered, pattern_of
from geometry.survey.result import Array
from geometry.survey.rows.forms import FORMS, Complex
from geometry.survey.rows.row import Row

Index = NDArray[np.intp]
NO_COLUMNS: Index = np.array([], dtype=np.intp)
"""No unknown is held where it is."""
LEVER = 300.0
"""What turns a sheet's angle into mm, so that all unknowns are of one size."""
SHEETS = {"at": 1, "inside": -1}
"""The sheets that `at` readings are read off, and how the one inside the body shows y: mirrored."""


class Block(msgspec.Struct, frozen=True, eq=False):
    """The rows of one form: which they are, their points (k, 4) and their leans (k,)."""

    form: PointForm
    rows: Index
    points: Index
    lean: Complex


class Network(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Rows and their `p` unknowns. The first `fitted` rows are readings, the rest is known beforehand; of these the
    zeros of layings stand first, and the first `doubted` rows are what a slip of the hand may have made wrong. `where`
    (m K,) is each slope's place in the full matrix (m, p), and `pattern` that of a large one's normal matrix.
    """

    points: tuple[str, ...]
    extras: tuple[str, ...]
    p: int
    rows: tuple[Row, ...]
    fitted: int
    doubted: int
    value: Array
    sigma: Array
    cols: Index
    where: Index
    slopes: Array
    blocks: tuple[Block, ...]
    pattern: Pattern | None = None

    def ids(self, row: int) -> tuple[str, ...]:
        """The readings that a row is of: its own, or all of the laying whose zero it says."""
        laying = self.rows[row].laying
        if not laying:
            return (self.rows[row].id,)
        zero = f"zero.{laying}"
        mine = (one.id for one in self.rows[: self.fitted] if any(name == zero for name, _ in one.extras))
        return tuple(dict.fromkeys(mine))

    def column(self, extra: str) -> int:
        """The column of an extra unknown, −1 where there is none of that name."""
        return 2 * len(self.points) + self.extras.index(extra) if extra in self.extras else -1


def network_of(rows: Sequence[Row]) -> Network:
    """Gather rows; points and extra unknowns are numbered as they come up."""
    tied = [(i, row) for i, row in enumerate(rows) if row.points]
    extras = [(i, k, name, slope) for i, row in enumerate(rows) for k, (name, slope) in enumerate(row.extras, 8)]
    point_at = _numbered(name for _, row in tied for name in row.points)
    extra_at = _numbered(name for _, _, name, _ in extras)
    m, first = len(rows), 2 * len(point_at)
    wide = 8 + max(len(row.extras) for row in rows) if rows else 8
    p = first + len(extra_at)
    cols, slopes = np.zeros((m, wide), dtype=np.intp), np.zeros((m, wide))
    used = np.zeros((m, wide), dtype=bool)
    if extras:
        at, place, names, parts = zip(*extras, strict=True)
        cols[at, place] = [first + extra_at[name] for name in names]
        slopes[at, place] = parts
        used[at, place] = True
    forms = dict.fromkeys(row.form for _, row in tied if row.form != "none")
    blocks = tuple(_block(form, [(i, row) for i, row in tied if row.form == form], point_at) for form in forms)
    for block in blocks:
        size = block.points.shape[1]
        cols[block.rows, 0 : 2 * size : 2] = 2 * block.points
        cols[block.rows, 1 : 2 * size : 2] = 2 * block.points + 1
        used[block.rows, : 2 * size] = True
    return Network(
        points=tuple(point_at),
        extras=tuple(extra_at),
        p=p,
        rows=tuple(rows),
        fitted=sum(1 for row in rows if row.id),
        doubted=sum(1 for row in rows if row.id or row.laying),
        value=np.array([row.value for row in rows]),
        sigma=np.array([row.sigma for row in rows]),
        cols=cols,
        where=(np.arange(m)[:, None] * p + cols).ravel(),
        slopes=slopes,
        blocks=blocks,
        pattern=pattern_of(cols, used, p) if p > SPARSE else None,
    )


def _numbered(names: Iterable[str]) -> dict[str, int]:
    return {name: place for place, name in enumerate(dict.fromkeys(names))}


def _block(form: PointForm, tied: list[tuple[int, Row]], point_at: dict[str, int]) -> Block:
    which, points, leans = zip(
        *((i, [point_at[name] for name in row.points], row.lean) for i, row in tied), strict=True
    )
    return Block(form, np.array(which, dtype=np.intp), np.array(points, dtype=np.intp), np.array(leans, dtype=complex))


def evaluate(net: Network, x: Array) -> tuple[Array, Array]:
    """The rows' values (m,) and slopes (m, K) at x (p,)."""
    jac = net.slopes.copy()
    g = (jac[:, 8:] * x[net.cols[:, 8:]]).sum(axis=1)
    places = x[: 2 * len(net.points)].view(complex)
    for block in net.blocks:
        lean = block.lean
        if block.form == "at":
            lean = lean * np.exp(-1j / LEVER * x[net.cols[block.rows, 8]])
        z = places[block.points]
        value, slope = FORMS[block.form].equation(z, lean)
        g[block.rows] += value
        jac[block.rows, : 2 * slope.shape[1]] = slope.view(float)
        if block.form == "at":
            jac[block.rows, 8] = np.imag(np.conj(lean) * z[:, 0]) * (-1 / LEVER)
    return g, jac


def dense(net: Network, jac: Array) -> Array:
    """The slopes as a full matrix (m, p)."""
    m, p = len(net.rows), net.p
    return _summed(net.where, jac.ravel(), m * p).reshape(m, p)


def normal(net: Network, scaled: Array, miss: Array) -> tuple[Array, Array]:
    """The normal matrix (p, p) and right-hand side (p,) of slopes (m, K) and misses (m,), both over their rows' sigma.

    A small network's through the full matrix, which is quicker; a large one's never needs it.
    """
    if net.p <= SPARSE:
        full = dense(net, scaled)
        return full.T @ full, full.T @ miss
    pairs = (net.cols[:, :, None] * net.p + net.cols[:, None, :]).ravel()
    weights = (scaled[:, :, None] * scaled[:, None, :]).ravel()
    return _summed(pairs, weights, net.p**2).reshape(net.p, net.p), _pull(net, scaled, miss)


def sparse_normal(net: Network, pattern: Pattern, scaled: Array, miss: Array) -> tuple[Sparse, Array]:
    """The same of a large network, as it is solved."""
    return gathered(pattern, scaled[:, :, None] * scaled[:, None, :]), _pull(net, scaled, miss)


def _pull(net: Network, scaled: Array, miss: Array) -> Array:
    return _summed(net.cols.ravel(), (scaled * miss[:, None]).ravel(), net.p)


def _summed(where: Index, parts: Array, size: int) -> Array:
    return np.asarray(np.bincount(where, parts, minlength=size), dtype=np.float64)


def rigid(net: Network, x: Array) -> Array:
    """How x moves when the whole figure is shifted along x, along y and turned, (p, 3); no row changes."""
    n2 = 2 * len(net.points)
    moves = np.zeros((net.p, 3))
    moves[0:n2:2, 0] = 1
    moves[1:n2:2, 1] = 1
    moves[0:n2:2, 2] = -x[1:n2:2]
    moves[1:n2:2, 2] = x[0:n2:2]
    for up, (turn, ax, ay) in sheets(net):
        cos, sin = np.cos(x[turn] / LEVER), np.sin(x[turn] / LEVER)
        moves[ax, 0], moves[ay, 0] = -cos, -sin * up
        moves[ax, 1], moves[ay, 1] = sin, -cos * up
        moves[turn, 2] = -LEVER
    return moves


def sheets(net: Network) -> Iterator[tuple[int, tuple[int, int, int]]]:
    """The sheets that `at` readings were read off: which way each shows y, and the columns of its turn, x and y."""
    for name, up in SHEETS.items():
        if f"{name}.turn" in net.extras:
            yield up, (net.column(f"{name}.turn"), net.column(f"{name}.x"), net.column(f"{name}.y"))
