"""Readings turned into **rows**: one equation a number read, in a form that does not care which hand took it.

A row reads: geometry of up to four points + its extra unknowns, each times its coefficient = value ± sigma. Extra
unknowns are the zero error of a laying, the rule's own error, a scale and a nut shift, a height, a hole's diameter, and
the place and turn of the sheet that `at` readings were read off. What is known of one beforehand is a row too.

A rule's own error (its legal limit) is one unknown a preset, in mm at the end of the first metre: every reading with
that preset shares it in proportion to its length, so it makes the whole instrument larger or smaller together and no
comparison of readings with the same rule can find it out.
"""

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import Literal, NamedTuple

import msgspec

from geometry.job import Job, Reading
from geometry.job.fretting import Spacing
from geometry.job.instruments import DEFAULT, INSTRUMENTS
from geometry.spacing import one_fraction
from geometry.units import mm

Form = Literal["distance", "same", "laid", "meets", "square", "at", "none"]
"""The geometry of a row. `laid` is every reading square to or along a straightedge."""

FAR_APART = 0.25
"""Least difference of two frets' places (on a scale of 1) that settles a nut shift: frets 4 and 12, say.

Nearer frets would turn a reading error of 0.2 mm into more than 1 mm of shift (derived: 0.2 × √2 / 0.25).
"""


class Row(msgspec.Struct, frozen=True):
    """One equation. `points` of a `laid` row are P, Q, A, B: (P − Q) along `lean` × the direction A→B, `lean` 1 along,
    1j to the left, −1j to the right; of an `at` row P alone, `lean` 1 for x and 1j for y.
    """

    id: str
    form: Form
    points: tuple[str, ...]
    value: float
    sigma: float
    lean: complex = 1
    extras: tuple[tuple[str, float], ...] = ()
    component: str = ""


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
    """How finely a reading was read; what was said outright is taken as it is (`within`: JCGM 100:2008, 4.3.7)."""
    if reading.sigma is not None:
        return Fineness(mm(reading.sigma))
    if reading.within is not None:
        return Fineness(mm(reading.within) / math.sqrt(3))
    name = reading.with_ or DEFAULT
    instrument = INSTRUMENTS[name]
    return Fineness(instrument.reading, instrument.zero, name if instrument.legal else "")


def rows_of(job: Job, readings: Iterable[Reading] | None = None) -> list[Row]:
    """All rows of a job's readings that take part, in their order, then the rows of what is known beforehand."""
    taken = [reading for reading in (job.readings if readings is None else readings) if reading.taken]
    shared = _shared_zeros(taken)
    fretting = Fretting(job.frets.spacing, _shifted(job, taken))
    rows: list[Row] = []
    rules: set[str] = set()
    for reading in taken:
        own, rule = _own_rows(reading, reading.laid in shared, fretting)
        rows += own
        if rule:
            rules.add(rule)
    rows += [Row("", "none", (), 0.0, sd, extras=((f"zero.{laid}", 1.0),)) for laid, sd in shared.items()]
    rows += [
        Row("", "none", (), 0.0, INSTRUMENTS[rule].per_metre, extras=((f"rule.{rule}", 1.0),)) for rule in sorted(rules)
    ]
    return rows


def _shared_zeros(taken: list[Reading]) -> dict[str, float]:
    """The layings of two readings or more with a zero of their own, and that zero's standard deviation."""
    zeros: dict[str, list[float]] = {}
    for reading in taken:
        if reading.laid and reading.kind not in ("at", "inline", "same", "square"):
            zero = fineness(reading).zero
            if zero:
                zeros.setdefault(reading.laid, []).append(zero)
    return {laid: max(sds) for laid, sds in zeros.items() if len(sds) > 1}


def _shifted(job: Job, taken: list[Reading]) -> frozenset[str]:
    """The sides on which two frets were read far enough apart to settle how far the nut was moved."""
    places: dict[str, list[float]] = {}
    for reading in taken:
        if reading.kind == "fret" and reading.on and reading.fret is not None:
            places.setdefault(reading.on, []).append(one_fraction(job.frets.spacing, reading.fret))
    return frozenset(side for side, at in places.items() if max(at) - min(at) >= FAR_APART)


Extras = list[tuple[str, float]]


class Fretting(NamedTuple):
    """The fret spacing, and the sides on which a nut shift is settled."""

    spacing: Spacing
    shifted: frozenset[str]


@lru_cache(maxsize=4096)
def _own_rows(reading: Reading, shares_zero: bool, fretting: Fretting) -> tuple[tuple[Row, ...], str]:
    """The rows of one reading, and the rule whose legal error it shares ("" for none); most readings of a job that is
    edited are those of the job before.
    """
    fine = fineness(reading)
    extras: list[tuple[str, float]] = []
    if not fine.rule or reading.value is None or reading.kind == "at":
        fine = Fineness(fine.own, fine.zero)
    if shares_zero and fine.zero and reading.kind not in ("at", "inline", "same", "square"):
        extras.append((f"zero.{reading.laid}", 1.0))
        fine = Fineness(fine.own, 0.0, fine.rule)
    return tuple(_rows(reading, fine, extras, fretting)), fine.rule


def _rows(reading: Reading, fine: Fineness, extras: Extras, fretting: Fretting) -> list[Row]:
    match reading.kind:
        case "rims":
            return _rims(reading, fine, extras)
        case "fret":
            return _fret(reading, fine, extras, fretting)
        case "height":
            return _height(reading, fine, extras)
        case "at":
            return _at(reading, fine)
        case _:
            return _plain(reading, fine, extras)


def _long(value: float, fine: Fineness) -> Extras:
    """The rule's own error in a length."""
    return [(f"rule.{fine.rule}", value / 1000)] if fine.rule else []


def _plain(reading: Reading, fine: Fineness, extras: Extras) -> list[Row]:
    value = mm(reading.parts[0]) if reading.parts else 0.0
    form, points, lean = _geometry(reading)
    return [Row(reading.id, form, points, value, fine.alone, lean, (*extras, *_long(value, fine)))]


def _geometry(reading: Reading) -> tuple[Form, tuple[str, ...], complex]:
    of, laid = reading.of, reading.from_
    match reading.kind:
        case "along":
            return "laid", (of[0], laid[0], *laid), 1
        case "off":
            return "laid", (of[0], laid[0], *laid), 1j if reading.side == "left" else -1j
        case "inline":
            return "laid", (of[0], laid[0], *laid), 1j
        case "across":
            return "laid", (*of, *laid), 1j
        case "meets":
            return "meets", (*laid, *of), 1
        case "same":
            return "same", of, 1
        case "square":
            return "square", of, 1
        case _:
            return "distance", of, 1


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


def _fret(reading: Reading, fine: Fineness, extras: Extras, fretting: Fretting) -> list[Row]:
    value = mm(reading.parts[0])
    own = [(f"scale.{reading.on}", one_fraction(fretting.spacing, reading.fret or 0))]
    if reading.on in fretting.shifted:
        own.append((f"shift.{reading.on}", -1.0))
    return [Row(reading.id, "none", (), value, fine.alone, extras=(*own, *extras, *_long(value, fine)))]


def _height(reading: Reading, fine: Fineness, extras: Extras) -> list[Row]:
    value = mm(reading.parts[0])
    own = (f"height.{reading.at}.{reading.on}", 1.0)
    return [Row(reading.id, "none", (), value, fine.alone, extras=(own, *extras, *_long(value, fine)))]


def _at(reading: Reading, fine: Fineness) -> list[Row]:
    x, y = (mm(part) for part in reading.parts)
    sheet = ("at.turn", 0.0)
    return [
        Row(reading.id, "at", reading.of, x, fine.alone, 1, (sheet, ("at.x", 1.0)), "x"),
        Row(reading.id, "at", reading.of, y, fine.alone, 1j, (sheet, ("at.y", 1.0)), "y"),
    ]
