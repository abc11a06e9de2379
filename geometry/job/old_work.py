"""The old work: what the bridge that came off, and whoever worked here before, left on the top and inside it.

All of it stands on points that were read, by name. What was read inside says so in its readings (`Reading.inside`).
"""

from collections.abc import Iterator
from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between, no_repeats
from geometry.units import Length

MOST_IN_ROW = 24
"""No bridge has more pin holes in a row (common practice, no source)."""
Damage = Literal["discoloured", "damaged"]


class OldPin(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """An old pin hole's diameter."""

    diameter: Length

    def __post_init__(self) -> None:
        length_between("The old pin hole’s diameter", self.diameter, 0.5, 30)


class OldMetal(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Metal in the wood: no cut or hole within `keep_out` of it."""

    keep_out: Length = 6.0

    def __post_init__(self) -> None:
        length_between("The keep-out around metal", self.keep_out, 0, 60)


class OldHole(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A hole of another origin, such as a screw's; `depth` None: it goes through the top."""

    diameter: Length
    depth: Length | None = None

    def __post_init__(self) -> None:
        length_between("The old hole’s diameter", self.diameter, 0.5, 60)
        length_between("The old hole’s depth", self.depth, 0.1, 60)


class OldPost(OldHole, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """An old post's hole in the headstock; a `worn` one is plugged, whatever its size."""

    worn: bool = False


class OldSlot(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The old saddle's slot where it goes into the top: its middle line's two ends, and its width."""

    of: tuple[str, str]
    width: Length = 3.0

    def __post_init__(self) -> None:
        no_repeats("The old slot’s end", self.of)
        length_between("The old slot’s width", self.width, 0.5, 15)


class Brace(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A brace under the top: its middle line through two points or more, in their order, and its width."""

    of: tuple[str, ...]
    width: Length = 8.0

    def __post_init__(self) -> None:
        no_repeats("The brace’s point", self.of)
        if len(self.of) < 2:
            raise NotAJob(f"A brace needs two points or more along its middle, but has {len(self.of)}; read another")
        length_between("The brace’s width", self.width, 1, 60)


class Area(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A part of the top that is discoloured or damaged: points in their order round it."""

    of: tuple[str, ...]
    what: Damage = "discoloured"

    def __post_init__(self) -> None:
        no_repeats("The area’s point", self.of)
        if len(self.of) < 3:
            raise NotAJob(f"An area needs three points or more round it, but has {len(self.of)}; read another")


class Old(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is left of the old work, by point name. `outline`: the footprint's corners, `bare`: the edge of the finish
    round the wood that has none, `plate`: the plate inside; each in order round it. `row`: so many pin holes stood
    in the row; those between the outer two that were not read are taken as evenly spaced.
    """

    outline: tuple[str, ...] = ()
    pins: dict[str, OldPin] = {}
    row: int | None = None
    metal: dict[str, OldMetal] = {}
    holes: dict[str, OldHole] = {}
    slot: OldSlot | None = None
    bare: tuple[str, ...] = ()
    areas: dict[str, Area] = {}
    plate: tuple[str, ...] = ()
    braces: dict[str, Brace] = {}

    def __post_init__(self) -> None:
        if self.row is not None and not 2 <= self.row <= MOST_IN_ROW:
            raise NotAJob(f"The row of old pin holes has {self.row}, but must have 2 to {MOST_IN_ROW}; count again")
        for what, names in (("old footprint", self.outline), ("bare wood", self.bare), ("plate", self.plate)):
            no_repeats(f"In the {what}, the point", names)

    @property
    def named(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """What stands on points, in words, with the points."""
        yield "The old footprint", self.outline
        yield "The old pin holes", tuple(self.pins)
        yield "The metal", tuple(self.metal)
        yield "The old holes", tuple(self.holes)
        yield "The old slot", self.slot.of if self.slot else ()
        yield "The edge of the finish", self.bare
        for name, area in self.areas.items():
            yield f"The area “{name}”", area.of
        yield "The plate", self.plate
        for name, brace in self.braces.items():
            yield f"The brace “{name}”", brace.of

    @property
    def points(self) -> tuple[str, ...]:
        """All points that any of it stands on, each once."""
        return tuple(dict.fromkeys(point for _, points in self.named for point in points))

    @property
    def inside(self) -> tuple[str, ...]:
        """The points that can only be read from inside: those of the plate and the braces."""
        under = (*self.plate, *(point for brace in self.braces.values() for point in brace.of))
        return tuple(dict.fromkeys(under))
