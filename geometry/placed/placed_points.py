"""Points in the neck frame with their covariances: the points that make the frame carry their share."""

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from geometry.frame import Array, Points, into, xy, xys
from geometry.layout import TWO_SIDED_95, XY, PlacedPoint, Survey
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.survey.result import Surveyed

TINY = 1e-18
"""A variance (mm²) under which there is nothing to widen."""


def place_points(states: PerturbedStates, frame: NeckFrame | None) -> dict[str, PlacedPoint]:
    """All solved points, in the neck frame or, as long as there is none, in the survey's own."""
    names = list(states.surveyed.point_at)
    if not names:
        return {}
    columns = np.array([states.surveyed.point_at[name] for name in names])
    places = states.surveyed.state[columns] + 1j * states.surveyed.state[columns + 1]
    turn, slopes = 1 + 0j, np.zeros((0, len(names)), dtype=np.complex128)
    held = np.array([column for column in states.moved if column < len(states.surveyed.state)], dtype=np.intp)
    if frame is not None:
        away, turn = places - frame.origin[0], complex(frame.direction[0].conj())
        shifted, turned = states.gradient(frame.origin)[: len(held)], states.gradient(frame.direction)[: len(held)]
        places, slopes = away * turn, away * turned.conj()[:, None] - turn * shifted[:, None]
    spread = _covariances(states, columns, turn, slopes, held[: len(slopes)])
    spread = _widened(states, columns, turn, slopes, held[: len(slopes)], spread)
    sd = np.sqrt(np.maximum(spread[:, (0, 1), (0, 1)], 0.0)).tolist()
    return {
        name: PlacedPoint(
            x=x,
            y=y,
            sx=sx,
            sy=sy,
            sxy=sxy,
            checked=states.surveyed.checked.get(name, False),
        )
        for name, (x, y), (sx, sy), sxy in zip(names, xys(places), sd, spread[:, 0, 1].tolist(), strict=True)
    }


def _covariances(
    states: PerturbedStates, columns: NDArray[np.intp], turn: complex, slopes: Points, held: NDArray[np.intp]
) -> Array:
    """The covariance matrix of each place, (n, 2, 2), mm².

    A place follows its own two unknowns, at `columns` and the next, turned into the frame by `turn`, and the frame's:
    the unknowns `held` (h,), by `slopes` (h, n). A point that makes the frame is among those a second time.
    """
    n, wide = len(columns), 2 + len(held)
    index, follows = np.empty((n, wide), dtype=np.intp), np.empty((n, wide), dtype=np.complex128)
    index[:, 0], index[:, 1], index[:, 2:] = columns, columns + 1, held
    follows[:, 0], follows[:, 1], follows[:, 2:] = turn, 1j * turn, slopes.T
    jacobian = follows.view(np.float64).reshape(n, -1, 2)
    cov = states.surveyed.cov
    spread = cov.take(index[:, :, None] * len(cov) + index[:, None, :])
    return np.asarray(jacobian.swapaxes(1, 2) @ (spread @ jacobian))


def _widened(
    states: PerturbedStates,
    columns: NDArray[np.intp],
    turn: complex,
    slopes: Points,
    held: NDArray[np.intp],
    spread: Array,
) -> Array:
    """The covariances (n, 2, 2), widened as long as readings are accused: each axis covers, to 95 %, where the point
    would lie without them. Arguments as for `_covariances`.
    """
    own = np.maximum(spread[:, (0, 1), (0, 1)], 0.0)
    wide = own
    for other in states.surveyed.alternatives:
        if other.aside:
            continue
        parts = np.column_stack((other.change, other.more))
        moved = (parts[columns] + 1j * parts[columns + 1]) * turn + slopes.T @ parts[held]
        axes = np.stack((moved.real, moved.imag), axis=1)
        sd = np.sqrt(own + (axes[:, :, 1:] ** 2).sum(axis=2))
        wide = np.maximum(wide, (np.abs(axes[:, :, 0]) / TWO_SIDED_95 + sd) ** 2)
    grown = np.sqrt(wide / np.maximum(own, TINY))
    return np.asarray(spread * grown[:, :, None] * grown[:, None, :])


def rough_places(surveyed: Surveyed, frame: NeckFrame | None) -> dict[str, XY]:
    """The start places of points that are not solved, for drawing."""
    if not surveyed.rough:
        return {}
    places = np.array([complex(*at) for at in surveyed.rough.values()])
    if frame is not None:
        places = into(places[None], frame.origin[:1], frame.direction[:1])[0]
    return dict(zip(surveyed.rough, xys(places), strict=True))


def seen_from(report: Survey, frame: NeckFrame | None) -> Survey:
    """The report with the ways that loose points can move, and the other places of mirrored ones, in the neck frame."""
    if frame is None:
        return report
    turn, origin = complex(frame.direction[0].conj()), complex(frame.origin[0])
    loose = tuple(
        replace(item, direction=xy(complex(*item.direction) * turn)) if item.direction else item
        for item in report.loose
    )
    there = {name: xy((complex(*at) - origin) * turn) for name, at in report.elsewhere.items()}
    return replace(report, loose=loose, elsewhere=there)
