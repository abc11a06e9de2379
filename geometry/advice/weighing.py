"""What each reading that a hand could take would do: to the saddle's ±, and to which gross errors would show.

Nothing is solved anew for this. A reading more changes the covariance Q by a term of rank one,
Q − Q a aᵀ Q / (σ² + aᵀ Q a), with a the reading's slopes; what it does to the saddle and to the redundancy numbers of
the readings follows (E. M. Mikhail, Observations and Least Squares, 1976, on adding observations in sequence).
"""

import msgspec
import numpy as np

from geometry.advice.candidates import candidates
from geometry.advice.measuring_lists import FRETS
from geometry.job import Job, Reading
from geometry.job.measured.kinds import FARTHEST, On
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.layout import TWO_SIDED_95, Layout
from geometry.placed.place_everything import PlacedInstrument
from geometry.saddle.saddle_line import beyond_sheet
from geometry.spacing import one_fraction
from geometry.survey.adjust.network import Network, dense, evaluate, network_of
from geometry.survey.judge.checked import HOLDS, Flags, holds, shows
from geometry.survey.result import Array, Surveyed
from geometry.survey.rows.one_scale import unread
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.units import Length

WORTH, WORTH_MM = 0.1, 0.03
"""A reading is worth taking for the saddle's sake where it narrows the ± by a tenth and by the second, mm, or more."""
FLOOR_CENTS = 2.0
"""Players fretting the same note differ by this much, one standard deviation (R. M. Mottola, see
geometry/strings/trial_saddles)."""
SADDLE = "the saddle"


class Weighing:
    """One job seen through the readings that could be taken: what each would do to the saddle and to the checks.

    `take` adds one of them, and all that follows counts with it.
    """

    def __init__(self, job: Job, layout: Layout, placed: PlacedInstrument) -> None:
        surveyed = placed.states.surveyed
        self.job, self.layout, self.surveyed = job, layout, surveyed
        at = {name: complex(*surveyed.state[c : c + 2]) for name, c in surveyed.point_at.items()}
        unchecked = [name for name, seen in surveyed.checked.items() if not seen]
        self.readings = candidates(job, at, unchecked, _frets(job, surveyed))
        net = network_of(rows_of(job, _valued(self.readings, at, surveyed)))
        self.slopes, self.variance = _slopes(net, surveyed, self.readings)
        self.sigma = np.array([fit.sigma for fit in surveyed.fits])
        self.cov, self.gain, self.redundancy = _with_unread(surveyed), surveyed.gain, surveyed.redundancy
        self.gain = np.vstack((self.gain, np.zeros((len(self.cov) - len(self.gain), self.gain.shape[1]))))
        self.placed = placed
        self.saddle, self.saddle_sd = self._saddle()
        self.by_sheet = self._by_sheet()
        self._look()

    def _look(self) -> None:
        """What follows from the covariance as it now is."""
        self.carried = self.cov @ self.slopes.T
        own = np.einsum("cp,pc->c", self.slopes, self.carried)
        self.after = np.maximum(self.variance + own, 1e-12)

    def take(self, i: int) -> None:
        """Add one reading: the covariance, and what the readings do, change by a term of rank one."""
        slope, carried, after = self.slopes[i], self.carried[:, i], self.after[i]
        narrowed = (self.saddle @ carried) ** 2 / after
        self.saddle_sd = np.sqrt(np.maximum(self.saddle_sd**2 - narrowed, 0.0))
        through = slope @ self.gain
        self.redundancy = self.redundancy + (through * self.sigma) ** 2 / after
        self.gain = self.gain - np.outer(carried, through / after)
        self.cov = self.cov - np.outer(carried, carried / after)
        self._look()

    def _saddle(self) -> tuple[Array, Array]:
        """How the saddle follows the survey's unknowns at [left, right], (2, p), and its standard deviations (2,).

        Without strings the nominal places stand for it; without frets nothing does, and both are zero.
        """
        placed = self.placed
        where = placed.saddle_places
        if where is None and placed.neck is not None and placed.neck.spaced is not None:
            where = placed.neck.spaced.nominal
        if where is None:
            return np.zeros((2, len(self.cov))), np.zeros(2)
        return self._follows(where), placed.states.sd(where)

    def _by_sheet(self) -> Array:
        """How the saddle follows them from where a sheet that is laid to the board carries it (2, p); a bridge that
        stands by the strings alone is not laid by one.
        """
        neck, saddle = self.placed.neck, self.placed.saddle
        if neck is None or saddle is None or self.job.floating is not None:
            return self.saddle
        return self._follows(beyond_sheet(neck.frame, saddle.line))

    def _follows(self, where: Array) -> Array:
        """How a place in all states (rows, 2) follows the survey's unknowns (2, p)."""
        states, slopes = self.placed.states, np.zeros((2, len(self.cov)))
        held = [k for k, column in enumerate(states.moved) if column < slopes.shape[1]]
        slopes[:, [states.moved[k] for k in held]] = states.gradient(where)[held].T
        return slopes

    def narrows(self) -> tuple[Array, Array]:
        """By what part each candidate narrows the saddle's ± on the side where it does most, 0 where that is not worth
        a reading, and that side (0 left, 1 right).
        """
        shown = self.layout.saddle
        now = TWO_SIDED_95 * self.saddle_sd
        fine = (
            shown is not None and all(shown.pm95) and np.all(now * shown.cents95 < FLOOR_CENTS * np.array(shown.pm95))
        )
        none = np.zeros(len(self.readings))
        if fine or not now.all():
            return none, none
        variance = self.saddle_sd[:, None] ** 2 - (self.saddle @ self.carried) ** 2 / self.after
        gain = now[:, None] - TWO_SIDED_95 * np.sqrt(np.maximum(variance, 0.0))
        part = np.where(gain >= WORTH_MM, gain / now[:, None], 0.0)
        best = part.max(axis=0)
        return np.where(best >= WORTH, best, 0.0), part.argmax(axis=0).astype(float)

    def checks(self) -> tuple[list[tuple[str, ...]], list[tuple[str, ...]]]:
        """For each candidate the points that it makes checked, `SADDLE` among them where it makes the saddle so, from
        the nut and from where a sheet is laid, and the readings that hold any of these and whose gross error would
        then show.
        """
        points = [*self.surveyed.point_at, SADDLE]
        hidden = np.flatnonzero(~shows(self.redundancy, self.sigma))
        gain, sigma = self.gain[:, hidden], self.sigma[hidden]
        saddle = np.abs(np.vstack((self.saddle, self.by_sheet)) @ gain).max(axis=0)
        held = np.vstack((holds(self.surveyed.state, self.surveyed.point_at, gain), saddle > HOLDS))
        through = (gain * sigma).T @ self.slopes.T
        control = self.redundancy[hidden][:, None] + through**2 / self.after
        own = shows(self.variance / self.after, np.sqrt(self.variance))
        bared = shows(control, sigma[:, None]) & own
        hides: Flags = np.asarray(held.astype(float) @ (~bared).astype(float) > 0)
        gained = np.asarray(held.any(axis=1))[:, None] & ~hides
        matters = bared & np.asarray(held.any(axis=0))[:, None]
        ids = [self.surveyed.fits[row].id for row in hidden]
        return _named(points, gained), _named(ids, matters)


def _named(names: list[str], flags: Flags) -> list[tuple[str, ...]]:
    """The names flagged in each column, each once."""
    return [tuple(dict.fromkeys(names[n] for n in np.flatnonzero(column))) for column in flags.T]


def _frets(job: Job, surveyed: Surveyed) -> dict[On, tuple[int, ...]]:
    """By path the frets that may be read: on both outer ones and, where it was read before, the centre line."""
    on: list[On] = ["left", "right"]
    if "scale.centre" in surveyed.extra_at:
        on.append("centre")
    usual = tuple(fret for fret in FRETS if fret <= job.frets.count)
    return dict.fromkeys(on, usual)


def _columns(surveyed: Surveyed) -> dict[str, int]:
    """The column of each unknown that is no point, those that no reading holds behind the state."""
    return surveyed.extra_at | {name: len(surveyed.state) + k for k, name in enumerate(unread(surveyed.extra_at))}


def _with_unread(surveyed: Surveyed) -> Array:
    """The covariance of the state and, behind it, of what no reading holds."""
    p, sds = len(surveyed.state), list(unread(surveyed.extra_at).values())
    cov = np.zeros((p + len(sds), p + len(sds)))
    cov[:p, :p] = surveyed.cov
    cov[range(p, len(cov)), range(p, len(cov))] = np.square(sds)
    return cov


def _stand_in(name: str, at: dict[str, int]) -> tuple[tuple[str, float], ...]:
    """The unknowns that make up one of an outer path that was not read, each with its part."""
    what, _, side = name.partition(".")
    if side not in ("left", "right"):
        return ()
    askew, other = f"askew.{what}", "right" if side == "left" else "left"
    half = 0.5 if side == "left" else -0.5
    for base, part in ((f"{what}.{other}", 1.0), (f"{what}.centre", half), (f"unread.{what}", half)):
        if base in at and askew in at:
            return (base, 1.0), (askew, part)
    return ()


def _valued(readings: list[Reading], at: dict[str, complex], surveyed: Surveyed) -> list[Reading]:
    """The candidates with about the values that they would read, which their rows are made from."""
    scale = {name[6:]: float(surveyed.state[c]) for name, c in surveyed.extra_at.items() if name.startswith("scale.")}
    return [msgspec.structs.replace(reading, value=_about(reading, at, scale)) for reading in readings]


def _about(reading: Reading, at: dict[str, complex], scale: dict[str, float]) -> float | tuple[Length, Length]:
    """About what a candidate would read, mm, within what a reading may hold: half-typed ones lead beyond it."""
    if reading.kind == "fret":
        long = scale.get(reading.on or "", 600.0) * one_fraction("equal", reading.fret or 0)
    else:
        a, b = reading.of if len(reading.of) == 2 else (reading.from_[0], reading.of[0])
        long = abs(at[a] - at[b])
    long = min(max(long, 1.0), FARTHEST - 5.0)
    return (long, long + 5.0) if reading.kind == "rims" else long


def _slopes(net: Network, surveyed: Surveyed, readings: list[Reading]) -> tuple[Array, Array]:
    """The candidates' slopes on the survey's unknowns (c, p), and the variance of each alone (c,).

    A rule that no reading was taken with yet brings its own error along as further variance.
    """
    x, at = np.zeros(net.p), _columns(surveyed)
    for i, name in enumerate(net.points):
        column = surveyed.point_at[name]
        x[2 * i : 2 * i + 2] = surveyed.state[column : column + 2]
    mine = [i for i, row in enumerate(net.rows) if row.id and row.component != "span"]
    full = dense(net, evaluate(net, x)[1])[mine]
    slopes = np.zeros((len(readings), len(surveyed.state) + len(unread(surveyed.extra_at))))
    variance = net.sigma[mine] ** 2
    for i, name in enumerate(net.points):
        column = surveyed.point_at[name]
        slopes[:, column : column + 2] = full[:, 2 * i : 2 * i + 2]
    for name in net.extras:
        own = full[:, net.column(name)]
        for known, part in ((name, 1.0),) if name in at else _stand_in(name, at):
            slopes[:, at[known]] += part * own
        if name not in at and name.startswith("rule."):
            variance = variance + (own * INSTRUMENTS[name[5:]].per_metre) ** 2
    return slopes, variance
