"""The strength of plain steel wire, from which strings and the cores of wound strings are drawn."""

from functools import lru_cache

import numpy as np

from geometry.units import MM_PER

KSI = 6.894757
"""N/mm² in a thousand pounds-force to the square inch."""
THOUSANDTHS = np.array([4, 6, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 24, 26, 28, 30, 32], dtype=np.float64)
"""Diameters in thousandths of an inch."""
LEAST_KSI = np.array(
    [439, 415, 399, 393, 387, 382, 377, 373, 369, 365, 362, 356, 350, 345, 341, 337, 333, 330, 327], dtype=np.float64
)
"""Least tensile strength of music wire by diameter: ASTM A228/A228M-18, not laid beside the printed edition."""
POWER = 0.145
"""Beyond the table strength falls as 1/d^0.145 (Shigley, Mechanical Engineering Design, chapter 10)."""


@lru_cache(maxsize=256)
def tensile_strength(diameter: float) -> float:
    """The least tensile strength (N/mm²) of music wire of a diameter in mm; held level below 0.1 mm."""
    gauge = 1000 * diameter / MM_PER["in"]
    if gauge > THOUSANDTHS[-1]:
        return float(LEAST_KSI[-1] * KSI * (THOUSANDTHS[-1] / gauge) ** POWER)
    return float(np.interp(gauge, THOUSANDTHS, LEAST_KSI) * KSI)
