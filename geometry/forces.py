"""Pulls in the words of a job's unit: newtons, and pounds-force in a job in inches."""

import math

from geometry.units import Unit

POUNDS = 1 / 4.4482216152605
"""Pounds-force in a newton (exact by definition of the pound and of standard gravity)."""


def in_unit(newtons: float, unit: Unit) -> tuple[float, str]:
    """A pull in what a job's unit tells it in, and that one's name."""
    return (newtons * POUNDS, "lb") if unit == "in" else (newtons, "N")


def force(newtons: float, unit: Unit, pm95: float | None = None, places: int | None = None) -> str:
    """A pull with its name: “104 N”, in inches “23.4 lb”, or with so many `places`; with a ±, which is rounded up, one
    in either: “17.3 ±1.8 N”.
    """
    pull, name = in_unit(newtons, unit)
    if pm95 is not None:
        width = math.ceil(10 * in_unit(pm95, unit)[0] - 1e-9) / 10
        return f"{pull:.1f} ±{width:.1f} {name}"
    return f"{pull:.{(1 if unit == 'in' else 0) if places is None else places}f} {name}"
