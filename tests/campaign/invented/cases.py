"""The cases of the campaign: what is wrong, or is not, in each."""

from collections.abc import Sequence
from typing import Literal, get_args

import msgspec

from geometry.advice.measuring_lists import Name
from geometry.job import Frets
from tests.campaign.invented.crooked import Wish
from tests.campaign.invented.hands import SKIPS, Manner

LISTS: tuple[Name, ...] = get_args(Name)
Slip = Literal["", "any", "fret", "swap", "laying", "worn"]
DECLARABLE = "slanted" in Frets.__struct_fields__
"""Whether a job can say that its frets are slanted; without that, the case is passed over."""


class Case(msgspec.Struct, frozen=True, kw_only=True):
    """One case: its name, what is tried, and how its instruments and hands differ from the usual ones.

    `slip` is what the hand gets wrong, `few` leaves it one to three frets a side, `declared` says in the job that the
    frets are slanted, `mirrored` works out the mirrored instrument of the other hand as well.
    """

    name: str
    says: str
    lists: tuple[Name, ...] = LISTS
    wish: Wish = Wish()
    manner: Manner = Manner()
    slip: Slip = ""
    few: bool = False
    declared: bool = False
    mirrored: bool = False


UNIFORM, NORMAL = Wish(shift=("uniform", 1.5)), Wish(shift=("normal", 0.5))


CASES = (
    Case(name="as given", says="Read as finely as stated."),
    Case(
        name="square, neck and bridge",
        says="As given, by the list “neck and bridge” alone: how far square frets are taken for slanted.",
        lists=("neck and bridge",),
    ),
    Case(
        name="sloppy",
        says="Of what is not the board three in ten are left out; errors as large but more often far out.",
        manner=Manner(tailed=True, skips=SKIPS),
    ),
    Case(
        name="marks on top",
        says="Rounded to the nearest mark on top of the stated error, not as a part of it.",
        manner=Manner(marks="on top"),
    ),
    Case(name="coarse 1.5", says="All errors 1.5 times the stated ones.", manner=Manner(times=1.5)),
    Case(name="coarse 2.5", says="All errors 2.5 times the stated ones.", manner=Manner(times=2.5)),
    Case(name="misread", says="One reading, any but a height, is out by 1 to 5 mm.", slip="any"),
    Case(name="misread fret", says="One fret’s reading is out by 1 to 5 mm.", slip="fret"),
    Case(
        name="misread fret, bridge only",
        says="The same, with the shortest list.",
        lists=("bridge only",),
        slip="fret",
    ),
    Case(
        name="swapped",
        says="Two values of a kind, 2 to 60 mm apart, are exchanged, where anything read can tell.",
        slip="swap",
    ),
    Case(
        name="laid elsewhere",
        says="One laying of the rule begins 1 to 10 mm off: all its readings, two or more, are out alike.",
        slip="laying",
    ),
    Case(
        name="worn rule",
        says="The rule’s end is worn: all that is read with it, from there, is 0.3 to 1.5 mm too much.",
        slip="worn",
    ),
    Case(name="moved nut", says="The nut stands up to 1.5 mm out of place.", wish=UNIFORM),
    Case(name="moved nut, normal", says="The nut stands out of place by 0.5 mm (one standard deviation).", wish=NORMAL),
    Case(
        name="moved nut, few frets",
        says="The nut stands up to 1.5 mm out of place, and only 1 to 3 frets a side are read.",
        wish=UNIFORM,
        few=True,
    ),
    Case(
        name="moved nut, few frets, normal",
        says="The nut stands out of place by 0.5 mm (one standard deviation), and only 1 to 3 frets a side are read.",
        wish=NORMAL,
        few=True,
    ),
    Case(name="slanted", says="The nominal places differ by 2 to 8 mm.", wish=Wish(slanted=True)),
    Case(
        name="slanted, declared",
        says="The same, and the job says that the frets are slanted.",
        wish=Wish(slanted=True),
        declared=True,
    ),
    Case(
        name="cranked board",
        says="The board turns by 0.3 to 2 degrees at fret 12.",
        wish=Wish(cranked=True),
    ),
    Case(name="mirrored hand", says="As given, and mirrored for the other hand beside it.", mirrored=True),
)


def cases_named(names: Sequence[str]) -> list[Case]:
    """The cases of these names, or all; those that this program's jobs cannot say are left out."""
    unknown = set(names) - {case.name for case in CASES}
    if unknown:
        raise SystemExit(f"no case {', '.join(sorted(unknown))}; there are: {', '.join(case.name for case in CASES)}")
    return [case for case in CASES if (not names or case.name in names) and (DECLARABLE or not case.declared)]
