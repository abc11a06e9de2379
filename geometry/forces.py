"""Pulls in the words of a job's unit: newtons, and pounds-force in a job in inches."""

import math

from geometry.units import Unit

POUNDS = 1 / 4.4482216152605
"""Pounds-force in a newton (exact by definition of the pound and of standard gravity)."""


def force(newtons: float, unit: Unit, pm95: float | None = None, places: int | None = None) -> str:
    """A pull with its name: “104 N”, in inches “23.4 lb”, or with so many `places`; with a ±, which is rounded up, one
    in either: “17.3 ±1.8 N”.
    """
    pound = unit == "in"
    per, name = (POUNDS, "lb") if pound else (1.0, "N")
    if pm95 is not None or places is None:
        places = 1 if pound or pm95 is not None else 0
    told = f"{newtons * per:.{places}f}"
    return f"{told} {name}" if pm95 is None else f"{told} ±{math.ceil(pm95 * per * 10 - 1e-9) / 10:.1f} {name}"
