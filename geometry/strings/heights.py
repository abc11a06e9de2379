"""How high the strings lie: from what was typed or measured to the two heights the equation wants.

**b** is the string over the frets' plane at the nut, **c** the saddle over the string's height at the nut. A person
measures the action instead: string over fret 1 and fret 12, on both sides. **Relief** is the hollow of the neck under a
straightedge laid over frets 1 and 14; it is taken as a parabola between them and nothing beyond.
"""

import numpy as np

from geometry.job.stringing import Action, Heights, Strings
from geometry.strings.stretch import Array
from geometry.units import mm

SD_MEASURED, SD_ASSUMED = 0.1, (0.25, 0.7)
"""mm: one standard deviation of a measured action, and of b and c where nothing was measured (common practice)."""


def steps(fret: float) -> float:
    """The share of an equal-tempered scale from the nut to a fret."""
    return float(1 - 2.0 ** (-fret / 12))


def sag(places: Array, nominal: Array, relief: float) -> Array:
    """How far fret tops lie below the frets' plane, mm; `places` (..., frets) from the nut, `nominal` (..., 1)."""
    first, last = nominal * steps(1), nominal * steps(14)
    along = (places - first) / (last - first)
    return np.asarray(4 * relief * np.clip(along * (1 - along), 0.0, None))


def sides(strings: Strings, treble_left: bool, pair: tuple[float, float]) -> Array:
    """A value known at [left, right] on each string (strings,), straight between the outer strings."""
    left, right = pair
    treble, bass = (left, right) if treble_left else (right, left)
    count = len(strings.list)
    return np.linspace(treble, bass, count) if count > 1 else np.full(count, (treble + bass) / 2)


def heights(
    strings: Strings, bass_left: bool, nominal: Array, action: Action | None = None, zero_fret: bool = False
) -> tuple[Array, Array]:
    """The heights b and c of each string (strings,), mm. `nominal` (strings,).

    `action` stands before `strings.action`, and that before `strings.height`. With a zero fret the string rests on
    the frets' plane: b is 0, and the action at fret 12 alone gives c.
    """
    action = action or strings.action
    if action is None:
        count = len(strings.list)
        low = 0.0 if zero_fret else mm(strings.height.nut)
        return np.full(count, low), np.full(count, mm(strings.height.saddle))
    at_1 = sides(strings, not bass_left, (mm(action.fret1[0]), mm(action.fret1[1])))
    at_12 = sides(strings, not bass_left, (mm(action.fret12[0]), mm(action.fret12[1])))
    hollow = sag(np.stack((nominal * steps(1), nominal / 2), axis=-1), nominal[:, None], mm(strings.relief))
    near, far = at_1 - hollow[:, 0], at_12 - hollow[:, 1]
    if zero_fret:
        return np.zeros_like(near), far * 2
    rise = (far - near) / (0.5 - steps(1))
    return near - rise * steps(1), rise


def spread(strings: Strings, action: Action | None) -> tuple[Array, bool]:
    """How b and c (mm) move by one standard deviation of each of two independent causes, (2 causes, b and c).

    Also whether the heights are assumed: nobody measured or typed any.
    """
    if (action or strings.action) is not None:
        per_mm = 1 / (0.5 - steps(1))
        return SD_MEASURED * np.array([[1 + per_mm * steps(1), -per_mm], [-per_mm * steps(1), per_mm]]), False
    assumed = strings.height == Heights()
    return np.diag(SD_ASSUMED if assumed else (SD_MEASURED, 2 * SD_MEASURED)), assumed
