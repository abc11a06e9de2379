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
    """Along each string from the nut's front, mm: the `nominal` place (strings,) and the `frets` (strings, frets)."""

    nominal: Array
    frets: Array


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
    low, rise = nut_and_saddle_heights(strings, bass == "left", places.nominal, action, zero_fret)
    nominal = places.nominal[:, None]
    setup = Setup(
        nominal=nominal,
        frets=places.frets,
        height=low[:, None],
        rise=rise[:, None],
        sag=sag(places.frets, nominal, mm(strings.relief)),
        behind=_behind(places.frets, mm(strings.press_behind)),
        kappa=kappa[:, None],
        rho=rho[:, None],
    )
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
        heights_spread=heights_spread(strings, bass == "left", places.nominal, action, zero_fret, action_sd),
        heights_room=heights_room(strings, bass == "left", places.nominal, action, zero_fret),
    )


def _behind(frets: Array, wanted: float) -> Array:
    """How far behind each fret the finger stands: as wanted, or as far as there is room."""
    if not wanted:
        return np.zeros_like(frets)
    room = MOST_BEHIND * np.diff(frets, axis=1, prepend=0.0)
    return np.minimum(wanted, np.maximum(room, 0.0))
