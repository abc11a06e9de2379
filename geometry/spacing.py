"""Fret spacings: where each fret stands on a scale of one, and what a spacing costs in cents."""

import math
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from geometry.frame import Array
from geometry.job.neck.fretting import Spacing

CENTS = 1200 / math.log(2)
"""Cents of a small relative change: 1 cent = 1/1200 octave."""


def fraction(spacing: Spacing, fret: ArrayLike) -> Array:
    """How far along the scale a fret stands, from 0 at the nut to 1 at the saddle.

    Equal tempered: 1 − 2^(−k/12). Rule of eighteen: each fret an 18th of what remains, 1 − (17/18)^k. As measured is
    fitted as equal tempered.
    """
    k = np.asarray(fret, dtype=float)
    return 1 - (17 / 18) ** k if spacing == "eighteen" else 1 - np.exp2(-k / 12)


@lru_cache(maxsize=256)
def one_fraction(spacing: Spacing, fret: int) -> float:
    """The same for one fret."""
    return float(fraction(spacing, fret))


def out_of_tune(spacing: Spacing, place: float, count: int) -> Array:
    """Cents of frets 1..count against equal temperament for a saddle at `place` × scale, no stretch."""
    k = np.arange(1, count + 1)
    return np.asarray(1200 * np.log2(place / (place - fraction(spacing, k))) - 100 * k)


@lru_cache(maxsize=64)
def saddle_fraction(spacing: Spacing, nominal: str, count: int) -> float:
    """Where the nominal place lies on a scale of 1: by octave twice fret 12, or by best fit over frets 1..count."""
    place = 2 * one_fraction(spacing, 12)
    if nominal == "octave" or spacing != "eighteen":
        return place
    for _ in range(20):
        k = np.arange(1, count + 1)
        slope = CENTS * (1 / place - 1 / (place - fraction(spacing, k)))
        step = float(out_of_tune(spacing, place, count) @ slope / (slope @ slope))
        place -= step
        if abs(step) < 1e-12:
            break
    return place
