"""The stretch equation against a numerical solution of the stiff string, which shares none of its formulas.

T y'' − E I y'''' = −m omega² y on [0, L], pinned at the saddle (y = y'' = 0) and clamped at the other end
(y = y' = 0), is solved by Chebyshev collocation (L. N. Trefethen, "Spectral Methods in MATLAB", 2000, program 6 for
the matrix).
"""

import numpy as np
import pytest
from scipy.linalg import eig

from geometry.job import Heights, String, Strings
from geometry.strings.compensation import residual_cents, strings_as_played
from geometry.strings.stretch import Array, stiff
from geometry.strings.string_make import E_STEEL, STEEL
from tests.published.string_cases import equal_frets

POINTS = 80


def chebyshev(count: int) -> tuple[Array, Array]:
    """Points on [-1, 1] and the matrix that differentiates there."""
    x = np.cos(np.pi * np.arange(count + 1) / count)
    c = np.r_[2.0, np.ones(count - 1), 2.0] * (-1.0) ** np.arange(count + 1)
    gaps = x[:, None] - x[None, :] + np.eye(count + 1)
    d = np.outer(c, 1 / c) / gaps
    return x, d - np.diag(d.sum(axis=1))


def first_partial(tension: float, bending: float, mass: float, length: float) -> float:
    """The lowest frequency (Hz) of a stiff string pinned at one end and clamped at the other. SI units."""
    _, d = chebyshev(POINTS)
    d = d * 2 / length
    d2 = d @ d
    left = -tension * d2 + bending * (d2 @ d2)
    right = mass * np.eye(POINTS + 1)
    for row, condition in ((0, np.eye(POINTS + 1)[0]), (1, d2[0]), (-1, np.eye(POINTS + 1)[-1]), (-2, d[-1])):
        left[row], right[row] = condition, 0.0
    squares = np.asarray(eig(left, right, right=False), dtype=np.complex128)
    real = squares[np.isfinite(squares)].real
    return float(np.sqrt(real[real > 1.0].min()) / (2 * np.pi))


@pytest.mark.parametrize("b", [0.0015, 0.004, 0.01])
def test_stiffness_factor_of_the_first_partial(b: float) -> None:
    limp = np.sqrt(100.0 / 1e-3) / 2
    found = first_partial(100.0, 100.0 * b**2, 1e-3, 1.0) / limp
    assert found == pytest.approx(float(stiff(np.array(b))), abs=5 * np.pi**2 * b**3 + 1e-6)


@pytest.mark.parametrize(("pitch", "inches", "hertz"), [("E4", 0.012, 329.628), ("B3", 0.016, 246.942)])
def test_cents_of_a_plain_steel_string_from_open_and_stopped_frequencies(
    pitch: str, inches: float, hertz: float
) -> None:
    nominal, low, rise, saddle = 645.0, 0.45, 2.8, 1.2
    strings = Strings(
        list=(String(name="1", pitch=pitch, diameter=f"{inches} in"),), height=Heights(nut=low, saddle=rise)
    )
    frets = equal_frets(nominal, 1)
    said = residual_cents(strings_as_played(strings, "right", frets), np.array([saddle]))[0]
    diameter = inches * 0.0254
    area = np.pi / 4 * diameter**2
    tension = STEEL * area * (2 * nominal / 1000 * hertz) ** 2
    bending = E_STEEL * np.pi * diameter**4 / 64
    whole = np.hypot(nominal + saddle, rise)
    open_hertz = first_partial(tension, bending, STEEL * area, whole / 1000)
    for fret in (1, 5, 12):
        at = frets.frets[0, fret - 1]
        stopped = np.hypot(nominal + saddle - at, low + rise)
        longer = (stopped + np.hypot(at, low)) / whole - 1
        found = first_partial(tension + E_STEEL * area * longer, bending, STEEL * area / (1 + longer), stopped / 1000)
        assert 1200 * np.log2(found / open_hertz) - 100 * fret == pytest.approx(said[fret - 1], abs=0.02)
