"""What to measure next: the reading that narrows the saddle's place most, or makes a point checked that is not.

Nothing is solved anew for this. A reading more changes the covariance Q by a term of rank one,
Q − Q a aᵀ Q / (σ² + aᵀ Q a), with a the reading's slopes; what it does to the saddle and to the redundancy numbers of
the readings follows (E. M. Mikhail, Observations and Least Squares, 1976, on adding observations in sequence).
"""

import msgspec
import numpy as np

from geometry import units
from geometry.job import Job, Reading
from geometry.job.instruments import INSTRUMENTS
from geometry.layout import Layout
from geometry.placing import place
from geometry.sample import TWO_SIDED_95
from geometry.survey import words
from geometry.survey.candidates import FRETS, On, candidates, numbered
from geometry.survey.checking import CORNERS, HOLDS, Flags, holds, shows
from geometry.survey.network import Network, dense, evaluate, network_of
from geometry.survey.result import Array, Surveyed
from geometry.survey.rows import rows_of
from geometry.survey.surveying import survey
from geometry.units import Length

WORTH, WORTH_MM = 0.1, 0.03
"""A reading is worth taking for the saddle's sake from a tenth of its ± on, and from so many mm."""
FLOOR_CENTS = 2.0
"""Players fretting the same note differ by this much, one standard deviation (R. M. Mottola, see geometry/hearing)."""
MOST = 5
SADDLE = "the saddle"
CHECK_WORTH = {SADDLE: 0.5} | dict.fromkeys(CORNERS, 0.2)
"""What making a place checked is worth beside narrowing the saddle by all of its ±; 0.05 for any other point."""
SIDES: tuple[On, ...] = ("left", "right", "centre")


class Advice(msgspec.Struct, frozen=True, kw_only=True):
    """One reading worth taking, its value null. `text` says why in one sentence. `saddle_before`, `saddle_after`: the
    worse outer string's ± (mm, 95 %), None where there is no saddle yet; `checks`: points that it makes checked.
    """

    reading: Reading
    text: str
    saddle_before: float | None = None
    saddle_after: float | None = None
    checks: tuple[str, ...] = ()


class Advised(msgspec.Struct, frozen=True, kw_only=True):
    """The readings most worth taking, the best first; where there are none, `enough` says why."""

    advice: tuple[Advice, ...] = ()
    enough: str = ""


def advise(job: Job, layout: Layout, surveyed: Surveyed | None = None) -> Advised:
    """What is worth measuring next for a job and its layout. `surveyed` spares solving the job again."""
    surveyed = survey(job) if surveyed is None else surveyed
    if not surveyed.fits:
        return Advised(enough="Nothing has been measured yet. Begin with the list.")
    if layout.survey.verdict not in ("clean", "unchecked"):
        return Advised(enough=f"First look at what the readings say. {layout.survey.why}")
    seen = _Seen(job, layout, surveyed)
    if not seen.readings:
        return Advised(enough="There are too few points yet to measure between. Go on with the list.")
    found = seen.ranked()
    return Advised(advice=found) if found else Advised(enough=seen.enough())


class _Seen:
    """One job seen through the readings that could be taken: what each would do to the saddle and to the checks."""

    def __init__(self, job: Job, layout: Layout, surveyed: Surveyed) -> None:
        self.job, self.layout, self.surveyed = job, layout, surveyed
        at = {name: complex(*surveyed.state[c : c + 2]) for name, c in surveyed.point_at.items()}
        unchecked = [name for name, seen in surveyed.checked.items() if not seen]
        self.readings = candidates(job, at, unchecked, _frets(job, surveyed))
        net = network_of(rows_of(job, _valued(self.readings, at, surveyed)))
        self.slopes, self.variance = _slopes(net, surveyed, self.readings)
        self.carried = surveyed.cov @ self.slopes.T
        self.own = np.einsum("cp,pc->c", self.slopes, self.carried)
        self.after = np.maximum(self.variance + self.own, 1e-12)
        self.saddle, self.saddle_sd = self._saddle()

    def ranked(self) -> tuple[Advice, ...]:
        """The readings worth taking, the best first; of those that do the same only the best."""
        before, after = self._narrowed()
        checks = self._checks()
        narrows = np.zeros(len(checks), dtype=bool)
        if before is not None:
            narrows = np.asarray(before - after >= max(WORTH * before, WORTH_MM))
        worth = [sum(CHECK_WORTH.get(name, 0.05) for name in names) for names in checks]
        worth = [w + (1 - after[i] / before if before and narrows[i] else 0.0) for i, w in enumerate(worth)]
        found: list[Advice] = _moved_nut(self.job, self.surveyed)
        done: set[str] = set()
        for i in sorted(range(len(worth)), key=lambda i: -worth[i]):
            does = {*checks[i], "narrows"} if narrows[i] else set(checks[i])
            if not does <= done and len(found) < MOST:
                done |= does
                found.append(self._advice(self.readings[i], before if narrows[i] else None, float(after[i]), checks[i]))
        return tuple(found)

    def _advice(self, reading: Reading, before: float | None, after: float, checks: tuple[str, ...]) -> Advice:
        unit = self.job.unit
        reasons = []
        if before is not None:
            reasons.append(
                f"the saddle's ± goes from {units.show(before, unit, 2)} to {units.show(after, unit, 2)} {unit}"
            )
        if checks:
            names = words.listed([SADDLE if name == SADDLE else words.point(name) for name in checks], 4)
            reasons.append(f"a wrong reading that bears on {names} would then show")
        return Advice(
            reading=numbered(self.job, reading),
            text=f"Read {words.reading(reading)}{_again(self.job, reading)}: {', and '.join(reasons)}.",
            saddle_before=before,
            saddle_after=after if before is not None else None,
            checks=checks,
        )

    def _saddle(self) -> tuple[Array, Array]:
        """How the saddle follows the survey's unknowns at [left, right], (2, p), and its standard deviations (2,).

        Without strings the nominal places stand for it; without frets nothing does, and both are zero.
        """
        placed = place(self.job, self.surveyed)
        where = placed.saddle_places
        if where is None and placed.neck is not None and placed.neck.spaced is not None:
            where = placed.neck.spaced.nominal
        slopes = np.zeros((2, len(self.surveyed.state)))
        if where is None:
            return slopes, np.zeros(2)
        held = [k for k, column in enumerate(placed.sample.moved) if column < slopes.shape[1]]
        slopes[:, [placed.sample.moved[k] for k in held]] = placed.sample.gradient(where)[held].T
        return slopes, placed.sample.sd(where)

    def _narrowed(self) -> tuple[float | None, Array]:
        """The worse outer string's ± now, None where it is fine enough, and after each candidate."""
        shown = self.layout.saddle
        if not self.saddle_sd.any() or (shown is not None and max(shown.cents95) < FLOOR_CENTS):
            return None, np.zeros(len(self.readings))
        variance = self.saddle_sd[:, None] ** 2 - (self.saddle @ self.carried) ** 2 / self.after
        later = np.sqrt(np.maximum(variance, 0.0))
        return TWO_SIDED_95 * float(self.saddle_sd.max()), TWO_SIDED_95 * later.max(axis=0)

    def _checks(self) -> list[tuple[str, ...]]:
        """For each candidate the points that it makes checked, and `SADDLE` where it makes the saddle so."""
        surveyed, points = self.surveyed, [*self.surveyed.point_at, SADDLE]
        sigma = np.array([fit.sigma for fit in surveyed.fits])
        hidden = np.flatnonzero(~shows(surveyed.redundancy, sigma))
        gain = surveyed.gain[:, hidden]
        held = holds(surveyed.state, surveyed.point_at, gain) if surveyed.point_at else np.zeros((0, len(hidden)), bool)
        held = np.vstack((held, np.abs(self.saddle @ gain).max(axis=0) > HOLDS))
        through = (gain * sigma[hidden]).T @ self.slopes.T
        control = surveyed.redundancy[hidden][:, None] + through**2 / self.after
        still = ~shows(control, sigma[hidden][:, None])
        own = shows(self.variance / self.after, np.sqrt(self.variance))
        hides: Flags = np.asarray(held.astype(float) @ still.astype(float) > 0)
        gained = np.asarray(held.any(axis=1))[:, None] & ~hides & own
        return [tuple(points[n] for n in np.flatnonzero(gained[:, c])) for c in range(len(self.readings))]

    def enough(self) -> str:
        """Why nothing more is worth measuring."""
        saddle = self.layout.saddle
        if saddle is None:
            return "Nothing more is worth measuring: every point is checked. Go on to the strings."
        pm, cents = max(saddle.pm95), max(saddle.cents95)
        said = f"The saddle is known to ± {words.length(pm, self.job.unit)}, {cents:.1f} cents"
        if cents < FLOOR_CENTS:
            return f"Nothing more is worth measuring. {said}: players fretting the same note differ by more."
        return f"Nothing more is worth measuring. {said}, and one reading more would hardly narrow it."


def _again(job: Job, reading: Reading) -> str:
    """“ again” for a reading that was taken before."""

    def what(one: Reading) -> tuple[object, ...]:
        return one.kind, frozenset(one.of), one.from_, one.fret, one.on

    return " again" if any(old.taken and what(old) == what(reading) for old in job.readings) else ""


def _frets(job: Job, surveyed: Surveyed) -> dict[On, tuple[int, ...]]:
    """By side the frets that may be read without a new unknown: all usual ones, or those read before."""
    frets: dict[On, tuple[int, ...]] = {}
    for on in SIDES:
        if f"shift.{on}" in surveyed.extra_at:
            frets[on] = FRETS
        elif f"scale.{on}" in surveyed.extra_at:
            read = {one.fret for one in job.readings if one.kind == "fret" and one.on == on and one.taken and one.fret}
            frets[on] = tuple(sorted(read))
    return frets


def _moved_nut(job: Job, surveyed: Surveyed) -> list[Advice]:
    """For a side whose frets lie too near each other to show whether the nut was moved: the fret that would show it."""
    for on in SIDES:
        if f"scale.{on}" in surveyed.extra_at and f"shift.{on}" not in surveyed.extra_at:
            low = min(
                one.fret for one in job.readings if one.kind == "fret" and one.on == on and one.taken and one.fret
            )
            fret = 1 if low >= 7 else 12
            reading = numbered(job, Reading(id="new", kind="fret", fret=fret, on=on))
            return [
                Advice(reading=reading, text=f"Read {words.reading(reading)}: a nut that was moved would then show.")
            ]
    return []


def _valued(readings: list[Reading], at: dict[str, complex], surveyed: Surveyed) -> list[Reading]:
    """The candidates with about the values that they would read, which their rows are made from."""
    scale = {name[6:]: float(surveyed.state[c]) for name, c in surveyed.extra_at.items() if name.startswith("scale.")}
    return [msgspec.structs.replace(reading, value=_about(reading, at, scale)) for reading in readings]


def _about(reading: Reading, at: dict[str, complex], scale: dict[str, float]) -> float | tuple[Length, Length]:
    if reading.kind == "fret":
        return scale.get(reading.on or "", 600.0) * (1 - 2 ** (-(reading.fret or 0) / 12))
    a, b = reading.of if len(reading.of) == 2 else (reading.from_[0], reading.of[0])
    long = max(abs(at[a] - at[b]), 1.0)
    return (long, long + 5.0) if reading.kind == "rims" else long


def _slopes(net: Network, surveyed: Surveyed, readings: list[Reading]) -> tuple[Array, Array]:
    """The candidates' slopes on the survey's unknowns (c, p), and the variance of each alone (c,).

    A rule that no reading was taken with yet brings its own error along as further variance.
    """
    x = np.zeros(net.p)
    for i, name in enumerate(net.points):
        column = surveyed.point_at[name]
        x[2 * i : 2 * i + 2] = surveyed.state[column : column + 2]
    mine = [i for i, row in enumerate(net.rows) if row.id and row.component != "span"]
    full = dense(net, evaluate(net, x)[1])[mine]
    slopes = np.zeros((len(readings), len(surveyed.state)))
    variance = net.sigma[mine] ** 2
    for i, name in enumerate(net.points):
        column = surveyed.point_at[name]
        slopes[:, column : column + 2] = full[:, 2 * i : 2 * i + 2]
    for name in net.extras:
        own = full[:, net.column(name)]
        if name in surveyed.extra_at:
            slopes[:, surveyed.extra_at[name]] = own
        elif name.startswith("rule."):
            variance = variance + (own * INSTRUMENTS[name[5:]].per_metre) ** 2
    return slopes, variance
