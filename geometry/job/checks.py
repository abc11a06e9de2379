"""The checks that records of a job share: what is refused is refused where the record is made.

`NotAJob` carries one sentence: what is wrong, where, and the mend. Raised inside a record it gains the path to the
value from the decoder; raised for the whole job it names the reading or the point itself.
"""

from collections.abc import Iterable, Sequence

from geometry import units
from geometry.units import Length


class NotAJob(ValueError):
    """A value that no job can hold; the message names the place and the mend."""


class WrongReading(NotAJob):
    """What no reading can be. `fault` is the message without the reading's name: a file knows a reading by its id, and
    a person by what it measures.
    """

    def __init__(self, reading_id: str, fault: str) -> None:
        super().__init__(f"Reading “{reading_id}”{fault}")
        self.reading_id, self.fault = reading_id, fault


def length_between(what: str, length: Length | None, least: float, most: float) -> None:
    """Refuse a length outside [least, most] mm. None passes: it is still to be given."""
    if length is None:
        return
    try:
        value = units.mm(length)
    except units.NotALength as error:
        raise NotAJob(f"{what.rstrip(',')}: {error}") from None
    if not least <= value <= most:
        low, high = units.limits(least, most, length)
        raise NotAJob(
            f"{what} is {units.with_unit(length)}, but must lie between {low} and {high}; look at the unit and the "
            "decimal point"
        )


def number_between(what: str, number: float | None, least: float, most: float) -> None:
    """Refuse a plain number outside [least, most], and NaN."""
    if number is not None and not least <= number <= most:
        raise NotAJob(
            f"{what} is {units.show_number(number) if number == number else 'not a number'}, "
            f"but must lie between {units.show_number(least)} and {units.show_number(most)}; mend the number"
        )


RENAME = "give one of them another name"
"""The mend where what has the name is told apart by it."""


def no_repeats(what: str, names: Iterable[str], mend: str = "name another, or take one of them out") -> None:
    """Refuse a name that stands twice, with what mends it."""
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise NotAJob(f"{what} “{name}” stands twice; {mend}")
        seen.add(name)


def known_points(where: str, names: Iterable[str], known: Iterable[str]) -> None:
    """Refuse a point that the job does not list."""
    for name in names:
        if name not in known:
            raise NotAJob(
                f"{where} names the point “{name}”, which is not among the job’s points; add it or mend the name"
            )


def how_many(where: str, names: Sequence[str], count: int) -> None:
    """Refuse a list of points that is too long or too short."""
    if len(names) != count:
        mend = "name another" if len(names) < count else "take out what is too many"
        raise NotAJob(f"{where} needs {count} point{'s' if count != 1 else ''}, but has {len(names)}; {mend}")
