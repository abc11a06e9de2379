"""The equation of each form of row and its slopes, for many rows at once.

Points are complex numbers (x + iy): arrays (k, 4), or fewer where a form needs fewer. With u the unit vector A→B and
n = iu its left-hand normal, the part of a vector d along e is Re(conj(e) d). A slope (k, points) is complex too: its
real part belongs to the point's x, its imaginary part to its y. Each is checked against differences in the tests.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from geometry.survey.result import Array

Complex = NDArray[np.complex128]
LEAST = 1e-9
"""Two points nearer than this have no direction (mm); keeps a division finite while places are still sought."""


def _part(d: Complex, e: Complex) -> Array:
    return np.asarray((np.conj(e) * d).real)


def _unit(d: Complex) -> tuple[Complex, Array]:
    length = np.maximum(np.abs(d), LEAST)
    return d / length, length


def _slopes(*parts: Complex) -> Complex:
    """Slopes (k, points) from those of each point (k,)."""
    slopes = np.empty((len(parts[0]), len(parts)), dtype=complex)
    for place, part in enumerate(parts):
        slopes[:, place] = part
    return slopes


def distance(z: Complex) -> tuple[Array, Complex]:
    """|B − A|."""
    u, length = _unit(z[:, 1] - z[:, 0])
    return length, _slopes(-u, u)


def same(z: Complex) -> tuple[Array, Complex]:
    """|B − A| − |D − C|."""
    u, first = _unit(z[:, 1] - z[:, 0])
    w, second = _unit(z[:, 3] - z[:, 2])
    return first - second, _slopes(-u, u, w, -w)


def laid(z: Complex, lean: Complex) -> tuple[Array, Complex]:
    """(P − Q) along lean × u; points P, Q, A, B. The straightedge turns with A and B."""
    u, length = _unit(z[:, 3] - z[:, 2])
    e = lean * u
    d = np.conj(e) * (z[:, 0] - z[:, 1])
    turn = d.imag / length * (1j * u)
    return d.real, _slopes(e, -e, -turn, turn)


def meets(z: Complex) -> tuple[Array, Complex]:
    """From A along u to where the line C-D crosses; points A, B, C, D. `u_` and `d` are seen along C-D."""
    u, length = _unit(z[:, 1] - z[:, 0])
    v, span = _unit(z[:, 3] - z[:, 2])
    u_, d = np.conj(v) * u, np.conj(v) * (z[:, 2] - z[:, 0])
    safe = np.where(np.abs(u_.imag) < LEAST, LEAST, u_.imag)
    t = d.imag / safe
    share = (t * u_.real - d.real) / span
    across = 1j * v / safe
    turn = t * u_.real / safe / length * (1j * u)
    return t, _slopes(turn - across, -turn, (1 - share) * across, share * across)


def square(z: Complex) -> tuple[Array, Complex]:
    """How far A-B leans from square to C-D, as an offset over the shorter of the two."""
    a, b = z[:, 1] - z[:, 0], z[:, 3] - z[:, 2]
    swap = np.abs(b) > np.abs(a)
    long, short = np.where(swap, b, a), np.where(swap, a, b)
    u, length = _unit(long)
    value = _part(short, u)
    by_long = (short - value * u) / length
    by_a, by_b = np.where(swap, u, by_long), np.where(swap, by_long, u)
    return value, _slopes(-by_a, by_a, -by_b, by_b)


def at(z: Complex, lean: Complex) -> tuple[Array, Complex]:
    """P seen in a turned frame: along the axis `lean` (1 or 1j, turned back by the sheet's angle)."""
    return _part(z[:, 0], lean), lean[:, None]


Equation = tuple[Array, Complex]
FORMS: dict[str, Callable[[Complex], Equation]] = {
    "distance": distance,
    "same": same,
    "meets": meets,
    "square": square,
}
LEANING: dict[str, Callable[[Complex, Complex], Equation]] = {"laid": laid, "at": at}
"""The forms that need a direction besides their points."""
