"""What a new job may begin with: the choices of the three questions, and the job that follows from the answers."""

from typing import get_args

from app import newjob, words
from geometry.job import Job
from geometry.job.job import Hand
from geometry.measuring_lists import LISTS, Name, measuring_list
from geometry.strings.sets import SETS
from geometry.units import Unit

COUNTS = {3: "Three", 4: "Four", 5: "Five", 6: "Six", 7: "Seven", 8: "Eight", 9: "Nine", 10: "Ten", 12: "Twelve"}
"""How many strings a job may begin with whose set is told later."""


def string_choices() -> list[tuple[str, str]]:
    """The usual sets of strings in words, six steel strings first; then so many strings, by their number alone."""
    ordered = sorted(SETS, key=lambda key: key != "steel light")
    sets = [(key, words.first_large(SETS[key].says)) for key in ordered]
    return [*sets, *((str(count), f"{said} strings, no set yet") for count, said in COUNTS.items())]


def list_choices() -> list[tuple[Name, str]]:
    """The measuring lists in words."""
    names: tuple[Name, ...] = get_args(Name)
    return [(name, words.first_large(name)) for name in names]


def about_list(name: Name) -> str:
    """What a measuring list is for, and how long it is."""
    says = LISTS[name][0]
    return says if "readings" in says else f"{says} {len(measuring_list(name, 'right', 6).readings)} readings."


def begin(*, hand: Hand, string_set: str, measuring: Name, unit: Unit) -> Job:
    """The new job: hand, strings (a set, or their number), and the readings of a measuring list, without values."""
    if string_set.isdecimal():
        return newjob.begin(hand=hand, strings=int(string_set), measuring=measuring, unit=unit)
    return newjob.begin(hand=hand, string_set=string_set, measuring=measuring, unit=unit)
