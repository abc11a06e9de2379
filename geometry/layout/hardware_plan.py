"""Markers along the neck, other holes and the headstock as worked out."""

from geometry.job.sides import Side
from geometry.layout.measured import Ray
from geometry.layout.record import XY, Record
from geometry.layout.strings_to_bridge import Hole


class Marker(Record, frozen=True):
    """A marker dot between two frets: before which `fret`, where, and how far `along` the board's edge from the nut's
    corner it lies for a side marker, or along the neck for one in the face; with the ± of that.
    """

    fret: int
    at: XY
    along: float
    pm95: float
    diameter: float


class OtherHolePlan(Record, frozen=True):
    """A hole anywhere: its place in words, and on the plan where it was measured."""

    where: str
    at: XY | None
    diameter: float
    depth: float | None


class Post(Record, frozen=True):
    """A new tuner post: which string's, where with its ± (along and across the headstock), its holes. `again`: the old
    hole that it is drilled through. `nearest_old` names the nearest other old hole, `wall` the wood to it, `edge` and
    `slot` the wood to the headstock's edge and to a slot's wall, all with their ± (mm; None where there is none).
    `turns` is the angle (degrees) that the string makes sideways at the nut, + to the left; `passes` names the post
    that it passes most closely, by its string or its number, `clear` is how far (mm), where strings are known.
    """

    string: str
    side: Side
    at: XY
    pm95: XY
    diameter: float
    bushing: float | None
    again: str = ""
    nearest_old: str = ""
    wall: XY | None = None
    edge: XY | None = None
    slot: XY | None = None
    turns: float | None = None
    passes: str = ""
    clear: float | None = None


class Bore(Record, frozen=True):
    """A straight hole through the side of a slotted headstock, for a new post or an old `hole` by name. Its `axis` runs
    from the headstock's edge to the slot; `along` is how far along the edge from its first corner it starts, with ±.
    """

    hole: str
    diameter: float
    axis: tuple[XY, XY]
    along: XY


class HeadSide(Record, frozen=True):
    """A side of a slotted headstock: its `edge` by its corners from the nut on, with the points' names. `bores` are
    those of the side's posts in turn (None: the edge is not known there), `old` those of its old holes. `screws` of new
    plates lie so far along the edge and so far below the posts (mm).
    """

    side: Side
    corners: tuple[str, ...]
    edge: tuple[XY, ...]
    bores: tuple[Bore | None, ...]
    old: tuple[Bore, ...]
    screws: tuple[XY, ...] = ()


class Plug(Record, frozen=True):
    """A plug that a hole needs: which hole, how wide it is and the plug, what must wait for it (names of strings)."""

    hole: str
    at: XY
    diameter: float
    plug: float
    before: tuple[str, ...] = ()


class Fitting(Record, frozen=True):
    """The new posts fitted one way, by what is kept (`keep`): how many old holes are drilled through `again`, and in
    how many of these the post is `loose` below its bushing; how many `plugs` are needed, the least `wall` to an old
    hole with its ±, and the most that a string `turns` at the nut.
    """

    keep: str
    again: int
    plugs: int
    loose: int = 0
    wall: XY | None = None
    turns: float | None = None


class HeadstockPlan(Record, frozen=True):
    """The headstock as found, and what goes on it. `askew`: by how much (degrees) the line from a post to the one
    across stands out of square to the middle line, at worst. `plates` are closed, `screws` new holes for them.
    `fittings`: the same posts fitted in each way there is. A slotted headstock has `sides`, each whose edge is known,
    and neither plates nor screws on its face.
    """

    outline: tuple[XY, ...]
    slots: tuple[tuple[XY, ...], ...]
    middle: Ray
    old_posts: tuple[Hole, ...]
    old_screws: tuple[Hole, ...]
    posts: tuple[Post, ...] = ()
    plates: tuple[tuple[XY, ...], ...] = ()
    screws: tuple[XY, ...] = ()
    plugs: tuple[Plug, ...] = ()
    askew: float | None = None
    fittings: tuple[Fitting, ...] = ()
    sides: tuple[HeadSide, ...] = ()

    @property
    def bores(self) -> tuple[Bore | None, ...]:
        """The bore of each post in turn, on a slotted headstock; None where it has none, or its edge is not known."""
        found = {side.side: iter(side.bores) for side in self.sides}
        return tuple(next(found[post.side]) if post.side in found else None for post in self.posts)


class HardwarePlan(Record, frozen=True):
    """The rest of the instrument. `edge` is the board's real edge on the side of the side markers, from the nut's
    corner on.
    """

    side: tuple[Marker, ...] = ()
    face: tuple[Marker, ...] = ()
    edge: tuple[XY, ...] = ()
    headstock: HeadstockPlan | None = None
    holes: tuple[OtherHolePlan, ...] = ()
