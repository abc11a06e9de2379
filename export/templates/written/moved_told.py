"""How far something was moved or turned, as rows of a written page: a name, how far, and which way."""

from geometry.units import Unit, pm_angle, said_angle, said_pm, shows

NO_CHANGE = "no change"
LEAST_TURN = 0.05
"""Degrees. What is shown as 0.0 is turned no way."""


def moved(name: str, far: float, pm95: float, unit: Unit, ways: tuple[str, str]) -> list[str]:
    """A row of a length in mm; `ways`: what it is called where it is positive, and where negative. What no rule shows
    goes no way.
    """
    if not shows(far, unit):
        return [name, NO_CHANGE, f"known to ±{said_pm(pm95, unit)}"]
    return [name, said_pm(pm95, unit, abs(far)), ways[far < 0]]


def turned(turn: float, pm95: float) -> list[str]:
    """The row of a turn in degrees, counter-clockwise where it is positive."""
    if abs(turn) < LEAST_TURN:
        return ["Turned", NO_CHANGE, f"known to ±{pm_angle(pm95)}"]
    return [
        "Turned",
        said_angle(abs(turn), pm95),
        f"{'counter-clockwise' if turn > 0 else 'clockwise'}, as seen from above",
    ]
