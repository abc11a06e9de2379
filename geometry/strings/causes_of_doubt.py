"""What is not known of the strings: each **cause** by which their compensation may be wrong, moved by its own standard
deviation. Causes are independent; some move one string alone, some several together.

The causes are moved on strings of the usual make for their material and gauge, whatever else was typed of them, so that
knowing more never widens a ±. Heights that nobody read may be anything within two standard deviations: every other
cause is tried at the corners of that room, and where it tells most it counts.
"""

from itertools import product

import msgspec
import numpy as np

from geometry.job.stringing import Strings
from geometry.strings.played import PlayedStrings
from geometry.strings.stretch import Array, Setup
from geometry.strings.string_heights import FRETS
from geometry.strings.string_make import Make, make, of_usual_make

NEAR, FAR, ENDS, SET, CAUSES = 4, 5, 6, 7, 8
"""The heights over frets 1 and 12, how the ends hold, the stretch of all strings of one make; how many causes there
are. Before these stand each string's own: stretch, core, bending radius, and mass as it acts on E A / T."""
SHARED = slice(NEAR, SET)
SHARED_NAMES = ("heights.0", "heights.1", "ends", "usual.treble", "usual.bass")
WIDE = 2.0
"""Standard deviations of a height that nobody read, within which it lies."""


def common_names(strings: Strings) -> tuple[str, ...]:
    """What may be wrong for several strings at once: both heights, how the ends hold, the usual figures at treble and
    at bass, and the stretch of all strings of one material and build that was not measured.
    """
    return (*SHARED_NAMES, *(f"stretch.{material}.{build}" for material, build in groups(strings)))


def groups(strings: Strings) -> tuple[tuple[str, str], ...]:
    """The materials and builds whose stretch is taken from the material alone."""
    made = ((s, make(s)) for s in strings.list)
    return tuple(dict.fromkeys((s.material, s.build) for s, one in made if one is not None and one.set_sd > 0))


def unsure(ready: PlayedStrings) -> Setup:
    """The strings in (corners, 1 + causes) states: as they are thought to be, and behind that with each cause moved."""
    s, corners = ready.setup, _corners(ready)
    own = np.array([_unknowns(made) for made in ready.makes]).T[..., None]
    stretch, core, bend, mass, ends, alike = own
    kappa, rho, low, rise, clamped = np.zeros((5, len(corners), 1 + CAUSES, *s.kappa.shape))
    kappa[:], rho[:] = _usual(ready)
    kappa[:, 1] *= 1 + stretch
    kappa[:, 2] *= (1 + core) ** 2
    kappa[:, 4] /= 1 + mass
    kappa[:, 1 + SET] *= 1 + alike
    rho[:, 2] *= 1 + core
    rho[:, 3] *= 1 + bend
    clamped[:, 1 + ENDS] = ends
    for at, corner in enumerate(corners):
        for cause, out, one in zip((NEAR, FAR), corner, (0, 1), strict=True):
            low[at] += out * ready.heights_room[one, 0, :, None]
            rise[at] += out * ready.heights_room[one, 1, :, None]
            if out == 0:  # a height's own doubt is told from where the height is thought to be
                low[at, 1 + cause] += ready.heights_spread[one, 0, :, None]
                rise[at, 1 + cause] += ready.heights_spread[one, 1, :, None]
    return msgspec.structs.replace(
        s, kappa=kappa, rho=rho, height=s.height + low, rise=s.rise + rise, clamped=s.clamped + clamped
    )


def _corners(ready: PlayedStrings) -> list[tuple[float, ...]]:
    """By how many standard deviations the heights over frets 1 and 12 are off, first not at all."""
    lacking = {fret for fret, _ in ready.missing}
    return list(product(*((0.0, WIDE, -WIDE) if fret in lacking else (0.0,) for fret in FRETS)))


def _usual(ready: PlayedStrings) -> tuple[Array, Array]:
    """The kappa and rho (strings, 1) of strings of the usual make at the same pitch, else as they are."""
    kappa, rho = ready.setup.kappa.copy(), ready.setup.rho.copy()
    for index, (string, made) in enumerate(zip(ready.strings.list, ready.makes, strict=True)):
        usual = of_usual_make(string)
        if made is not None and usual is not None and ready.known[index]:
            kappa[index] = usual.kappa(float(ready.tension[index]) * usual.mass / made.mass)
            rho[index] = usual.rho
    return kappa, rho


def _unknowns(made: Make | None) -> tuple[float, float, float, float, float, float]:
    """Spreads of stretch, core, bending radius, the mass as it acts on E A / T, all relative; of the ends; and of the
    stretch of all strings of one make, relative.
    """
    if made is None:
        return 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
    mass = made.mass_sd if made.ratio is None else 0.0
    return made.stretch_sd, made.core_sd, made.rho_sd, mass, made.ends_sd, made.set_sd
