"""The fret spacing that fits the readings, in all rows, and the nominal places that follow from it.

**Nominal place**: where a string's saddle would be with no compensation, as a distance from the nut's front along the
left or the right outer string path. The readings are fitted as scale × fraction(k) − shift, so that a nut that was
moved shows as a shift, and the nominal place follows the frets. What is taken of scales and nut beside the readings is
told in `geometry/survey/rows/one_scale.py`.
"""

import math
from typing import NamedTuple

import msgspec
import numpy as np

from geometry.frame import Array, crossing, unit
from geometry.job import Job
from geometry.job.neck.fretting import SCALES, Spacing
from geometry.job.sides import SIDES, Side
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import OuterPaths
from geometry.perturbed_states import PerturbedStates
from geometry.spacing import fraction, one_fraction, saddle_fraction
from geometry.survey.rows.one_scale import SHOWN, TWO_IN_ONE
from geometry.units import mm

NOT_A_FRET = 5.0
"""A fret read farther from its fitted place than this (mm) was misread, and is drawn where the fit puts it (common
practice, no source)."""


class PathFit(NamedTuple):
    """Scale and shift on one path in all rows."""

    scale: Array
    shift: Array


class FittedSpacing(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The fitted spacing in all rows, [left, right]: `scale`, `shift` and `nominal` (rows, 2), mm along the path.

    `read` says which of left, right and centre the readings carried, `given` that the scale was typed; `off` (frets, 2)
    how far each fret is known to stand from where the fit puts it.
    """

    scale: Array
    shift: Array
    nominal: Array
    read: tuple[str, ...]
    off: Array
    given: bool = False

    def places(self, spacing: Spacing) -> Array:
        """Where the frets stand along the paths in the first row, (frets, 2)."""
        k = np.arange(1, len(self.off) + 1)
        return np.asarray(fraction(spacing, k)[:, None] * self.scale[0] - self.shift[0] + self.off)


def fit_frets(states: PerturbedStates, job: Job, frame: NeckFrame, paths: OuterPaths) -> FittedSpacing | None:
    """The spacing on both outer paths in all rows; None while nothing was read and no scale given, or while what was
    read makes no scale that an instrument has.
    """
    left, right, read = _sides(states, job, frame, paths)
    if left is None or right is None:
        return None
    scale, shift = np.array((left.scale, right.scale)).T, np.array((left.shift, right.shift)).T
    share = saddle_fraction(job.frets.spacing, job.frets.nominal, job.frets.count)
    nominal = share * scale - shift
    if not (is_a_scale(scale[0]) and is_a_scale(nominal[0])):
        return None
    off = _as_measured(states, job, read) if job.frets.spacing == "measured" else np.zeros((job.frets.count, 2))
    return FittedSpacing(scale=scale, shift=shift, nominal=nominal, read=read, off=off, given=not read)


def count_told(job: Job) -> bool:
    """Whether frets counted one too many, or too few, alike on both sides would show: three different frets were read,
    points on fret 12 besides two, or any and a scale was typed too.
    """
    read = frets_read(job)
    if not read:
        return True
    return len(read) >= MANY or scale_typed(job)


def scale_alone(job: Job) -> bool:
    """Whether a typed scale stands in for all frets, so that nothing that was read tells whether it is this board's."""
    return scale_typed(job) and not frets_read(job)


def frets_read(job: Job) -> set[int]:
    """The frets that were read, along a string or by points on fret 12."""
    taken = [reading for reading in job.readings if reading.taken]
    frets = {reading.fret or 0 for reading in taken if reading.kind == "fret"}
    twelfth = any(name.startswith("fret12.") for reading in taken for name in reading.of)
    return frets | ({12} if twelfth else set())


def scale_typed(job: Job) -> bool:
    """Whether a scale was typed, of all frets or of one side."""
    return job.frets.scale is not None or any(job.frets.declared(side) is not None for side in SIDES)


MANY = 3
"""Two frets that were counted wrong alike look like a nut that was moved."""


def is_a_scale(lengths: Array) -> bool:
    """Whether an instrument may have all these scales (mm)."""
    return bool((lengths >= SCALES[0]).all() and (lengths <= SCALES[1]).all())


def _sides(
    states: PerturbedStates, job: Job, frame: NeckFrame, paths: OuterPaths
) -> tuple[PathFit | None, PathFit | None, tuple[str, ...]]:
    """Both sides, and which of left, right and centre were read. One that was not read is as far from the centre as the
    other on its other side, or where the centre was not read either, alike, with what it may differ by; on slanted
    frets it is as declared, or nothing is known of it.
    """
    left, right = _read_sides(states, job, frame, paths)
    read: tuple[str, ...] = tuple(side for side, found in zip(SIDES, (left, right), strict=True) if found is not None)
    if len(read) == 2:
        return left, right, read
    on_centre = fitted(states, "centre")
    known = left or right
    if on_centre is not None and known is not None:
        other = PathFit(2 * on_centre[0] - known.scale, 2 * on_centre[1] - known.shift)
        return left or other, right or other, (*read, "centre")
    if job.frets.slanted:
        declared = _declared(states, job, "left"), _declared(states, job, "right")
        if on_centre is not None:
            return (*_about_centre(PathFit(*on_centre), *declared), ("centre",))
        return left or declared[0], right or declared[1], read
    if known is not None:
        other = _askew(states, known, 1.0)
        return left or other, right or other, read
    middle = _typed(states, job) if on_centre is None else PathFit(*on_centre)
    if middle is None:
        return None, None, ()
    return _askew(states, middle, 0.5), _askew(states, middle, -0.5), () if on_centre is None else ("centre",)


def _askew(states: PerturbedStates, known: PathFit, part: float) -> PathFit:
    """A side that was not read, like one that is known and as much askew to it as a board may be."""
    scale, shift = states.unknown("askew.scale"), states.unknown("askew.shift")
    if scale is None or shift is None:
        return PathFit(known.scale, known.shift)
    return PathFit(known.scale + part * scale, known.shift + part * shift)


def _typed(states: PerturbedStates, job: Job) -> PathFit | None:
    """The scale that was typed, where nothing was read."""
    scale, shift = states.unknown("unread.scale"), states.unknown("unread.shift")
    if job.frets.scale is None or scale is None or shift is None:
        return None
    return PathFit(mm(job.frets.scale) + scale, shift)


def _declared(states: PerturbedStates, job: Job, side: Side) -> PathFit | None:
    """The scale of slanted frets that was declared at a side where none was read. Where none was read at either, the
    nut stands out as a whole, and as much askew as it may.
    """
    scale, shift = states.unknown(f"declared.scale.{side}"), states.unknown(f"declared.shift.{side}")
    both, askew = states.unknown("unread.shift"), states.unknown("askew.shift")
    if both is not None and askew is not None:
        shift = both + (0.5 if side == "left" else -0.5) * askew
    given = job.frets.declared(side)
    return None if given is None or scale is None or shift is None else PathFit(mm(given) + scale, shift)


def _about_centre(
    centre: PathFit, left: PathFit | None, right: PathFit | None
) -> tuple[PathFit | None, PathFit | None]:
    """Both sides of slanted frets that were read on the centre line alone, as far from it as was declared."""
    if left is None or right is None:
        return None, None
    scale, shift = (left.scale - right.scale) / 2, (left.shift - right.shift) / 2
    return PathFit(centre.scale + scale, centre.shift + shift), PathFit(centre.scale - scale, centre.shift - shift)


def _as_measured(states: PerturbedStates, job: Job, read: tuple[str, ...]) -> Array:
    """How far each fret was read from where the fit puts it, [left, right] (frets, 2), mm; 0 where it was not read.

    A fret read on one path only stands as far off on the other.
    """
    fits = {fit.id: fit for fit in states.surveyed.fits}
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


def fitted(states: PerturbedStates, side: str) -> tuple[Array, Array] | None:
    """Scale and shift in all rows as the survey fitted them on that path; None where it was not read."""
    scale, shift = states.unknown(f"scale.{side}"), states.unknown(f"shift.{side}")
    if scale is None:
        return None
    return scale, np.zeros_like(scale) if shift is None else shift


def _read_sides(
    states: PerturbedStates, job: Job, frame: NeckFrame, paths: OuterPaths
) -> tuple[PathFit | None, PathFit | None]:
    """Scale and shift at [left, right], from the fret readings or, where there are none, from the points on fret 12;
    None where neither was read. With both the survey has brought them together.
    """
    read = [None if (found := fitted(states, side)) is None else PathFit(*found) for side in SIDES]
    twelfth = [_from_points(states, frame, paths, index) for index in (0, 1)]
    half = one_fraction(job.frets.spacing, 12)
    left, right = read
    if left is None and right is None:
        return _by_points_alone(states, twelfth, half)
    return left or _by_point(states, right, twelfth[0], half), right or _by_point(states, left, twelfth[1], half)


def _by_point(states: PerturbedStates, other: PathFit | None, at: Array | None, half: float) -> PathFit | None:
    """A side without fret readings by its point on fret 12, its nut like the other's."""
    if other is None or at is None:
        return None
    nut = _askew(states, other, 1.0).shift
    return PathFit((at + nut) / half, nut)


def _by_points_alone(
    states: PerturbedStates, twelfth: list[Array | None], half: float
) -> tuple[PathFit | None, PathFit | None]:
    """Scale and shift where only points on fret 12 were read: one scale as far as it goes, and the nut where it should
    stand, each with what it may be off.
    """
    shift, askew = states.unknown("unread.shift"), states.unknown("askew.shift")
    zero = np.zeros(len(states.rows))
    nut, lean = shift if shift is not None else zero, askew if askew is not None else zero
    made = [
        None if at is None else PathFit((at + nut + part * lean) / half, nut + part * lean)
        for at, part in zip(twelfth, (0.5, -0.5), strict=True)
    ]
    left, right = made
    if left is None or right is None:
        return left, right
    apart = left.scale - right.scale
    sd = float(states.sd(apart[:, None])[0])
    if abs(apart[0]) > SHOWN * math.hypot(sd, TWO_IN_ONE):
        return left, right
    part = sd**2 / (sd**2 + TWO_IN_ONE**2) / 2
    return PathFit(left.scale - part * apart, left.shift), PathFit(right.scale + part * apart, right.shift)


def _from_points(states: PerturbedStates, frame: NeckFrame, paths: OuterPaths, index: int) -> Array | None:
    """Nut to fret 12 along the outer path, from the points on fret 12."""
    name = f"fret12.{SIDES[index]}"
    if not states.has(name):
        return None
    if states.has("fret12.left", "fret12.right"):
        seen = frame.see(states, "fret12.left", "fret12.right")
        met = crossing(seen[:, 1], unit(seen[:, 0] - seen[:, 1]), paths.start[:, index], paths.along[:, index])
        return np.abs(met - paths.start[:, index])
    return np.abs(frame.see(states, name)[:, 0] - frame.nut[:, index])
