"""Points in the neck frame with their covariances: the points that make the frame carry their share."""

import numpy as np
from numpy.typing import NDArray

from geometry.frame import Array, Points, into, xy
from geometry.layout import XY, PlacedPoint
from geometry.neck import NeckFrame
from geometry.sample import Sample
from geometry.survey.result import Surveyed


def place_points(sample: Sample, frame: NeckFrame | None) -> dict[str, PlacedPoint]:
    """All solved points, in the neck frame or, as long as there is none, in the survey's own."""
    surveyed = sample.surveyed
    names = list(surveyed.point_at)
    if not names:
        return {}
    columns = np.array([surveyed.point_at[name] for name in names])
    if frame is None:
        places = surveyed.state[columns] + 1j * surveyed.state[columns + 1]
        jacobian = np.zeros((2 * len(names), len(surveyed.state)))
        for axis in (0, 1):
            jacobian[axis::2][np.arange(len(names)), columns + axis] = 1.0
    else:
        seen = frame.see(sample, *names)
        places = seen[0]
        jacobian = _jacobian(sample, frame, columns, sample.gradient(seen))
    spread = surveyed.cov
    carried = jacobian @ spread
    sxx = np.einsum("ij,ij->i", carried, jacobian)
    sxy = np.einsum("ij,ij->i", carried[0::2], jacobian[1::2])
    sd = np.sqrt(np.maximum(sxx, 0.0))
    return {
        name: PlacedPoint(
            x=float(places[i].real),
            y=float(places[i].imag),
            sx=float(sd[2 * i]),
            sy=float(sd[2 * i + 1]),
            sxy=float(sxy[i]),
            checked=surveyed.checked.get(name, False),
        )
        for i, name in enumerate(names)
    }


def _jacobian(sample: Sample, frame: NeckFrame, columns: NDArray[np.int64], slopes: Points) -> Array:
    """How the places (2n) in the frame follow the whole state (p): by the frame, and by each point itself."""
    n, p = len(columns), len(sample.surveyed.state)
    held = [column for column in sample.moved if column < p]
    jacobian = np.zeros((2 * n, p))
    jacobian[0::2, held], jacobian[1::2, held] = slopes[: len(held)].real.T, slopes[: len(held)].imag.T
    c, s = frame.direction[0].real, frame.direction[0].imag
    still = ~np.isin(columns, held)
    rows = np.flatnonzero(still)
    for axis, turn in enumerate(((c, s), (-s, c))):
        for other in (0, 1):
            jacobian[2 * rows + axis, columns[still] + other] = turn[other]
    return jacobian


def rough_places(surveyed: Surveyed, frame: NeckFrame | None) -> dict[str, XY]:
    """The start places of points that are not solved, for drawing."""
    if not surveyed.rough:
        return {}
    places = np.array([complex(*at) for at in surveyed.rough.values()])
    if frame is not None:
        places = into(places[None], frame.origin[:1], frame.direction[:1])[0]
    return {name: xy(at) for name, at in zip(surveyed.rough, places, strict=True)}
