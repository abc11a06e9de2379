"""How far out of tune a fretted string sounds: the equation, over whole arrays of strings and frets at once.

Pressing a string down to a fret lengthens it a little, which raises its tension; bending stiffness sharpens it, more so
the shorter it is; and the sounding length is not quite what the fret spacing meant. The sum, in cents against the
equal-tempered step above the open string, is what compensation has to undo.

Anderson & Beausoleil, "Classical guitar intonation and compensation: The well-tempered guitar", J. Acoust. Soc. Am.
156(1), 683 (2024). Symbols of that paper: X0 nominal length, dS and dN set-backs at saddle and nut, b string over the
frets' plane at the nut, c saddle over the nut, d finger behind the fret, kappa = 2R + 1 with R = dln f/dln L,
B = sqrt(kappa) rho / (2 L). Every term is kept exact and summed; nothing is linearised.
"""

from typing import Literal

import msgspec
import numpy as np

from geometry.frame import Array as Array
from geometry.spacing import CENTS

CLAMPED = 1.0
"""How many of a string's two ends are taken as clamped: it hinges at the saddle and is clamped at the nut or the fret
(appendix A). Of the three end conditions it is the one with which the paper's predictions met a real instrument."""
HINGED = np.pi**2 / 2
"""The B² term of a string pinned at both ends (derived: sqrt(1 + pi² B²); Fletcher, J. Acoust. Soc. Am. 36, 203
(1964))."""


class Setup(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Strings ready for the equation. Lengths in mm; arrays are (strings, 1) or broadcast with extra axes in front.

    `frets` (strings, frets): nut's front to each fret; `sag` (strings, frets): how far a fret's top lies below the
    frets' plane (relief); `behind` (strings, frets): the finger behind the fret. `rho` is the radius that bends,
    `clamped` how many of the two ends are clamped. `steps` (strings, frets): how many semitones each fret is to be
    above the open string, None where the first fret is one above it.
    """

    nominal: Array
    frets: Array
    height: Array
    rise: Array
    sag: Array
    behind: Array
    kappa: Array
    rho: Array
    clamped: Array | float = CLAMPED
    steps: Array | None = None


def stiff(b: Array, clamped: Array | float = CLAMPED) -> Array:
    """The factor by which stiffness raises the first partial: 1 + n B + (n² + pi²/2) B² with n ends `clamped`.

    n = 1: 1 + B + (1 + pi²/2) B² (appendix A). n = 2: 1 + 2B + 4 (1 + pi²/8) B² (Morse; Fletcher 1964). n = 0 has no
    term in B: pinned at both ends.
    """
    return 1 + b * (clamped + (clamped * clamped + HINGED) * b)


def elongation(s: Setup, saddle: Array, nut: Array) -> tuple[Array, Array, Array]:
    """Open length (mm), sounding lengths (mm) and Q, the relative lengthening by fretting, per fret.

    The string runs straight from the saddle over the fret to the finger `behind` it, and from there to the nut.
    """
    from_saddle = s.nominal + saddle
    open_length = _hypotenuse(from_saddle + nut, s.rise)
    along = np.maximum(from_saddle - s.frets, 1.0)
    low = s.height + s.sag
    drop = low + s.rise
    sounding = _hypotenuse(along, drop)
    on = s.behind / along
    rest = _hypotenuse(np.maximum(s.frets - s.behind + nut, 0.1), low + on * drop)
    return open_length, sounding, (sounding * (1 + on) + rest) / open_length - 1


SLACK = 1e-3
"""The tension, of the open string's, that a fretted one never falls under: half-typed readings may slacken it."""


def _hypotenuse(a: Array, b: Array) -> Array:
    """Several times faster than numpy's own, which guards against numbers no string reaches."""
    return np.sqrt(a * a + b * b)


def fretted_cents(s: Setup, saddle: Array, nut: Array, stiffness: Literal["full", "scaled"] = "full") -> Array:
    """How sharp each fretted note is against the open string, in cents: shape (..., strings, frets).

    `saddle`, `nut`: (..., strings, 1) mm, positive = string longer at that end. `stiffness` "full" takes B of each
    note from its own length and tension (what this project uses); "scaled" takes B_n = 2^(n/12) B_0 with B_0 over the
    nominal length, the reading of the paper that reproduces its printed tables.
    """
    open_length, sounding, q = elongation(s, saddle, nut)
    steps = np.arange(1, 1 + s.frets.shape[-1]) if s.steps is None else s.steps
    bend = np.sqrt(s.kappa) * s.rho / 2
    tighter = np.maximum(1 + s.kappa * q, SLACK)
    if stiffness == "full":
        b_open, b_fret = bend / open_length, bend / (sounding * np.sqrt(tighter))
    else:
        b_open = bend / s.nominal
        b_fret = b_open * 2.0 ** (steps / 12)
    ratio = open_length / stiff(b_open, s.clamped) * stiff(b_fret, s.clamped) * np.sqrt(tighter * (1 + q)) / sounding
    return np.asarray(CENTS * np.log(ratio) - 100.0 * steps)
