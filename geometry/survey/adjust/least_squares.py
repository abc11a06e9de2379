"""Least squares of equations that are not straight: damped Gauss-Newton steps until nothing is left to gain."""

from collections.abc import Callable

import msgspec
import numpy as np

from geometry.survey.adjust.sparse import Sparse
from geometry.survey.result import Array

MOST_STEPS = 200
FIRST, MOST = 1e-9, 1e12
LOOSER = 1e-6
"""The damping of a large network that nothing holds in some direction."""
REST = 1e-10
"""A gain in the sum of squares too small to matter: the last step, still taken, is under 1e-5 standard deviations."""


class Normal(msgspec.Struct, frozen=True, eq=False):
    """The normal equations at one place: the weighted sum of squares, matrix (p, p) and right-hand side (p,)."""

    squares: float
    matrix: Array | Sparse
    pull: Array


class Settled(msgspec.Struct, frozen=True, eq=False):
    """Where the fit came to rest, whether it did come to rest, and the weighted sum of squares there."""

    x: Array
    resting: bool
    squares: float


def settle(model: Callable[[Array], Normal], x: Array, rest: float = REST, steps: int = MOST_STEPS) -> Settled:
    """Move x (p,) until a step promises to better the weighted sum of squares by no more than `rest`.

    Damping after D. W. Marquardt, J. SIAM 11(2), 431 (1963): a step that makes the fit worse is taken back and tried
    again shorter, so that an unknown that is nearly loose cannot run away.
    """
    here, damping = model(x), FIRST
    for _ in range(steps):
        step = _step(here, damping)
        promise = float(step @ here.pull)
        if promise <= rest and damping <= 1e-6:
            return Settled(x + step, True, here.squares)
        there = model(x + step)
        if there.squares <= here.squares * (1 + 1e-12) + 1e-12:
            x, here = x + step, there
            damping = max(damping * 1e-3, FIRST * 1e-3)
        else:
            damping = max(damping * 10, 1e-4)
        if damping > MOST:
            break
    return Settled(x, False, here.squares)


def _step(here: Normal, damping: float) -> Array:
    if isinstance(here.matrix, Sparse):
        return _sparse_step(here.matrix, here.pull, damping)
    matrix = here.matrix.copy()
    size = matrix.ravel()[:: len(matrix) + 1]
    size *= 1 + damping
    size[size <= 0] = 1.0
    try:
        return np.asarray(np.linalg.solve(matrix, here.pull))
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.lstsq(matrix, here.pull, rcond=None)[0])


def _sparse_step(matrix: Sparse, pull: Array, damping: float) -> Array:
    """The step of a large network; where it is singular it is damped further, which shortens the step."""
    for more in (damping, max(damping, LOOSER), 1.0):
        try:
            step = matrix.damped(more).solve(pull)
        except RuntimeError:
            continue
        if np.isfinite(step).all():
            return step
    return np.zeros(len(pull))
