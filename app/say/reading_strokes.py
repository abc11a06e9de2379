"""What the little picture of a kind of reading is made of: strokes in a field of 132 by 88, y downward.

They say what stands there; how it looks is the window's (`app/desk/widgets/reading_picture.py`).
"""

from typing import Literal, NamedTuple

At = tuple[float, float]


class Edge(NamedTuple):
    """A straightedge below the line from a to b."""

    a: At
    b: At


class Rule(NamedTuple):
    """A rule with its divisions below the line from a to b."""

    a: At
    b: At


class Square(NamedTuple):
    """A square's blade, from its foot up to its top."""

    foot: At
    top: At


class Value(NamedTuple):
    """The arrow of what is read, from a to b, both `down` from there."""

    a: At
    b: At
    down: float = 0


class Stripe(NamedTuple):
    """A line on the instrument."""

    a: At
    b: At


class Dots(NamedTuple):
    """Points that the reading names."""

    at: tuple[At, ...]


class Ring(NamedTuple):
    """A ring round what is found."""

    at: At


class Hole(NamedTuple):
    """A hole."""

    at: At
    radius: float


class Corner(NamedTuple):
    """The sign for a right angle."""

    at: At


class Says(NamedTuple):
    """A sign or a short word."""

    at: At
    text: str


class Scene(NamedTuple):
    """What the reading is taken on: the board from above, where a height is read `from the side`, a sheet of paper."""

    what: Literal["board", "from the side", "sheet"]


Stroke = Edge | Rule | Square | Value | Stripe | Dots | Ring | Hole | Corner | Says | Scene
