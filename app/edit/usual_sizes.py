"""Usual sizes in the job's unit. The records' own are in mm; a job in inches begins with what its rules show: 64ths,
32nds from half an inch, 16ths from two inches; a metric one begins with no inches either. What no rule shows is told in
thousandths, as files and feelers are.
"""

from fractions import Fraction
from typing import TypeVar

import msgspec

from geometry.units import MM_PER, Length, Unit, keep, mm, said

T = TypeVar("T", bound=msgspec.Struct)
FINENESS = ((2.0, 16), (0.5, 32), (0.0, 64))
"""From so many inches on a size is told in such parts of one (common practice, no source)."""


LEAST = 1 / 128
"""What is less is nearer to nothing than to 1/64 in."""


def usual(record: T, unit: Unit) -> T:
    """The record as it is begun in a job of that unit: its lengths that are numbers as a rule of inches shows them,
    those in inches in a metric job as its own rule does.
    """
    fields = {field.name: getattr(record, field.name) for field in msgspec.structs.fields(record) if is_length(field)}
    own: dict[str, Length]
    if unit == "in":
        own = {name: in_inches(size) for name, size in fields.items() if isinstance(size, float) and size}
    else:
        own = {name: metric(size, unit) for name, size in fields.items() if isinstance(size, str)}
    return msgspec.structs.replace(record, **own)


def metric(size: str, unit: Unit) -> Length:
    """A usual size in inches as a metric rule shows it: “1/4 in” is 6.4, in a job in centimetres “0.64 cm”."""
    return keep(said(mm(size), unit).removesuffix(" mm"), "mm")


def usual_now(record: T, of: Unit, to: Unit) -> T:
    """The record in a job that turns from one unit to another: sizes that nobody typed are the usual ones of the new
    unit, typed ones stay.
    """
    bare = type(record)()
    before, after = usual(bare, of), usual(bare, to)
    names = [field.name for field in msgspec.structs.fields(record) if is_length(field)]
    unasked = {name: getattr(after, name) for name in names if getattr(record, name) == getattr(before, name)}
    return msgspec.structs.replace(record, **unasked)


def is_length(field: msgspec.structs.FieldInfo) -> bool:
    """Whether a record's field is a length."""
    return field.type in (Length, Length | None)


def in_inches(size: float) -> str:
    """A size (mm) as a rule of inches shows it: 3.0 is “1/8 in”, 152.0 “6 in”; 0.1 as a feeler tells it: “0.004 in”."""
    inches = size / MM_PER["in"]
    if abs(inches) < LEAST:
        return f"{inches:.3f} in"
    parts = next(parts for least, parts in FINENESS if abs(inches) >= least)
    whole, part = divmod(max(Fraction(round(inches * parts), parts), Fraction(1, parts)), 1)
    return " ".join([*([str(whole)] if whole or not part else []), *([str(part)] if part else []), "in"])
