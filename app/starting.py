"""What a new job may begin with: the choices of the three questions, and the job that follows from the answers."""

from app import newjob
from geometry.job import Job
from geometry.job.job import Hand
from geometry.strings.sets import SETS
from geometry.units import Unit


def string_choices() -> list[tuple[str, str]]:
    """The usual sets of strings in words, six steel strings first."""
    ordered = sorted(SETS, key=lambda key: key != "steel light")
    return [(key, f"{SETS[key].says[:1].upper()}{SETS[key].says[1:]}") for key in ordered]


def begin(*, hand: Hand, string_set: str, unit: Unit) -> Job:
    """The new job: hand and strings."""
    return newjob.begin(hand=hand, string_set=string_set, unit=unit)
