"""A saddle's pieces and steps as the layout holds them, and what is to be said of them."""

import math
from collections.abc import Iterator

import numpy as np
from msgspec.structs import replace

from geometry import words
from geometry.findings import Finding
from geometry.frame import xy
from geometry.job import Job, Saddle
from geometry.layout import SaddlePiece, SaddlePlan, SaddleStep, StringPlan
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.in_pieces.pieces import Peaks, Piece, step_edges, steps_of
from geometry.saddle.saddle_line import Slot, Strung
from geometry.units import mm, said


def with_pieces(
    states: PerturbedStates, job: Job, strung: Strung, pieces: tuple[Piece, ...], peaks: Peaks, plan: SaddlePlan
) -> SaddlePlan:
    """The saddle with its pieces and its steps; one piece is the saddle itself."""
    if len(pieces) > 1:
        return replace(plan, pieces=describe(states, job, pieces))
    whole = SaddlePiece(
        strings=tuple(string.name for string in job.strings.list) if job.strings is not None else (),
        line=plan.line,
        at_strings=plan.at_strings,
        pm95=plan.pm95,
        front=plan.front,
        slot=plan.slot,
        slant=plan.slant if plan.longer == "bass" else -plan.slant,
    )
    return replace(plan, pieces=(whole,), steps=steps(job, strung, pieces[0].slot, peaks))


def describe(states: PerturbedStates, job: Job, pieces: tuple[Piece, ...]) -> tuple[SaddlePiece, ...]:
    """The pieces in the strings' order."""
    names = [string.name for string in job.strings.list] if job.strings is not None else []
    pms = states.pm95(np.concatenate([piece.line.from_nut for piece in pieces], axis=1)).tolist()
    return tuple(_piece(job, piece, names, (pms[2 * at], pms[2 * at + 1])) for at, piece in enumerate(pieces))


def _piece(job: Job, piece: Piece, names: list[str], pm95: tuple[float, float]) -> SaddlePiece:
    (left_x, right_x), (left_y, right_y) = piece.line.x(piece.line.outer)[0].tolist(), piece.line.outer.tolist()
    fl, fr, br, bl = piece.slot.corners()
    deep = piece.slot.peak
    return SaddlePiece(
        strings=tuple(names[slice(*piece.run)]),
        line=(xy(fl + deep * (bl - fl)), xy(fr + deep * (br - fr))),
        at_strings=((left_x, left_y), (right_x, right_y)),
        pm95=pm95,
        front=(xy(fl), xy(fr)),
        slot=(xy(fl), xy(fr), xy(br), xy(bl)),
        slant=(left_x - right_x) * (1 if job.bass == "left" else -1) + 0.0,
    )


def steps(job: Job, strung: Strung, slot: Slot, peaks: Peaks) -> tuple[SaddleStep, ...]:
    """The steps of a stepped saddle, in the strings' order."""
    if job.saddle is None or job.strings is None:
        return ()
    runs = steps_of(job.saddle, job.strings)
    if runs is None:
        return ()
    names = [string.name for string in job.strings.list]
    return tuple(
        _step(slot, tuple(names[slice(*run)]), float(peaks.at[run[0]]), edges)
        for run, edges in zip(runs, step_edges(strung, slot, runs), strict=True)
    )


def _step(slot: Slot, strings: tuple[str, ...], peak: float, edges: tuple[float, float]) -> SaddleStep:
    left, right = max(edges), min(edges)
    on = complex(slot.middle[0] + slot.tailward[0] * (peak * slot.thickness))
    way = complex(slot.leftward[0])
    ends = [on + way * ((y - on.imag) / way.imag) for y in (left, right)]
    return SaddleStep(strings=strings, peak=peak, crest=(xy(ends[0]), xy(ends[1])), width=abs(ends[0] - ends[1]))


def findings(job: Job, plan: SaddlePlan, strings: tuple[StringPlan, ...]) -> tuple[Finding, ...]:
    """Where a saddle of several pieces is parted, and which of them is short; steps that are narrow or that a course
    does not go with.
    """
    wish = job.saddle or Saddle()
    if len(plan.pieces) > 1:
        return (*_parted(wish, plan), *_short(job, wish, plan))
    return (*_narrow(job, wish, plan), *_course_apart(job, plan, strings))


def _parted(wish: Saddle, plan: SaddlePlan) -> Iterator[Finding]:
    """Where it is parted."""
    if wish.made == "each":
        text = f"The saddle is {len(plan.pieces)} pieces, one a string, each in a slot of its own."
    else:
        after = words.strings([piece.strings[-1] for piece in plan.pieces[:-1]])
        where = "as you say" if wish.splits is not None else "where it leaves the least over"
        text = f"The saddle is {len(plan.pieces)} pieces, each in a slot of its own, parted after {after}, {where}."
    values = {f"slant.{at}": piece.slant for at, piece in enumerate(plan.pieces, 1)}
    yield Finding(grade="good", code="saddle.pieces", text=text, values=values, where="field:saddle.made")


def _short(job: Job, wish: Saddle, plan: SaddlePlan) -> Iterator[Finding]:
    """The shortest piece, if it is shorter than pieces are to be."""
    long, piece = min(((math.dist(*piece.front), piece) for piece in plan.pieces), key=lambda one: one[0])
    if long >= mm(wish.least_piece) - 1e-6:
        return
    yield Finding(
        grade="look",
        code="saddle.short_piece",
        text=f"The saddle’s piece under {words.strings(piece.strings)} is only {said(long, job.unit)} long, and "
        f"{said(mm(wish.least_piece), job.unit)} is the least that you ask for: part it elsewhere, make fewer pieces, "
        "or leave less wood between two slots.",
        values={"mm": long},
        where="field:saddle.made",
    )


def _narrow(job: Job, wish: Saddle, plan: SaddlePlan) -> Iterator[Finding]:
    """The narrowest step, if it is narrower than steps are to be."""
    least = min(plan.steps, key=lambda step: step.width, default=None)
    if least is None or least.width >= mm(wish.least_step) - 1e-6:
        return
    yield Finding(
        grade="look",
        code="saddle.narrow_step",
        text=f"The saddle’s step under {words.strings(least.strings)} is only {said(least.width, job.unit)} wide, and "
        f"{said(mm(wish.least_step), job.unit)} is the least that you ask for: a file may not go between its walls.",
        values={"mm": least.width},
        where="field:saddle.made",
    )


APART = 0.05
"""Strings of a course that ask for places nearer than this to each other, mm, share a step well: no file is finer."""


def _course_apart(job: Job, plan: SaddlePlan, strings: tuple[StringPlan, ...]) -> Iterator[Finding]:
    """The course whose strings ask for places farthest apart, which one step cannot give them."""
    if not plan.steps:
        return
    left, right = (complex(*at) for at in plan.line)
    lean = (left - right).real / (left - right).imag
    wants = {one.name: one.break_point[0] - lean * one.break_point[1] for one in strings}
    spread, step = max(
        ((max(asked) - min(asked), step) for step in plan.steps for asked in ([wants[name] for name in step.strings],)),
        key=lambda one: one[0],
    )
    if spread < 2 * APART:
        return
    yield Finding(
        grade="good",
        code="saddle.course_apart",
        text=f"{words.first_large(words.strings(step.strings))} ask for places {said(spread, job.unit)} apart along "
        "the neck, and their one step lies half way between them.",
        values={"mm": spread},
        where="field:saddle.made",
    )
