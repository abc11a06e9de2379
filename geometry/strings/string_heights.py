"""How high the strings lie: from what was typed or measured to the two heights the equation wants.

**b** is the string over the frets' plane at the nut, **c** the saddle over the string's height at the nut. A person
measures the action instead: string over fret 1 and fret 12, on both sides. **Relief** is the hollow of the neck under a
straightedge laid over frets 1 and 14; it is taken as a parabola between them and nothing beyond.
"""

import math
from collections.abc import Sequence
from typing import Literal

import msgspec
import numpy as np

from geometry import words
from geometry.job.sides import SIDES, Side
from geometry.job.stringing import HIGHEST_ACTION, Action, Strings
from geometry.spacing import one_fraction
from geometry.strings.stretch import Array
from geometry.units import Length, mm

Fret = Literal["fret 1", "fret 12"]
Missing = tuple[Fret, Side]
"""A height that nobody read or typed: over which fret, on which side."""

FIRST, FOURTEENTH = one_fraction("equal", 1), one_fraction("equal", 14)
"""Where these frets stand on an equal-tempered scale of 1."""
SD_MEASURED = 0.1
"""mm: one standard deviation of a measured action (common practice, no source)."""
SD_ASSUMED = (0.3, 0.8)
"""mm: how far over frets 1 and 12 an action that nobody measured may be from the usual one (common practice, no
source): an instrument whose bridge is off or must move is seldom set up as usual."""
SD_TYPED = (0.1, 0.2)
"""mm: the same for b and c as typed (common practice, no source)."""
SD_AS_TYPED = (0.1, math.hypot(SD_TYPED[0], SD_TYPED[1] / 2))
"""mm: the same over frets 1 and 12 as they follow from b and c (derived: b + 0.06 c and b + c/2)."""
FRETS: tuple[Fret, Fret] = ("fret 1", "fret 12")
USUAL_METAL, USUAL_SOFT = (0.5, 1.8, 2.4), (0.8, 3.0, 4.0)
"""Action over fret 1, and over fret 12 at treble and bass, for a 650 mm scale with steel and with soft strings; in
proportion to the scale (common practice, no source)."""


def sag(places: Array, nominal: Array, relief: float) -> Array:
    """How far fret tops lie below the frets' plane, mm; `places` (..., frets) from the nut, `nominal` (..., 1)."""
    if not relief:
        return np.zeros_like(places)
    first, last = nominal * FIRST, nominal * FOURTEENTH
    along = (places - first) / (last - first)
    return np.asarray(4 * relief * np.maximum(along * (1 - along), 0.0))


def shares_to_bass(strings: Strings) -> Array:
    """How far each string lies from treble (0) to bass (1) among those that begin at the nut, (strings,); one alone
    lies between, and one beyond the outer ones as they do.
    """
    begin = [index for index, string in enumerate(strings.list) if not string.first]
    if len(begin) < 2:
        return np.full(len(strings.list), 0.5)
    return np.asarray(np.clip((np.arange(len(strings.list)) - begin[0]) / (begin[-1] - begin[0]), 0.0, 1.0))


def usual_action(strings: Strings, bass_left: bool, nominal: Array) -> Action:
    """The action that is usual for the strings' material, where nobody measured or typed one."""
    metal = any(s.material in ("steel", "silk and steel") for s in strings.list)
    # readings that contradict each other may make a string of many metres, and no action lies beyond what a job holds
    long = float(nominal.mean()) / 650
    near, treble, bass = (
        round(min(h * long, most), 2)
        for h, most in zip(
            USUAL_METAL if metal else USUAL_SOFT,
            (HIGHEST_ACTION["fret 1"], *[HIGHEST_ACTION["fret 12"]] * 2),
            strict=True,
        )
    )
    return Action(fret1=(near, near), fret12=(bass, treble) if bass_left else (treble, bass))


class StringHeights(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The strings' height `over` frets 1 and 12 at [left, right], its standard deviation `sd`, both (2, 2) mm, and what
    of it nobody read or typed: `missing`.
    """

    over: Array
    sd: Array
    missing: tuple[Missing, ...] = ()

    @property
    def assumed_sd(self) -> Array:
        """The standard deviation of what is missing, (2, 2) mm, 0 for what is known."""
        at = [[(fret, side) in self.missing for side in SIDES] for fret in FRETS]
        return np.where(at, self.sd, 0.0)


def known_heights(
    strings: Strings,
    bass_left: bool,
    nominal: Array,
    read: Action | None = None,
    zero_fret: bool = False,
    read_sd: Array | None = None,
) -> StringHeights:
    """Each height as it is known best: as `read`, else as typed in `strings.action`, else as `strings.height` has it,
    else as is usual. On a zero fret nobody misses the height over fret 1. A height that the survey knows worse than a
    measured action is known, by `read_sd` (2, 2) mm, is no better than that.
    """
    usual, spread = usual_action(strings, bass_left, nominal), SD_ASSUMED
    if strings.height is not None:
        usual, spread = _as_action(strings, nominal, zero_fret), SD_AS_TYPED
    over, sd, missing = np.zeros((2, 2)), np.zeros((2, 2)), []
    for row, fret in enumerate(FRETS):
        for column, side in enumerate(SIDES):
            known = [height for action in (read, strings.action) if (height := _part(action, row, column)) is not None]
            taken = known[0] if known else _part(usual, row, column)
            over[row, column] = mm(taken) if taken is not None else 0.0
            sd[row, column] = SD_MEASURED if known else spread[row]
            if read_sd is not None and _part(read, row, column) is not None:
                sd[row, column] = max(SD_MEASURED, float(read_sd[row, column]))
            if not known and strings.height is None and not (zero_fret and row == 0):
                missing.append((fret, side))
    return StringHeights(over=over, sd=sd, missing=tuple(missing))


def _part(action: Action | None, row: int, column: int) -> Length | None:
    return None if action is None else (action.fret1, action.fret12)[row][column]


def _as_action(strings: Strings, nominal: Array, zero_fret: bool) -> Action:
    """The action that strings of the typed heights over the frets' plane have."""
    if strings.height is None:
        raise AssertionError("no heights were typed")
    low = 0.0 if zero_fret else mm(strings.height.nut)
    rise, relief = mm(strings.height.saddle), mm(strings.relief)
    near = max(low + rise * FIRST + float(sag(nominal * FIRST, nominal, relief).mean()), 0.0)
    far = low + rise / 2 + float(sag(nominal / 2, nominal, relief).mean())
    return Action(fret1=(min(near, HIGHEST_ACTION["fret 1"]),) * 2, fret12=(min(far, HIGHEST_ACTION["fret 12"]),) * 2)


def _only_typed(strings: Strings, read: Action | None) -> bool:
    return read is None and strings.action is None and strings.height is not None


def _across(pairs: Array, strings: Strings, bass_left: bool) -> Array:
    """Values at [left, right] in the last axis shared out over the strings, (..., strings)."""
    bass, treble = (0, 1) if bass_left else (1, 0)
    share = shares_to_bass(strings)
    return np.asarray(pairs[..., treble, None] * (1 - share) + pairs[..., bass, None] * share)


def nut_and_saddle_heights(
    strings: Strings, bass_left: bool, nominal: Array, action: Action | None = None, zero_fret: bool = False
) -> tuple[Array, Array]:
    """The heights b and c of each string (strings,), mm. `nominal` (strings,).

    `action` as read stands before `strings.action`, that before `strings.height`, and that before what is usual, each
    height by itself. With a zero fret the string rests on the frets' plane: b is 0, and the action at fret 12 alone
    gives c.
    """
    if strings.height is not None and _only_typed(strings, action):
        count = len(strings.list)
        low = 0.0 if zero_fret else mm(strings.height.nut)
        return np.full(count, low), np.full(count, mm(strings.height.saddle))
    over = known_heights(strings, bass_left, nominal, action, zero_fret).over
    at_1, at_12 = _across(over, strings, bass_left)
    relief = mm(strings.relief)
    near, far = at_1 - sag(nominal * FIRST, nominal, relief), at_12 - sag(nominal / 2, nominal, relief)
    if zero_fret:
        return np.zeros_like(near), far * 2
    rise = (far - near) / (0.5 - FIRST)
    return near - rise * FIRST, rise


def missing_heights(strings: Strings, action: Action | None, zero_fret: bool = False) -> tuple[Missing, ...]:
    """The heights that nobody measured or typed."""
    return known_heights(strings, False, np.full(max(len(strings.list), 1), 650.0), action, zero_fret).missing


def over_frets(missing: Sequence[Missing], bass: Side) -> str:
    """Over which fret and on which side each is missing: “fret 1 at bass and fret 12 at treble”."""
    return words.joined([f"{fret} at {'bass' if side == bass else 'treble'}" for fret, side in missing])


def heights_spread(
    strings: Strings,
    bass_left: bool,
    nominal: Array,
    action: Action | None = None,
    zero_fret: bool = False,
    read_sd: Array | None = None,
) -> Array:
    """How b and c (mm) of each string move by one standard deviation of each of two independent causes, the heights
    over fret 1 and over fret 12: (2 causes, b and c, strings). `read_sd` as for `known_heights`.

    On a zero fret b is surely 0, and c follows from the action at fret 12 alone.
    """
    count = len(strings.list)
    if _only_typed(strings, action):
        typed = np.diag((0.0 if zero_fret else SD_TYPED[0], SD_TYPED[1]))
        return np.asarray(np.repeat(typed[..., None], count, axis=2))
    found = known_heights(strings, bass_left, nominal, action, zero_fret, read_sd)
    return _moves(_across(found.sd, strings, bass_left), zero_fret)


def heights_room(
    strings: Strings, bass_left: bool, nominal: Array, action: Action | None = None, zero_fret: bool = False
) -> Array:
    """The same by what is missing alone: 0 where all heights are known."""
    found = known_heights(strings, bass_left, nominal, action, zero_fret)
    return _moves(_across(found.assumed_sd, strings, bass_left), zero_fret)


def _moves(over: Array, zero_fret: bool) -> Array:
    """How b and c move, (2 causes, 2, strings), where the heights over frets 1 and 12 move by `over` (2, strings)."""
    near, far = over
    none = np.zeros_like(near)
    if zero_fret:
        return np.array([[none, none], [none, 2 * far]])
    per_mm = 1 / (0.5 - FIRST)
    share = per_mm * FIRST
    return np.array([[near * (1 + share), -near * per_mm], [-far * share, far * per_mm]])
