"""The frets: the spacing that fits the readings, and the nominal places that follow from it.

**Nominal place**: where a string's saddle would be with no compensation, as a distance from the nut's front along the
left or the right outer string path. The readings are fitted as scale × fraction(k) − shift, so that a nut that was
moved shows as a shift, and the nominal place follows the frets.
"""

import math
from typing import NamedTuple

import msgspec
import numpy as np

from geometry.findings import Finding
from geometry.frame import Array, Points, crossing, unit
from geometry.job import Job
from geometry.layout import FretLine, FretPlan, Nominal
from geometry.neck import SIDES, NeckFrame
from geometry.paths import OuterPaths
from geometry.sample import Sample
from geometry.spacing import fraction, one_fraction, saddle_fraction
from geometry.units import mm, said

MOVED = 0.5
"""A shift of the nut from which on it is said, mm (common practice, no source)."""
DISAGREE = 3.29
"""Standard deviations from which on a difference is called one: two-sided 0.1 % of the normal distribution."""
SLANTED = 0.8
"""A difference of the nominal places from which on frets are called slanted, mm (common practice, no source)."""


class Side(NamedTuple):
    """Scale and shift on one path in all rows, and how far the points on fret 12 lie from what the fret readings say
    (mm, with its standard deviation; 0 where only one of them speaks).
    """

    scale: Array
    shift: Array
    apart: float = 0.0
    apart_sd: float = 0.0


class Spaced(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The fitted spacing in all rows, [left, right]: `scale`, `shift` and `nominal` (rows, 2), mm along the path.

    `read` says which of left, right and centre the readings carried, `given` that the scale was typed. `sides` holds
    what each side was made of.
    """

    scale: Array
    shift: Array
    nominal: Array
    read: tuple[str, ...]
    sides: tuple[Side, Side]
    given: bool = False


class FretLines(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Frets 1 to the last in the first row: a point `on` each, at the right outer path, and its leftward direction
    `way`, (frets,); and where they cross the edge lines, `edge` (frets, 2).
    """

    on: Points
    way: Points
    edge: Points


def fit_frets(sample: Sample, job: Job, frame: NeckFrame, paths: OuterPaths) -> Spaced | None:
    """The spacing on both outer paths in all rows; None while nothing was read and no scale given."""
    by_side = [_side(sample, job, frame, paths, index) for index in (0, 1)]
    read: tuple[str, ...] = tuple(side for side, found in zip(SIDES, by_side, strict=True) if found is not None)
    centre = _fitted(sample, "centre")
    given = False
    if centre is not None and not read:
        by_side, read = [Side(*centre)] * 2, ("centre",)
    if not read and job.frets.scale is not None:
        rows = len(sample.rows)
        by_side, given = [Side(np.full(rows, mm(job.frets.scale)), np.zeros(rows))] * 2, True
    left, right = by_side[0] or by_side[1], by_side[1] or by_side[0]
    if left is None or right is None:
        return None
    scale, shift = np.array((left.scale, right.scale)).T, np.array((left.shift, right.shift)).T
    share = saddle_fraction(job.frets.spacing, job.frets.nominal, job.frets.count)
    nominal = share * scale - shift
    return Spaced(scale=scale, shift=shift, nominal=nominal, read=read, sides=(left, right), given=given)


def _fitted(sample: Sample, side: str) -> tuple[Array, Array] | None:
    scale, shift = sample.unknown(f"scale.{side}"), sample.unknown(f"shift.{side}")
    if scale is None:
        return None
    return scale, np.zeros_like(scale) if shift is None else shift


def _side(sample: Sample, job: Job, frame: NeckFrame, paths: OuterPaths, index: int) -> Side | None:
    """Scale and shift on one side, from the fret readings and from the points on fret 12.

    Where there are both, the points amend what the readings say by the usual gain of least squares (R. E. Kalman,
    J. Basic Eng. 82, 35, 1960, eq. 30, without noise between), in which both carry their own ±.
    """
    read = _fitted(sample, SIDES[index])
    twelfth = _from_points(sample, frame, paths, index)
    half = one_fraction(job.frets.spacing, 12)
    if twelfth is None:
        return None if read is None else Side(*read)
    if read is None:
        return Side(twelfth / half, np.zeros_like(twelfth))
    scale, shift = read
    apart = twelfth - (half * scale - shift)
    spread = sample.covariance(np.array((scale, shift, twelfth)).T)
    turn = np.array([half, -1.0])
    total = float(turn @ spread[:2, :2] @ turn + spread[2, 2])
    if total <= 0:
        return Side(scale, shift)
    gain = spread[:2, :2] @ turn / total
    return Side(scale + gain[0] * apart, shift + gain[1] * apart, float(apart[0]), math.sqrt(total))


def _from_points(sample: Sample, frame: NeckFrame, paths: OuterPaths, index: int) -> Array | None:
    """Nut to fret 12 along the outer path, from the points on fret 12."""
    name = f"fret12.{SIDES[index]}"
    if not sample.has(name):
        return None
    if sample.has("fret12.left", "fret12.right"):
        seen = frame.see(sample, "fret12.left", "fret12.right")
        met = crossing(seen[:, 1], unit(seen[:, 0] - seen[:, 1]), paths.start[:, index], paths.along[:, index])
        return np.abs(met - paths.start[:, index])
    return np.abs(frame.see(sample, name)[:, 0] - frame.nut[:, index])


def _open_cents(nominal: float, shift: float) -> float:
    """What the open string pays for a nut that was moved; nothing while half-typed readings leave no place for it."""
    return 1200 * math.log2((nominal + shift) / nominal) if nominal > 0 and nominal + shift > 0 else 0.0


def describe(sample: Sample, job: Job, frame: NeckFrame, spaced: Spaced, lines: FretLines) -> FretPlan:
    """The frets as the layout holds them, with each fret drawn from edge to edge."""
    mean = spaced.scale.sum(axis=1, keepdims=True) / 2
    left, right, scale_pm95 = sample.pm95(np.concatenate((spaced.nominal, mean), axis=1)).tolist()
    spacing, other_way = job.frets.spacing, "best" if job.frets.nominal == "octave" else "octave"
    other = saddle_fraction(spacing, other_way, job.frets.count) * spaced.scale[0] - spaced.shift[0]
    nominal, shift = spaced.nominal[0].tolist(), spaced.shift[0].tolist()
    open_left, open_right = (_open_cents(n, s) for n, s in zip(nominal, shift, strict=True))
    return FretPlan(
        spacing=spacing,
        scale=float(mean[0, 0]),
        scale_pm95=scale_pm95,
        nut_shift=sum(shift) / 2,
        nominal=Nominal(left=nominal[0], right=nominal[1], left_pm95=left, right_pm95=right),
        lines=_lines(frame, lines),
        open_cents=(open_left, open_right),
        other=Nominal(left=float(other[0]), right=float(other[1]), left_pm95=left, right_pm95=right)
        if spacing == "eighteen"
        else None,
    )


def fret_lines(job: Job, frame: NeckFrame, paths: OuterPaths, spaced: Spaced) -> FretLines:
    """The lines of all frets, each through its places on the outer paths and carried on to the board's edges."""
    k = np.arange(1, job.frets.count + 1)
    far = fraction(job.frets.spacing, k)[:, None] * spaced.scale[0] - spaced.shift[0]
    places = paths.start[0] + paths.along[0] * far
    on, way = places[:, 1], unit(places[:, 0] - places[:, 1])
    return FretLines(on=on, way=way, edge=crossing(on[:, None], way[:, None], frame.edge[0], frame.edge_way[0]))


def fret_line(job: Job, paths: OuterPaths, spaced: Spaced, fret: int) -> tuple[Points, Points]:
    """The line of one fret in all rows, as a point on it and its leftward direction, both (rows,)."""
    far = one_fraction(job.frets.spacing, fret) * spaced.scale - spaced.shift
    places = paths.start + paths.along * far
    return places[:, 1], places[:, 0] - places[:, 1]


def missing() -> Finding:
    """What is still to be read before the frets are known."""
    return Finding(
        grade="look",
        code="frets.missing",
        text="No fret is read yet: lay the rule from the nut's front along an outer string and read fret 12, "
        "better also frets 1 and 7.",
        where="step:measure",
    )


def findings(job: Job, plan: FretPlan, spaced: Spaced) -> tuple[Finding, ...]:
    """A nut that was moved, frets slanted to it, a twelfth fret that disagrees with the scale, one side not read."""
    found = []
    if abs(plan.nut_shift) > MOVED:
        way = "near" if plan.nut_shift > 0 else "far"
        cents = float(np.mean(plan.open_cents))
        heard = "sharp" if cents > 0 else "flat"
        found.append(
            Finding(
                grade="look",
                code="nut.moved",
                text=f"By the frets the nut stands {said(abs(plan.nut_shift), job.unit)} too {way}: the saddle follows "
                f"the frets, and the open strings are {abs(cents):.1f} cents {heard} of their notes.",
                values={"mm": plan.nut_shift, "cents": cents},
                where="nut",
            )
        )
    for side, made in zip(SIDES, spaced.sides, strict=True):
        if abs(made.apart) > DISAGREE * made.apart_sd and made.apart_sd > 0:
            found.append(
                Finding(
                    grade="look",
                    code="fret12.disagrees",
                    text=f"Fret 12 as a point ({side}) lies {said(abs(made.apart), job.unit)} from where the fret "
                    "readings put it: read both again, and look whether the same fret was counted.",
                    values={"mm": made.apart},
                    where=f"point:fret12.{side}",
                )
            )
    slant = plan.nominal.left - plan.nominal.right
    if abs(slant) > SLANTED:
        found.append(
            Finding(
                grade="good",
                code="frets.slanted",
                text=f"The frets are slanted to the nut: the nominal place is {said(abs(slant), job.unit)} "
                f"farther at the {'left' if slant > 0 else 'right'}, and each string has its own.",
                values={"mm": slant},
                where="fret:12",
            )
        )
    typed = job.frets.scale
    if typed is not None and not spaced.given and abs(mm(typed) - plan.scale) > max(2.0, plan.scale_pm95):
        found.append(
            Finding(
                grade="look",
                code="scale.differs",
                text=f"The frets as read make a scale of {said(plan.scale, job.unit)}, and "
                f"{said(mm(typed), job.unit)} is typed; the readings are used. "
                "Look whether the right fret was counted.",
                values={"read": plan.scale, "typed": mm(typed)},
                where="field:frets.scale",
            )
        )
    if spaced.given or len(spaced.read) == 1:
        where = "The scale is taken as typed" if spaced.given else f"Frets were read on the {spaced.read[0]} path only"
        found.append(
            Finding(
                grade="look",
                code="frets.one_side",
                text=f"{where}: whether the frets are slanted, or the nut was moved, is not known.",
                where="step:measure",
            )
        )
    return tuple(found)


def _lines(frame: NeckFrame, lines: FretLines) -> tuple[FretLine, ...]:
    """All frets from edge to edge, the nut first."""
    edges = [frame.nut[0].tolist(), *lines.edge.tolist()]
    return tuple(
        FretLine(fret=fret, left=(left.real, left.imag), right=(right.real, right.imag))
        for fret, (left, right) in enumerate(edges)
    )
