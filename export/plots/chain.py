"""± along the chain: the saddle's ± by the board alone, by the frets as well, and by the strings as well, with the
share of the whole that each of them carries.
"""

from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Drawing, Mark
from export.drawing.typeface import width
from export.plots.axes import (
    ABOVE,
    COUNTED,
    GAP,
    HEAD,
    LETTERS,
    Axes,
    Plot,
    Ticks,
    figure,
    frame,
    key,
    line,
    steps,
    text,
)
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES
from geometry.layout import Contribution, Layout, Source
from geometry.units import in_decimals, named, show_pm

NAMES: dict[Source, str] = {"board": "the board alone", "frets": "with the frets", "strings": "with the strings"}
BAR, ASIDE = 1.8, 1.7
"""A bar's height, and how far its middle lies from that of its pair where there is room, mm: the words behind both keep
apart.
"""
OVER_AXIS = 0.15
"""How much of a row stays free below the last, for its words' commas."""
NOUGHT = 0.05
"""A ± under this (mm) is none that is shown; what is shown is rounded up."""
BELOW = 2 * (LETTERS + GAP) + 2.0


def chain_of_doubt(job: Job, layout: Layout, size: XY) -> Plot | None:
    """A pair of bars for each link, solid at bass and hollow at treble, as long as the ± that has come together by
    then; None where there is no saddle.
    """
    if layout.saddle is None or not layout.saddle.chain:
        return None
    chain, (per, counted) = layout.saddle.chain, COUNTED[job.unit]
    left = max(width(name, LETTERS) for name in NAMES.values()) + 3 * GAP
    right = width("±0.000, 100 %", LETTERS) + GAP
    ground = Box(left, BELOW, size[0] - right, size[1] - HEAD)
    found = _steps(max(max(one.pm95) for one in chain) / per, ground.width)
    axes = Axes(ground, (0.0, found[-1] * per), (-OVER_AXIS, float(len(chain))))
    ticks = Ticks(tuple(at * per for at in found), tuple(figure(at, found[1]) for at in found))
    marks = frame(axes, ticks, Ticks((), ()), (f"± of the {how_held(job).ridge}, {counted}, 95 %", ""))
    marks.append(line((ground.x0, ground.y0), (ground.x0, ground.y1)))
    marks.append(line((ground.x0, ground.y0), (ground.x1, ground.y0)))
    for row, one in enumerate(chain):
        marks += _link(job, axes, one, len(chain) - row - 0.5)
    marks += key((size[0], ground.y1 + ABOVE), [("filled", "bass"), ("hollow", "treble")])
    return Plot(drawing=Drawing(title="± along the chain", marks=tuple(marks)), size=size, says=_says(job, chain))


def _steps(reach: float, room: float) -> tuple[float, ...]:
    """The ticks, as many as have their words apart."""
    for most in (4, 3, 2):
        found = steps(reach, most)
        wide = max(width(figure(at, found[1]), LETTERS) for at in found)
        if wide + GAP <= room / (len(found) - 1):
            return found
    return steps(reach, 1)


def _link(job: Job, axes: Axes, one: Contribution, row: float) -> list[Mark]:
    high = axes.at(0.0, row)[1]
    aside = min(ASIDE, axes.ground.height / (axes.y[1] - axes.y[0]) / 4)
    marks = [text((axes.ground.x0 - 2 * GAP, high), NAMES[one.source], "em")]
    for side, up in (("bass", 1), ("treble", -1)):
        at = _at(job, side)
        y, end = high + up * aside, axes.at(one.pm95[at], 0.0)[0]
        start = axes.ground.x0
        bar = [(start, y - BAR / 2), (end, y - BAR / 2), (end, y + BAR / 2), (start, y + BAR / 2)]
        solid = side == "bass"
        if end > start:
            marks.append(
                Mark(
                    shape=polyline(bar, closed=True), purpose="mark", filled=solid, weight=0.8, of=f"chain:{one.source}"
                )
            )
        marks.append(text((end + GAP, y), _told(job, one, at), "sm"))
    return marks


def _told(job: Job, one: Contribution, at: int) -> str:
    """The ± that has come together, and the share of the whole that this link adds."""
    share = f"{in_decimals(100 * one.share[at], 0)} %"
    return f"±{show_pm(one.pm95[at], job.unit)}, {share}" if one.pm95[at] >= NOUGHT else share


def _at(job: Job, side: str) -> int:
    return SIDES.index(job.bass if side == "bass" else ("right" if job.bass == "left" else "left"))


def _says(job: Job, chain: tuple[Contribution, ...]) -> str:
    """How the ± grows, and what share each link carries, at bass and treble."""
    parts = []
    for side in ("bass", "treble"):
        at = _at(job, side)
        links = "; ".join(f"{NAMES[one.source]} {_told(job, one, at)}" for one in chain)
        parts.append(f"At {side} by {links}.")
    return f"The {how_held(job).ridge}’s ± in {named(job.unit)}, and the share that each adds. {' '.join(parts)}"
