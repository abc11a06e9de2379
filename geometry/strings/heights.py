"""How high the strings lie: from what was typed or measured to the two heights the equation wants.

**b** is the string over the frets' plane at the nut, **c** the saddle over the string's height at the nut. A person
measures the action instead: string over fret 1 and fret 12, on both sides. **Relief** is the hollow of the neck under a
straightedge laid over frets 1 and 14; it is taken as a parabola between them and nothing beyond.
"""

import numpy as np

from geometry.job.stringing import Action, Strings
from geometry.spacing import one_fraction
from geometry.strings.stretch import Array
from geometry.units import mm

FIRST, FOURTEENTH = one_fraction("equal", 1), one_fraction("equal", 14)
"""Where these frets stand on an equal-tempered scale of 1."""
SD_MEASURED = 0.1
"""mm: one standard deviation of a measured action (common practice, no source)."""
SD_ASSUMED = (0.15, 0.4)
"""mm: how far over frets 1 and 12 an action that nobody measured may be from the usual one (common practice)."""
SD_TYPED = (0.1, 0.2)
"""mm: the same for b and c as typed (common practice, no source)."""
USUAL_METAL, USUAL_SOFT = (0.5, 1.8, 2.4), (0.8, 3.0, 4.0)
"""Action over fret 1, and over fret 12 at treble and bass, for a 650 mm scale with steel and with soft strings; in
proportion to the scale (common practice, no source)."""


def sag(places: Array, nominal: Array, relief: float) -> Array:
    """How far fret tops lie below the frets' plane, mm; `places` (..., frets) from the nut, `nominal` (..., 1)."""
    if not relief:
        return np.zeros_like(places)
    first, last = nominal * FIRST, nominal * FOURTEENTH
    along = (places - first) / (last - first)
    return np.asarray(4 * relief * np.maximum(along * (1 - along), 0.0))


def shares(count: int) -> Array:
    """How far each string lies from treble (0) to bass (1), (strings,); one alone lies between."""
    return np.arange(count) / (count - 1) if count > 1 else np.full(count, 0.5)


def usual_action(strings: Strings, bass_left: bool, nominal: Array) -> Action:
    """The action that is usual for the strings' material, where nobody measured or typed one."""
    metal = any(s.material in ("steel", "silk and steel") for s in strings.list)
    near, treble, bass = (round(h * float(nominal.mean()) / 650, 2) for h in (USUAL_METAL if metal else USUAL_SOFT))
    return Action(fret1=(near, near), fret12=(bass, treble) if bass_left else (treble, bass))


def heights(
    strings: Strings, bass_left: bool, nominal: Array, action: Action | None = None, zero_fret: bool = False
) -> tuple[Array, Array]:
    """The heights b and c of each string (strings,), mm. `nominal` (strings,).

    `action` stands before `strings.action`, that before `strings.height`, and that before what is usual. With a zero
    fret the string rests on the frets' plane: b is 0, and the action at fret 12 alone gives c.
    """
    action = action or strings.action
    if action is None and strings.height is not None:
        count = len(strings.list)
        low = 0.0 if zero_fret else mm(strings.height.nut)
        return np.full(count, low), np.full(count, mm(strings.height.saddle))
    action = action or usual_action(strings, bass_left, nominal)
    bass, treble = (0, 1) if bass_left else (1, 0)
    share = shares(len(strings.list))
    at_1, at_12 = (
        mm(pair[treble]) + (mm(pair[bass]) - mm(pair[treble])) * share for pair in (action.fret1, action.fret12)
    )
    relief = mm(strings.relief)
    near, far = at_1 - sag(nominal * FIRST, nominal, relief), at_12 - sag(nominal / 2, nominal, relief)
    if zero_fret:
        return np.zeros_like(near), far * 2
    rise = (far - near) / (0.5 - FIRST)
    return near - rise * FIRST, rise


def assumed(strings: Strings, action: Action | None) -> bool:
    """Whether nobody measured or typed any heights."""
    return action is None and strings.action is None and strings.height is None


def spread(strings: Strings, action: Action | None, zero_fret: bool = False) -> Array:
    """How b and c (mm) move by one standard deviation of each of two independent causes, (2 causes, b and c).

    On a zero fret b is surely 0, and c follows from the action at fret 12 alone.
    """
    if action is None and strings.action is None and strings.height is not None:
        return np.diag((0.0 if zero_fret else SD_TYPED[0], SD_TYPED[1]))
    near, far = SD_ASSUMED if assumed(strings, action) else (SD_MEASURED, SD_MEASURED)
    if zero_fret:
        return np.array([[0.0, 0.0], [0.0, 2 * far]])
    per_mm = 1 / (0.5 - FIRST)
    share = per_mm * FIRST
    return np.array([[near * (1 + share), -near * per_mm], [-far * share, far * per_mm]])
