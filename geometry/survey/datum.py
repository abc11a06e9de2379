"""The **datum**: what fixes the frame that places are given in, since readings hold a figure but not where it lies.

A change of datum shifts and turns the figure and carries the covariance along with it (W. Baarda, S-transformations and
criterion matrices, Publ. on Geodesy 5(1), 1973). `Fixed` alone may hold more than three coordinates and so take part.
"""

from collections.abc import Mapping
from typing import Literal

import msgspec
import numpy as np

from geometry.layout import XY
from geometry.survey.network import Index, Network, rigid
from geometry.survey.result import Array


class Straightedge(msgspec.Struct, frozen=True):
    """The first point at the origin, x toward the second."""

    a: str
    b: str


class Free(msgspec.Struct, frozen=True):
    """Shifted and turned to lie as near as can be to the start places of these points (inner constraints)."""

    points: tuple[str, ...]


class NutAxis(msgspec.Struct, frozen=True):
    """The origin midway between the nut's corners, x toward the middle of the board's end corners."""

    nut_left: str
    nut_right: str
    end_left: str
    end_right: str


class Fixed(msgspec.Struct, frozen=True):
    """These coordinates of these points are known without error and stay where the start places put them."""

    points: Mapping[str, Literal["xy", "x", "y"]]


Datum = Straightedge | Free | NutAxis | Fixed


def held(net: Network, datum: Datum) -> Index:
    """The columns that a datum of fixed coordinates takes out of the fit."""
    if not isinstance(datum, Fixed):
        return np.array([], dtype=np.intp)
    columns = [
        2 * net.points.index(name) + axis
        for name, axes in datum.points.items()
        for axis in (0, 1)
        if "xy"[axis] in axes
    ]
    return np.array(columns, dtype=np.intp)


def moved(net: Network, x: Array, datum: Datum, start: Mapping[str, XY]) -> Array:
    """The same figure, shifted and turned into the datum."""
    z = x[: 2 * len(net.points)].view(complex)
    at = {name: z[i] for i, name in enumerate(net.points)}
    match datum:
        case Straightedge(a, b):
            origin, heading = at[a], at[b] - at[a]
            return _turned(net, x, origin, heading / abs(heading), 0j)
        case NutAxis(nut_left, nut_right, end_left, end_right):
            origin = (at[nut_left] + at[nut_right]) / 2
            heading = (at[end_left] + at[end_right]) / 2 - origin
            return _turned(net, x, origin, heading / abs(heading), 0j)
        case Free(points):
            now = np.array([at[name] for name in points])
            then = np.array([complex(*start[name]) for name in points])
            spin = np.vdot(then - then.mean(), now - now.mean())
            return _turned(net, x, complex(now.mean()), complex(spin / abs(spin)), complex(then.mean()))
        case Fixed():
            return x


def _turned(net: Network, x: Array, origin: complex, heading: complex, to: complex) -> Array:
    """X with `origin` brought to the place `to` and `heading` to the x axis (for `to` = 0) or turned back by it."""
    from geometry.survey.network import LEVER

    out = x.copy()
    n2 = 2 * len(net.points)
    z = (x[:n2].view(complex) - origin) / heading + to
    out[:n2] = z.view(float)
    if "at.turn" in net.extras:
        turn, ax, ay = (net.column(name) for name in ("at.turn", "at.x", "at.y"))
        spin = np.exp(1j * x[turn] / LEVER)
        new_spin = spin * heading
        place = complex(x[ax], x[ay]) + spin * origin - new_spin * to
        out[turn] = np.angle(new_spin) * LEVER
        out[ax], out[ay] = place.real, place.imag
    return out


def constraint(net: Network, datum: Datum) -> Array:
    """The three linear conditions of a datum, (3, p): what they give for a small movement is zero."""
    rows = np.zeros((3, net.p))

    def put(row: int, name: str, axis: int, value: float = 1.0) -> None:
        rows[row, 2 * net.points.index(name) + axis] = value

    match datum:
        case Straightedge(a, b):
            put(0, a, 0)
            put(1, a, 1)
            put(2, b, 1)
        case NutAxis(nut_left, nut_right, end_left, end_right):
            for name in (nut_left, nut_right):
                put(0, name, 0)
                put(1, name, 1)
            for name in (end_left, end_right):
                put(2, name, 1)
        case _:
            raise TypeError("only a datum of three conditions has them")
    return rows


def onto(net: Network, x: Array, datum: Datum) -> Array:
    """The matrix (p, p) that carries a small movement, whatever its datum, into this datum at x."""
    moves = rigid(net, x)
    if isinstance(datum, Free):
        rows = np.zeros((net.p, 3))
        for name in datum.points:
            i = 2 * net.points.index(name)
            rows[i : i + 2] = moves[i : i + 2]
        conditions = rows.T
    else:
        conditions = constraint(net, datum)
    return np.asarray(np.eye(net.p) - moves @ np.linalg.solve(conditions @ moves, conditions))
