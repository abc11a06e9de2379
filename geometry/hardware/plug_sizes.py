"""How wide a plug an old hole of the headstock takes."""

from geometry.old_work.holes.plugs import plug_for

DOWEL = 4.0
"""An old hole that is narrower, mm, is not drilled out to a usual plug but to the next half mm, for a dowel (common
practice, no source)."""


def plug_size(diameter: float) -> float:
    """The usual plug that a hole (mm) can be drilled out to; a narrow hole's, or one too wide for any: the next half
    mm.
    """
    usual = plug_for(diameter, "mm") if diameter >= DOWEL else None
    return usual if usual is not None else (int(diameter * 2 + 1e-6) + 1) / 2
