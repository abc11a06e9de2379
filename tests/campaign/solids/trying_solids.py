"""How often the stated ± of the saddle's heights and of the nut's slots hold the truth, and how wide they are."""

import msgspec
import numpy as np

from geometry.layout import XY
from geometry.work_out import work_out
from tests.campaign.counting import Share
from tests.campaign.solids.invented_solids import Solid, Way, invent, read

WAYS: tuple[Way, ...] = ("strings on", "bridge off")
FIGURES = (
    "saddle over the top",
    "saddle over the slot's floor",
    "slot over the board",
    "slot over the nut's bottom",
)


class Tried(msgspec.Struct, frozen=True):
    """One figure: how often its ± held, of outer strings and of inner ones, and the middle of its widths, mm."""

    outer: Share
    inner: Share
    width: float


def try_solids(count: int, seed: int) -> dict[tuple[Way, str], Tried]:
    """So many invented instruments in each way; one outer and one inner string of each, for those of one instrument
    hang together.
    """
    random = np.random.default_rng(seed)
    return {(way, name): tried for way in WAYS for name, tried in _one_way(random, way, count).items()}


def _one_way(random: np.random.Generator, way: Way, count: int) -> dict[str, Tried]:
    held: dict[tuple[str, bool], int] = {}
    widths: dict[str, list[float]] = {name: [] for name in FIGURES}
    for _ in range(count):
        true = invent(random)
        strings = {True: int(random.choice([0, 5])), False: int(random.integers(1, 5))}
        for name, (found, truth) in _figures(true, read(random, true, way)).items():
            for is_outer, at in strings.items():
                value, pm95 = found[at]
                held[name, is_outer] = held.get((name, is_outer), 0) + (abs(value - truth[at]) <= pm95)
                widths[name].append(pm95)
    return {
        name: Tried(Share(held[name, True], count), Share(held[name, False], count), float(np.median(widths[name])))
        for name in FIGURES
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


def said(found: dict[tuple[Way, str], Tried]) -> list[str]:
    """A line a figure: shares with their 95 % intervals, and the width."""
    lines = []
    for (way, name), tried in found.items():
        shares = "  ".join(
            f"{where} {one.count}/{one.of} = {100 * one.value:.1f} % ({100 * one.interval[0]:.1f}-"
            f"{100 * one.interval[1]:.1f})"
            for where, one in (("outer", tried.outer), ("inner", tried.inner))
        )
        lines.append(f"{way:11} {name:29} {shares}  ±{tried.width:.2f} mm")
    return lines
