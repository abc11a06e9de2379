"""How often the stated ± of the saddle's heights and of the nut's slots hold the truth, and how wide they are."""

import math

import numpy as np
from msgspec.structs import replace

from app.desk.document.working_out import WorkingOut
from geometry.job import Floating, Job, Saddle, TieBlock
from geometry.layout import XY, Layout, SaddleBlank
from geometry.units import mm
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.invented_solids import COUNT, Solid, Vector, Way, invent, read
from tests.campaign.judging import Figure

WAYS: tuple[Way, ...] = ("strings on", "bridge off")
FIGURES = (
    "saddle over the top",
    "saddle over the slot’s floor",
    "slot over the board",
    "slot over the nut’s bottom",
    "slot along the nut",
)


CROWN = "a floating bridge’s crown over the top"
WIDE = Floating(length=100.0, width=12.0)
"""Of a bridge that stands on the same top instead; how wide it is changes no height (made up)."""

TIE = "how steeply a string breaks to its tie hole, degrees"
BLOCK = TieBlock()
ENTERS = 0.3
"""How far a string truly enters its block from where it should, one standard deviation, mm (common practice, no source;
as the guide has it)."""


def found(count: int, seed: int) -> Found:
    """So many invented instruments in each way; one outer and one inner string of each, for those of one instrument
    hang together.
    """
    random = np.random.default_rng(seed)
    return Found(figures=by_name(_one(random, way) for way in WAYS for _ in range(count)))


def _one(random: np.random.Generator, way: Way) -> dict[str, Figure]:
    true = invent(random)
    strings = {"an outer string": int(random.choice([0, 5])), "an inner one": int(random.integers(1, 5))}
    job = read(random, true, way)
    working_out = WorkingOut()  # one survey serves, whatever bridge stands on it
    layout = working_out.lay_places(job).layout
    crown = _crown(working_out, job), true.ridge().tolist()
    each = _figures(true, layout) | {CROWN: crown, TIE: _to_ties(random, true, working_out, job)}
    found = {
        f"{name}, {where}, {way}": Figure(stated[at][0] - truth[at], stated[at][1])
        for name, (stated, truth) in each.items()
        for where, at in strings.items()
    }
    return found | {f"{name}, {way}": figure for name, figure in _as_a_whole(true, layout).items()}


def _figures(true: Solid, layout: Layout) -> dict[str, tuple[list[XY], list[float]]]:
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
        [slot.along for slot in nut.slots],
    )
    truths = (true.ridge(), true.whole(), over_board, over_bed, _from_bass(true))
    return {name: (one, truth.tolist()) for name, one, truth in zip(FIGURES, found, truths, strict=True)}


def _from_bass(true: Solid) -> Vector:
    """Each slot's middle along the nut from its bass end, treble to bass."""
    return true.nut / 2 + true.spread[0] * (0.5 - np.arange(COUNT) / (COUNT - 1))


def _crown(working_out: WorkingOut, job: Job) -> list[XY]:
    """The crown of a floating bridge in the saddle's place, over the top under each string."""
    floating = replace(job, bridge=None, nut=None, floating=WIDE, saddle=Saddle(thickness=6.0))
    layout = working_out.lay_places(floating).layout
    assert layout.floating is not None
    assert layout.floating.heights is not None
    return [one.over_top for one in layout.floating.heights.strings]


def _to_ties(
    random: np.random.Generator, true: Solid, working_out: WorkingOut, job: Job
) -> tuple[list[XY], list[float]]:
    """The break angles to a tie block in the pins' place, and the true ones: down from the true ridge."""
    assert job.bridge is not None
    layout = working_out.lay_places(replace(job, bridge=replace(job.bridge, pins=None, tie=BLOCK))).layout
    assert layout.bridge is not None
    assert layout.bridge.tie is not None
    stated, truth = [], []
    for string, hole, ridge in zip(layout.strings, layout.bridge.tie.holes, true.ridge().tolist(), strict=True):
        broken = layout.bridge.tie.breaks[string.name]
        way = abs(complex(*hole.front) - complex(*string.break_point)) + random.normal(0, ENTERS)
        stated.append((broken.degrees, broken.pm95))
        truth.append(math.degrees(math.atan2(ridge - mm(BLOCK.hole), way)))
    return stated, truth


def _as_a_whole(true: Solid, layout: Layout) -> dict[str, Figure]:
    """The saddle's radius, how far it stands over the straight line between its outer strings, the wood under its slot
    at one side, and the nut's length.
    """
    saddle, nut = layout.saddle_blank, layout.nut_blank
    assert saddle is not None
    assert saddle.radius is not None
    assert nut is not None
    radius = true.radius[0] + (true.radius[1] - true.radius[0]) * true.scale / true.long
    crown = radius - math.sqrt(radius**2 - (true.spread[1] / 2) ** 2)
    return {
        "the saddle’s radius": Figure(saddle.radius[0] - radius, saddle.radius[1]),
        "the saddle’s crown over its outer strings": Figure(saddle.crown[0] - crown, saddle.crown[1]),
        "wood under the slot": _wood(true, saddle),
        "the nut’s length": Figure(nut.length[0] - true.nut, nut.length[1]),
    }


def _wood(true: Solid, saddle: SaddleBlank) -> Figure:
    left = saddle.wood[0]
    assert left is not None
    return Figure(left[0] - (true.thick[0] - true.depth), left[1])
