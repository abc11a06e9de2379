"""What a new job may begin with: the choices of the questions, and the job that follows from the answers."""

from collections.abc import Sequence
from typing import get_args

from app.edit.edits import replace
from app.edit.start import new_job
from app.edit.tools_at_hand import read_with
from app.file.settings import ToolsAtHand
from geometry import words
from geometry.advice.measuring_lists import Name, measuring_list
from geometry.job import Held, Job
from geometry.job.job import Hand
from geometry.strings.usual_sets import SETS

USUAL = ToolsAtHand()
COUNTS = {3: "Three", 4: "Four", 5: "Five", 6: "Six", 7: "Seven", 8: "Eight", 9: "Nine", 10: "Ten", 12: "Twelve"}
"""How many strings a job may begin with whose set is told later."""


def string_choices() -> list[tuple[str, str]]:
    """The usual sets of strings in words, six steel strings first; then so many strings, by their number alone."""
    ordered = sorted(SETS, key=lambda key: key != "steel 12-54")
    sets = [(key, words.first_large(SETS[key].says)) for key in ordered]
    return [*sets, *((str(count), f"{said} strings, no set yet") for count, said in COUNTS.items())]


def list_choices() -> list[tuple[Name, str]]:
    """The measuring lists in words."""
    names: tuple[Name, ...] = get_args(Name)
    return [(name, words.first_large(name)) for name in names]


def about_list(name: Name, strings_on: bool = True, held: Held = "glue", string_set: str = "6") -> str:
    """What the measuring list holds that would be made with these strings (a set, or their number), what it is for,
    and how long it is.
    """
    strung = new_job.strung_with(*_strings(string_set))
    pins = new_job.has_pins(strung)
    made = measuring_list(name, "right", len(strung), pins=pins, strings_on=strings_on, held=held)
    return f"{made.says} {len(made.readings)} readings."


def begin(
    *,
    hand: Hand,
    string_set: str,
    measuring: Name,
    at_hand: ToolsAtHand = USUAL,
    strings_on: bool = True,
    held: Held = "glue",
) -> Job:
    """The new job: hand, strings (a set, or their number), how its bridge is held, and the readings of a measuring
    list, without values, to be read with the tools at hand.
    """
    count, named = _strings(string_set)
    job = new_job.begin(
        hand=hand,
        strings=count,
        string_set=named,
        measuring=measuring,
        unit=at_hand.unit,
        strings_on=strings_on,
        held=held,
    )
    return replace(job, readings=read_with(job.readings, at_hand.rule, at_hand.caliper))


def _strings(string_set: str) -> tuple[int, str | None]:
    """How many strings, where only their number was chosen; else the set."""
    return (int(string_set), None) if string_set.isdecimal() else (6, string_set)


def on_paper(job: Job, paper: str) -> Job:
    """The new job on the paper that was chosen last; where none was, or there is no such paper, on its unit's own."""
    from export.paper_sizes import is_paper

    return replace(job, sheets=replace(job.sheets, paper=paper)) if is_paper(paper) else job


def with_records(job: Job, records: Sequence[str]) -> Job:
    """The new job with the written pages that were chosen last, as far as they can be made of it."""
    from export.templates import GLUED, RECORDS

    can = [name for name in RECORDS if name in records and (job.held == "glue" or name not in GLUED)]
    return replace(job, sheets=replace(job.sheets, templates=tuple(dict.fromkeys((*job.sheets.templates, *can)))))
