"""The strings as they are played: their makes, pull, heights and frets in arrays, ready for the equation.

Arrays run over strings from treble to bass and over frets from 1.
"""

import msgspec
import numpy as np

from geometry.job.sides import Side
from geometry.job.stringing import Action, Strings
from geometry.strings.stretch import Array, Setup
from geometry.strings.string_heights import (
    Missing,
    heights_room,
    heights_spread,
    missing_heights,
    nut_and_saddle_heights,
    sag,
)
from geometry.strings.string_make import Make, make
from geometry.strings.tension import tensions
from geometry.units import mm

MOST_BEHIND = 0.75
"""The finger stays within this part of the room behind its fret (common practice, no source)."""
DUMMY = 1.0, 0.1
"""kappa and rho (mm) that stand in where the make is not known."""


class FretPlaces(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Along each string from where it begins, mm: the `nominal` place (strings,) and the `frets` (strings, frets), of
    which those before its `first` are not its own. `begin` (strings,) is how far from the nut's front it begins, mm,
    and `first` the fret there; None where all begin at the nut.
    """

    nominal: Array
    frets: Array
    begin: Array | None = None
    first: Array | None = None

    @property
    def own(self) -> Array:
        """Whether a fret is the string's own (strings, frets): it lies beyond where the string begins."""
        if self.first is None:
            return np.ones(self.frets.shape, dtype=bool)
        return np.asarray(np.arange(1, 1 + self.frets.shape[1]) > self.first[:, None])

    @property
    def board(self) -> Array:
        """The nominal places from the nut's front, as if all began there (strings,), mm."""
        return self.nominal if self.begin is None else self.nominal + self.begin


class PlayedStrings(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Strings at their places: `tension` (strings,) in N, NaN where make or pitch is not known; `known` says where not.

    `missing` are the heights that nobody measured or typed and that are assumed; `heights_spread` (2 causes, 2,
    strings) is how they move by one standard deviation of each cause, and `heights_room` the same by what is missing
    alone. With a zero fret the string starts from a fret, and no nut can be moved.
    """

    strings: Strings
    bass: Side
    places: FretPlaces
    zero_fret: bool
    setup: Setup
    makes: tuple[Make | None, ...]
    tension: Array
    known: Array
    missing: tuple[Missing, ...]
    heights_spread: Array
    heights_room: Array

    @property
    def heights_assumed(self) -> bool:
        """Whether any height had to be assumed."""
        return bool(self.missing)

    @property
    def low(self) -> Array:
        """Each string over the frets' plane at the nut (strings,), mm."""
        return self.setup.height[:, 0]

    @property
    def over_12(self) -> Array:
        """Each string over the frets' plane halfway to the saddle (strings,), mm."""
        return (self.setup.height + self.setup.rise / 2)[:, 0]


def strings_as_played(
    strings: Strings,
    bass: Side,
    places: FretPlaces,
    action: Action | None = None,
    zero_fret: bool = False,
    action_sd: Array | None = None,
) -> PlayedStrings:
    """One string or more with their frets at `places`; `action` (measured heights, known to `action_sd`, (2, 2) mm)
    stands before the job's own.
    """
    makes = tuple(make(string) for string in strings.list)
    tension = tensions(strings.list, strings.a4, places.nominal)
    bends = [
        (made.kappa(pull) if pull == pull else DUMMY[0], made.rho) if made is not None else DUMMY
        for made, pull in zip(makes, tension.tolist(), strict=True)
    ]
    kappa, rho = np.array(bends).reshape(-1, 2).T
    board = places.board
    low, rise = nut_and_saddle_heights(strings, bass == "left", board, action, zero_fret)
    setup = Setup(
        nominal=places.nominal[:, None],
        frets=places.frets,
        height=low[:, None],
        rise=rise[:, None],
        sag=sag(places.frets, board[:, None], mm(strings.relief)),
        behind=_behind(places.frets, mm(strings.press_behind)),
        kappa=kappa[:, None],
        rho=rho[:, None],
    )
    if places.begin is not None:
        setup = _from_own_nut(setup, places, mm(strings.relief))
    return PlayedStrings(
        strings=strings,
        bass=bass,
        places=places,
        zero_fret=zero_fret,
        setup=setup,
        makes=makes,
        tension=tension,
        known=~np.isnan(tension),
        missing=missing_heights(strings, action, zero_fret),
        heights_spread=heights_spread(strings, bass == "left", board, action, zero_fret, action_sd),
        heights_room=heights_room(strings, bass == "left", board, action, zero_fret),
    )


def _from_own_nut(s: Setup, places: FretPlaces, relief: float) -> Setup:
    """The same for strings of which some begin at a fret: their small nuts stand as high over the frets there as the
    nut over the board's first, and the saddle is the same for all.
    """
    if places.begin is None or places.first is None:
        raise AssertionError("all begin at the nut")
    begin, board = places.begin[:, None], places.board[:, None]
    sunk = np.where(places.first[:, None] > 0, sag(begin, board, relief), 0.0)
    return msgspec.structs.replace(
        s,
        height=s.height - sunk,
        rise=s.rise + sunk,
        sag=sag(places.frets + begin, board, relief),
        steps=np.arange(1, 1 + s.frets.shape[1]) - places.first[:, None],
    )


def _behind(frets: Array, wanted: float) -> Array:
    """How far behind each fret the finger stands: as wanted, or as far as there is room."""
    if not wanted:
        return np.zeros_like(frets)
    room = MOST_BEHIND * np.diff(frets, axis=1, prepend=0.0)
    return np.minimum(wanted, np.maximum(room, 0.0))
