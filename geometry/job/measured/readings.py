"""Readings as the hand takes them, and the points they stand between.

A reading has a **kind** (what the hand does), the points it is `of`, for a straightedge the two points it is laid
`from`, the value as typed, and how finely it was read: `with_` an instrument, or `within` ± so much, or a `sigma`.
"""

from collections.abc import Iterable
from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, WrongReading, how_many, length_between, number_between
from geometry.job.measured.kinds import FARTHEST, SHAPES, Kind, On, Shape
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS
from geometry.job.sides import Side
from geometry.units import Length, mm

Place = Literal["fret 1", "fret 12", "board end", "bridge", "saddle"]


class SideHint(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """On which side of the directed line through two points a point lies, as one sights along it."""

    of: tuple[str, str]
    is_: Side = msgspec.field(name="is")


class Point(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A point of the instrument: a rough place (`near`, mm in the neck frame) and side hints, both optional.

    `usual`: the rough place is where such a point usually lies, and nobody said so of this instrument.
    """

    near: tuple[Length, Length] | None = None
    usual: bool = False
    side: tuple[SideHint, ...] = ()

    def __post_init__(self) -> None:
        for axis, value in zip("xy", self.near or (), strict=False):
            length_between(f"near {axis}", value, -FARTHEST, FARTHEST)


class Reading(
    msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, cache_hash=True
):
    """One reading as taken. `value` None means still to be measured; `struck` keeps it out of the fit. `asked`: a
    question of a measuring list (in line? the same? square?) that is not answered yet; it takes no part.

    `times`: read so many times as coarsely as its instrument allows, or as was said. `fret` and `on` belong to the kind
    `fret`; `at` and `on` to the kind `height`: the string over a fret, the board over the top at its end, the string
    over the top at the bridge, or with the bridge off the straightedge on the frets over the top at the saddle's place.
    Of what is still to be measured the `side` may be open: it is read with the value.
    For `rims` the value is the near and the far rim, for `at` it is x and y. `inside`: read inside the body, where the
    top is seen in a mirror: what lies farther left of two (`across`) and the y of `at` come mirrored. Sides are the
    instrument's own, inside and outside.
    """

    id: str
    kind: Kind
    of: tuple[str, ...] = ()
    from_: tuple[str, ...] = msgspec.field(name="from", default=())
    side: Side | None = None
    fret: int | None = None
    at: Place | None = None
    on: On | None = None
    value: Length | tuple[Length, Length] | None = None
    with_: str | None = msgspec.field(name="with", default=None)
    within: Length | None = None
    sigma: Length | None = None
    times: float = 1.0
    laid: str | None = None
    asked: bool = False
    inside: bool = False
    struck: bool = False
    why: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if not self.id:
            raise NotAJob("A reading has no id; give it one, such as “r1”")
        try:
            self._check()
        except NotAJob as wrong:
            raise WrongReading(self.id, str(wrong)) from None

    def _check(self) -> None:
        """Refuse what no such reading can be; the message begins behind the reading's name."""
        where, shape = "", SHAPES[self.kind]
        how_many(f"{where} ({self.kind})", self.of, shape.of)
        how_many(f"{where} ({self.kind}), “from”,", self.from_, shape.laid_from)
        self._check_points(where, shape)
        self._check_value(where, shape)
        if shape.side and self.side is None and self.value is not None:
            raise NotAJob(f"{where} does not say on which side of the straightedge the point lies; add left or right")
        if self.side is not None and not shape.side:
            raise NotAJob(f"{where} ({self.kind}) takes no side; leave it out")
        if self.asked and shape.values:
            raise NotAJob(f"{where} ({self.kind}) is no question, so it is not “asked”; leave its value empty")
        self._check_place(where, shape)
        self._check_fineness(where, shape)

    def _check_points(self, where: str, shape: Shape) -> None:
        for pair in (self.from_, self.of[:2], self.of[2:]):
            if len(pair) == 2 and pair[0] == pair[1]:
                raise NotAJob(f"{where} goes from “{pair[0]}” to the same point; name two different points")
        if shape.clear_of and self.of[0] in self.from_[: shape.clear_of]:
            raise NotAJob(f"{where} reads “{self.of[0]}” from itself; name another point")
        one, other = (self.of, self.from_) if self.from_ else (self.of[:2], self.of[2:])
        if len(one) == 2 and set(one) == set(other):
            raise NotAJob(f"{where} sets “{one[0]}” to “{one[1]}” against itself; name two other points")

    def _check_value(self, where: str, shape: Shape) -> None:
        parts = self.parts
        if self.value is not None and len(parts) != shape.values:
            raise NotAJob(
                f"{where} ({self.kind}) takes {_counted(shape.values)}, but has {_counted(len(parts))}; mend its value"
            )
        for part in parts:
            if shape.degrees:
                _degrees_between(f"{where}, the value,", part, 0, 180)
            else:
                length_between(f"{where}, the value,", part, shape.least, FARTHEST)
        wrong = shape.wrong(tuple(mm(part) for part in parts)) if shape.wrong and parts else ""
        if wrong:
            raise NotAJob(f"{where}: {wrong}")

    def _check_place(self, where: str, shape: Shape) -> None:
        needed = {"fret": shape.fret, "at": shape.at, "on": bool(shape.on)}
        given = {"fret": self.fret is not None, "at": self.at is not None, "on": self.on is not None}
        if any(needed[name] and not given[name] for name in needed):
            raise NotAJob(f"{where} {shape.must}")
        if not any(needed.values()) and any(given.values()):
            raise NotAJob(f"{where} ({self.kind}) takes neither “fret” nor “at” nor “on”; leave them out")
        if shape.fret and self.fret is not None and not 1 <= self.fret <= 36:
            raise NotAJob(f"{where} names fret {self.fret}; frets count from 1 to 36")

    def _check_fineness(self, where: str, shape: Shape) -> None:
        known: Iterable[str] = GAUGES if shape.degrees else INSTRUMENTS
        if self.with_ is not None and self.with_ not in known:
            raise NotAJob(f"{where} was read with “{self.with_}”, which is not known; use one of {', '.join(known)}")
        if sum(given is not None for given in (self.with_, self.within, self.sigma)) > 1:
            raise NotAJob(f"{where} says more than once how finely it was read; keep one of with, within, sigma")
        number_between(f"{where}, “times”,", self.times, 1, 20)
        between = _degrees_between if shape.degrees else length_between
        between(f"{where}, “within”,", self.within, 0.001, 50)
        between(f"{where}, “sigma”,", self.sigma, 0.001, 50)

    @property
    def parts(self) -> tuple[Length, ...]:
        """The value as a tuple: none, one or two lengths."""
        if self.value is None:
            return ()
        return self.value if isinstance(self.value, tuple) else (self.value,)

    @property
    def of_what(self) -> tuple[object, ...]:
        """What is read: the same of readings of one thing, whichever of its ends is named first."""
        return self.kind, frozenset(self.of), self.from_, self.fret, self.at, self.on

    @property
    def taken(self) -> bool:
        """Whether the reading takes part in the fit: not struck, and measured (or a condition that needs no value, and
        is no question any more).
        """
        return not (self.struck or self.asked) and (self.value is not None or SHAPES[self.kind].values == 0)


def _degrees_between(what: str, degrees: Length | None, least: float, most: float) -> None:
    """Refuse an angle outside [least, most] degrees, and one that is a length."""
    if isinstance(degrees, str):
        raise NotAJob(f"{what} is “{degrees}”, but must be an angle: a number of degrees without a unit")
    number_between(what, degrees, least, most)


def _counted(count: int) -> str:
    return ("no value", "one value", "two values")[count]
