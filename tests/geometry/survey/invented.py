"""Invented instruments: true places, and readings of them with or without error. All figures are ours."""

from collections.abc import Sequence

import msgspec
import numpy as np

from geometry.job import Job, Point, Reading
from geometry.job.measured.kinds import Kind
from geometry.job.sides import Side
from geometry.survey.rows.rows_of_readings import fineness

BOARD = {
    "nut.left": 0.2 + 21.6j,
    "nut.right": -0.2 - 21.4j,
    "fret12.left": 324.6 + 26.1j,
    "fret12.right": 324.1 - 25.9j,
    "end.left": 428.9 + 28.9j,
    "end.right": 428.3 - 29.2j,
}
"""A board whose ends are a little askew, mm."""
SIDES_AND_DIAGONALS = (
    ("nut.left", "nut.right"),
    ("end.left", "end.right"),
    ("nut.left", "end.left"),
    ("nut.right", "end.right"),
    ("nut.left", "end.right"),
    ("nut.right", "end.left"),
)
"""Between which corners of a board it is measured."""


def value(kind: str, z: list[complex]) -> float:
    """A reading's true value; points as `of` then `from`."""
    match kind:
        case "distance":
            return abs(z[1] - z[0])
        case "along":
            return (z[0] - z[1]).real * _unit(z[1:]).real + (z[0] - z[1]).imag * _unit(z[1:]).imag
        case "off":
            return (_unit(z[1:]).conjugate() * (z[0] - z[1])).imag
        case "across":
            return (_unit(z[2:]).conjugate() * (z[0] - z[1])).imag
        case _:
            return 0.0


def _unit(z: list[complex]) -> complex:
    return (z[1] - z[0]) / abs(z[1] - z[0])


Wanted = tuple[Kind, str, str]
"""A kind of reading, the points it is of and the points it is laid from, parted by spaces."""
BOARD_DISTANCES: tuple[Wanted, ...] = tuple(("distance", f"{a} {b}", "") for a, b in SIDES_AND_DIAGONALS)
"""The distances that hold a board's corners, three of them spare."""


def taken(
    places: dict[str, complex], wanted: Sequence[Wanted], rng: np.random.Generator | None = None, fine: str = "rule 0.5"
) -> tuple[Reading, ...]:
    """Readings of a list; with an error drawn from their fineness (the rule's own error left out), or without one."""
    readings = []
    for number, (kind, of, laid) in enumerate(wanted, 1):
        points = [*of.split(), *laid.split()]
        true = value(kind, [places[name] for name in points])
        side: Side | None = ("left" if true >= 0 else "right") if kind == "off" else None
        reading = Reading(
            id=f"r{number}", kind=kind, of=tuple(of.split()), from_=tuple(laid.split()), with_=fine, side=side
        )
        if kind != "inline":
            error = 0.0 if rng is None else float(rng.normal(0, fineness(reading).alone))
            reading = msgspec.structs.replace(reading, value=abs(true) + error)
        readings.append(reading)
    return tuple(readings)


def job_of(readings: tuple[Reading, ...]) -> Job:
    """A job with these readings and the points that they name."""
    names = dict.fromkeys(name for reading in readings for name in (*reading.of, *reading.from_))
    return Job(points=dict.fromkeys(names, Point()), readings=readings)


def bench_network(points: int, seed: int = 7) -> tuple[dict[str, complex], list[Wanted]]:
    """A board and further points over the top, each tied as a hand would: distances to the nearest four known points,
    square distances from the edges for every third. The more points, the larger the top, so that they lie as far apart.
    """
    rng = np.random.default_rng(seed)
    size = max(1.0, (points / 30) ** 0.5)
    places = dict(BOARD)
    corners = list(BOARD)
    wanted: list[Wanted] = [("distance", f"{a} {b}", "") for i, a in enumerate(corners) for b in corners[i + 1 :]]
    while len(places) < points:
        name = f"body.{len(places) - 5}"
        spot = complex(430 + size * rng.uniform(0, 470), size * rng.uniform(-190, 190))
        if min(abs(spot - other) for other in places.values()) < 20:
            continue
        known = sorted(places, key=lambda other: abs(places[other] - spot))
        ties = [known[0], *known[2:9:3]] if len(places) % 3 else [known[0], *known[2:6:3]]
        wanted += [("distance", f"{other} {name}", "") for other in ties]
        if not len(places) % 3:
            wanted.append(("off", name, "nut.left end.left"))
        places[name] = spot
    return places, wanted
