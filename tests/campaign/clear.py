"""Whether what is said to be clear is clear: gaps between the new bridge and the old work of invented instruments.

The truth of a gap is what the program works out of the exact readings of the same instrument. A gap counts as said
**clear and not** where it is said so much too wide that, had the truth been no gap at all, it would have been said
clear beyond its ±. `python -m tests.campaign.clear --count 400 --seed 17`
"""

import argparse
import sys
from collections.abc import Iterator

from msgspec.structs import replace

from geometry.layout import Amount, Layout
from geometry.work_out import work_out
from tests.campaign.counting import Share, share
from tests.campaign.invented.cases import CASES, Case
from tests.campaign.invented.trials import exact_job, trial_of
from tests.campaign.judging import Figure

Gaps = dict[str, Figure]
AIM = 0.05
"""Said clear and not: at most this share (our own aim, no source)."""


def with_old_work(name: str = "as given") -> Case:
    """A case of the campaign, measured by the list that reads the old work."""
    case = next(case for case in CASES if case.name == name)
    return replace(case, lists=("whole top with old work",))


def amounts(layout: Layout) -> Iterator[tuple[str, Amount]]:
    """The gaps of a layout by name: less is nearer, or shows more."""
    found = layout.consequences
    if found is None:
        return
    if found.cover is not None:
        yield "cover", found.cover
    for hole in found.holes:
        yield f"inside {hole.hole}", hole.inside
        for gap in hole.walls:
            yield f"{hole.hole} to {gap.new}", Amount(value=gap.mm, pm95=gap.pm95)
    for seen in found.seen:
        yield f"offset {seen.against}", seen.offset


def gaps_of(case: Case, seed: int, index: int) -> Gaps:
    """How far each gap is said too wide, and its ±. The corner that is least sure to be covered may be another."""
    trial = trial_of(case, seed, index)
    said, true = (dict(amounts(work_out(job))) for job in (trial.job, exact_job(trial)))
    return {name: Figure(said[name].value - true[name].value, said[name].pm95) for name in said if name in true}


def kind_of(name: str) -> str:
    """What sort of gap it is."""
    return "to a pin hole" if " to pin:" in name else "to the slot" if name.endswith("to slot") else name.split(" ")[0]


def counted(found: list[Gaps]) -> dict[str, tuple[Share, Share]]:
    """By sort: how often it was said clear and not, and how often its ± held. One gap of a sort counts a job: those of
    one job hang together.
    """
    sorts = dict.fromkeys(kind_of(name) for gaps in found for name in gaps)
    firsts = {
        sort: [next(gap for name, gap in gaps.items() if kind_of(name) == sort) for gaps in found if has(gaps, sort)]
        for sort in sorts
    }
    return {
        sort: (share(gap.off > gap.pm for gap in gaps), share(gap.held for gap in gaps))
        for sort, gaps in firsts.items()
    }


def has(gaps: Gaps, sort: str) -> bool:
    """Whether a job has a gap of this sort."""
    return any(kind_of(name) == sort for name in gaps)


def main(words: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaign.clear", description=__doc__)
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--seed", type=int, default=17)
    parser.add_argument("--case", default="as given")
    given = parser.parse_args(words)
    case = with_old_work(given.case)
    for sort, (wrong, held) in counted([gaps_of(case, given.seed, index) for index in range(given.count)]).items():
        (low, high), (least, most) = wrong.interval, held.interval
        sys.stdout.write(
            f"{sort:14} said clear and not {wrong.value:6.1%} ({low:.1%} to {high:.1%}) of {wrong.of}; "
            f"± held {held.value:6.1%} ({least:.1%} to {most:.1%})\n"
        )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
