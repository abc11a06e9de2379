"""How much of an outline the bridge leaves uncovered, with the ± of where both lie."""

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from geometry.bridge.bridge_outline import outline
from geometry.frame import Array, Points, following
from geometry.job import Bridge
from geometry.layout import Amount
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.old_work_states import OldInRows

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

ARC_STEP = 0.05
"""Arcs are followed by chords no longer than this in radians."""


@lru_cache(maxsize=64)
def followed(bridge: Bridge) -> Points:
    """The bridge's outline in its own frame, counter-clockwise, its arcs followed by short chords, (m,)."""
    vertices = outline(bridge)
    points: list[complex] = []
    for (x0, y0, bulge), (x1, y1, _) in zip(vertices, (*vertices[1:], vertices[0]), strict=True):
        points.append(complex(x0, y0))
        if bulge:
            sweep = 4 * np.arctan(bulge)
            chord = complex(x1 - x0, y1 - y0)
            centre = complex(x0, y0) + chord * (0.5 + 0.5j / np.tan(sweep / 2))
            steps = int(np.ceil(abs(sweep) / ARC_STEP))
            turns = np.exp(1j * sweep * np.arange(1, steps) / steps)
            points += (centre + (complex(x0, y0) - centre) * turns).tolist()
    return np.array(points)


@lru_cache(maxsize=64)
def shape(bridge: Bridge) -> "Polygon":
    """The same as a polygon."""
    from shapely import Polygon  # a tenth of a second at start-up that a job without old work need not pay

    return Polygon(followed(bridge).view(np.float64).reshape(-1, 2))


def polygon(ring: Points) -> "Polygon | None":
    """A closed outline (k,) as a polygon; None where it goes round nothing, or crosses itself."""
    from shapely import Polygon

    found = Polygon(np.ascontiguousarray(ring).view(np.float64).reshape(-1, 2)) if len(ring) > 2 else None
    return found if found is not None and found.is_valid else None


def left_bare(own: Points, bridge: Bridge) -> "BaseGeometry | None":
    """What of an outline (k,), seen in the bridge's own frame, stays uncovered."""
    old = polygon(own)
    return None if old is None else old.difference(shape(bridge))


def bare_areas(own: Points, bridge: Bridge) -> Array:
    """The area that stays uncovered, mm², for many places of the bridge at once: an outline (places, k) as it is seen
    in the bridge's own frame at each of them.
    """
    import shapely

    rings = shapely.polygons(np.ascontiguousarray(own).view(np.float64).reshape(*own.shape, 2))
    return np.asarray(shapely.area(shapely.difference(rings, shape(bridge))))


class Uncovered(NamedTuple):
    """Of an outline: its whole area, what stays uncovered of it, and what of the bridge lies outside it, mm²."""

    whole: float
    bare: Amount
    beyond: Amount


def uncovered(rows: OldInRows, ring: Points, bridge: Bridge) -> Uncovered | None:
    """An outline of the neck frame (rows, k) against the bridge; None where it goes round nothing."""
    own = rows.own(ring)
    bare = left_bare(own[0], bridge)
    if bare is None:
        return None
    whole, new = abs(nearest.area(own[0])), nearest.area(followed(bridge))
    grows = own @ _weights(own[0], bridge).conj().T
    pm95 = rows.pm95(grows.real).tolist()
    return Uncovered(
        whole=whole,
        bare=Amount(value=bare.area, pm95=pm95[0]),
        beyond=Amount(value=new - whole + bare.area, pm95=pm95[1]),
    )


def _weights(own: Points, bridge: Bridge) -> Points:
    """How the uncovered area, and the bridge's area beyond the outline, grow with each corner (2, k): the first by what
    the edges that are uncovered sweep over, the second by what the others do, the other way round.
    """
    around = 1.0 if nearest.area(own) > 0 else -1.0
    start, stop = own, following(own)
    parts = nearest.parted(start, stop, followed(bridge))
    outward = -1j * around * (stop - start)[parts.edge]
    at_stop = (parts.high**2 - parts.low**2) / 2
    at_start = parts.high - parts.low - at_stop
    weights = np.zeros((2, len(own)), dtype=complex)
    for row, counted in enumerate((~parts.inside, parts.inside)):
        sign = 1.0 - 2.0 * row
        np.add.at(weights[row], parts.edge, sign * counted * outward * at_start)
        np.add.at(weights[row], (parts.edge + 1) % len(own), sign * counted * outward * at_stop)
    return weights
