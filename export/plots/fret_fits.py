"""How the fret readings fit: how far each stands from the spacing that fits all of them, with its own ±."""

from collections.abc import Sequence
from typing import NamedTuple

from export.drawing.marks import XY, Circle, Drawing, Line, Mark
from export.plots.axes import ABOVE, COUNTED, DOT, DOTS, Axes, Plot, Ticks, axes_within, dot, figure, frame, key, steps
from geometry import words
from geometry.job import Job
from geometry.layout import TWO_SIDED_95, Fit, Layout, accused
from geometry.units import said

LEFT, RIGHT = 11.0, 3.0
"""Room for the words beside the axes, mm."""
ASIDE = {"bass": -0.16, "treble": 0.16, "middle": 0.0}
"""So far beside the fret's own place a mark stands, frets, that two of one fret are told apart."""
FEWEST = 2
"""One reading alone shows nothing of how a spacing fits."""
EVERY = (1, 2, 3, 4, 5, 10)
"""The frets' axis has words at every so many frets, so that no more than eight have."""


class Stands(NamedTuple):
    """A fret reading: its fret, its side in words, how far the fit lies from it and its own ± (mm)."""

    id: str
    fret: int
    side: str
    off: float
    pm95: float


def stands(job: Job, layout: Layout) -> tuple[Stands, ...]:
    """The fret readings that others check, in the order of the job."""
    fits = {fit.id: fit for fit in layout.readings if fit.component in ("", "nominal") and fit.w is not None}
    return tuple(
        _stands(job, fits[reading.id], reading.fret, reading.on)
        for reading in job.readings
        if reading.kind == "fret" and reading.fret is not None and reading.on is not None and reading.id in fits
    )


def _stands(job: Job, fit: Fit, fret: int, on: str) -> Stands:
    return Stands(fit.id, fret, words.side(on, job.hand), fit.residual, TWO_SIDED_95 * fit.sigma)


def fret_fits(job: Job, layout: Layout, size: XY) -> Plot | None:
    """The fret readings on a scale of their own; those that do not go with the others are ringed. None under two."""
    shown = stands(job, layout)
    if len(shown) < FEWEST:
        return None
    per, counted = COUNTED[job.unit]
    found = steps(max(abs(one.off) + one.pm95 for one in shown) / per, 2)
    top, step, last = found[-1], found[1], max(one.fret for one in shown)
    axes = axes_within(size, LEFT, RIGHT, (0.0, last + 0.5), (-top * per, top * per))
    levels = (*(-level for level in found[:0:-1]), *found)
    every = next(count for count in EVERY if last / count <= 8)
    frets = tuple(range(every, last + 1, every))
    marks = frame(
        axes,
        Ticks(tuple(map(float, frets)), tuple(map(str, frets))),
        Ticks(tuple(at * per for at in levels), tuple(figure(at, step, sign=True) for at in levels)),
        ("fret", f"fit less reading, {counted}"),
    )
    wrong = accused(layout.survey)
    for one in shown:
        marks += _mark(axes, one, ringed=one.id in wrong)
    sides = dict.fromkeys(one.side for one in shown)
    marks += key((axes.ground.x1, axes.ground.y1 + ABOVE), [(DOTS[side], side) for side in DOTS if side in sides])
    return Plot(
        drawing=Drawing(title="How the frets fit", marks=tuple(marks)), size=size, says=_says(job, shown, wrong)
    )


def _mark(axes: Axes, one: Stands, *, ringed: bool) -> list[Mark]:
    x, of = one.fret + ASIDE[one.side], f"reading:{one.id}"
    ends = axes.at(x, one.off - one.pm95), axes.at(x, one.off + one.pm95)
    marks = [Mark(shape=Line(*ends), purpose="lay", tone="quiet")]
    if ringed:
        marks.append(Mark(shape=Circle(axes.at(x, one.off), 2 * DOT), purpose="mark", tone="look"))
    return marks + dot(axes.at(x, one.off), DOTS[one.side], of=of)


def _says(job: Job, shown: Sequence[Stands], wrong: frozenset[str]) -> str:
    worst = max(shown, key=lambda one: abs(one.off))
    off = said(abs(worst.off), job.unit, 2)
    ringed = sum(one.id in wrong for one in shown)
    more = f" {ringed} of them {'does' if ringed == 1 else 'do'} not go with the others." if ringed else ""
    return f"{len(shown)} fret readings; farthest from the fit is fret {worst.fret}, {worst.side}: {off} off.{more}"
