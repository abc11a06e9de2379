"""Least squares of equations that are not straight: damped Gauss-Newton steps until nothing moves any more."""

from collections.abc import Callable

import msgspec
import numpy as np

from geometry.survey.result import Array

STEPS = 200
FIRST_DAMPING = 1e-5


class Normal(msgspec.Struct, frozen=True, eq=False):
    """The normal equations at one place: the weighted sum of squares, matrix (p, p) and right-hand side (p,)."""

    squares: float
    matrix: Array
    pull: Array


class Settled(msgspec.Struct, frozen=True, eq=False):
    """Where the fit came to rest, its normal equations there, and whether it did come to rest."""

    x: Array
    normal: Normal
    resting: bool


def settle(model: Callable[[Array], Normal], x: Array, tolerance: Array | float, steps: int = STEPS) -> Settled:
    """Move x (p,) until no unknown moves by more than its tolerance in one undamped step.

    Damping after D. W. Marquardt, J. SIAM 11(2), 431 (1963): a step that makes the fit worse is taken back and
    tried again shorter, so that an unknown that is nearly loose cannot run away.
    """
    here, damping = model(x), FIRST_DAMPING
    for _ in range(steps):
        step = _step(here, damping)
        if step is None:
            damping *= 10
            continue
        there = model(x + step)
        slack = 1e-9 * (1 + here.squares)
        if np.isfinite(there.squares) and there.squares <= here.squares + slack:
            x, here = x + step, there
            if damping < 1e-7 and np.all(np.abs(step) <= tolerance):
                return Settled(x, here, True)
            damping = max(damping * 1e-3, 1e-13)
        else:
            damping = max(damping * 10, 1e-4)
            if damping > 1e12:
                break
    return Settled(x, here, False)


def _step(here: Normal, damping: float) -> Array | None:
    size = np.diagonal(here.matrix)
    matrix = here.matrix.copy()
    np.fill_diagonal(matrix, size * (1 + damping) + 1e-12 * size.max(initial=1e-12))
    try:
        return np.asarray(np.linalg.solve(matrix, here.pull))
    except np.linalg.LinAlgError:
        return None
