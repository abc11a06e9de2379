"""A floating bridge: it stands on the top, or on a head of skin, and is held by the strings alone.

Its **feet** are what touches the top; its **crown** is the upper edge that the strings break on. Where it stands today
is told by the points `foot.left` and `foot.right`, the outer front corners of its feet.
"""

from collections.abc import Iterator

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length, in_its_unit, mm, with_unit

STANDS = ("foot.left", "foot.right")
"""The outer front corners of the feet, where the bridge stands today."""
TODAY = "today"
"""What the trial saddle is called that is the bridge itself, where it stands today."""
MOST_FEET = 3


class Floating(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`length` is across the top, from foot end to foot end; `width` front to back at its feet.

    `feet`: their lengths from the left to the right, two or three (a third stands midway); none for one piece that
    stands all along. `front_to_crown`: from the feet's front edge back to the middle of the crown; None for half the
    width. `height`: the crown over the top, one length or [left, right], where it is known. `notched`: each string lies
    in a notch of the crown. `marks`: the marks that old feet left, each the names of the points round it.
    """

    length: Length = 120.0
    width: Length = 12.0
    feet: tuple[Length, ...] = ()
    front_to_crown: Length | None = None
    height: Length | tuple[Length | None, Length | None] | None = None
    notched: bool = True
    marks: tuple[tuple[str, ...], ...] = ()

    def __post_init__(self) -> None:
        length_between("The floating bridge’s length", self.length, 20, 300)
        length_between("The floating bridge’s width", self.width, 2, 60)
        length_between("The feet’s front edge to the crown", self.front_to_crown, 0, 60)
        for height in self.heights:
            length_between("The floating bridge’s height", height, 2, 60)
        for number, foot in enumerate(self.feet, 1):
            length_between(f"Foot {number} of the floating bridge", foot, 1, 150)
        self._check_feet()
        if self.to_crown > mm(self.width):
            raise NotAJob(
                f"The crown lies {in_its_unit(self.to_crown, self.front_to_crown)} behind the feet’s front edge, past "
                f"a floating bridge {with_unit(self.width)} wide; look at both lengths"
            )
        for number, mark in enumerate(self.marks, 1):
            if len(set(mark)) < 3:
                raise NotAJob(
                    f"Foot mark {number} needs 3 points that differ, and names {len(set(mark))}; name another"
                )

    def _check_feet(self) -> None:
        if len(self.feet) == 1 or len(self.feet) > MOST_FEET:
            raise NotAJob(
                f"The floating bridge has {len(self.feet)} feet given; give the lengths of two or three, or none for "
                "one piece that stands all along"
            )
        whole = sum(mm(foot) for foot in self.feet)
        if whole >= mm(self.length) or (len(self.feet) == MOST_FEET and self._middle_touches()):
            raise NotAJob(
                f"The floating bridge’s feet are {in_its_unit(whole, *self.feet)} long together, which leaves nothing "
                f"between them on a bridge {with_unit(self.length)} long; look at the feet and at its length"
            )

    def _middle_touches(self) -> bool:
        """Whether a middle foot reaches an outer one."""
        left, middle, right = (mm(foot) for foot in self.feet)
        return max(left, right) + middle / 2 >= mm(self.length) / 2

    def check_crown(self, long: Length | None) -> None:
        """Refuse a crown longer than the bridge; None is one of the usual length."""
        if long is not None and mm(long) > mm(self.length):
            raise NotAJob(
                f"The crown (saddle.slot_length) is {with_unit(long)} long, on a floating bridge of "
                f"{with_unit(self.length)}; look at both lengths"
            )

    @property
    def heights(self) -> tuple[Length | None, Length | None]:
        """The crown over the top at [left, right]."""
        return self.height if isinstance(self.height, tuple) else (self.height, self.height)

    @property
    def to_crown(self) -> float:
        """From the feet's front edge back to the middle of the crown, mm."""
        return mm(self.width) / 2 if self.front_to_crown is None else mm(self.front_to_crown)

    @property
    def spans(self) -> Iterator[tuple[float, float]]:
        """Where each foot stands along the bridge, from the left: its left and right end, mm to the left of the
        bridge's middle.
        """
        half = mm(self.length) / 2
        if not self.feet:
            yield half, -half
            return
        left, *between, right = (mm(foot) for foot in self.feet)
        yield half, half - left
        for middle in between:
            yield middle / 2, -middle / 2
        yield right - half, -half

    @property
    def points(self) -> tuple[str, ...]:
        """The points its marks name."""
        return tuple(name for mark in self.marks for name in mark)
