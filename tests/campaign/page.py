"""The page on how true the numbers are: what was tried, how many, what came out, and how to repeat it."""

from collections.abc import Sequence
from pathlib import Path

from tests.campaign import published
from tests.campaign.every_kind import kept
from tests.campaign.invented.cases import CASES, DECLARABLE
from tests.campaign.judging import Record
from tests.campaign.pictures import held_picture, width_picture
from tests.campaign.table import figure_line, page_table, rows

HEAD = """# How true the numbers are

Every ± promises something: 19 times in 20 the truth lies within. Whether it does cannot be seen on a bench, where
nobody knows the truth. So instruments are invented whose every place is known, by a geometry that shares no code with
the program’s; a hand reads them by the program’s own measuring lists, with the errors a hand has; the program works
the readings out; and what it says is held against what is true. This page is written by that campaign and is not
edited by hand.

Tried: {cases} cases, {count} instruments in each, seed {seed}. What came out, in one line:

> {figure}

## What is tried

The instruments have scales from 330 to 660 mm, four to six strings, either hand. Nothing on them is square: the neck
points to one side, the nut and the board’s end are cut askew, the nut stands a little nearer or farther than the
frets say, the seam and the old footprint lie turned. Compensation is typed, so that only measuring is tried.

A reading is the truth and an error: its own (normal, as large as [stated for its
instrument](numbers.md#from-readings-to-places), the nearest mark included), {zero} and the rule’s own error anywhere
within its legal limit. Each of the three measuring lists is used in turn; a quarter of the jobs is read in 64ths of
an inch.

| case | what is different |
|---|---|
"""
HELD = """
## Whether the ± hold

In per cent, with the 95 % interval that so many trials leave (Clopper and Pearson) in brackets. 95 is the aim: much
less promises too much, and more than that makes a ± wider than it must be. ± is the middle one of those stated, `95
%` what the saddle’s errors stay under in 95 of 100, both in mm. The saddle is its distance from the nut’s front along
the centre line at the outer strings; `sheet` is where a sheet that is laid to the true board’s end puts it, and the
front is where that puts the bridge’s front edge at both wings; points are all that were measured, in x and y. `told`:
jobs in which the screen says that readings disagree by more than their ± allow; `somewhat`: those of the others in
which it says that they agree somewhat worse than they were said to be read, and by how much every ± is wider for it.

![Shares in which the ± holds](how-true/held.svg)

![Stated ± and true errors](how-true/width.svg)

Where it is less than 93: the coarse hands and `marks on top` err more than they say they do. The ± grows as far as the
readings themselves show that, and no further; how often the screen says that they do stands in the last two columns.
With a worn rule all that it reads from its end is too much alike, as if the nut stood farther from the frets; where a
sheet puts saddle and bridge hangs less on that, for the board’s end was read with the same rule.
Where it is more than 97: while one of several readings may be the wrong one, the ± spans what each would mean.

"""
SAID = """
## What is said of the readings

`innocent`: jobs in which a reading is accused that is right. `named`: jobs in which the wrong reading is named, or is
one of a group that is. `false swap`: jobs said to have two values exchanged that have not. `slanted`: jobs whose
frets are called slanted. `difference`: the nominal places’ difference where there is none, root mean square in mm.
`wrong`: jobs in which the saddle or a point is off by more than 5 mm and three times its ±, and no reading is accused
that is wrong. `silent`: jobs in which the saddle lies beyond its ± and nothing on the screen warns of the readings.
`mirror`: jobs that the other hand’s mirrored instrument answers otherwise.

"""
FLAGGED = """
## Where a reading is accused

The same ± among the jobs in which some reading is accused, and among the others.

"""
CHECKED = """
## Whether a slip would show

The saddle says whether a gross error in a reading that holds it would show (`checked`). Here is how often it said so,
against whether the wrong reading was seen; jobs.

"""
LISTS = """
## List by list

The case “as given” by measuring list.

"""
END = """
## To repeat it

In a copy of this project with its tests installed:

```
.venv/bin/python -m tests.campaign true --count {count} --seed {seed}
```

The same seed gives the same table. With `--write docs/how-true.md` it writes this page, and `--case NAME` tries one
case. One trial is made again by its number, and its job file kept, with `.venv/bin/python -m tests.campaign one
--case NAME --seed {seed} --index NUMBER --to FILE`.
"""


def write(page: Path, judged: dict[str, list[Record]], seed: int, *, zero: bool) -> None:
    """Write the page, and its pictures into the folder `how-true` beside it; its part on the other kinds stays."""
    pictures = page.parent / "how-true"
    pictures.mkdir(parents=True, exist_ok=True)
    (pictures / "held.svg").write_text(held_picture(judged), encoding="utf-8")
    (pictures / "width.svg").write_text(width_picture(judged), encoding="utf-8")
    page.write_text(text(judged, seed, zero=zero) + kept(page), encoding="utf-8")


def text(judged: dict[str, list[Record]], seed: int, *, zero: bool) -> str:
    """The page as text."""
    tried = [case for case in CASES if case.name in judged]
    count = max(len(records) for records in judged.values())
    told = {"cases": len(judged), "count": count, "seed": seed, "figure": figure_line(judged).removeprefix("FIGURE: ")}
    found = HEAD.format(**told, zero="the zero error of its laying" if zero else "no zero errors of layings")
    found += "".join(f"| {case.name} | {case.says} |\n" for case in tried) + _passed_over()
    slipped = {name: records for name, records in judged.items() if any(record.wrong for record in records)}
    found += (
        HELD
        + page_table(rows("held", judged))
        + SAID
        + page_table(rows("said", judged))
        + FLAGGED
        + page_table(rows("flagged", judged))
    )
    if slipped:
        found += CHECKED + page_table(rows("checked", slipped))
    if "as given" in judged:
        found += LISTS + page_table(rows("held", _by_list(judged["as given"])))
    return found + published.text() + END.format(**told)


def _passed_over() -> str:
    """The cases that this program's jobs cannot say."""
    names = [case.name for case in CASES if case.declared and not DECLARABLE]
    return f"\nPassed over, for a job cannot say it: {', '.join(names)}.\n" if names else ""


def _by_list(records: Sequence[Record]) -> dict[str, list[Record]]:
    found: dict[str, list[Record]] = {}
    for record in records:
        found.setdefault(record.list, []).append(record)
    return found
