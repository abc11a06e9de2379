"""Plugs for old holes: of what size, how their grain runs, and which holes share one.

A plug in a top is cut across a board, so that its face shows (a face grain plug), and set with its grain along the
top's: it takes finish and moves with the wood as the top does. A dowel shows end grain (common practice, no source).
"""

from collections.abc import Iterable

from geometry.layout import HoleFate, Plugs
from geometry.units import INCH, Unit, said

CUTTERS: dict[Unit, tuple[float, ...]] = {
    "mm": (6.0, 8.0, 10.0, 12.0, 15.0, 20.0),
    "cm": (6.0, 8.0, 10.0, 12.0, 15.0, 20.0),
    "in": tuple(parts / 16 * INCH for parts in (4, 5, 6, 8, 10, 12)),
}
"""Usual sizes of plug cutters, mm: of a metric set, and of one in inches (common practice, no source)."""
CLEAN = 0.2
"""A hole is drilled out by so much at the least, so that its wall is clean, mm (common practice, no source)."""


def plug_for(diameter: float, unit: Unit) -> float | None:
    """The smallest usual plug that an old hole (mm) can be drilled out to; None where none is wide enough."""
    return next((size for size in CUTTERS[unit] if size >= diameter + CLEAN - 1e-9), None)


def widest_told_alike(diameters: Iterable[float], unit: Unit) -> dict[float, float]:
    """To each diameter (mm) the widest of those that are told as it is: holes told alike take one plug."""
    widest: dict[str, float] = {}
    every = sorted(diameters)
    for size in every:
        widest[said(size, unit)] = size
    return {size: widest[said(size, unit)] for size in every}


def grouped(holes: Iterable[HoleFate]) -> tuple[Plugs, ...]:
    """The plugs by size, the smallest first."""
    found: dict[float, list[str]] = {}
    for hole in holes:
        if hole.plug is not None:
            found.setdefault(hole.plug, []).append(hole.hole)
    return tuple(Plugs(diameter=size, grain="face", holes=tuple(names)) for size, names in sorted(found.items()))
