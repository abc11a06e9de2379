"""Whether what is said to be clear is clear: gaps between the new bridge and the old work of invented instruments.

The truth of a gap is what the program works out of the exact readings of the same instrument. A gap counts as said
**clear and not** where it is said so much too wide that, had the truth been no gap at all, it would have been said
clear beyond its ±.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from geometry.layout import Amount, Layout
from geometry.work_out import work_out
from tests.campaign.counting import Found, by_name, share
from tests.campaign.invented.cases import CASES, Case
from tests.campaign.invented.trials import exact_job, trial_of
from tests.campaign.judging import Figure

Gaps = dict[str, Figure]
AIM = 0.05
"""Said clear and not: at most this share (our own aim, no source)."""
SORTS = {
    "cover": "how far the bridge covers the scar",
    "inside": "how far an old hole lies inside the bridge",
    "to a pin hole": "an old hole to a new pin hole",
    "to the slot": "an old hole to the slot",
    "offset": "how far the new edge shows beside the old",
}
"""What each sort of gap is."""


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


def gaps_by_sort(found: list[Gaps]) -> dict[str, list[Figure]]:
    """One gap of each sort a job: those of one job hang together."""
    firsts = []
    for gaps in found:
        first: Gaps = {}
        for name, gap in gaps.items():
            first.setdefault(kind_of(name), gap)
        firsts.append(first)
    return by_name(firsts)


def said_clear(gap: Figure) -> bool:
    """Whether a gap is said so much too wide that, were there none, it would be said clear beyond its ±."""
    return gap.off > gap.pm


def found(count: int, seed: int) -> Found:
    """The gaps of so many instruments, and that none is said to be clear that is not."""
    every = gaps_by_sort([gaps_of(with_old_work(), seed, index) for index in range(count)])
    return Found(
        figures={SORTS[sort]: gaps for sort, gaps in every.items()},
        said={
            f"not called clear where it is not: {SORTS[sort]}": share(not said_clear(gap) for gap in gaps)
            for sort, gaps in every.items()
        },
    )
