"""What the survey makes of the readings, and the board as it lies."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, overload

import msgspec

from geometry.job import Reading
from geometry.job.sides import Side
from geometry.layout.record import XY, Record, Verdict, Where

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]


class PlacedPoint(Record, frozen=True):
    """A point with its standard deviations and covariance (mm, mm²); `checked`: a gross error in it would show."""

    x: float
    y: float
    sx: float
    sy: float
    sxy: float
    checked: bool


GROSS = 3.0
"""What a person with a rule is sometimes out by, mm (common practice, no source)."""
CONTROL = 0.1
"""A gross error shows in a reading of this redundancy number whatever the reading is worth."""


@overload
def shows(redundancy: float, smallest_error: float) -> bool: ...
@overload
def shows(redundancy: "Array", smallest_error: "Array") -> "Flags": ...
def shows(redundancy: "float | Array", smallest_error: "float | Array") -> "bool | Flags":
    """Whether a gross error would show in a reading of this redundancy number, of which the least that does is
    `smallest_error` (mm); in one, or in many (any shape).
    """
    return (redundancy >= CONTROL) | (smallest_error <= GROSS)


class Fit(Record, frozen=True):
    """How one reading fits: `residual` = adjusted − read. `w` and `smallest_error` (the least gross error that
    would show) are None where nothing checks it. `believable` is the ± (mm) that its bar is drawn against.
    `component` is x or y for a placed point (`at`) and `nominal`, `span` for kinds that give two numbers.
    """

    id: str
    value: float
    adjusted: float
    residual: float
    sigma: float
    redundancy: float
    w: float | None
    believable: float
    smallest_error: float | None = None
    component: str = ""

    @property
    def checked(self) -> bool:
        """Whether a gross error in the reading would show."""
        return self.smallest_error is not None and shows(self.redundancy, self.smallest_error)


class Loose(Record, frozen=True):
    """A point that the readings do not hold: the direction it can move in (unit vector; None where it is free to move
    any way, or its readings contradict each other), and a reading that would hold it.
    """

    point: str
    direction: XY | None
    held_by: str


class Why(Record, frozen=True, kw_only=True):
    """The verdict in words, in the parts it is composed of: the reading that it is said `of`, where that is one; `what`
    is so, in one clause; more of it behind a colon (`how`); the sentences after that (`then`). `counted`: the same
    as `what`, for where there is little room, with many readings counted instead of named: the table numbers them.
    """

    of: str | None = None
    what: str
    how: str | None = None
    then: str | None = None
    counted: str | None = None

    @property
    def sentence(self) -> str:
        """The first sentence, without its full stop."""
        return ": ".join(filter(None, (self.of, self.what, self.how)))

    @property
    def whole(self) -> str:
        """All of it."""
        return " ".join(filter(None, (f"{self.sentence}.", self.then)))

    def followed_by(self, *more: str) -> "Why":
        """The same with more sentences behind it."""
        return msgspec.structs.replace(self, then=" ".join(filter(None, (self.then, *more))))


class Survey(Record, frozen=True):
    """What the readings as a whole say. `why` is the verdict in one or two sentences; `groups` are readings of
    which one is wrong though none can be named, `layings` those of which all readings are accused alike;
    `zero_errors` maps a laying to its solved zero error (mm). `coarse`: how many times more coarsely than said the
    readings were read, where that is beyond chance; `wider`: how many times as wide every ± is for how well they agree,
    beyond chance or not. `diameters` maps a hole's point to its measured diameter, as it is told, `elsewhere` a point
    that may lie on either side to its other place (the first is in the layout's `rough`).
    """

    verdict: Verdict
    why: Why
    suspects: tuple[str, ...] = ()
    groups: tuple[tuple[str, ...], ...] = ()
    layings: tuple[str, ...] = ()
    dof: int = 0
    vtpv: float = 0.0
    loose: tuple[Loose, ...] = ()
    zero_errors: dict[str, float] = msgspec.field(default_factory=dict)
    coarse: float = 1.0
    wider: float = 1.0
    diameters: dict[str, float] = msgspec.field(default_factory=dict)
    elsewhere: dict[str, XY] = msgspec.field(default_factory=dict)


def accused(survey: Survey) -> frozenset[str]:
    """The readings that do not go with the others, named or in a group."""
    return frozenset(accused_in_order(survey))


def accused_in_order(survey: Survey) -> tuple[str, ...]:
    """The same, in the order in which they are to be read again: as the verdict's sentence names them."""
    return tuple(dict.fromkeys((*(name for group in survey.groups for name in group), *survey.suspects)))


def accused_alone(survey: Survey, readings: Iterable[Reading]) -> frozenset[str]:
    """The same but for those of a laying that is accused as a whole: each of them fits the others of its laying."""
    return accused(survey) - {reading.id for reading in readings if reading.laid in survey.layings}


class Ray(Record, frozen=True):
    """A straight line: a point on it and its direction (unit vector), running toward the tail."""

    at: XY
    direction: XY

    def at_x(self, x: float) -> XY:
        """Where it stands at a place along the neck."""
        return x, self.at[1] + (x - self.at[0]) * self.direction[1] / self.direction[0]


class Neck(Record, frozen=True):
    """The edge lines, the nut's front and the board's end, in the neck frame (the neck centre line is y = 0).

    Corners at [left, right]. `seam` is None where no two points of it were read.
    """

    left_edge: Ray
    right_edge: Ray
    nut: tuple[XY, XY]
    end: tuple[XY, XY] | None
    seam: Ray | None = None


class FretLine(Record, frozen=True):
    """One fret, drawn from edge to edge; `fret` 0 is the nut or zero fret."""

    fret: int
    left: XY
    right: XY


class Nominal(Record, frozen=True):
    """The nominal places along the left and right outer string paths, from the nut's front."""

    left: float
    right: float
    left_pm95: float
    right_pm95: float


class Slants(Record, frozen=True):
    """How slanted frets lie, at the outer strings and along the neck centre line, left less right, mm: `nut` and
    `nominal` places with their ±, and how far the `square_fret` that was declared stands from square (`off_square`).
    `squarest` is the fret that is nearest to square. `scales` (left, right) are those that were declared;
    `declared_nut` and `declared_nominal` follow from them and the square fret.
    """

    nut: float
    nut_pm95: float
    nominal: float
    nominal_pm95: float
    squarest: int
    square_fret: int | None = None
    off_square: float | None = None
    off_square_pm95: float = 0.0
    scales: tuple[float | None, float | None] = (None, None)
    declared_nut: float | None = None
    declared_nominal: float | None = None


class FretPlan(Record, frozen=True):
    """The fret spacing that fits. `scale` is the mean of both sides; `nut_shift` how far the nut stands too near (+).

    `slant` is how much farther the nominal place lies at left (+) than at right. Both carry their ±.
    `open_cents` is what the open string pays against its fretted notes at [left, right] for a nut that was moved.
    `other` is the nominal place by the rule not chosen (octave or best), where it differs. `slants` are told of frets
    that are declared slanted.
    """

    spacing: str
    scale: float
    scale_pm95: float
    nut_shift: float
    nominal: Nominal
    lines: tuple[FretLine, ...]
    nut_shift_pm95: float = 0.0
    slant: float = 0.0
    slant_pm95: float = 0.0
    open_cents: tuple[float, float] = (0.0, 0.0)
    other: Nominal | None = None
    slants: Slants | None = None


class Margin(Record, frozen=True):
    """From the outer string on a side to the board's edge at a place, with its ±; less than 0 is beyond the edge.
    `string_xy` and `edge_xy` are its two ends. `checked`: a gross error in a reading that holds it would show.
    """

    place: Where
    side: Side
    mm: float
    pm95: float
    string_xy: XY
    edge_xy: XY
    checked: bool = True


class Margins(Record, frozen=True):
    """From the outer strings to the board's edges at the nut and at each fret in turn, mm, along the edge lines; and
    `at` the nut, fret 12 and the board's end with their ±, to the points that were read there.
    """

    left: tuple[float, ...]
    right: tuple[float, ...]
    at: tuple[Margin, ...] = ()
