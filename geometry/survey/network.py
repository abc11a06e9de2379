"""A **network**: rows gathered by form into arrays, and their values and slopes at given places.

The unknowns stand in one vector x of length p: first x and y of each point, then the extra unknowns, all in mm (the
turn of the sheet of `at` readings too: the path of a point `LEVER` away). Slopes are kept sparse: row i has its slopes
`jac[i]` (K of them) in the columns `cols[i]`; a column may stand twice and then counts twice.
"""

from collections.abc import Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from geometry.survey.equations import FORMS, LEANING, Complex
from geometry.survey.result import Array
from geometry.survey.rows import Form, Row

Index = NDArray[np.intp]
LEVER = 300.0
"""What turns the sheet's angle into mm, so that all unknowns are of one size."""


class Block(msgspec.Struct, frozen=True, eq=False):
    """The rows of one form: which they are, their points (k, 4) and their leans (k,)."""

    form: Form
    rows: Index
    points: Index
    lean: Complex


class Network(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Rows and their `p` unknowns. The first `fitted` rows are readings, the rest is known beforehand."""

    points: tuple[str, ...]
    extras: tuple[str, ...]
    p: int
    rows: tuple[Row, ...]
    fitted: int
    value: Array
    sigma: Array
    cols: Index
    pairs: Index
    slopes: Array
    blocks: tuple[Block, ...]

    def column(self, extra: str) -> int:
        """The column of an extra unknown, −1 where there is none of that name."""
        return 2 * len(self.points) + self.extras.index(extra) if extra in self.extras else -1


def network_of(rows: Sequence[Row]) -> Network:
    """Gather rows; points and extra unknowns are numbered as they come up."""
    point_at: dict[str, int] = {}
    extra_at: dict[str, int] = {}
    by_form: dict[Form, tuple[list[int], list[list[int]]]] = {}
    extras: list[tuple[int, int, int, float]] = []
    for i, row in enumerate(rows):
        if row.points:
            which, points = by_form.setdefault(row.form, ([], []))
            which.append(i)
            points.append([point_at.setdefault(name, len(point_at)) for name in row.points])
        for k, (name, slope) in enumerate(row.extras):
            extras.append((i, 8 + k, extra_at.setdefault(name, len(extra_at)), slope))
    m, first = len(rows), 2 * len(point_at)
    wide = max((k + 1 for _, k, _, _ in extras), default=8)
    p = first + len(extra_at)
    cols, slopes = np.zeros((m, wide), dtype=np.intp), np.zeros((m, wide))
    if extras:
        where = tuple(np.array([(i, k) for i, k, _, _ in extras], dtype=np.intp).T)
        cols[where] = [first + column for _, _, column, _ in extras]
        slopes[where] = [slope for _, _, _, slope in extras]
    blocks = tuple(_block(form, which, points, rows) for form, (which, points) in by_form.items())
    for block in blocks:
        size = block.points.shape[1]
        cols[block.rows, 0 : 2 * size : 2] = 2 * block.points
        cols[block.rows, 1 : 2 * size : 2] = 2 * block.points + 1
    return Network(
        points=tuple(point_at),
        extras=tuple(extra_at),
        p=p,
        rows=tuple(rows),
        fitted=sum(1 for row in rows if row.id),
        value=np.array([row.value for row in rows]),
        sigma=np.array([row.sigma for row in rows]),
        cols=cols,
        pairs=(cols[:, :, None] * p + cols[:, None, :]).ravel(),
        slopes=slopes,
        blocks=blocks,
    )


def _block(form: Form, which: list[int], points: list[list[int]], rows: Sequence[Row]) -> Block:
    lean = np.array([rows[i].lean for i in which], dtype=complex)
    return Block(form, np.array(which, dtype=np.intp), np.array(points, dtype=np.intp), lean)


def evaluate(net: Network, x: Array) -> tuple[Array, Array]:
    """The rows' values (m,) and slopes (m, K) at x (p,)."""
    jac = net.slopes.copy()
    g = np.einsum("mk,mk->m", jac[:, 8:], x[net.cols[:, 8:]])
    places = x[: 2 * len(net.points)].view(complex)
    turn = x[net.column("at.turn")] / LEVER if "at.turn" in net.extras else 0.0
    for block in net.blocks:
        lean = block.lean * np.exp(-1j * turn) if block.form == "at" else block.lean
        z = places[block.points]
        value, slope = LEANING[block.form](z, lean) if block.form in LEANING else FORMS[block.form](z)
        g[block.rows] += value
        jac[block.rows, : 2 * slope.shape[1]] = slope.view(float)
        if block.form == "at":
            jac[block.rows, 8] = np.imag(np.conj(lean) * z[:, 0]) * (-1 / LEVER)
    return g, jac


def dense(net: Network, jac: Array) -> Array:
    """The slopes as a full matrix (m, p)."""
    m, p = len(net.rows), net.p
    where = (np.arange(m)[:, None] * p + net.cols).ravel()
    return _summed(where, jac.ravel(), m * p).reshape(m, p)


def normal(net: Network, scaled: Array) -> Array:
    """The normal matrix (p, p) of slopes (m, K) that are already divided by their rows' sigma."""
    weights = (scaled[:, :, None] * scaled[:, None, :]).ravel()
    return _summed(net.pairs, weights, net.p**2).reshape(net.p, net.p)


def pulled(net: Network, scaled: Array, miss: Array) -> Array:
    """The right-hand side (p,): scaled slopes times scaled misses (m,)."""
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
    if "at.turn" in net.extras:
        turn, ax, ay = (net.column(name) for name in ("at.turn", "at.x", "at.y"))
        cos, sin = np.cos(x[turn] / LEVER), np.sin(x[turn] / LEVER)
        moves[ax, 0], moves[ay, 0] = -cos, -sin
        moves[ax, 1], moves[ay, 1] = sin, -cos
        moves[turn, 2] = -LEVER
    return moves
