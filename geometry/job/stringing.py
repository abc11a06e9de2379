"""The strings: what they are, how they are spread, how high they lie, and how they are compensated.

The list runs from treble to bass. **Compensation** is how far past the nominal place a string's break point lies.
"""

from typing import Literal

import msgspec

from geometry.job.checks import RENAME, NotAJob, length_between, no_repeats, number_between
from geometry.pitch import NotAPitch, frequency
from geometry.units import MM_PER, Length, NotALength, mm, show_number

Material = Literal["steel", "nylon", "gut", "fluorocarbon", "silk and steel"]
WORKED_OUT: Literal["worked out"] = "worked out"
WorkedOut = Literal["worked out"]
THINNEST, THICKEST = 0.1, 4.0
"""mm. No string of a fretted instrument is thinner or thicker (common practice, no source)."""
SPREADS = (5.0, 200.0)
"""The least and the most that outer strings lie apart, mm (common practice, no source)."""
PAIRS = (0.5, 12.0)
"""The least and the most that two strings of a course lie apart, centre to centre, mm (common practice, no source)."""
BESIDE = (0.5, 80.0)
"""The least and the most by which a string that starts at a fret lies there from its neighbour, or from the board's
edge, mm (common practice, no source)."""
HIGHEST_ACTION: dict[Literal["fret 1", "fret 12"], float] = {"fret 1": 5.0, "fret 12": 12.0}
"""The highest action over a fret, mm (common practice, no source): what is read beyond it is a slip."""


class String(
    msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, cache_hash=True
):
    """One string. `kg_per_m` and `stretch_ratio` (R = dln f/dln L of the open string) where they are known.

    `starts_at`: the fret a string begins at that does not begin at the nut; its own small nut stands there. It lies on
    as the others do, or `from_neighbour` (centre to centre) or `from_edge` (of the board), both along that fret.
    `fretted` False: a drone, which no finger ever stops.
    """

    name: str
    course: int | None = None
    pitch: str | None = None
    material: Material = "steel"
    build: Literal["plain", "wound"] = "plain"
    diameter: Length | None = None
    core: Length | None = None
    kg_per_m: float | None = None
    stretch_ratio: float | None = None
    starts_at: int | None = None
    from_neighbour: Length | None = None
    from_edge: Length | None = None
    fretted: bool = True

    def __post_init__(self) -> None:
        what = f"String {self.name}"
        self._check_start(what)
        if self.pitch is not None:
            try:
                frequency(self.pitch)
            except NotAPitch as error:
                raise NotAJob(f"{what}: {error}") from None
        if self.diameter is not None:
            _meant_otherwise(f"{what}, the diameter,", self.diameter)
        length_between(f"{what}, the diameter,", self.diameter, THINNEST, THICKEST)
        length_between(f"{what}, the core,", self.core, 0.05, 3)
        if self.core is not None and self.diameter is not None and mm(self.core) > mm(self.diameter):
            raise NotAJob(f"{what}: its core is thicker than the string; look at both diameters")
        number_between(f"{what}, its mass in kg per metre,", self.kg_per_m, 1e-5, 0.1)
        number_between(f"{what}, its stretch ratio,", self.stretch_ratio, 1, 1000)

    def _check_start(self, what: str) -> None:
        if self.starts_at is not None and self.starts_at < 1:
            raise NotAJob(
                f"{what} starts at fret {self.starts_at}, but such a string starts at fret 1 or beyond; leave it out "
                "for one that begins at the nut"
            )
        length_between(f"{what}, from its neighbour where it starts,", self.from_neighbour, *BESIDE)
        length_between(f"{what}, from the board’s edge where it starts,", self.from_edge, *BESIDE)
        if self.from_neighbour is not None and self.from_edge is not None:
            raise NotAJob(f"{what} starts at a distance from its neighbour and at one from the board’s edge; give one")
        if self.starts_at is None and (self.from_neighbour is not None or self.from_edge is not None):
            raise NotAJob(f"{what} has a place where it starts, but no fret it starts at; give that too")

    @property
    def first(self) -> int:
        """The fret it begins at, 0 for the nut."""
        return self.starts_at or 0


def _meant_otherwise(what: str, diameter: Length) -> None:
    """Refuse a diameter whose number fits a string only in another unit, and say which."""
    try:
        value = mm(diameter)
    except NotALength:
        return
    if THINNEST <= value <= THICKEST:
        return
    typed = diameter if isinstance(diameter, str) else f"{show_number(diameter)} mm"
    number = value / MM_PER["in"] if typed.endswith(("in", '"', "″", "”")) else value
    for factor, unit in ((1.0, "mm"), (MM_PER["in"], "in")):
        if THINNEST <= number * factor <= THICKEST:
            size = "thicker" if value > THICKEST else "thinner"
            raise NotAJob(
                f"{what} is {typed}, {size} than any string; if {number:.4g} {unit} was meant, write the unit"
            )
    if THINNEST <= number * MM_PER["in"] / 1000 <= THICKEST and not typed.endswith("cm"):
        raise NotAJob(f"{what} is {typed}; if thousandths of an inch were meant, write {number / 1000:.4g} in")


class Spread(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """How the strings lie side by side: first to last, centre to centre, with equal gaps or equal centres. `pair`:
    the two strings of a course, centre to centre; None for what is usual there.
    """

    spread: Length
    spacing: Literal["gaps", "centres"] = "centres"
    pair: Length | None = None

    def __post_init__(self) -> None:
        length_between("The outer strings’ spread", self.spread, *SPREADS)
        length_between("The two strings of a pair, centre to centre,", self.pair, *PAIRS)


class Heights(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """`nut`: string over the fret tops' plane at the nut. `saddle`: saddle over the string's height at the nut."""

    nut: Length = 1.0
    saddle: Length = 4.0

    def __post_init__(self) -> None:
        length_between("The string’s height at the nut", self.nut, 0, 5)
        length_between("The saddle’s height over the nut", self.saddle, 0, 30)


class Action(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """String over fret 1 and fret 12 at [left, right]: as measured, or as it is wanted where no strings are on. None
    for a height that is not known; it is assumed, with a wider ±.
    """

    fret1: tuple[Length | None, Length | None] = (None, None)
    fret12: tuple[Length | None, Length | None] = (None, None)

    def __post_init__(self) -> None:
        for low, high in zip(self.fret1, self.fret12, strict=True):
            length_between("The action at fret 1", low, 0, HIGHEST_ACTION["fret 1"])
            length_between("The action at fret 12", high, 0, HIGHEST_ACTION["fret 12"])


class Heard(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What a tuner showed: cents at a fret against the open string or its harmonic, on a trial saddle or at a place.

    `trial` names the trial saddle, whose ends are the points `trial.N.left` and `trial.N.right`.
    """

    string: str
    cents: float
    trial: str
    fret: int = 12
    against: Literal["open", "harmonic"] = "harmonic"

    def __post_init__(self) -> None:
        number_between(f"What was heard on string {self.string}, in cents,", self.cents, -200, 200)
        number_between(f"The fret that string {self.string} was heard at", self.fret, 1, 36)


class Strings(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """All of the strings block. `weights` maps a fret to its weight in the fit of the compensation. `typed_for`: the
    strings that compensation was typed for, one for each, where others are on since; None: those in `list`.

    `action` as measured, or `height`; with neither, heights usual for the material are assumed and said so.
    """

    list: tuple[String, ...] = ()
    a4: float = 440
    nut: Spread | None = None
    saddle: Spread | None = None
    shift: Length = 0.0
    height: Heights | None = None
    action: Action | None = None
    relief: Length = 0.0
    press_behind: Length = 0.0
    compensation: WorkedOut | tuple[Length | None, ...] = WORKED_OUT
    typed_for: tuple[String, ...] | None = None
    nut_compensation: WorkedOut | tuple[Length, ...] | float = 0.0
    weights: dict[int, float] | None = None
    replaces: tuple[String, ...] | None = None
    heard: tuple[Heard, ...] = ()

    def __post_init__(self) -> None:
        if len(self.list) > 12:
            raise NotAJob(f"The job has {len(self.list)} strings; 1 to 12 can be laid out")
        no_repeats("The string", (string.name for string in self.list), RENAME)
        if self.list and all(string.first for string in self.list):
            raise NotAJob("Every string starts at a fret, and one at least must begin at the nut; look at starts_at")
        number_between("The reference A4", self.a4, 300, 600)
        length_between("The shift of the strings", self.shift, -20, 20)
        length_between("The relief", self.relief, 0, 3)
        length_between("The finger behind the fret", self.press_behind, 0, 25)
        for what, given in (("compensation", self.compensation), ("nut compensation", self.nut_compensation)):
            if isinstance(given, tuple):
                if len(given) != len(self.list):
                    raise NotAJob(
                        f"The {what} has {len(given)} numbers for {len(self.list)} strings; give one a string"
                    )
                for value in given:
                    length_between(f"The {what}", value, -15, 25)
            elif not isinstance(given, str):
                number_between(f"The {what}", given, -15, 25)
        if self.typed_for is not None and not (
            isinstance(self.compensation, tuple) and len(self.typed_for) == len(self.list)
        ):
            raise NotAJob(
                "The strings that compensation was typed for do not go with it; name one each, or leave out typed_for"
            )
        for fret, weight in (self.weights or {}).items():
            number_between("The fret that is weighed", fret, 1, 36)
            number_between(f"The weight of fret {fret}", weight, 0, 1000)
        self._check_heard()

    def _check_heard(self) -> None:
        listed = {string.name: string for string in self.list}
        for heard in self.heard:
            string = listed.get(heard.string)
            if string is None:
                raise NotAJob(
                    f"What was heard names the string “{heard.string}”, which is not in the list; mend the name"
                )
            if not string.fretted:
                raise NotAJob(f"String {string.name} is never fretted, and was heard at fret {heard.fret}; mend one")
            if heard.fret <= string.first:
                raise NotAJob(
                    f"String {string.name} starts at fret {string.first}, and was heard at fret {heard.fret}; look at "
                    "both frets"
                )
