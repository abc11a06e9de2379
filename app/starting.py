"""What a new job may begin with: the choices of the three questions, and the job that follows from the answers."""

from typing import get_args

from app import newjob, words
from app.bridge_words import TIED
from app.edits import replace
from geometry.job import Job
from geometry.job.job import Hand
from geometry.measuring_lists import LISTS, Name, measuring_list
from geometry.strings.sets import SETS
from geometry.units import Unit


def string_choices() -> list[tuple[str, str]]:
    """The usual sets of strings in words, six steel strings first."""
    ordered = sorted(SETS, key=lambda key: key != "steel light")
    return [(key, words.first_large(SETS[key].says)) for key in ordered]


def list_choices() -> list[tuple[Name, str]]:
    """The measuring lists in words."""
    names: tuple[Name, ...] = get_args(Name)
    return [(name, words.first_large(name)) for name in names]


def about_list(name: Name) -> str:
    """What a measuring list is for, and how long it is."""
    says = LISTS[name][0]
    return says if "readings" in says else f"{says} {len(measuring_list(name, 'right', 6).readings)} readings."


def begin(*, hand: Hand, string_set: str, measuring: Name, unit: Unit) -> Job:
    """The new job: hand, strings, and the readings of a measuring list, still without values."""
    strings = SETS[string_set].strings
    pins = strings[0].material not in TIED
    found = measuring_list(measuring, hand, len(strings), unit, pins)
    job = newjob.begin(hand=hand, string_set=string_set, unit=unit)
    return replace(job, points=found.points, readings=found.readings)
