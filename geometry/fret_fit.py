"""The fret spacing that fits the readings, in all rows, and the nominal places that follow from it.

**Nominal place**: where a string's saddle would be with no compensation, as a distance from the nut's front along the
left or the right outer string path. The readings are fitted as scale × fraction(k) − shift, so that a nut that was
moved shows as a shift, and the nominal place follows the frets.
"""

import math
from typing import NamedTuple

import msgspec
import numpy as np

from geometry.frame import Array, crossing, unit
from geometry.job import Job
from geometry.job.fretting import SCALES, Spacing
from geometry.neck import SIDES, NeckFrame
from geometry.paths import OuterPaths
from geometry.sample import Sample
from geometry.spacing import fraction, one_fraction, saddle_fraction
from geometry.units import mm

NOT_A_FRET = 5.0
"""A fret read farther from its fitted place than this (mm) was misread, and is drawn where the fit puts it (common
practice, no source)."""


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
    what each side was made of, `off` (frets, 2) how far each fret is known to stand from where the fit puts it.
    """

    scale: Array
    shift: Array
    nominal: Array
    read: tuple[str, ...]
    sides: tuple[Side, Side]
    off: Array
    given: bool = False

    def places(self, spacing: Spacing) -> Array:
        """Where the frets stand along the paths in the first row, (frets, 2)."""
        k = np.arange(1, len(self.off) + 1)
        return np.asarray(fraction(spacing, k)[:, None] * self.scale[0] - self.shift[0] + self.off)


def fit_frets(sample: Sample, job: Job, frame: NeckFrame, paths: OuterPaths) -> Spaced | None:
    """The spacing on both outer paths in all rows; None while nothing was read and no scale given, or while what was
    read makes no scale that an instrument has.
    """
    left, right, read = _sides(sample, job, frame, paths)
    given = not read and job.frets.scale is not None
    if given and job.frets.scale is not None:
        rows = len(sample.rows)
        left = right = Side(np.full(rows, mm(job.frets.scale)), np.zeros(rows))
    if left is None or right is None:
        return None
    scale, shift = np.array((left.scale, right.scale)).T, np.array((left.shift, right.shift)).T
    share = saddle_fraction(job.frets.spacing, job.frets.nominal, job.frets.count)
    nominal = share * scale - shift
    if not (is_a_scale(scale[0]) and is_a_scale(nominal[0])):
        return None
    off = _as_measured(sample, job, read) if job.frets.spacing == "measured" else np.zeros((job.frets.count, 2))
    return Spaced(scale=scale, shift=shift, nominal=nominal, read=read, sides=(left, right), off=off, given=given)


def is_a_scale(lengths: Array) -> bool:
    """Whether an instrument may have all these scales (mm)."""
    return bool((lengths >= SCALES[0]).all() and (lengths <= SCALES[1]).all())


def _sides(
    sample: Sample, job: Job, frame: NeckFrame, paths: OuterPaths
) -> tuple[Side | None, Side | None, tuple[str, ...]]:
    """Both sides, and which of left, right and centre were read. One that was not read is as far from the centre as the
    other on its other side, or where the centre was not read either, alike.
    """
    left, right = (_side(sample, job, frame, paths, index) for index in (0, 1))
    read: tuple[str, ...] = tuple(side for side, found in zip(SIDES, (left, right), strict=True) if found is not None)
    on_centre = fitted(sample, "centre")
    if on_centre is None or len(read) == 2:
        return left or right, right or left, read
    centre = Side(*on_centre)
    known = left or right or centre
    other = Side(2 * centre.scale - known.scale, 2 * centre.shift - known.shift)
    return left or other, right or other, (*read, "centre")


def _as_measured(sample: Sample, job: Job, read: tuple[str, ...]) -> Array:
    """How far each fret was read from where the fit puts it, [left, right] (frets, 2), mm; 0 where it was not read.

    A fret read on one path only stands as far off on the other.
    """
    fits = {fit.id: fit for fit in sample.surveyed.fits}
    found: dict[tuple[int, str], list[float]] = {}
    for reading in job.readings:
        if reading.kind == "fret" and reading.id in fits and reading.on in read:
            off = fits[reading.id].value - fits[reading.id].adjusted
            if abs(off) <= NOT_A_FRET:
                found.setdefault((reading.fret or 0, reading.on), []).append(off)
    places = np.zeros((job.frets.count, 2))
    for fret in range(1, job.frets.count + 1):
        at = [found.get((fret, side)) for side in (*SIDES, "centre")]
        here = [sum(values) / len(values) if values else None for values in at]
        any_side = next((value for value in here if value is not None), 0.0)
        places[fret - 1] = [any_side if value is None else value for value in here[:2]]
    return places


def fitted(sample: Sample, side: str) -> tuple[Array, Array] | None:
    """Scale and shift in all rows as the survey fitted them on that path; None where it was not read."""
    scale, shift = sample.unknown(f"scale.{side}"), sample.unknown(f"shift.{side}")
    if scale is None:
        return None
    return scale, np.zeros_like(scale) if shift is None else shift


def _side(sample: Sample, job: Job, frame: NeckFrame, paths: OuterPaths, index: int) -> Side | None:
    """Scale and shift on one side, from the fret readings and from the points on fret 12.

    Where there are both, the points amend what the readings say by the usual gain of least squares (R. E. Kalman,
    J. Basic Eng. 82, 35, 1960, eq. 30, without noise between), in which both carry their own ±.
    """
    read = fitted(sample, SIDES[index])
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
