"""A hand that takes the readings of a measuring list from a true instrument, with the errors that a bench has.

Each value is the truth, plus the reading's own error, the zero error of its laying and the rule's own error, set on the
instrument's marks. Their sizes are those that the program states for its presets
(geometry/job/measured/measuring_tools.py).
"""

import math
from collections.abc import Mapping
from typing import Any, Literal

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.job import Reading
from geometry.job.measured.measuring_tools import DEFAULT, INSTRUMENTS
from tests.campaign.invented.instruments import Instrument, dot, meet, through

MARKS = {"rule 0.5": 0.5, "rule 1/64": 25.4 / 64, "caliper 0.1": 0.1, "caliper 0.05": 0.05, "rule 1": 1.0}
"""mm from one mark to the next; a value is read to the nearest."""
IN_64THS = "rule 1/64"
LEAST = 0.5
"""A rule is not read under this (mm)."""
SKIPS = 0.3
"""How often a sloppy hand leaves out a reading that is not of the board."""
ASKED = "asked" in Reading.__struct_fields__
"""Whether a list's readings in line are questions, which a hand answers, or are taken for true."""
Values = tuple[float, ...]


class Manner(msgspec.Struct, frozen=True, kw_only=True):
    """How a hand reads: its errors `times` the stated ones, `tailed` more often far out, leaving out some (`skips`),
    with or without the `zero` errors that the readings of one laying share. `exact` makes no error at all. `marks`: the
    rounding to the nearest mark is a part of the stated error, which takes reading and setting together, or comes on
    top of it.
    """

    times: float = 1.0
    tailed: bool = False
    skips: float = 0.0
    zero: bool = True
    exact: bool = False
    marks: Literal["within", "on top"] = "within"


AS_STATED = Manner()
"""A hand whose errors are as large as the presets state."""


class Errors:
    """The errors of one hand at one instrument: the rules' own and the layings' zeros are drawn once."""

    def __init__(self, random: np.random.Generator, manner: Manner) -> None:
        """`random` is the only source of chance."""
        self.random, self.manner = random, manner
        self.rules: dict[str, float] = {}
        self.zeros: dict[str, float] = {}

    def own(self, fine: str) -> float:
        """A reading's own error, mm; with heavy tails from Student's t with 5 degrees of freedom at the same spread."""
        sd = self.manner.times * INSTRUMENTS[fine].reading
        if self.manner.marks == "within":
            sd = math.sqrt(max(sd**2 - MARKS[fine] ** 2 / 12, 0.0))
        if not self.manner.tailed:
            return float(self.random.normal(0, sd))
        return float(self.random.standard_t(5) * math.sqrt(3 / 5) * sd)

    def zero(self, fine: str, laid: str | None) -> float:
        """The zero error of a reading, or of all readings of its laying, mm."""
        if not self.manner.zero:
            return 0.0
        sd = self.manner.times * INSTRUMENTS[fine].zero
        if laid is None:
            return float(self.random.normal(0, sd))
        if laid not in self.zeros:
            self.zeros[laid] = float(self.random.normal(0, sd))
        return self.zeros[laid]

    def per_mm(self, fine: str) -> float:
        """The rule's own error over its length, anywhere within its legal limit alike; 0 for a caliper."""
        if fine not in self.rules:
            most = math.sqrt(3) * INSTRUMENTS[fine].per_metre / 1000
            self.rules[fine] = self.manner.times * float(self.random.uniform(-most, most))
        return self.rules[fine]


def true_values(reading: Reading, instrument: Instrument) -> Values:
    """What an exact hand reads: one value, for `rims` two, for a point in line its offset to the left."""
    points = [instrument.points[name] for name in (*reading.of, *reading.from_)]
    match reading.kind:
        case "distance":
            return (abs(points[1] - points[0]),)
        case "rims":
            far, half = abs(points[1] - points[0]), instrument.holes[reading.of[1]] / 2
            return far - half, far + half
        case "fret":
            return (instrument.fret(reading.fret or 0, 0 if reading.on == "left" else 1),)
        case "height":
            return (instrument.heights[reading.at or "", reading.on or ""],)
        case "meets":
            return (abs(meet(through(*points[:2]), through(*points[2:])) - points[2]),)
        case "along":
            at, a, b = points
            return (dot(at - a, b - a) / abs(b - a),)
        case "off" | "inline":
            at, a, b = points
            off = dot(at - a, 1j * (b - a)) / abs(b - a)
            return (-off if reading.side == "right" else off,)
        case _:
            raise AssertionError(f"no list asks for {reading.kind}")


def take(readings: tuple[Reading, ...], instrument: Instrument, errors: Errors) -> dict[str, Values]:
    """What the hand reads, by reading; a reading that it leaves out is missing."""
    skips = errors.manner.skips
    found = {}
    for reading in readings:
        values = true_values(reading, instrument)
        board = all(name.startswith(("nut.", "end.")) for name in reading.of) and reading.kind == "distance"
        if skips and not board and errors.random.random() < skips:
            continue
        found[reading.id] = values if errors.manner.exact else _with_errors(reading, values, errors)
    return found


def _with_errors(reading: Reading, values: Values, errors: Errors) -> Values:
    fine = reading.with_ or DEFAULT
    # a point's offset is seen by eye along a straightedge: no mark and no length of the rule come into it
    if reading.kind == "inline":
        return (values[0] + errors.own(fine) + errors.zero(fine, None),)
    shared = errors.zero(fine, reading.laid)
    return tuple(value * (1 + errors.per_mm(fine)) + shared + errors.own(fine) for value in values)


def written(
    readings: tuple[Reading, ...], taken: Mapping[str, Values], *, exact: bool = False, inch: bool = False
) -> tuple[Reading, ...]:
    """The list's readings with what was read. One that was left out stays to be measured; in line is answered."""
    found = []
    for reading in readings:
        values = taken.get(reading.id)
        if reading.kind == "inline":
            if ASKED or values is not None:
                found.append(_answered(reading, values, exact=exact))
        elif values is None:
            found.append(reading)
        elif exact:
            found.append(replace(reading, value=values if len(values) > 1 else values[0], with_=None, sigma=0.001))
        else:
            found.append(_on_the_marks(reading, values, inch=inch))
    return tuple(found)


def _answered(reading: Reading, values: Values | None, *, exact: bool) -> Reading:
    """A question whether a point lies in line, answered: it does as far as a rule shows, or lies off by so much. Where
    it is no question it is taken for true, but not by an exact hand.
    """
    if values is None or not (ASKED or exact):
        return reading
    (off,) = values
    seen = round(abs(off), 6) if exact else abs(round(2 * off) / 2)
    if seen == 0:
        told: dict[str, Any] = {"asked": False} if ASKED else {}
        return replace(reading, **told)
    side = "left" if off > 0 else "right"
    fine = {"sigma": 0.001} if exact else {"with": DEFAULT}
    lies = {"id": reading.id, "kind": "off", "of": reading.of, "from": reading.from_, "side": side, "value": seen}
    return msgspec.convert(lies | fine, Reading)


def _on_the_marks(reading: Reading, values: Values, *, inch: bool) -> Reading:
    """The values at the nearest marks, never under what a rule can show; 64ths of an inch as they are written."""
    fine = reading.with_ or DEFAULT
    mark = MARKS[fine]
    counts = [max(round(value / mark), math.ceil(LEAST / mark)) for value in values]
    if reading.kind in ("off", "height"):
        counts = [max(round(value / mark), 0) for value in values]
    if len(counts) > 1:
        counts[1] = max(counts[1], counts[0] + 1)
    sixtyfourths = inch and fine == IN_64THS
    shown = tuple(sixty_fourths(n) if sixtyfourths else round(n * mark, 6) for n in counts)
    return replace(reading, value=shown if len(shown) > 1 else shown[0])


def sixty_fourths(count: int) -> str:
    """So many 64ths of an inch as a hand writes them: 25 11/32 in."""
    whole, rest = divmod(count, 64)
    if not rest:
        return f"{whole} in"
    part = math.gcd(rest, 64)
    fraction = f"{rest // part}/{64 // part} in"
    return f"{whole} {fraction}" if whole else fraction
