"""Whether distances of the proof were copied: each typed just as it is shown to be read, which a rule hardly ever does.

Derived: a misfit of standard deviation s is rounded away, at half a step h, with the chance erf(h / (s √2)). All
together are so with the product of these where they are independent; as they hang together, up to 3 times as often
(tried on the samples, against their joint density).
"""

import math
from typing import TYPE_CHECKING

from geometry.proof.faults import UNEXPLAINED
from geometry.proof.fitting import FALSELY, beyond
from geometry.units import MM_PER, Unit, as_shown, mm

if TYPE_CHECKING:
    from geometry.proof.proof_at_stage import Proved

HALF: dict[Unit, float] = {"mm": 0.05, "cm": 0.05, "in": MM_PER["in"] / 128}
"""Half of the step in which a distance is shown, mm."""
TOGETHER = 4.0
"""So many times as often as their product, at most."""
SAME = 1e-6
"""What is typed as it is shown differs from it by less, mm."""


def copied(proved: "Proved", unit: Unit) -> bool:
    """Whether all that were read are typed as shown, and a rule would read them so once in a thousand times at most."""
    read = [row for row in proved.rows if row.good in ("good", "not good")]
    if proved.cause != "good" or any(abs(mm(row.reading.parts[0]) - as_shown(row.wanted, unit)) > SAME for row in read):
        return False
    placed = sum(row.good not in ("struck", "no place") for row in proved.rows)
    wide = beyond(FALSELY / 2 / max(placed, 1))
    chances = (math.erf(HALF[unit] * wide / (row.band * math.sqrt(2))) for row in read)
    return TOGETHER * math.prod(chances) < UNEXPLAINED
