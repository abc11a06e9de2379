"""How round the board's face is at a place along the neck, and what a round one stands over a straight line.

A face is a part of a cylinder, or on a compound board of a cone: its radius grows evenly from the nut to the board's
end, and is carried on to the saddle. It is carried as **bend**, 1/radius, of which a rise is a plain multiple.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.job import Arch, Job
from geometry.layout import FretPlan, Neck
from geometry.units import mm

TYPED_SD = 0.03
"""Of a typed radius one standard deviation (common practice, no source): gauges go by steps, and the next one would
have been taken from half a step on."""
SD_CHORD = 0.3
"""The same of a chord, mm: set and read with a rule (common practice, no source)."""


class Bend(NamedTuple):
    """1/radius at a place and its standard deviation, 1/mm; 0 is flat."""

    bend: float
    sd: float = 0.0

    @property
    def radius(self) -> float:
        """In mm; infinite where it is flat."""
        return 1 / self.bend if self.bend > 0 else math.inf


FLAT = Bend(0.0)


def radius_of(chord: float, rise: float) -> float:
    """The radius (mm) of an arc that stands `rise` over the middle of its `chord`: c²/(8h) + h/2 (the circle through
    three points; Euclid III.35).
    """
    return chord**2 / (8 * rise) + rise / 2


def read_bend(arch: Arch) -> Bend:
    """The bend of an arch as read; its derivatives are those of 8h/(c² + 4h²)."""
    c, h = mm(arch.chord), mm(arch.rise)
    whole = c * c + 4 * h * h
    by_rise, by_chord = 8 * (c * c - 4 * h * h) / whole**2, -16 * h * c / whole**2
    return Bend(1 / radius_of(c, h), math.hypot(by_rise * mm(arch.within) / math.sqrt(3), by_chord * SD_CHORD))


def bends(job: Job) -> tuple[Bend, ...]:
    """What is known of the board's face: one bend, two at the nut and at the board's end, or none."""
    if job.board.arch:
        return tuple(map(read_bend, job.board.arch))
    return tuple(Bend(1 / mm(radius), TYPED_SD / mm(radius)) for radius in job.board.radii)


def bend_at(job: Job, neck: Neck, frets: FretPlan, x: float) -> Bend | None:
    """The bend at `x` mm from the nut along the neck: 0 for a flat board, None where a compound one's radii, carried
    on, come to nothing.
    """
    known = bends(job)
    if len(known) < 2:
        return known[0] if known else FLAT
    near, far = known
    share = x / _end(neck, frets)
    radius = near.radius + share * (far.radius - near.radius)
    if radius <= 0:
        return None
    # derived: dR = R² d(1/R) at both places, shared out, and back again
    sd = math.hypot((1 - share) * near.radius**2 * near.sd, share * far.radius**2 * far.sd)
    return Bend(1 / radius, sd / radius**2)


def _end(neck: Neck, frets: FretPlan) -> float:
    """Where the second radius is: at the board's end, or at the last fret where that was not read."""
    left, right = neck.end if neck.end is not None else (frets.lines[-1].left, frets.lines[-1].right)
    return max((left[0] + right[0]) / 2, 1.0)


def bulge(bend: float, half: float, off: Array) -> Array:
    """How far an arc of that bend stands over its chord, mm, `off` from the chord's middle (n,); the chord is 2 ×
    `half` long. Beyond its ends it lies below.

    The difference of the two sagittas R - √(R² - x²), written so that it holds for a flat one too.
    """
    deep = np.sqrt(np.maximum(1 - (bend * off) ** 2, 0.0)) + math.sqrt(max(1 - (bend * half) ** 2, 0.0))
    return np.asarray(bend * (half * half - off * off) / np.maximum(deep, 1e-9))


def bulges(bend: Bend, places: Array) -> tuple[Array, Array]:
    """How far an arc stands over the chord between the outermost of `places` (n,) at each, and its standard deviation,
    (n,) mm.
    """
    low, high = float(places.min()), float(places.max())
    half, off = (high - low) / 2, places - (low + high) / 2
    return bulge(bend.bend, half, off), bulge_sd(bend, half, off)


def bulge_sd(bend: Bend, half: float, off: Array) -> Array:
    """Its standard deviation by the bend's own, (n,) mm, by a difference over one standard deviation."""
    return np.abs(bulge(bend.bend + bend.sd, half, off) - bulge(max(bend.bend - bend.sd, 0.0), half, off)) / 2
