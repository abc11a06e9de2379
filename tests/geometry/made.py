"""Invented instruments whose points are known, as if a survey had found them: for tests of what is placed from them."""

import numpy as np

from geometry.job import (
    Bridge,
    Frets,
    Job,
    Pins,
    Point,
    Saddle,
    SlotFront,
    Spread,
    String,
    Strings,
)
from geometry.layout import Fit, Survey, Why
from geometry.survey.result import Surveyed

XY = tuple[float, float]

BOARD: dict[str, XY] = {
    "nut.left": (0.0, 22.0),
    "nut.right": (0.0, -22.0),
    "end.left": (440.0, 28.0),
    "end.right": (440.0, -28.0),
}


def surveyed(points: dict[str, XY], extras: dict[str, float], sd: float = 0.1) -> Surveyed:
    """Points and other unknowns known independently to `sd`, each held by two readings of its own."""
    state = [value for xy in points.values() for value in xy] + list(extras.values())
    p = len(state)
    gain = np.repeat(np.eye(p), 2, axis=1) / 2
    # derived: the mean of two readings of sigma sd √2 is known to sd, and each checks half of the other
    sigma = sd * 2**0.5
    fits = [
        Fit(id=f"{i}", value=v, adjusted=v, residual=0.0, sigma=sigma, redundancy=0.5, w=0.0, believable=3.29 * sigma)
        for i, v in enumerate(np.repeat(state, 2).tolist())
    ]
    return Surveyed(
        state=np.array(state),
        cov=np.eye(p) * sd**2,
        gain=gain,
        redundancy=np.full(2 * p, 0.5),
        point_at={name: 2 * i for i, name in enumerate(points)},
        extra_at={name: 2 * len(points) + i for i, name in enumerate(extras)},
        fits=tuple(fits),
        report=Survey(verdict="clean", why=Why(what="All readings agree"), dof=p),
        checked=dict.fromkeys(points, True),
        rough={},
    )


def scales(left: float, right: float) -> dict[str, float]:
    """Fitted scales on both outer paths, the nut where the frets want it."""
    return {"scale.left": left, "scale.right": right}


def six(bass: float, treble: float) -> Strings:
    """Six strings of unknown make, 38 mm apart at the nut and 56 at the saddle, with typed compensation."""
    steps = tuple(float(treble + (bass - treble) * i / 5) for i in range(6))
    return Strings(
        list=tuple(String(name=str(i + 1)) for i in range(6)),
        nut=Spread(spread=38.0),
        saddle=Spread(spread=56.0),
        compensation=steps,
    )


def job(points: dict[str, XY] = BOARD, hand: str = "right", **blocks: object) -> Job:
    """A job that names these points."""
    return Job(
        points={name: Point() for name in points},
        hand=hand,  # type: ignore[arg-type]  # a test gives right or left
        **blocks,  # type: ignore[arg-type]  # a test gives the blocks of a job
    )


def bridge(**changes: object) -> Bridge:
    """A belly bridge, 152 × 26 mm, with five millimetre pins."""
    given: dict[str, object] = {"length": 152.0, "width": 26.0, "pins": Pins()} | changes
    return Bridge(**given)  # type: ignore[arg-type]  # a test gives the fields of a bridge


__all__ = ["BOARD", "Frets", "Pins", "Saddle", "SlotFront", "bridge", "job", "scales", "six", "surveyed"]
