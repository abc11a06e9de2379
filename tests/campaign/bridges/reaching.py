"""Invented instruments with saddles of their own: whether the ± of each string's place holds, whether what is said of
the travel's reach is true, and where the base and its holes belong.

The geometry is the campaign's own. A base is set by hand here as the job says; the slant that leaves the most reach is
found by trying. Strings have their compensation typed, so that all that is uncertain comes from the readings.
"""

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import Literal
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.job import Separate, Through
from geometry.layout import XY, SeparatePlan
from geometry.units import mm
from tests.campaign.counting import Found, Share, share
from tests.campaign.invented.cases import LISTS
from tests.campaign.invented.crooked import BY_HAND, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import Instrument, break_points, neck_of, outer_paths, through
from tests.campaign.invented.laying import lies
from tests.campaign.invented.trials import job_of, list_for
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

SETS: tuple[Literal["square", "saddle line", "most reach"], ...] = ("square", "saddle line", "most reach")
SCREWS = ((4.0, 20.0), (4.0, -20.0), (34.0, 20.0), (34.0, -20.0))
LONG, WIDE, FOREMOST = 40.0, 70.0, 8.0
"""The invented base, mm (common practice, no source)."""


class Reached(msgspec.Struct, frozen=True, kw_only=True):
    """One trial: each string's place, what was said of its reach and how much of its travel truly was left, mm; the
    base's corners and screw holes, along and across the neck, and the holes through the body, along and across.
    """

    how: str
    places: tuple[Figure, ...]
    said: tuple[tuple[str, float], ...]
    along: tuple[Figure, ...]
    across: tuple[Figure, ...]
    through: tuple[tuple[Figure, Figure], ...]


def trial_of(seed: int, index: int, manner: Manner = AS_STATED) -> Reached | None:
    """One trial; the same seed and index give the same. None where no base could be placed."""
    random = np.random.default_rng([seed, crc32(b"reaching"), index])
    slanted = index % 2 == 1
    instrument = drawn(random, replace(BY_HAND, slanted=slanted))
    asked = list_for(LISTS[index % len(LISTS)], instrument, inch=False)
    read = written(asked.readings, take(asked.readings, instrument, Errors(random, manner)))
    job = job_of(instrument, asked, read, inch=False, declared=slanted)
    how = SETS[index % len(SETS)]
    block = Separate(set=how, travel=10, foremost=FOREMOST, length=LONG, width=WIDE, screws=SCREWS, through=Through())
    first = places_of(replace(job, bridge=None, separate=block)).separate
    if first is None:
        return None
    # about as much travel as is just needed, so that all that can be said is said
    travel = min(max(first.travel + float(random.uniform(-5, 4)), 0.5), 30.0)
    block = replace(block, travel=travel, length=LONG)
    layout = places_of(replace(job, bridge=None, separate=block))
    assert layout.separate is not None
    stations = ("nut", "fret12", "end") if "fret12.left" in asked.points else ("nut", "end")
    on_wood = partial(lies, layout, instrument, stations)
    return _judged(layout.separate, how, _true_places(instrument, stations), travel, on_wood)


def _true_places(instrument: Instrument, stations: tuple[str, ...]) -> list[complex]:
    """Where each string's saddle belongs, in the neck's frame, treble to bass."""
    neck = neck_of(instrument.points, stations)
    paths = outer_paths(instrument, neck)
    ends = [start + way * far for (start, way), far in zip(paths, instrument.nominal, strict=True)]
    return break_points(instrument, neck, through(ends[1], ends[0]))


def _judged(
    plan: SeparatePlan, how: str, true: list[complex], travel: float, on_wood: Callable[[XY], list[complex]]
) -> Reached:
    turn = plan.bases[0].turn
    way = complex(math.cos(turn), math.sin(turn))
    places, said = [], []
    for one, at in zip(plan.saddles, true, strict=True):
        # a saddle stays on its lane: it goes 1 / cos as far for each mm along the neck
        ahead = (at.real - on_wood(one.foremost)[0].real) / way.real
        places.append(Figure((at.real - on_wood(one.wanted)[0].real) / way.real, one.pm95))
        said.append((one.reached, min(ahead, travel - ahead)))
    pms = [one.pm95 * way.real for one in plan.saddles]
    ideal, holes = _ideal(true, pms, how, travel)
    (base,) = plan.bases
    stated = [*zip(base.corners, base.corners_pm95, strict=True)]
    stated += [(hole.at, pm) for hole, pm in zip(base.screws, base.screws_pm95, strict=True)]
    along = [Figure(on_wood(at)[0].real - want.real, pm[0]) for (at, pm), want in zip(stated, ideal, strict=True)]
    across = [Figure(at[1] - want.imag, pm[1]) for (at, pm), want in zip(stated, ideal, strict=True)]
    through = [
        (Figure(on_wood(hole.at)[0].real - want.real, pm[0]), Figure(hole.at[1] - want.imag, pm[1]))
        for hole, pm, want in zip(plan.through, plan.through_pm95, holes, strict=True)
    ]
    return Reached(
        how=how,
        places=tuple(places),
        said=tuple(said),
        along=tuple(along),
        across=tuple(across),
        through=tuple(through),
    )


def _ideal(true: list[complex], pms: Sequence[float], how: str, travel: float) -> tuple[list[complex], list[complex]]:
    """The base's corners and screw holes where they belong, front left, front right, back right, back left, holes; and
    the strings' holes through the body, each in line with its saddle.
    """
    slope = 0.0
    if how == "saddle line":
        y, x = [at.imag for at in true], [at.real for at in true]
        slope = float(np.polyfit(y, x, 1)[0])
    if how == "most reach":
        slopes = np.linspace(-0.6, 0.6, 12001)
        slope = min(slopes.tolist(), key=lambda one: _strip(true, pms, one)[1])
    middle, _ = _strip(true, pms, slope)
    back = complex(1, -slope) / math.hypot(1, slope)
    left = 1j * back
    sides = [(at * left.conjugate()).real for at in true]
    front = back * (middle - travel / 2 - FOREMOST) + left * (max(sides) + min(sides)) / 2
    corners = ((0, WIDE / 2), (0, -WIDE / 2), (LONG, -WIDE / 2), (LONG, WIDE / 2))
    lanes = [((at - front) * left.conjugate()).real for at in true]
    holes = [front + back * mm(Through().behind) + left * lane for lane in lanes]
    return [front + back * b + left * s for b, s in (*corners, *SCREWS)], holes


def _strip(true: list[complex], pms: Sequence[float], slope: float) -> tuple[float, float]:
    """The middle and the width of the strip that holds all places with their ± at a slope."""
    long = math.hypot(1, slope)
    rear = max((at.real - slope * at.imag) / long + pm * long for at, pm in zip(true, pms, strict=True))
    fore = min((at.real - slope * at.imag) / long - pm * long for at, pm in zip(true, pms, strict=True))
    return (rear + fore) / 2, rear - fore


def statements(trials: Sequence[Reached]) -> dict[str, Share]:
    """How often “reached” and “out” are said rightly."""
    said = [pair for trial in trials for pair in trial.said]
    return {
        "reached": share(left >= 0 for reached, left in said if reached == "reached"),
        "out": share(left < 0 for reached, left in said if reached == "out"),
    }


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many bases, set in each way in turn."""
    trials = [trial for trial in (trial_of(seed, index, manner) for index in range(count)) if trial is not None]
    figures = {
        "the treble string’s place": [trial.places[0] for trial in trials],
        "the bass string’s place": [trial.places[-1] for trial in trials],
    }
    for how in SETS:
        figures[f"the base’s corner along, {how}"] = [trial.along[0] for trial in trials if trial.how == how]
        figures[f"a screw hole along, {how}"] = [trial.along[-1] for trial in trials if trial.how == how]
        figures[f"a hole through the body along, {how}"] = [trial.through[0][0] for trial in trials if trial.how == how]
        if how == "square":
            continue  # across it lies by widths that are typed, from the middle of the edges that its sheet is laid to
        figures[f"the base’s corner across, {how}"] = [trial.across[0] for trial in trials if trial.how == how]
        figures[f"a screw hole across, {how}"] = [trial.across[-1] for trial in trials if trial.how == how]
        across = [trial.through[0][1] for trial in trials if trial.how == how]
        figures[f"a hole through the body across, {how}"] = across
    said = {f"a string is said to be “{what}”": right for what, right in statements(trials).items()}
    return Found(figures=figures, said=said)
