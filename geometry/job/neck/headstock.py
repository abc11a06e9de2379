"""The headstock as it was found, and the tuners that are to go on it."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between, no_repeats
from geometry.job.old_work import OldHole, OldPost
from geometry.units import Length, mm, with_unit

Middle = Literal["nut", "edges", "points"]
Keep = Literal["first post", "middle post", "most old holes", "least wood"]
MOST_POSTS = 12
"""No side of a headstock has more posts (common practice, no source)."""
TWO = 2


class Headstock(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`outline` and each of the `slots`: points in their order round it; a headstock without slots is solid. Its middle
    line stands square on the nut's middle (`nut`), halves its two `edges`, or goes through two `points`. `edges` are
    the points along its left and its right edge. `posts` and `screws`: the old holes by point.
    """

    outline: tuple[str, ...] = ()
    slots: tuple[tuple[str, ...], ...] = ()
    middle: Middle = "nut"
    points: tuple[str, ...] = ()
    edges: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())
    thickness: Length | None = None
    posts: dict[str, OldPost] = {}
    screws: dict[str, OldHole] = {}

    def __post_init__(self) -> None:
        length_between("The headstock’s thickness", self.thickness, 3, 60)
        no_repeats("In the headstock’s outline, the point", self.outline)
        for slot in self.slots:
            no_repeats("In a headstock’s slot, the point", slot)
            if len(slot) <= TWO:
                raise NotAJob(
                    f"A headstock’s slot needs three points or more round it, but has {len(slot)}; read another, or "
                    "leave the slot out"
                )
        if self.middle == "points" and len(set(self.points)) != TWO:
            raise NotAJob(
                "The headstock’s middle is to go through two points, but does not name two; name them, or take its "
                "middle from the nut"
            )
        if self.middle == "edges" and min(len(set(edge)) for edge in self.edges) < TWO:
            raise NotAJob(
                "The headstock’s middle is to halve its edges, but one of them has no two points; read another point "
                "on it, or take the middle from the nut"
            )

    @property
    def named(self) -> tuple[str, ...]:
        """All points that any of it stands on, each once."""
        rings = (self.outline, *self.slots, self.points, *self.edges, tuple(self.posts), tuple(self.screws))
        return tuple(dict.fromkeys(name for ring in rings for name in ring))


class TunerPlate(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A plate behind several posts, or each tuner's own: how far it reaches past its outer posts along the headstock
    (`past`), how `wide` it is, how far its `inner` edge lies from the posts toward the middle; its `screws` by their
    place from its first post, along away from the nut and across toward the middle, and the holes they need.
    """

    past: Length = 9.0
    wide: Length = 14.0
    inner: Length = 5.0
    screws: tuple[tuple[Length, Length], ...] = ()
    screw_hole: Length = 1.5

    def __post_init__(self) -> None:
        length_between("The tuner plate’s reach past its posts", self.past, 0, 60)
        length_between("The tuner plate’s width", self.wide, 3, 60)
        length_between("The tuner plate’s inner edge", self.inner, -30, 40)
        length_between("The tuner plate’s screw hole", self.screw_hole, 0.5, 5)
        for along, across in self.screws:
            length_between("A tuner screw’s place along", along, -60, 300)
            length_between("A tuner screw’s place across", across, -40, 40)


class Tuners(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """New tuners: on the `left` and on the `right` side so many posts a plate, from the nut on (`[3]` one plate of
    three, `[1, 1, 1]` three single ones), `spacing` from post to post. `post`: the hole for it; `bushing`: the wider
    hole for its bushing, `bushing_deep` from the face. `roller`: a slotted headstock's roller, whose posts lie `below`
    the face, middle to face; None: at half its thickness. `from_middle`: the posts' line from the middle line; None:
    where the old posts lie. `keep`: what the new holes are fitted to.
    """

    left: tuple[int, ...] = (3,)
    right: tuple[int, ...] = (3,)
    spacing: Length = 35.0
    post: Length = "1/4 in"
    bushing: Length | None = None
    bushing_deep: Length = 6.0
    roller: Length | None = None
    below: Length | None = None
    from_middle: Length | None = None
    keep: Keep = "most old holes"
    plate: TunerPlate | None = None

    def __post_init__(self) -> None:
        for plates in (self.left, self.right):
            if any(posts < 1 for posts in plates):
                raise NotAJob("A tuner plate has no post; give it one at least, or leave it out")
            if sum(plates) > MOST_POSTS:
                raise NotAJob(
                    f"One side of the headstock has {sum(plates)} posts, and none has more than {MOST_POSTS}; look at "
                    "how many stand on each plate"
                )
        length_between("The tuners’ spacing", self.spacing, 8, 120)
        length_between("The tuners’ post hole", self.post, 2, 20)
        length_between("The tuners’ bushing hole", self.bushing, 2, 25)
        length_between("The tuners’ bushing depth", self.bushing_deep, 0.5, 40)
        length_between("The tuners’ roller", self.roller, 3, 20)
        length_between("The posts’ depth below the headstock’s face", self.below, 1, 60)
        length_between("The posts’ distance from the middle line", self.from_middle, 3, 80)
        if self.bushing is not None and mm(self.bushing) < mm(self.post):
            raise NotAJob(
                f"The bushing’s hole of {with_unit(self.bushing)} is narrower than the post’s of "
                f"{with_unit(self.post)}; look at both"
            )
        if mm(self.spacing) <= mm(self.bushing or self.post):
            raise NotAJob(
                f"The posts stand {with_unit(self.spacing)} apart, but their holes are "
                f"{with_unit(self.bushing or self.post)} wide and would run into each other; look at both"
            )
        if self.below is not None and mm(self.below) < mm(self.bushing or self.post) / 2:
            raise NotAJob(
                f"The posts’ middles lie {with_unit(self.below)} below the headstock’s face, but their holes are "
                f"{with_unit(self.bushing or self.post)} wide and would break out "
                "of it; set them deeper, or take narrower ones"
            )
        if self.plate is not None and any(posts == 1 for posts in (*self.left, *self.right)) and self._is_mixed():
            raise NotAJob("Plates of one post and of several cannot share one plate’s sizes; take them one by one")

    def _is_mixed(self) -> bool:
        return any(posts > 1 for posts in (*self.left, *self.right))
