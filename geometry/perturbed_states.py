"""One instrument and its neighbours: how an uncertain survey is carried through everything that is placed from it.

**Perturbed states** are the adjusted state in the first row and, behind it, the state with one unknown at a time moved
a little up and a little down. Each stage of the layout works on all rows at once. What it finds in the first row is the
result; how the other rows differ gives the result's derivatives, and these with the covariance its ± (JCGM 100:2008,
5.2.2).
"""

import math
from collections.abc import Iterable, Mapping
from typing import NamedTuple, TypeVar

import msgspec
import numpy as np

from geometry.frame import Array, Points
from geometry.layout import TWO_SIDED_95, accused_in_order
from geometry.survey.judge.checked import HOLDS, shows
from geometry.survey.result import Surveyed

Values = TypeVar("Values", Array, Points)
STEP = 1e-3
"""How far an unknown is moved, in mm: far above rounding, and the central difference's error is of its square."""


HANGS = 0.05
"""A value hangs on an accused reading that moves it by this, mm, or whose every mm would: no file is finer."""


class PerturbedStates(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """`rows` (2u+1, p): the state, then u unknowns moved up, then down. `spread` (u, u) is their covariance, `gain`
    (u, m) what each reading does to them, `moved` their columns; a gross error in one of the `hidden` readings would
    not show. The last columns of a row belong to `own` unknowns, which no reading holds: the first `known` of them with
    a standard deviation of their own, the others of 1.
    """

    surveyed: Surveyed
    rows: Array
    spread: Array
    gain: Array
    moved: tuple[int, ...]
    hidden: tuple[int, ...]
    own: dict[str, int]
    known: int = 0

    def point(self, name: str) -> Points:
        """A point in all rows, (rows,)."""
        return self.points((name,))[:, 0]

    def points(self, names: Iterable[str]) -> Points:
        """Several points in all rows, (rows, k)."""
        columns = [self.surveyed.point_at[name] + axis for name in names for axis in (0, 1)]
        return self.rows.take(columns, axis=1).view(np.complex128)

    def apart(self, a: str, b: str) -> float:
        """How far two points lie from each other in the first row, mm."""
        start, stop = self.surveyed.point_at[a], self.surveyed.point_at[b]
        (ax, ay), (bx, by) = self.rows[0, start : start + 2].tolist(), self.rows[0, stop : stop + 2].tolist()
        return math.hypot(bx - ax, by - ay)

    def has(self, *names: str) -> bool:
        """Whether all these points are solved."""
        return all(name in self.surveyed.point_at for name in names)

    def unknown(self, name: str) -> Array | None:
        """Another unknown in all rows, (rows,), or None where there is none of that name."""
        column = self.own.get(name, self.surveyed.extra_at.get(name))
        return None if column is None else self.rows[:, column]

    @property
    def own_rows(self) -> Array:
        """Its other own unknowns in all rows, in the order in which they were named, (rows, own)."""
        return self.rows[:, self.rows.shape[1] - len(self.own) + self.known :]

    def gradient(self, value: Values) -> Values:
        """The derivatives (u, ...) of a worked-out value (rows, ...) with respect to the moved unknowns."""
        u = len(self.spread)
        slopes: Values = (value[1 : u + 1] - value[u + 1 : 2 * u + 1]) / (2 * STEP)
        return slopes

    def sd(self, value: Array) -> Array:
        """The standard deviation (...) of a worked-out value (rows, ...)."""
        slopes = self.gradient(value).reshape(len(self.spread), -1)
        variance = (slopes * (self.spread @ slopes)).sum(axis=0)
        return np.asarray(np.sqrt(np.maximum(variance, 0.0)).reshape(value.shape[1:]))

    def covariance(self, values: Array) -> Array:
        """The covariance matrix (k, k) of worked-out values (rows, k)."""
        slopes = self.gradient(values)
        return np.asarray(slopes.T @ self.spread @ slopes)

    def pm95(self, value: Array) -> Array:
        """The half-width (...) of the 95 % interval of a worked-out value (rows, ...). As long as readings are accused
        it covers what the value would be without them, too.
        """
        slopes = self.gradient(value).reshape(len(self.spread), -1)
        variance = np.maximum((slopes * (self.spread @ slopes)).sum(axis=0), 0.0)
        wide = TWO_SIDED_95 * np.sqrt(variance)
        for other in self.surveyed.alternatives:
            if not other.aside:
                change, more = self._at_moved(other.change) @ slopes, self._at_moved(other.more).T @ slopes
                wide = np.maximum(wide, np.abs(change) + TWO_SIDED_95 * np.sqrt(variance + (more**2).sum(axis=0)))
        return np.asarray(wide.reshape(value.shape[1:]))

    def waits_for(self, value: Array) -> tuple[str, ...]:
        """The ids of the accused readings that a worked-out value (rows, ...) hangs on, in the order in which they are
        to be read again: it is not settled until then. One that hangs on what is beyond belief only for the sake of an
        accused one waits for that.
        """
        slopes = self.gradient(value).reshape(len(self.spread), -1)
        found: dict[str, None] = {}
        for other in self.surveyed.alternatives:
            if np.abs(self._at_moved(other.change) @ slopes).max(initial=0.0) > HANGS:
                found.update(dict.fromkeys(other.ids))
        accused = accused_in_order(self.surveyed.report) if found else ()
        return tuple(name for name in accused if name in found) or accused or tuple(found)

    def _at_moved(self, change: Array) -> Array:
        """Changes of the state (p, ...) of the moved unknowns alone (u, ...); the own ones stay."""
        held = len(self.moved) - len(self.own)
        part = np.zeros((len(self.moved), *change.shape[1:]))
        part[:held] = change[list(self.moved[:held])]
        return part

    def checked(self, value: Array) -> bool:
        """Whether a gross error in any one reading that holds this value (rows, ...) would show, as for points."""
        return not self.unseen(value)

    def unseen(self, value: Array, holds: float = HOLDS) -> tuple[str, ...]:
        """The readings, by id, whose gross error would not show and of which a millimetre moves this value (rows, ...)
        by more than `holds`.
        """
        if not self.hidden:
            return ()
        slopes = self.gradient(value).reshape(len(self.spread), -1)
        held = np.flatnonzero((np.abs(slopes.T @ self.gain[:, self.hidden]) > holds).any(axis=0)).tolist()
        return tuple(dict.fromkeys(self.surveyed.fits[self.hidden[at]].id for at in held))

    def with_points(self, names: Iterable[str]) -> "Wider":
        """The same states in which these points are moved as well, though nothing was placed from them."""
        columns = [self.surveyed.point_at[name] + axis for name in dict.fromkeys(names) for axis in (0, 1)]
        new = [column for column in columns if column not in self.moved]
        u, k = len(self.spread), len(new)
        rows = np.repeat(self.rows[:1], 2 * k, axis=0)
        rows[range(k), new] += STEP
        rows[range(k, 2 * k), new] -= STEP
        moved = (*new, *self.moved)
        held = [at for at, column in enumerate(moved) if column < len(self.surveyed.state)]
        spread = np.zeros((u + k, u + k))
        spread[k:, k:] = self.spread
        in_survey = [moved[at] for at in held]
        spread[np.ix_(held, held)] = self.surveyed.cov[np.ix_(in_survey, in_survey)]
        wider = msgspec.structs.replace(
            self,
            rows=np.concatenate((self.rows[:1], rows[:k], self.rows[1 : u + 1], rows[k:], self.rows[u + 1 :])),
            spread=spread,
            gain=np.concatenate((self.surveyed.gain[new], self.gain)),
            moved=moved,
        )
        return Wider(wider, u, k)


class Wider(NamedTuple):
    """States with `more` unknowns moved before the `u` that things were placed from."""

    states: PerturbedStates
    u: int
    more: int

    def lifted(self, value: Values) -> Values:
        """A worked-out value (rows, ...) in all of the wider states' rows: the unknowns added move it not."""
        still = np.repeat(value[:1], self.more, axis=0)
        up, down = value[1 : self.u + 1], value[self.u + 1 :]
        lifted: Values = np.concatenate((value[:1], still, up, still, down))
        return lifted


def perturb(
    surveyed: Surveyed,
    points: Iterable[str],
    unknowns: Iterable[str],
    own: Iterable[str] = (),
    known: Mapping[str, float] | None = None,
) -> PerturbedStates:
    """The states in which the named points and unknowns are moved; names that are not solved are passed over.

    `known` are further unknowns that no reading holds, which are 0, with their standard deviations; `own` others alike,
    of standard deviation 1.
    """
    columns = [c for name in points if (c := surveyed.point_at.get(name)) is not None]
    held = [c + axis for c in columns for axis in (0, 1)]
    held += [c for name in unknowns if (c := surveyed.extra_at.get(name)) is not None]
    p, sds = len(surveyed.state), known or {}
    own_at = {name: p + place for place, name in enumerate((*sds, *own))}
    moved = np.array([*held, *own_at.values()], dtype=np.intp)
    u, h, k = len(moved), len(held), len(sds)
    rows = np.zeros((2 * u + 1, p + len(own_at)))
    rows[:, :p] = surveyed.state
    index = np.arange(1, u + 1)
    rows[index, moved] += STEP
    rows[u + index, moved] -= STEP
    spread = np.zeros((u, u))
    spread[:h, :h] = surveyed.cov.take(moved[:h], axis=0).take(moved[:h], axis=1)
    spread[range(h, u), range(h, u)] = np.square([*sds.values(), *(1.0 for _ in range(u - h - k))])
    gain = np.zeros((u, surveyed.gain.shape[1]))
    gain[:h] = surveyed.gain.take(moved[:h], axis=0)
    shown = shows(surveyed.redundancy, np.array([fit.sigma for fit in surveyed.fits]))
    return PerturbedStates(
        surveyed=surveyed,
        rows=rows,
        spread=spread,
        gain=gain,
        moved=tuple(moved.tolist()),
        hidden=tuple(np.flatnonzero(~shown).tolist()),
        own=own_at,
        known=k,
    )
