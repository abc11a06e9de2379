"""What is taken of frets and nut beside the readings: one scale for the whole board, and where the nut stands.

The frets of one board are cut to one **scale**; the nut may stand nearer than they say, by a **shift** at each outer
string. Two scales that have nothing to do with each other are taken where the job says that its frets are slanted, or
where the readings show it. A shift that the frets as read tell too badly is **taken as nought**, and what it may be is
carried into every ±.
"""

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from geometry.job import Reading
from geometry.job.neck.fretting import Frets, Spacing
from geometry.layout import TWO_SIDED_95
from geometry.spacing import one_fraction, saddle_fraction
from geometry.survey.result import Array
from geometry.survey.rows.row import BELIEVABLE, STILL, Row

TWO_IN_ONE = 0.2
"""One standard deviation of the difference of the scales at the outer strings, mm, where frets are not slanted: what a
saw and a template leave (common practice, no source)."""
NUT = 0.5
"""One standard deviation of how far a nut stands from where the frets want it, as a whole and one end against the
other, mm, where no reading tells (common practice, no source)."""
ELSEWHERE = 1.0
"""The frets are believed where they put the nut elsewhere by so many standard deviations (derived: with it the ± holds
in 93 of 100 where nuts stand up to 1.5 mm out and few frets were read, and it costs next to no width)."""
TYPED = 0.5
"""One standard deviation of a scale that was typed and not read, mm (common practice, no source)."""
SHOWN = 2.807033768343804
"""The normal distribution's two-sided 0.5 % point: what one square board in 200 goes beyond."""
FEW = 3
"""With fewer readings on a side one misread fret looks like frets that lean."""
AS_WELL = 2.8
"""The difference of weighted sums of squares up to which slanted frets explain the readings as well as one misread fret
among a dozen does (derived: 2 ln 12, less 2 ln 3 for misread frets' being some three times as frequent)."""
ANYWHERE = 5.0
"""A spread of the nut (mm) that only keeps a fit from being open where one fret a side was read."""
BESIDE, BESIDE_SD = 0.1, 0.15
"""How far the board's edge lies outside the outer string, as a part of the outer strings' spread (common practice, no
source); and how far a fret may bend on its way there, one standard deviation, mm (common practice, no source)."""
SIDES = ("left", "right", "centre")
Extras = tuple[tuple[str, float], ...]


class Fit(NamedTuple):
    """A small fit: its unknowns by name, their values (k,) and covariance (k, k), the weighted sum of squares and the
    largest residual of a reading in its own standard deviations, with its row.
    """

    names: tuple[str, ...]
    x: Array
    cov: Array
    squares: float
    worst: float
    worst_at: int

    def of(self, parts: Extras) -> tuple[float, float]:
        """A combination of the unknowns, and its standard deviation."""
        slope = np.zeros(len(self.names))
        for name, part in parts:
            slope[self.names.index(name)] += part
        return float(slope @ self.x), math.sqrt(max(float(slope @ self.cov @ slope), 0.0))


def prior(extras: Extras, sd: float, value: float = 0.0) -> Row:
    """What is known of unknowns beforehand, as a row."""
    return Row("", "none", (), value, sd, extras=extras)


def taken(extras: Extras, sd: float) -> Row:
    """What is taken as nought, with the standard deviation that is carried."""
    return Row("", "none", (), 0.0, STILL, extras=extras, carried=sd)


def nut_and_scales(frets: Frets, rows: Sequence[Row], twelfth: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows of what is taken of the scales and of the nut, besides all other `rows`.

    `twelfth` are the rows that put the points on fret 12, as if they were fret readings (`as_fret_12`).
    """
    own = tuple(row for row in rows if row.extras and row.extras[0][0].startswith("scale."))
    if not own:
        return ()
    used = {name for row in (*own, *twelfth) for name, _ in row.extras}
    known = tuple(row for row in rows if not row.id and row.extras[0][0] in used)
    points = {name for row in rows for name in row.points}
    return (*_of_readings(own, known, twelfth, frets), *_at_fret_12(own, points, frets.spacing))


def _at_fret_12(own: tuple[Row, ...], points: set[str], spacing: Spacing) -> tuple[Row, ...]:
    """The rows by which the points on fret 12 and the fret readings speak of the same fret: from the nut's corner to
    the point it is as far along the edge as along the outer string, carried on to the edge.
    """
    sides, half = {_side(row) for row in own}, one_fraction(spacing, 12)
    found = []
    for side in ("left", "right"):
        nut, twelfth, end = f"nut.{side}", f"fret12.{side}", f"end.{side}"
        if side in sides and points.issuperset((nut, twelfth, end)):
            along = _beside(side, half) if {"left", "right"} <= sides else _at(side, half, 1.0)
            extras = tuple((name, -part) for name, part in along)
            # along the edge: as a distance it would tell how far the point lies beside it, which nobody read
            found.append(Row("", "laid", (twelfth, nut, nut, end), 0.0, BESIDE_SD, extras=extras))
    return tuple(found)


def _beside(side: str, half: float) -> Extras:
    """How far fret 12 lies from the nut along the board's edge on a side, outside both outer strings."""
    other = "right" if side == "left" else "left"
    return (*_at(side, half, 1 + BESIDE), *_at(other, half, -BESIDE))


def _at(side: str, half: float, part: float) -> Extras:
    return (f"scale.{side}", half * part), (f"shift.{side}", -part)


def unread(names: Iterable[str], frets: Frets | None = None) -> dict[str, float]:
    """The standard deviations (mm) of what no reading tells, by name: `askew.scale` and `askew.shift`, by which an
    outer string may differ from the other where one was read; `unread.scale` and `unread.shift` where none was; of a
    side whose scale was declared (`frets`) and not read, `declared.scale` and `declared.shift` with the side's name.
    `names` are the survey's unknowns.
    """
    read = {name for name in names if name.startswith("scale.")}
    declared = {
        f"declared.{what}.{side}": sd
        for side in ("left", "right")
        if frets is not None and frets.declared(side) is not None and f"scale.{side}" not in read
        for what, sd in (("scale", TYPED), ("shift", NUT))
    }
    if {"scale.left", "scale.right"} <= read:
        return {}
    askew = {"askew.scale": TWO_IN_ONE, "askew.shift": NUT}
    return declared | (askew if read else askew | {"unread.scale": TYPED, "unread.shift": NUT})


@lru_cache(maxsize=512)
def _of_readings(
    own: tuple[Row, ...], known: tuple[Row, ...], twelfth: tuple[Row, ...], frets: Frets
) -> tuple[Row, ...]:
    """The same where frets were read: `own` rows of the readings, `known` what is known of their layings and rules."""
    sides = [side for side in SIDES if any(_side(row) == side for row in own)]
    shown = not frets.slanted and _show_slant(own, known, twelfth)
    slanted = frets.slanted or shown
    ties = () if slanted else _ties("scale", sides, TWO_IN_ONE)
    if not frets.slanted:
        ties += _ties("shift", sides, NUT)
    groups = [[side] for side in sides] if slanted else [sides]
    share = saddle_fraction(frets.spacing, frets.nominal, frets.count)
    nut = tuple(row for group in groups for row in _nut(own, (*known, *ties), group, share))
    return (*ties, *nut)


def _ties(what: str, sides: Sequence[str], sd: float) -> tuple[Row, ...]:
    """What holds the outer strings to each other, `sd` apart, and the centre line midway between them."""
    outer = [side for side in sides if side != "centre"]
    found = [prior(_apart(what, *outer), sd)] if len(outer) == 2 else []
    if "centre" in sides and outer:
        mean = tuple((f"{what}.{side}", -1 / len(outer)) for side in outer)
        found.append(prior(((f"{what}.centre", 1.0), *mean), sd / 2))
    return tuple(found)


def _side(row: Row) -> str:
    return row.extras[0][0].removeprefix("scale.")


def _apart(what: str, one: str, other: str) -> Extras:
    return (f"{what}.{one}", 1.0), (f"{what}.{other}", -1.0)


def _nut(own: tuple[Row, ...], known: tuple[Row, ...], sides: list[str], share: float) -> tuple[Row, ...]:
    """The row that takes the nut to stand where it should, as a whole, where the frets tell it worse than that.

    Of two ways to place the saddle, the shift left to the readings or taken as nought with what it may be carried, the
    one is taken whose nominal place is the surer; unless the readings contradict the second.
    """
    mean: Extras = tuple((f"shift.{side}", 1 / len(sides)) for side in sides)
    row = taken(mean, NUT)
    mine = [one for one in own if _side(one) in sides]
    if len({one.extras[0][1] for one in mine}) < 2:
        return (row,)
    nominal: Extras = (*((f"scale.{side}", share / len(sides)) for side in sides), *((n, -p) for n, p in mean))
    rows = [*mine, *_among(known, mine)]
    free, tied = _solve(rows), _solve([*rows, row])
    shift, sd = free.of(mean)
    moved = sum(part * float(_pull(tied, row)[tied.names.index(name)]) for name, part in nominal)
    surer = math.hypot(tied.of(nominal)[1], moved * NUT) < free.of(nominal)[1]
    return (row,) if surer and abs(shift) <= ELSEWHERE * sd else ()


def _among(known: Iterable[Row], rows: Sequence[Row]) -> list[Row]:
    """What is known beforehand of the unknowns of these rows alone."""
    names = {name for row in rows for name, _ in row.extras}
    return [row for row in known if names.issuperset(name for name, _ in row.extras)]


def _pull(fit: Fit, row: Row) -> Array:
    """What a change of one in a row changes in the unknowns, (k,)."""
    slope = np.zeros(len(fit.names))
    for name, part in row.extras:
        slope[fit.names.index(name)] += part
    return np.asarray(fit.cov @ slope / row.sigma**2)


def _show_slant(own: tuple[Row, ...], known: tuple[Row, ...], twelfth: tuple[Row, ...]) -> bool:
    """Whether the frets as read lean: by one scale at each outer string, on one nut, better than by one for both.

    A nut glued askew leans them too: where it explains the readings clearly better, one scale is enough. So does a
    single misread fret: where some reading is beyond belief by one scale, the others must still lean without it, or
    slanted frets must explain them all as well as that reading being wrong does. Where a side was read once or twice
    they must lean without any one of the readings.
    """
    rows = [*(row for row in own if _side(row) != "centre"), *twelfth]
    if {_side(row) for row in rows} != {"left", "right"}:
        return False
    leaning = _leaning(rows, known)
    if abs(_slant(leaning)) <= SHOWN:
        return False
    askew = _solve([*rows, *_given(rows, known), prior(_apart("scale", "left", "right"), TWO_IN_ONE)])
    if askew.squares + SHOWN**2 < leaning.squares:
        return False
    few = min(sum(_side(row) == side for row in rows) for side in ("left", "right")) < FEW
    if few:
        return all(_lean_without(rows, known, i) for i in range(len(rows)))
    if askew.worst <= BELIEVABLE or leaning.squares < askew.squares - askew.worst**2 + AS_WELL:
        return True
    return _lean_without(rows, known, askew.worst_at)


def _lean_without(rows: Sequence[Row], known: Iterable[Row], left_out: int) -> bool:
    """Whether frets still lean with one reading left out."""
    others = [row for i, row in enumerate(rows) if i != left_out]
    return len({_side(row) for row in others}) == 2 and abs(_slant(_leaning(others, known))) > TWO_SIDED_95


def _given(rows: Sequence[Row], known: Iterable[Row]) -> list[Row]:
    return [*_among(known, rows), prior((("shift.left", 0.5), ("shift.right", 0.5)), ANYWHERE)]


def _leaning(rows: Sequence[Row], known: Iterable[Row]) -> Fit:
    """The fit by two scales on one nut."""
    return _solve([*rows, *_given(rows, known), prior(_apart("shift", "left", "right"), STILL)])


def _slant(fit: Fit) -> float:
    """The difference of the two scales, in its standard deviations."""
    slant, sd = fit.of(_apart("scale", "left", "right"))
    return slant / sd


def _solve(rows: Sequence[Row]) -> Fit:
    """Least squares of rows without points (E. M. Mikhail, Observations and Least Squares, 1976)."""
    names = tuple(dict.fromkeys(name for row in rows for name, _ in row.extras))
    at = {name: place for place, name in enumerate(names)}
    slopes, values = np.zeros((len(rows), len(names))), np.empty(len(rows))
    for i, row in enumerate(rows):
        values[i] = row.value / row.sigma
        for name, part in row.extras:
            slopes[i, at[name]] += part / row.sigma
    cov = np.linalg.inv(slopes.T @ slopes)
    x = cov @ (slopes.T @ values)
    off = slopes @ x - values
    free = 1 - ((slopes @ cov) * slopes).sum(axis=1)
    read = np.array([bool(row.id) for row in rows])
    worst = np.where(read, np.abs(off) / np.sqrt(np.maximum(free, 1e-6)), 0.0)
    leader = int(worst.argmax())
    return Fit(names, np.asarray(x), np.asarray(cov), float(off @ off), float(worst[leader]), leader)


def as_fret_12(reading: Reading, row: Row, spacing: Spacing) -> Row | None:
    """The row of a reading from the nut's corner to fret 12's on the same edge, as the fret reading that it nearly is;
    None for any other. The edge leans against the string by a hundredth, which makes less than 0.05 mm.
    """
    for side in ("left", "right"):
        nut, twelfth, end = f"nut.{side}", f"fret12.{side}", f"end.{side}"
        along = reading.kind == "along" and reading.of == (twelfth,) and reading.from_ == (nut, end)
        if along or (reading.kind == "distance" and set(reading.of) == {nut, twelfth}):
            sigma = math.hypot(row.sigma, BESIDE_SD)
            extras = (*_beside(side, one_fraction(spacing, 12)), *row.extras)
            return Row(reading.id, "none", (), row.value, sigma, extras=extras)
    return None
