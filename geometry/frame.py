"""Straight lines and frames, for one instrument or for many slightly different ones at once.

Every array carries leading axes for the many (written `...`); a point is its last axis of two, in mm. A **line** is a
point on it and its direction, a unit vector. The left-hand normal of a direction (u, v) is (−v, u).
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def unit(vector: Array) -> Array:
    """Vectors (..., 2) scaled to length one."""
    return vector / np.hypot(vector[..., 0], vector[..., 1])[..., None]


def normal(direction: Array) -> Array:
    """The left-hand normal of a direction (..., 2)."""
    return np.stack((-direction[..., 1], direction[..., 0]), axis=-1)


def dot(a: Array, b: Array) -> Array:
    """Scalar products of vectors (..., 2)."""
    return a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]


def cross(a: Array, b: Array) -> Array:
    """The z component of the vector product of vectors (..., 2): positive where b lies to the left of a."""
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def best_line(points: Array, along: Array) -> tuple[Array, Array]:
    """The line of least squared square distances through points (..., k, 2), k ≥ 2, pointing the way of `along`.

    Closed form: the major axis of the points' scatter (K. Pearson, Phil. Mag. 2(11), 559, 1901).
    Returns (at, direction).
    """
    at = points.mean(axis=-2)
    off = points - at[..., None, :]
    sxx = (off[..., 0] ** 2).sum(axis=-1)
    syy = (off[..., 1] ** 2).sum(axis=-1)
    sxy = (off[..., 0] * off[..., 1]).sum(axis=-1)
    angle = 0.5 * np.arctan2(2 * sxy, sxx - syy)
    direction = np.stack((np.cos(angle), np.sin(angle)), axis=-1)
    return at, np.where(dot(direction, along)[..., None] < 0, -direction, direction)


def bisector(at_a: Array, along_a: Array, at_b: Array, along_b: Array) -> tuple[Array, Array]:
    """The line between two lines of like direction whose points are equally far from both. Returns (at, direction).

    Holds for parallel lines too, where the crossing that school geometry starts from lies at infinity.
    """
    direction = unit(along_a + along_b)
    normals = normal(along_a) + normal(along_b)
    middle = (at_a + at_b) / 2
    miss = dot(normal(along_a), middle - at_a) + dot(normal(along_b), middle - at_b)
    return middle - normals * (miss / dot(normals, normals))[..., None], direction


def crossing(at_a: Array, along_a: Array, at_b: Array, along_b: Array) -> Array:
    """Where two lines cross, (..., 2); infinite where they are parallel."""
    ahead = cross(at_b - at_a, along_b) / cross(along_a, along_b)
    return at_a + along_a * ahead[..., None]


def into(points: Array, origin: Array, direction: Array) -> Array:
    """Points (..., k, 2) seen in the frame at `origin` (..., 2) whose x runs along `direction` (..., 2)."""
    off = points - origin[..., None, :]
    return np.stack((dot(off, direction[..., None, :]), cross(direction[..., None, :], off)), axis=-1)


def turned(vector: Array, direction: Array) -> Array:
    """Vectors (..., 2) seen in a frame whose x runs along `direction` (..., 2)."""
    return np.stack((dot(vector, direction), cross(direction, vector)), axis=-1)
