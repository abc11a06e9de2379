"""How far a floating bridge may be slid and turned to tune it, what that does to each string, and how thick its crown
must be.
"""

import math
from collections.abc import Iterable

import numpy as np

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Array
from geometry.job import Floating, Job, Saddle
from geometry.layout import FloatingPlan
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.best_line import best_line
from geometry.saddle.saddle_line import Strung
from geometry.strings.compensation import residual_cents
from geometry.strings.octave import limp_cents, octave_fret, octaves_called
from geometry.strings.played import PlayedStrings
from geometry.units import MM_PER, Unit, mm

SLIDES: dict[Unit, tuple[float, str]] = {
    "mm": (1.0, "1 mm"),
    "cm": (1.0, "0.1 cm"),
    "in": (MM_PER["in"] / 32, "1/32 in"),
}
"""The slide whose cents are told, mm and in words."""
STEP = 0.5
"""How far the bridge is slid either way for the slope of the cents, mm."""
THICKEST, FINE = 15.0, 0.1
"""The thickest crown that is thought of, and the steps it is tried in, mm (common practice, no source)."""
CARRIES = 0.05
"""A string that stays outside the crown by less than this, mm, is carried: no file is finer."""


def turn_range(states: PerturbedStates, seated: SeatedBridge, floating: Floating) -> tuple[float, float]:
    """The ± of the bridge's turn in degrees, and what that is at the ends of its feet, mm."""
    turn = np.angle(seated.tailward / seated.tailward[0])
    wide = float(states.pm95(turn[:, None])[0])
    return math.degrees(wide), mm(floating.length) / 2 * math.tan(wide)


def cents_per_mm(ready: PlayedStrings, gets: Array) -> dict[str, float]:
    """What sliding by 1 mm to the tail does to each string's octave against its open note, which is tuned again:
    the slope of the equation that places the saddle, or that of a limp string where its make is not known or the board
    has no such fret. Drones are left out: nothing stops them.
    """
    count = ready.places.frets.shape[1]
    if count < 12:
        return {}
    flat, sharp = (residual_cents(ready, gets + way) for way in (STEP, -STEP))
    slopes = (flat - sharp) / (2 * STEP)
    found = {}
    for i, string in enumerate(ready.strings.list):
        fret = octave_fret(string)
        slope = float(slopes[i, fret - 1]) if fret <= count else math.nan
        if string.fretted:
            found[string.name] = -limp_cents(float(ready.places.nominal[i])) if math.isnan(slope) else slope
    return found


def told_at(job: Job, plan: FloatingPlan) -> str:
    """Where those cents are told, in words."""
    strings = job.strings.list if job.strings is not None else ()
    return octaves_called(job, (string for string in strings if string.name in plan.cents_per_mm))


def slide_told(unit: Unit, cents: Iterable[float]) -> tuple[str, str] | None:
    """A small slide in the job's unit, and what it does to the octaves at the least and at the most: “1 mm”,
    “2.4 to 2.7”; None where nothing is known. `cents` are those of 1 mm.
    """
    by, named = SLIDES[unit]
    found = [abs(one) * by for one in cents]
    if not found:
        return None
    low, high = f"{min(found):.1f}", f"{max(found):.1f}"
    return named, low if low == high else f"{low} to {high}"


def thick_enough(job: Job, strung: Strung) -> float | None:
    """The thinnest crown, by tenths of a mm, that carries every string where the one given does not; None where it
    does, or where none would.
    """
    saddle, wanted = job.saddle or Saddle(), strung.break_point[0]

    def carries(thickness: float) -> bool:
        line = best_line(wanted.imag, wanted.real, None, thickness, saddle.peak_at, saddle.straight)
        return float(np.abs(line.stays).max(initial=0.0)) < CARRIES

    given = mm(saddle.thickness)
    if carries(given):
        return None
    steps = range(math.floor(given / FINE) + 1, round(THICKEST / FINE) + 1)
    return next((FINE * step for step in steps if carries(FINE * step)), None)
