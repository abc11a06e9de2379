"""A new job: the hand, the strings, and a list of readings to take, still without values."""

from typing import get_args

from app.edit.bridge import held_entries
from app.edit.edits import replace
from app.edit.measure.reading_groups import list_in_groups
from app.edit.usual_sizes import usual
from geometry.advice.measuring_lists import Name, measuring_list
from geometry.job import Choosing, Frets, Held, Job, Sheets, String, Strings, Tail
from geometry.job.bridges.tail import READ
from geometry.job.job import Hand
from geometry.strings.usual_sets import SETS, TIED
from geometry.units import Unit

USUAL_LIST: Name = "neck and bridge"
PAPERS: dict[Unit, str] = {"mm": "A4", "cm": "A4", "in": "Letter"}
"""The paper that a job begins with: that of the countries that measure so (common practice, no source)."""


class NotBegun(ValueError):
    """A new job cannot be made like this; the message says what there is instead."""


def begin(
    *,
    hand: Hand = "right",
    strings: int = 6,
    string_set: str | None = None,
    measuring: str | None = None,
    unit: Unit = "mm",
    strings_on: bool = True,
    held: Held = "glue",
) -> Job:
    """A job with its hand, its unit, its strings (without a set they have numbers only), and with `measuring` the
    readings of a measuring list, still without values; `strings_on` False where the bridge is off, and the strings are;
    `held`: how the bridge is held, begun with usual sizes where it is not glued.

    Raises `NotBegun` where there is no such set, no such list or no such number of strings.
    """
    strung = strung_with(strings, string_set)
    slanted = string_set in SETS and SETS[string_set].slanted
    job = Job(
        unit=unit,
        hand=hand,
        strings=Strings(list=strung),
        frets=Frets(slanted=slanted),
        sheets=usual(Sheets(paper=PAPERS[unit]), unit),
        choice=usual(Choosing(), unit),
        bridge_off=True if held != "screws" and not strings_on else None,
    )
    job = held_entries.hold(job, held)
    if measuring is None:
        return job
    found = measuring_list(
        _list(measuring), hand, len(strung), unit, has_pins(strung), strings_on=strings_on, held=held
    )
    tail = usual(Tail(), unit) if set(READ).intersection(found.points) else None
    return replace(job, points=found.points, readings=list_in_groups(found.readings), tail=tail)


def has_pins(strung: tuple[String, ...]) -> bool:
    """Whether the bridge that such strings are held by has pin holes: those that are tied want none."""
    return strung[0].material not in TIED


def strung_with(count: int, string_set: str | None) -> tuple[String, ...]:
    """The strings of a set, or so many that have numbers only. Raises `NotBegun`."""
    if not 1 <= count <= 12:
        raise NotBegun(f"a job has 1 to 12 strings, not {count}")
    if string_set is None:
        return tuple(String(name=str(number)) for number in range(1, count + 1))
    if string_set not in SETS:
        raise NotBegun(f"there is no set of strings “{string_set}”; there are: {', '.join(SETS)}")
    return SETS[string_set].strings


def _list(measuring: str) -> Name:
    names: tuple[Name, ...] = get_args(Name)
    for name in names:
        if name == measuring:
            return name
    raise NotBegun(f"there is no measuring list “{measuring}”; there are: {', '.join(names)}")
