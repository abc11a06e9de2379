"""The kinds of reading, one record each: what the hand does, as far as numbers and names go.

A kind's points are those the straightedge is laid `from`, then those it reads `of`: written 0, 1, 2, 3 in that order.
What else belongs to a kind stands by its name in three more tables: the equation of a new form in
`geometry/survey/rows/forms.py`, how it is drawn in `export/plan/reading_as_taken.py`, what is said to the person who
takes it and its little picture in `app/say/how_to.py`.
"""

import math
from collections.abc import Callable
from typing import Generic, Literal, TypedDict, TypeVar, get_args

import msgspec

Kind = Literal[
    "distance", "along", "off", "across", "meets", "inline", "same", "square", "rims", "fret", "height", "at", "angle"
]
KINDS: tuple[Kind, ...] = get_args(Kind)
PointForm = Literal["distance", "same", "laid", "meets", "square", "angle", "at"]
"""The geometry of a row of the survey over points. `laid` is every reading square to or along a straightedge."""
Form = PointForm | Literal["none"]
"""The geometry of a row of the survey; `none` has no points."""
Numbers = Literal["one", "rims", "fret", "height", "sheet"]
"""What the numbers of a reading say: one row in the kind's form; a hole by its rims; an unknown of its own; x and y."""
On = Literal["left", "right", "centre"]
FARTHEST = 5000.0
"""mm. Nothing that is measured on an instrument is longer or lies farther away (common practice, no source)."""


Of = TypeVar("Of")


class ByKind(TypedDict, Generic[Of]):
    """A table with an entry for each kind: the type checker names the kind that one lacks."""

    distance: Of
    along: Of
    off: Of
    across: Of
    meets: Of
    inline: Of
    same: Of
    square: Of
    rims: Of
    fret: Of
    height: Of
    at: Of
    angle: Of


BLADE = 100.0
"""mm. An angle has its row in mm too: the arc that it is at this length, about that of a bevel gauge's blade."""
PER_DEGREE = math.radians(1.0) * BLADE
"""mm of a row to a degree."""


class Shape(msgspec.Struct, frozen=True, kw_only=True):
    """What a kind of reading needs, and what it is.

    How many points `of` and `laid_from`, whether a `side`, how many `values` and what they are called in typing;
    `fret`, `at` and `on`: what stands for points, and `must` says what must not be left out. `clear_of`: so many of
    the straightedge's points cannot be the one that is read. A value is a length, `least` the least in mm, or an angle
    from 0 to 180 `degrees`. `mirrored`: it tells left from right as they are seen, the other way round inside. `wrong`:
    what two values or one (mm) cannot be, in words behind the reading's name; empty where nothing is wrong.

    `form` with its `points` in the order of the row, and its `lean` on the straightedge: see `geometry/survey/rows`.

    `named` and `how`: what is read and how it is read, for a table; the words in braces are those of `geometry.words`.
    `amiss`: what is wrong with a condition that is out by {much}, or with an angle that is so much {more} or less;
    `again`: what to do then before it is struck out.
    """

    of: int = 0
    laid_from: int = 0
    side: bool = False
    values: int = 1
    typed: str = ""
    fret: bool = False
    at: bool = False
    on: tuple[On, ...] = ()
    must: str = ""
    clear_of: int = 0
    degrees: bool = False
    least: float = 0.0
    wrong: Callable[[tuple[float, ...]], str] | None = None
    mirrored: bool = False
    form: Form = "none"
    points: tuple[int, ...] = ()
    lean: complex = 1
    numbers: Numbers = "one"
    named: str
    how: str = ""
    amiss: str = ""
    again: str = ""

    @property
    def is_length(self) -> bool:
        """Whether its one number, or both, are lengths read along one rule, with that rule's zero and its error."""
        return self.values > 0 and self.numbers != "sheet" and not self.degrees


def _nowhere(values: tuple[float, ...]) -> str:
    return "a distance of 0 puts two points in the same place; read it again" if values[0] <= 0 else ""


def _rims(values: tuple[float, ...]) -> str:
    return "the far rim must read more than the near rim; read both again" if values[1] <= values[0] else ""


SHAPES: ByKind[Shape] = {
    "distance": Shape(of=2, wrong=_nowhere, form="distance", points=(0, 1), named="{gap}"),
    "along": Shape(
        of=1, laid_from=2, clear_of=1, form="laid", points=(2, 0, 0, 1), named="{first}", how="along {edge}{whence}"
    ),
    "off": Shape(
        of=1,
        laid_from=2,
        side=True,
        clear_of=2,
        form="laid",
        points=(2, 0, 0, 1),
        lean=1j,
        named="{first}",
        how="off {edge}",
    ),
    "across": Shape(
        of=2,
        laid_from=2,
        mirrored=True,
        form="laid",
        points=(2, 3, 0, 1),
        lean=1j,
        named="{second} to {first}",
        how="square to {edge}",
    ),
    "meets": Shape(of=2, laid_from=2, form="meets", points=(0, 1, 2, 3), named="{crossed}", how="along {edge}{whence}"),
    "inline": Shape(
        of=1,
        laid_from=2,
        values=0,
        clear_of=2,
        form="laid",
        points=(2, 0, 0, 1),
        lean=1j,
        named="{first}",
        how="in line with {edge}",
        amiss="it lies {much} off the line",
        again="Sight along it again",
    ),
    "same": Shape(
        of=4,
        values=0,
        form="same",
        points=(0, 1, 2, 3),
        named="{gap}, same as {other_gap}",
        amiss="they differ by {much}",
        again="Measure both again",
    ),
    "square": Shape(
        of=4,
        values=0,
        form="square",
        points=(0, 1, 2, 3),
        named="{line} square to {other_line}",
        amiss="it leans {much} from square",
        again="Lay the square on again",
    ),
    "rims": Shape(
        of=2,
        values=2,
        typed="near rim ; far rim",
        wrong=_rims,
        form="distance",
        points=(0, 1),
        numbers="rims",
        named="{first} to {second}",
        how="both rims",
    ),
    "fret": Shape(
        fret=True,
        on=("left", "right", "centre"),
        must="must say which fret and on which side it was read",
        numbers="fret",
        named="nut to fret {fret}, {lane}",
    ),
    "height": Shape(
        at=True,
        on=("left", "right"),
        must="must say where the height was read, and on which side",
        numbers="height",
        named="{height}, {side}",
        how="{height_at}",
    ),
    "at": Shape(
        of=1,
        values=2,
        typed="x ; y",
        least=-FARTHEST,
        form="at",
        points=(0,),
        numbers="sheet",
        named="{first}, placed",
    ),
    "angle": Shape(
        of=2,
        laid_from=2,
        degrees=True,
        form="angle",
        points=(2, 3, 0, 1),
        named="{line}",
        how="angle to {edge}",
        amiss="reads {much} {more} than the others allow",
        again="Set the gauge again",
    ),
}
