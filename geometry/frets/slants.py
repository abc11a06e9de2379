"""Slanted frets: how nut, frets and nominal places lie across the neck, held against what was declared of them.

A **slant** is how much farther along the neck centre line a line stands at the left outer string than at the right.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from geometry import words
from geometry.findings import Finding
from geometry.frame import Array
from geometry.frets.fret_fit import FittedSpacing
from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, FretPlan, SaddlePlan, Slants
from geometry.neck.string_paths import OuterPaths
from geometry.perturbed_states import PerturbedStates
from geometry.spacing import fraction, one_fraction, saddle_fraction
from geometry.survey.rows.one_scale import SHOWN, TWO_IN_ONE, TYPED
from geometry.units import mm, said, said_pm

LEVEL = 0.05
"""A slant under this, mm, is none: no rule shows it."""


def find_slants(states: PerturbedStates, job: Job, paths: OuterPaths, spaced: FittedSpacing) -> Slants:
    """The slants of nut and nominal places with their ±, and what was declared."""
    frets, along = job.frets, paths.along.real
    nut = _slant(paths.start.real)
    nominal = _slant(paths.start.real + along * spaced.nominal)
    nut_pm95, nominal_pm95 = states.pm95(np.column_stack((nut, nominal))).tolist()
    places = paths.start[0].real + along[0] * _places(spaced, fraction(frets.spacing, np.arange(frets.count + 1)))
    left, right = (mm(scale) if (scale := frets.declared(side)) is not None else None for side in SIDES)
    found = Slants(
        nut=float(nut[0]),
        nut_pm95=nut_pm95,
        nominal=float(nominal[0]),
        nominal_pm95=nominal_pm95,
        squarest=int(np.abs(places[:, 0] - places[:, 1]).argmin()),
        square_fret=frets.square_fret,
        scales=(left, right),
    )
    if frets.square_fret is None:
        return found
    share = one_fraction(frets.spacing, frets.square_fret) if frets.square_fret else 0.0
    off = _slant(paths.start.real + along * (share * spaced.scale - spaced.shift * (share > 0)))
    off_pm95 = float(states.pm95(off[:, None])[0])
    found = replace(found, off_square=float(off[0]), off_square_pm95=off_pm95)
    if left is None or right is None:
        return found
    apart = float(along[0, 0]) * left - float(along[0, 1]) * right
    to_saddle = saddle_fraction(frets.spacing, frets.nominal, frets.count)
    return replace(found, declared_nut=-share * apart, declared_nominal=(to_saddle - share) * apart)


def _slant(x: Array) -> Array:
    """Left less right (rows,) of x (rows, 2)."""
    return np.asarray(x[:, 0] - x[:, 1])


def _places(spaced: FittedSpacing, shares: Array) -> Array:
    """Where frets at these shares of the scale stand along both paths, (frets, 2) mm in the first row; the nut at 0."""
    return np.asarray(shares[:, None] * spaced.scale[0] - np.where(shares[:, None] > 0, spaced.shift[0], 0.0))


def findings(job: Job, states: PerturbedStates, plan: FretPlan, spaced: FittedSpacing) -> tuple[Finding, ...]:
    """What was declared on one side only, and where the readings differ from what was declared."""
    slants = plan.slants
    if slants is None:
        return ()
    return (*_one_side(job, slants), *_scales_differ(job, states, slants, spaced), *_not_square(job, slants))


def _one_side(job: Job, slants: Slants) -> Iterator[Finding]:
    lacking = [side for side, scale in zip(SIDES, slants.scales, strict=True) if scale is None]
    if len(lacking) != 1:
        return
    hand = job.bass_or_treble(lacking[0])
    other = "treble" if hand == "bass" else "bass"
    yield Finding(
        grade="look",
        code="scales.one_side",
        text=f"The scale of slanted frets is declared at the {other} string and not at the {hand} string: declare "
        "both, or neither.",
        where=f"field:frets.scales.{lacking[0]}",
    )


def _scales_differ(job: Job, states: PerturbedStates, slants: Slants, spaced: FittedSpacing) -> Iterator[Finding]:
    """A scale as read that is not the declared one, by more than both are sure of."""
    pm95s = states.pm95(spaced.scale).tolist()
    if _exchanged(slants, spaced, pm95s):
        yield Finding(
            grade="look",
            code="scales.exchanged",
            text="The scales that were declared at bass and treble look exchanged: the frets as read make each the "
            "other’s. The readings are used; look at both.",
            values={"left": float(spaced.scale[0, 0]), "right": float(spaced.scale[0, 1])},
            where="field:frets.scales.left",
        )
        return
    for index, side in enumerate(SIDES):
        declared, read, pm95 = slants.scales[index], float(spaced.scale[0, index]), pm95s[index]
        if declared is None or side not in spaced.read:
            continue
        off = read - declared
        if abs(off) > _beyond(pm95, TYPED):
            yield Finding(
                grade="look",
                code="scales.differ",
                text=f"The frets as read along the {job.bass_or_treble(side)} string make a scale of "
                f"{said_pm(pm95, job.unit, read)}, and {said(declared, job.unit)} is declared; the readings are used. "
                "Check what was declared, and whether the right fret was counted.",
                values={"read": read, "declared": declared, "pm95": pm95},
                where=f"field:frets.scales.{side}",
            )


def _exchanged(slants: Slants, spaced: FittedSpacing, pm95s: list[float]) -> bool:
    """Whether both scales as read differ from the declared ones, and would not if those were the other way round."""
    left, right = slants.scales
    if left is None or right is None or not set(SIDES) <= set(spaced.read):
        return False
    sure = [_beyond(pm95, TYPED) for pm95 in pm95s]

    def agree(*declared: float) -> list[bool]:
        return [abs(a - b) <= most for a, b, most in zip(spaced.scale[0].tolist(), declared, sure, strict=True)]

    return not any(agree(left, right)) and all(agree(right, left))


def _beyond(pm95: float, sd: float) -> float:
    """How far what was read may lie from what was declared, which is as sure as `sd` (mm), before it is told."""
    return SHOWN * math.hypot(pm95 / TWO_SIDED_95, sd)


def _not_square(job: Job, slants: Slants) -> Iterator[Finding]:
    """A fret that was declared square and does not lie so, by more than a saw leaves and the readings are sure of."""
    off, pm95, fret = slants.off_square, slants.off_square_pm95, slants.square_fret
    if off is None or fret is None or abs(off) <= _beyond(pm95, TWO_IN_ONE):
        return
    hand = job.bass_or_treble("left" if off > 0 else "right")
    yield Finding(
        grade="look",
        code="frets.not_square",
        text=f"{words.first_large(fret_called(fret))} is declared square, and by the readings it stands "
        f"{said_pm(pm95, job.unit, abs(off))} farther at {hand}; {fret_called(slants.squarest)} is the nearest to "
        "square. Look at the nut’s corners, at the frets, and at which fret is square.",
        values={"mm": off, "pm95": pm95, "fret": float(fret), "squarest": float(slants.squarest)},
        where="field:frets.square_fret",
    )


class Told(NamedTuple):
    """A line's slant in words and numbers: its name, how much farther (mm) with its ± at which side, and what was
    declared of it, mm and in words.
    """

    name: str
    mm: float
    pm95: float
    side: str
    declared: str


def told(job: Job, slants: Slants) -> tuple[Told, ...]:
    """The slants of the nut and of the nominal places, for a card or a sheet."""
    lines = (
        ("nut", slants.nut, slants.nut_pm95, slants.declared_nut),
        ("nominal places", slants.nominal, slants.nominal_pm95, slants.declared_nominal),
    )
    return tuple(
        Told(name, abs(much), pm95, _farther(job, much), "" if declared is None else _declared(job, declared))
        for name, much, pm95, declared in lines
    )


def _farther(job: Job, much: float) -> str:
    return job.bass_or_treble("left" if much > 0 else "right")


def _declared(job: Job, much: float) -> str:
    if abs(much) < LEVEL:
        return "declared square"
    return f"declared {said(abs(much), job.unit)} farther at {_farther(job, much)}"


def in_a_line(job: Job, slants: Slants, saddle: SaddlePlan | None) -> str:
    """The slants of nut, nominal places and saddle, and the fret that is square, in plain sentences."""
    parts = []
    for line in told(job, slants):
        much = f"{said_pm(line.pm95, job.unit, line.mm)} farther at {line.side}"
        parts.append(f"{line.name}: {much}{f' ({line.declared})' if line.declared else ''}")
    if saddle is not None:
        much = said_pm(saddle.slant_pm95, job.unit, saddle.slant)
        parts.append(f"saddle: {much} farther at {saddle.longer}" if saddle.longer != "neither" else "saddle: square")
    square = fret_called(slants.squarest)
    declared = "" if slants.square_fret is None else f" ({fret_called(slants.square_fret)} declared)"
    return words.first_large(f"{'; '.join(parts)}. Nearest to square: {square}{declared}.")


def fret_called(fret: int) -> str:
    """A fret in a sentence, the nut for 0."""
    return f"fret {fret}" if fret else "the nut"
