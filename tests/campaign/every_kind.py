"""All kinds of bridges, saddles and strings beside the whole saddle on a glued bridge, in one table of figures and one
of statements. How each is tried stands with it in `tests/campaign/bridges`.
"""

from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

import msgspec

from tests.campaign.bridges import (
    clear,
    drilled,
    glued,
    heard,
    parted,
    posted,
    proving,
    reaching,
    short_strings,
    slanted,
    standing,
    trying_solids,
)
from tests.campaign.counting import Found, Share, middle_pm, share, stay_under
from tests.campaign.invented.hands import AS_STATED, Manner
from tests.campaign.running import MOST_PROCESSES
from tests.campaign.table import aligned, number, page_table, percent


class Kind(msgspec.Struct, frozen=True, kw_only=True):
    """One kind: what is tried, why some figures are beside the aim, and what tries so many (count, seed, and the manner
    of the hand where it is the campaign's: `by_hand`).
    """

    says: str
    why: str = ""
    found: Callable[..., Found]
    by_hand: bool = True


KINDS: dict[str, Kind] = {
    "round a glued bridge": Kind(
        says="The distances to check before the glue, pin holes along the neck, the bass string’s margins, the scale, "
        "and how far the nut stands out. Distances over a top that falls away, from the board’s end, are not counted.",
        found=glued.found,
    ),
    "slanted frets": Kind(
        says="Slanted frets, read on both sides, on one, or declared by their scales alone.",
        found=slanted.found,
        by_hand=False,
    ),
    "saddle in pieces": Kind(says="A saddle in one, two or three pieces, or one a string.", found=parted.found),
    "heard on a trial saddle": Kind(
        says="The saddle by what a tuner shows on a trial saddle, of strings of which nothing else is known. A player "
        "who is off by 2 cents, one standard deviation, is so on all strings alike, or on each by itself.",
        why="The ± is that of a player who is off on all strings alike.",
        found=heard.found,
    ),
    "floating bridge": Kind(
        says="A bridge held by the strings, that stands a little off today, and its tailpiece.", found=standing.found
    ),
    "separate saddles": Kind(
        says="Saddles that travel on a screwed base, half of them with slanted frets. How far across a base lies that "
        "is set square is not counted: it follows from typed widths alone, and nothing of it was read.",
        found=reaching.found,
    ),
    "saddle and nut": Kind(
        says="Saddle and nut as solids, read with the strings on or with the bridge off.",
        found=trying_solids.found,
        by_hand=False,
    ),
    "short strings": Kind(
        says="A string at each side that starts at fret 2 to 9, with a piece of the saddle of its own.",
        found=short_strings.found,
    ),
    "markers and tie holes": Kind(
        says="Markers in the board’s edge and in its face, and a tie block’s holes, along the neck. How far across "
        "they lie is not counted: it follows from typed widths.",
        found=drilled.found,
    ),
    "tuner posts": Kind(
        says="New tuner posts in a row through old post holes, along the headstock and across it.", found=posted.found
    ),
    "old work": Kind(says="What the old bridge left, beside what the new one covers and cuts.", found=clear.found),
    "proof": Kind(
        says="A clamped bridge whose place is read again, right and wrong.",
        found=proving.found,
    ),
}
START = "## The other kinds"
SECTION = """{start}

Beside the whole saddle on a glued bridge, each other kind has instruments invented for it, {count} of each way of
making or reading, seed {seed}. What is tried:

{tried}

Tried again as above: in what share of the jobs the stated ± holds the truth (aim 95 of 100), the middle one of those
stated, and what 95 % of the true errors stay under; mm, or degrees where it says so. Of one job one figure is counted,
for those of one job hang together; of saddles that travel each slant has a third of the instruments.

{figures}
{outside}
What is said of them, and how often that is right:

{said}
{coarse}## What is not tried

Compensation is typed all through: what is uncertain of it is judged by the strings’ own tests and by
[what others published](#against-what-others-published). Friction of strings over a bridge that floats, wood that gives
under their pull, and a top that sinks are not tried. Nor is the making: saws, files, paper that stretches. Nor is a
drone’s saddle, which no fretted note tells. Slanted frets, saddle and nut are read by hands of their own, whose errors
are as large as stated.

To repeat it: `.venv/bin/python -m tests.campaign kinds --count {count} --seed {seed}`; with `--write docs/how-true.md`
it writes this part of the page, and `--kind NAME` instead tries one kind.
"""
COARSE = """## A hand coarser than it says

The same instruments, read by a hand whose errors are {times} times the stated ones. Nobody told the program; it goes by
how the readings agree. All figures of a kind together, and the one whose ± holds the truth least often:

{figures}
"""
COARSER = Manner(times=2.0)
"""The coarser hand that is tried."""
AIM = (0.93, 0.97)
"""Between these a ± is as wide as it should be (our own aim, no source)."""


def try_kinds(
    names: Sequence[str], count: int, seed: int, jobs: int = 1, manner: Manner = AS_STATED
) -> dict[str, Found]:
    """So many of these kinds; the same seed finds the same, with one process or with two. A hand of another manner
    takes the readings of those that are read by the campaign's hand; the others are passed over.
    """
    names = [name for name in names if manner == AS_STATED or KINDS[name].by_hand]
    tried = partial(_found, count=count, seed=seed, manner=manner)
    if jobs <= 1:
        return dict(zip(names, map(tried, names), strict=True))
    with ProcessPoolExecutor(min(jobs, MOST_PROCESSES), get_context("spawn")) as pool:
        return dict(zip(names, pool.map(tried, names), strict=True))


def _found(name: str, count: int, seed: int, manner: Manner) -> Found:
    kind = KINDS[name]
    return kind.found(count, seed, manner) if kind.by_hand else kind.found(count, seed)


def figure_rows(found: dict[str, Found]) -> list[list[str]]:
    """The heading, and one row a figure."""
    rows = [["kind", "figure", "held", "%", "±", "95 %"]]
    for kind, one in found.items():
        for name, figures in one.figures.items():
            held = share(figure.held for figure in figures)
            middle, under = number(middle_pm(figures)), number(stay_under(figures))
            rows.append([kind, name, f"{held.count} of {held.of}", percent(held, interval=True), middle, under])
    return rows


def said_rows(found: dict[str, Found]) -> list[list[str]]:
    """The heading, and one row a statement."""
    rows = [["kind", "what is said", "right", "%"]]
    for kind, one in found.items():
        for name, right in one.said.items():
            rows.append([kind, name, f"{right.count} of {right.of}", percent(right, interval=True)])
    return rows


def coarse_rows(found: dict[str, Found]) -> list[list[str]]:
    """The heading, and one row a kind: all its figures together, the one held least often, and what is said rightly."""
    rows = [["kind", "figures", "held", "%", "held least often", "%", "said rightly, %"]]
    for kind, one in found.items():
        shares = {name: share(figure.held for figure in figures) for name, figures in one.figures.items()}
        whole = Share(sum(of.count for of in shares.values()), sum(of.of for of in shares.values()))
        least = min(shares, key=lambda name: shares[name].value)
        said = Share(sum(right.count for right in one.said.values()), sum(right.of for right in one.said.values()))
        rows.append(
            [
                kind,
                str(len(shares)),
                f"{whole.count} of {whole.of}",
                percent(whole),
                least,
                percent(shares[least], interval=True),
                percent(said) if said.of else "",
            ]
        )
    return rows


def coarsely_told(found: dict[str, Found], manner: Manner) -> str:
    """The page's part on a hand that reads more coarsely than it says."""
    return COARSE.format(times=f"{manner.times:g}", figures=page_table(coarse_rows(found)))


def outside(found: dict[str, Found]) -> list[str]:
    """The figures whose share of held ± is beside the aim by more than chance: the whole 95 % interval lies there."""
    names = []
    for kind, one in found.items():
        for name, figures in one.figures.items():
            low, high = share(figure.held for figure in figures).interval
            if high < AIM[0] or low > AIM[1]:
                names.append(f"{kind}: {name}")
    return names


def told(found: dict[str, Found]) -> str:
    """Both tables in columns."""
    return "\n\n".join(aligned(rows) for rows in (figure_rows(found), said_rows(found))) + "\n"


def section(found: dict[str, Found], count: int, seed: int, coarse: str = "") -> str:
    """The page's part on these kinds; `coarse` is the part on a coarser hand."""
    return SECTION.format(
        start=START,
        count=count,
        seed=seed,
        tried="\n".join(f"- {name}: {KINDS[name].says}" for name in found),
        figures=page_table(figure_rows(found)),
        outside=_beside_the_aim(found),
        said=page_table(said_rows(found)),
        coarse=coarse,
    )


def _beside_the_aim(found: dict[str, Found]) -> str:
    """The figures that are beside the aim, and why."""
    beside = outside(found)
    if not beside:
        return "No figure is beside 93 to 97 % by more than chance.\n"
    names = "".join(f"- {name}\n" for name in beside)
    whys = "".join(f"- {KINDS[kind].why}\n" for kind in found if any(name.startswith(kind) for name in beside))
    return f"Beside 93 to 97 % by more than chance:\n\n{names}\nWhy:\n\n{whys}"


def rewrite(page: Path, text: str) -> None:
    """Put this part in the place of the one that stands at the page's end."""
    before = page.read_text(encoding="utf-8").split(START)[0].rstrip()
    page.write_text(f"{before}\n\n{text}", encoding="utf-8")


def kept(page: Path) -> str:
    """The part that stands at the page's end; nothing where there is none."""
    _, start, after = page.read_text(encoding="utf-8").partition(START) if page.exists() else ("", "", "")
    return f"\n{start}{after}" if start else ""
