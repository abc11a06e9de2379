"""Straight lines and frames in the plane, for one instrument or for many slightly different ones at once.

A point or a direction is a complex number x + iy, in mm: turning by 90 degrees to the left is multiplying by i, and a
frame is entered by multiplying with the conjugate of its direction. Arrays carry leading axes for the many. A **line**
is a point on it and its direction, of length one.
"""

import numpy as np
from numpy.typing import NDArray

from geometry.layout import XY

Array = NDArray[np.float64]
Points = NDArray[np.complex128]


def unit(vector: Points) -> Points:
    """Vectors scaled to length one."""
    return vector / np.abs(vector)


def heading(vector: complex) -> complex:
    """One vector scaled to length one; where it has no length, +x."""
    length = abs(vector)
    return vector / length if length > 0 else 1 + 0j


def dot(a: Points, b: Points) -> Array:
    """Scalar products: how far b reaches along a direction a."""
    return (a.conj() * b).real


def cross(a: Points, b: Points) -> Array:
    """Vector products: how far b lies to the left of a direction a."""
    return (a.conj() * b).imag


def following(ring: Points) -> Points:
    """Of each corner of rings (..., n) the next one; the first follows the last."""
    return np.concatenate((ring[..., 1:], ring[..., :1]), axis=-1)


def best_line(points: Points, along: Points) -> tuple[Points, Points]:
    """The line of least squared square distances through points (..., k), k ≥ 2, pointing the way of `along` (...).

    Closed form: the major axis of the points' scatter (K. Pearson, Phil. Mag. 2(11), 559, 1901), which for points z
    about their mean has the direction of the root of Σz². Returns (at, direction).
    """
    at = points.sum(axis=-1) / points.shape[-1]
    off = points - at[..., None]
    direction = unit(np.sqrt((off * off).sum(axis=-1)))
    return at, np.where(dot(direction, along) < 0, -direction, direction)


def bisector(at_a: Points, along_a: Points, at_b: Points, along_b: Points) -> tuple[Points, Points]:
    """The line between two lines of like direction whose points are equally far from both. Returns (at, direction).

    Holds for parallel lines too, where the crossing that school geometry starts from lies at infinity.
    """
    between, middle = along_a + along_b, (at_a + at_b) / 2
    miss = cross(along_a, middle - at_a) + cross(along_b, middle - at_b)
    return middle - 1j * between * (miss / np.abs(between) ** 2), unit(between)


def crossing(at_a: Points, along_a: Points, at_b: Points, along_b: Points) -> Points:
    """Where two lines cross (directions of any length); infinite where they are parallel."""
    other_way = along_b.conj()
    return at_a + along_a * (((at_b - at_a) * other_way).imag / (along_a * other_way).imag)


def into(points: Points, origin: Points, direction: Points) -> Points:
    """Points (..., k) seen in the frame at `origin` (...) whose x runs along `direction` (...)."""
    return (points - origin[..., None]) * direction.conj()[..., None]


def xy(point: complex) -> XY:
    """One point as the layout holds it."""
    return float(point.real), float(point.imag)


def xys(points: Points) -> tuple[XY, ...]:
    """Points (k,) as the layout holds them."""
    return tuple((point.real, point.imag) for point in points.tolist())
