"""Compensation by common practice: where a string's make is not known and nothing can be worked out.

Straight from treble to bass, in mm past the nominal place. All figures: common practice, no source.
"""

import numpy as np
from numpy.typing import NDArray

from geometry.job.stringing import Material, Strings
from geometry.strings.string_heights import shares_to_bass

USUAL: dict[Material, tuple[float, float]] = {
    "steel": (1.5, 4.5),
    "silk and steel": (1.5, 3.5),
    "nylon": (1.5, 2.0),
    "gut": (1.0, 1.5),
    "fluorocarbon": (1.5, 2.0),
}
"""Treble and bass, for a 650 mm scale with five strings or more."""
FEW_STEEL = (1.5, 3.0)
"""Treble and bass of steel strings where there are four courses or fewer."""
PM95: dict[Material, float] = {"steel": 4.0, "silk and steel": 3.0, "nylon": 2.0, "gut": 2.5, "fluorocarbon": 2.0}
"""mm; how far a usual figure may be from what the strings need (common practice, no source). What is worked out never
claims more than this either: it lies where the usual figures lie, and these bound it."""


def usual(strings: Strings) -> NDArray[np.float64]:
    """Start values (strings,) in mm, in list order, each by its own material and its place from treble to bass."""
    count = len(strings.list)
    courses = len({s.course if s.course is not None else -index for index, s in enumerate(strings.list, 1)})
    # one that begins farther on is tuned high, whichever side it lies on
    share = np.where([bool(s.first) for s in strings.list], 0.0, shares_to_bass(strings))
    ends = np.array(
        [FEW_STEEL if courses <= 4 and s.material == "steel" else USUAL[s.material] for s in strings.list]
    ).reshape(count, 2)
    return np.asarray(ends[:, 0] + share * (ends[:, 1] - ends[:, 0]))


def usual_pm95(strings: Strings) -> NDArray[np.float64]:
    """How far each start value may be out (strings,), mm, 95 %."""
    return np.array([PM95[s.material] for s in strings.list])
