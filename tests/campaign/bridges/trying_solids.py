"""How often the stated ± of the saddle's heights and of the nut's slots hold the truth, and how wide they are."""

import numpy as np

from geometry.layout import XY
from geometry.work_out import work_out
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.invented_solids import Solid, Way, invent, read
from tests.campaign.judging import Figure

WAYS: tuple[Way, ...] = ("strings on", "bridge off")
FIGURES = (
    "saddle over the top",
    "saddle over the slot's floor",
    "slot over the board",
    "slot over the nut's bottom",
)


def found(count: int, seed: int) -> Found:
    """So many invented instruments in each way; one outer and one inner string of each, for those of one instrument
    hang together.
    """
    random = np.random.default_rng(seed)
    return Found(figures=by_name(_one(random, way) for way in WAYS for _ in range(count)))


def _one(random: np.random.Generator, way: Way) -> dict[str, Figure]:
    true = invent(random)
    strings = {"an outer string": int(random.choice([0, 5])), "an inner one": int(random.integers(1, 5))}
    return {
        f"{name}, {where}, {way}": Figure(stated[at][0] - truth[at], stated[at][1])
        for name, (stated, truth) in _figures(true, read(random, true, way)).items()
        for where, at in strings.items()
    }


def _figures(true: Solid, job: object) -> dict[str, tuple[list[XY], list[float]]]:
    layout = work_out(job)  # type: ignore[arg-type]  # a job, as it was read
    saddle, nut = layout.saddle_blank, layout.nut_blank
    assert saddle is not None
    assert nut is not None
    over_board, over_bed = true.bottoms()
    none = (0.0, 0.0)
    found: tuple[list[XY], ...] = (
        [one.over_top for one in saddle.strings],
        [one.whole or none for one in saddle.strings],
        [slot.over_board or none for slot in nut.slots],
        [slot.over_bed or none for slot in nut.slots],
    )
    truths = (true.ridge(), true.whole(), over_board, over_bed)
    return {name: (one, truth.tolist()) for name, one, truth in zip(FIGURES, found, truths, strict=True)}
