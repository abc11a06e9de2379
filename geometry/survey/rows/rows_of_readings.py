"""Readings turned into **rows**: one equation a number read, in a form that does not care which hand took it.

Besides its points a row has extra unknowns (`geometry/survey/rows/row.py`): the zero error of a laying, the rule's own
error, a scale and a nut shift, a height, a hole's diameter, and the place and turn of the sheet that `at` readings were
read off. What is known of one beforehand is a row too.

A rule's own error (its legal limit) is one unknown a preset, in mm at the end of the first metre: every reading with
that preset shares it in proportion to its length, so it makes the whole instrument larger or smaller together and no
comparison of readings with the same rule can find it out.
"""

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import assert_never

import msgspec

from geometry.job import Job, Reading
from geometry.job.measured.kinds import PER_DEGREE, SHAPES, Shape
from geometry.job.measured.measuring_tools import DEFAULT, GAUGES, INSTRUMENTS, usual
from geometry.job.neck.fretting import Spacing
from geometry.spacing import one_fraction
from geometry.survey.rows.one_scale import as_fret_12, nut_and_scales, prior
from geometry.survey.rows.row import Row
from geometry.units import mm

UNEVEN = 0.5
"""One standard deviation of how far a fret stands from where the spacing has it on a board whose frets are taken as
measured, mm (common practice, no source)."""


class Fineness(msgspec.Struct, frozen=True):
    """Standard deviations (mm) of a reading's own error and of its zero; `rule` whose legal error it shares."""

    own: float
    zero: float = 0.0
    rule: str = ""

    @property
    def alone(self) -> float:
        """The standard deviation of a reading that shares its zero with no other."""
        return math.hypot(self.own, self.zero)


def fineness(reading: Reading) -> Fineness:
    """How finely a reading was read; what was said outright is taken as it is (`within`: JCGM 100:2008, 4.3.7). An
    angle's is that of its arc, mm.
    """
    degrees = SHAPES[reading.kind].degrees
    times = reading.times * PER_DEGREE if degrees else reading.times
    if reading.sigma is not None:
        return Fineness(times * mm(reading.sigma))
    if reading.within is not None:
        return Fineness(times * mm(reading.within) / math.sqrt(3))
    if degrees:
        return Fineness(times * GAUGES[reading.with_ or usual(degrees)].degrees)
    name = reading.with_ or DEFAULT
    instrument = INSTRUMENTS[name]
    return Fineness(
        reading.times * instrument.reading, reading.times * instrument.zero, name if instrument.legal else ""
    )


def rows_of(job: Job, readings: Iterable[Reading] | None = None) -> list[Row]:
    """All rows of a job's readings that take part, in their order, then the rows of what is known beforehand."""
    taken = [reading for reading in (job.readings if readings is None else readings) if reading.taken]
    shared = _shared_zeros(taken)
    rows: list[Row] = []
    twelfth: list[Row] = []
    rules: set[str] = set()
    for reading in taken:
        own, rule = _own_rows(reading, reading.laid in shared, job.frets.spacing)
        rows += own
        if rule:
            rules.add(rule)
        also = as_fret_12(reading, own[0], job.frets.spacing)
        if also is not None:
            twelfth.append(also)
    rows += [prior(((f"zero.{laid}", 1.0),), sd) for laid, sd in shared.items()]
    rows += [prior(((f"rule.{rule}", 1.0),), INSTRUMENTS[rule].per_metre) for rule in sorted(rules)]
    rows += nut_and_scales(job.frets, rows, tuple(twelfth))
    return rows


def _shared_zeros(taken: list[Reading]) -> dict[str, float]:
    """The layings of two readings or more with a zero of their own, and that zero's standard deviation."""
    zeros: dict[str, list[float]] = {}
    for reading in taken:
        if reading.laid and SHAPES[reading.kind].is_length:
            zero = fineness(reading).zero
            if zero:
                zeros.setdefault(reading.laid, []).append(zero)
    return {laid: max(sds) for laid, sds in zeros.items() if len(sds) > 1}


Extras = list[tuple[str, float]]


@lru_cache(maxsize=4096)
def _own_rows(reading: Reading, shares_zero: bool, spacing: Spacing) -> tuple[tuple[Row, ...], str]:
    """The rows of one reading, and the rule whose legal error it shares ("" for none); most readings of a job that is
    edited are those of the job before.
    """
    fine, shape = fineness(reading), SHAPES[reading.kind]
    extras: list[tuple[str, float]] = []
    is_length = shape.is_length
    if not fine.rule or not is_length:
        fine = Fineness(fine.own, fine.zero)
    if shares_zero and fine.zero and is_length:
        extras.append((f"zero.{reading.laid}", 1.0))
        fine = Fineness(fine.own, 0.0, fine.rule)
    return tuple(_rows(reading, shape, fine, extras, spacing)), fine.rule


def _rows(reading: Reading, shape: Shape, fine: Fineness, extras: Extras, spacing: Spacing) -> list[Row]:
    match shape.numbers:
        case "one":
            return _plain(reading, shape, fine, extras)
        case "rims":
            return _rims(reading, fine, extras)
        case "fret":
            return _fret(reading, fine, extras, spacing)
        case "height":
            return _height(reading, fine, extras)
        case "sheet":
            return _at(reading, fine)
        case _:
            assert_never(shape.numbers)


def _long(value: float, fine: Fineness) -> Extras:
    """The rule's own error in a length."""
    return [(f"rule.{fine.rule}", value / 1000)] if fine.rule else []


def _plain(reading: Reading, shape: Shape, fine: Fineness, extras: Extras) -> list[Row]:
    """One row in the kind's own form."""
    points = tuple(map((*reading.from_, *reading.of).__getitem__, shape.points))
    value = mm(reading.parts[0]) if reading.parts else 0.0
    if shape.degrees:
        value *= PER_DEGREE
    mirrored = reading.inside and shape.mirrored
    lean = -shape.lean if (reading.side == "right") != mirrored else shape.lean
    return [Row(reading.id, shape.form, points, value, fine.alone, lean, (*extras, *_long(value, fine)))]


def _rims(reading: Reading, fine: Fineness, extras: Extras) -> list[Row]:
    near, far = (mm(part) for part in reading.parts)
    middle, across = (near + far) / 2, far - near
    return [
        Row(
            reading.id,
            "distance",
            reading.of,
            middle,
            math.hypot(fine.own / math.sqrt(2), fine.zero),
            extras=(*extras, *_long(middle, fine)),
            component="nominal",
        ),
        Row(
            reading.id,
            "none",
            (),
            across,
            fine.own * math.sqrt(2),
            extras=((f"diameter.{reading.of[1]}", 1.0), *_long(across, fine)),
            component="span",
        ),
    ]


def _fret(reading: Reading, fine: Fineness, extras: Extras, spacing: Spacing) -> list[Row]:
    value = mm(reading.parts[0])
    own = [(f"scale.{reading.on}", one_fraction(spacing, reading.fret or 0)), (f"shift.{reading.on}", -1.0)]
    sigma = fine.alone if spacing != "measured" else math.hypot(fine.alone, UNEVEN)
    return [Row(reading.id, "none", (), value, sigma, extras=(*own, *extras, *_long(value, fine)))]


def _height(reading: Reading, fine: Fineness, extras: Extras) -> list[Row]:
    value = mm(reading.parts[0])
    own = (f"height.{reading.at}.{reading.on}", 1.0)
    return [Row(reading.id, "none", (), value, fine.alone, extras=(own, *extras, *_long(value, fine)))]


def _at(reading: Reading, fine: Fineness) -> list[Row]:
    x, y = (mm(part) for part in reading.parts)
    of, up = ("inside", -1j) if reading.inside else ("at", 1j)
    sheet = (f"{of}.turn", 0.0)
    return [
        Row(reading.id, "at", reading.of, x, fine.alone, 1, (sheet, (f"{of}.x", 1.0)), "x"),
        Row(reading.id, "at", reading.of, y, fine.alone, up, (sheet, (f"{of}.y", 1.0)), "y"),
    ]
