"""An invented board that turns at fret 12, read with a measuring list: its questions answered truly, or falsely yes."""

import cmath
import math

import msgspec
import numpy as np

from geometry.advice.measuring_lists import measuring_list
from geometry.job import Job, Reading, Spread, String, Strings
from geometry.job.job import Hand
from geometry.job.sides import Side
from geometry.survey.rows.rows_of_readings import fineness

Places = dict[str, complex]
SCALE = 648.0


def board(turn: float = 0.0, only: Side | None = None, end: float = 428.0) -> Places:
    """Corners and fret 12 of a board, 43 mm wide at the nut and widening by 1 in 33; beyond fret 12 it turns to the
    left by `turn` degrees, both edges or one `only`.
    """
    places: Places = {}
    for side, way in (("left", 1), ("right", -1)):
        nut, slope = complex(0, way * 21.5), complex(1, way * 0.0152)
        twelfth = nut + slope * SCALE / 2
        way_on = slope * (cmath.exp(1j * math.radians(turn)) if only in (None, side) else 1)
        places |= {
            f"nut.{side}": nut,
            f"fret12.{side}": twelfth,
            f"end.{side}": twelfth + way_on * (end - SCALE / 2),
        }
    return places


def read(
    places: Places,
    *,
    hand: Hand = "right",
    falsely: tuple[Side, ...] = (),
    random: np.random.Generator | None = None,
    **blocks: object,
) -> Job:
    """The list “neck and bridge” filled in, each value with its stated error where there is a `random`; on the sides
    named `falsely` a point off the straightedge is called in line.
    """
    wanted = measuring_list("neck and bridge", hand, 6)
    zeros: dict[str, float] = {}
    errors = {name: random.normal() if random is not None else 0.0 for name in ("rule 0.5", "caliper 0.1")}
    readings = tuple(_read(reading, places, falsely, random, zeros, errors) for reading in wanted.readings)
    strings = Strings(
        list=tuple(String(name=str(n)) for n in range(1, 7)),
        nut=Spread(spread=36.0),
        saddle=Spread(spread=55.0),
        compensation=(2.0,) * 6,
    )
    return Job(hand=hand, points=wanted.points, readings=readings, strings=strings, **blocks)  # type: ignore[arg-type]  # a test gives the blocks


def _read(
    reading: Reading,
    places: Places,
    falsely: tuple[Side, ...],
    random: np.random.Generator | None,
    zeros: dict[str, float],
    errors: dict[str, float],
) -> Reading:
    of, laid = [places[name] for name in reading.of], [places[name] for name in reading.from_]
    if reading.kind == "inline":
        off = _seen(of[0], laid).imag + (0.0 if random is None else random.normal(0, fineness(reading).alone))
        if reading.of[0].partition(".")[2] in falsely:
            return msgspec.structs.replace(reading, asked=False)
        side: Side = "left" if off > 0 else "right"
        return msgspec.structs.replace(reading, kind="off", side=side, value=abs(off), asked=False)
    match reading.kind:
        case "distance":
            value = abs(of[1] - of[0])
        case "along":
            value = _seen(of[0], laid).real
        case "fret":
            value = SCALE * (1 - 2 ** (-(reading.fret or 0) / 12))
        case _:
            value = 2.0
    return msgspec.structs.replace(reading, value=value + _error(reading, value, random, zeros, errors))


def _error(
    reading: Reading,
    value: float,
    random: np.random.Generator | None,
    zeros: dict[str, float],
    errors: dict[str, float],
) -> float:
    """An error as it is stated: the reading's own, its laying's zero, and the rule's, which grows with the length."""
    if random is None:
        return 0.0
    fine = fineness(reading)
    zero = random.normal(0, fine.zero)
    if reading.laid is not None:
        zero = zeros.setdefault(reading.laid, zero)
    # derived: a class II rule's limit at its first metre is 0.5 mm, rectangular
    # (geometry/job/measured/measuring_tools.py)
    rule = errors.get(fine.rule, 0.0) * 0.5 / math.sqrt(3) * value / 1000
    return float(random.normal(0, fine.own) + zero + rule)


def _seen(point: complex, laid: list[complex]) -> complex:
    """A point along and to the left of a straightedge."""
    along = laid[1] - laid[0]
    return (point - laid[0]) * along.conjugate() / abs(along)
