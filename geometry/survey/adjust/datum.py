"""The **datum**: what fixes the frame that places are given in, since readings hold a figure but not where it lies.

A change of datum shifts and turns the figure and carries the covariance along with it (W. Baarda, S-transformations and
criterion matrices, Publ. on Geodesy 5(1), 1973). `Fixed` alone may hold more than three coordinates and so take part.
"""

import math
from collections.abc import Mapping
from typing import Literal

import msgspec
import numpy as np

from geometry.frame import heading
from geometry.layout import XY
from geometry.survey.adjust.network import LEVER, NO_COLUMNS, Index, Network, rigid, sheets
from geometry.survey.result import Array

HOLDING = 1e-6
"""Conditions whose determinant (mm, or mm² for a free datum) is less hold no turn: their points coincide."""


class Straightedge(msgspec.Struct, frozen=True):
    """The first point at the origin, x toward the second."""

    a: str
    b: str


class Free(msgspec.Struct, frozen=True):
    """Shifted and turned to lie as near as can be to the start places of these points (inner constraints)."""

    points: tuple[str, ...]


class Fixed(msgspec.Struct, frozen=True):
    """These coordinates of these points are known without error and stay where the start places put them."""

    points: Mapping[str, Literal["xy", "x", "y"]]


Moving = Straightedge | Free
Datum = Moving | Fixed


class DatumTransform(msgspec.Struct, frozen=True, eq=False):
    """How small movements are carried into a datum: what the `conditions` (3, p) see is undone by `moves` (p, 3)."""

    moves: Array
    conditions: Array

    def __call__(self, movements: Array) -> Array:
        """Movements (p, k), carried."""
        return np.asarray(movements - self.moves @ (self.conditions @ movements))

    def covariance(self, cov: Array) -> Array:
        """A covariance (p, p), carried."""
        once = self(cov)
        return np.asarray(once - (once @ self.conditions.T) @ self.moves.T)


def held_columns(net: Network, datum: Datum) -> Index:
    """The columns that a datum of fixed coordinates takes out of the fit."""
    if not isinstance(datum, Fixed):
        return NO_COLUMNS
    columns = [
        2 * net.points.index(name) + axis
        for name, axes in datum.points.items()
        for axis in (0, 1)
        if "xy"[axis] in axes
    ]
    return np.array(columns, dtype=np.intp)


def datum_transform(net: Network, x: Array, datum: Moving) -> DatumTransform:
    """How a small movement at x, whatever its datum, is carried into this one."""
    moves = rigid(net, x)
    conditions = np.zeros((3, net.p))
    column = {name: 2 * place for place, name in enumerate(net.points)}
    match datum:
        case Straightedge(a, b):
            conditions[[0, 1], [column[a], column[a] + 1]] = 1
            along = x[column[b]] - x[column[a]], x[column[b] + 1] - x[column[a] + 1]
            conditions[2, [column[b], column[b] + 1]] = np.array((-along[1], along[0])) / (math.hypot(*along) or 1.0)
        case Free(points):
            columns = [column[name] + axis for name in points for axis in (0, 1)]
            conditions[:, columns] = moves[columns].T
    seen = conditions @ moves
    if abs(np.linalg.det(seen)) > HOLDING:
        return DatumTransform(moves, np.asarray(np.linalg.solve(seen, conditions), dtype=np.float64))
    return DatumTransform(moves, np.asarray(np.linalg.lstsq(seen, conditions, rcond=1e-12)[0], dtype=np.float64))


def moved_to_datum(net: Network, x: Array, datum: Moving, start: Mapping[str, XY]) -> Array:
    """The same figure, shifted and turned into the datum."""
    z = x[: 2 * len(net.points)].view(complex)
    at = dict(zip(net.points, z.tolist(), strict=True))
    match datum:
        case Straightedge(a, b):
            return _turned(net, x, at[a], at[b] - at[a], 0j)
        case Free(points):
            now = np.array([at[name] for name in points])
            then = np.array([complex(*start[name]) for name in points])
            along = complex(np.vdot(then - then.mean(), now - now.mean()))
            return _turned(net, x, complex(now.mean()), along, complex(then.mean()))


def _turned(net: Network, x: Array, origin: complex, along: complex, to: complex) -> Array:
    """The figure with `origin` brought to the place `to` and turned back by the angle of `along`."""
    back = heading(along)
    out = x.copy()
    size = 2 * len(net.points)
    out[:size] = ((x[:size].view(complex) - origin) / back + to).view(float)
    for up, (turn, ax, ay) in sheets(net):
        spin = np.exp(1j * x[turn] / LEVER)
        away = spin * origin - spin * back * to
        out[turn] = np.angle(spin * back) * LEVER
        out[ax], out[ay] = x[ax] + away.real, x[ay] + up * away.imag
    return out
