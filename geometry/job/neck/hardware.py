"""The rest of the instrument: headstock and tuners, markers along the neck, and holes anywhere."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between, no_repeats
from geometry.job.neck.headstock import Headstock, Tuners
from geometry.units import Length, in_its_unit, mm, with_unit

USUAL_FRETS = (3, 5, 7, 9, 12, 15, 17, 19)
"""The frets that are marked as a rule; some trades mark the tenth instead of the ninth (common practice, no source)."""
LAST_FRET = 36
Grain = Literal["face", "end"]


class SideMarkers(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Dots in the board's edge on the bass or the treble side: before which `frets`, `twice` at which of them, each
    `below` the board's face to its middle and `deep`; two at a fret lie `apart`, middle to middle along the neck.
    """

    frets: tuple[int, ...] = USUAL_FRETS
    twice: tuple[int, ...] = (12,)
    side: Literal["bass", "treble"] = "bass"
    diameter: Length = "1/16 in"
    below: Length = 3.0
    deep: Length = 3.0
    apart: Length = 6.0

    def __post_init__(self) -> None:
        _frets("The side markers", self.frets, self.twice)
        length_between("The side markers’ diameter", self.diameter, 0.5, 10)
        length_between("The side markers’ place below the face", self.below, 0.5, 15)
        length_between("The side markers’ depth", self.deep, 0.5, 15)
        length_between("The side markers’ distance of two at a fret", self.apart, 1, 40)
        if mm(self.below) < mm(self.diameter) / 2:
            raise NotAJob(
                f"The side markers’ middle lies {with_unit(self.below)} below the face, but they are "
                f"{with_unit(self.diameter)} wide and would break out of it; set them deeper, or take smaller ones"
            )


class FaceMarkers(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Dots in the board's face, on its middle between the frets; two at a fret lie `apart` across the board."""

    frets: tuple[int, ...] = USUAL_FRETS
    twice: tuple[int, ...] = (12,)
    diameter: Length = 6.0
    deep: Length = 1.5
    apart: Length = 22.0

    def __post_init__(self) -> None:
        _frets("The face markers", self.frets, self.twice)
        length_between("The face markers’ diameter", self.diameter, 1, 20)
        length_between("The face markers’ depth", self.deep, 0.3, 10)
        length_between("The face markers’ distance of two at a fret", self.apart, 2, 60)


class Markers(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Markers along the neck; None: none there."""

    side: SideMarkers | None = None
    face: FaceMarkers | None = None


class OtherHole(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A hole anywhere: `where` in words, and at a `point` where it was measured. `depth` None: right through. `holds`
    what is in it. `plug`: it is filled with one of this diameter, its grain as the wood's `face` or `end` on. `reach`:
    something beneath must stay within reach.
    """

    where: str
    point: str | None = None
    diameter: Length
    depth: Length | None = None
    holds: str = ""
    plug: Length | None = None
    grain: Grain = "face"
    reach: bool = False
    note: str = ""

    def __post_init__(self) -> None:
        if not self.where.strip():
            raise NotAJob("A hole does not say where it is; write it in a few words, such as “heel, strap pin”")
        length_between("The hole’s diameter", self.diameter, 0.5, 80)
        length_between("The hole’s depth", self.depth, 0.5, 200)
        length_between("The hole’s plug", self.plug, 0.5, 80)
        if self.plug is not None and mm(self.plug) < mm(self.diameter):
            raise NotAJob(
                f"The plug of {with_unit(self.plug)} is thinner than its hole of {with_unit(self.diameter)}; look at "
                "both"
            )


class Hardware(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """All of it; None: not begun."""

    headstock: Headstock | None = None
    tuners: Tuners | None = None
    markers: Markers | None = None
    holes: tuple[OtherHole, ...] = ()

    def __post_init__(self) -> None:
        head, tuners = self.headstock, self.tuners
        if head is None or tuners is None or head.thickness is None or tuners.below is None:
            return
        reach = mm(tuners.below) + mm(tuners.bushing or tuners.post) / 2
        if reach > mm(head.thickness):
            raise NotAJob(
                f"The posts’ holes would reach {in_its_unit(reach, tuners.below, head.thickness)} below the "
                f"headstock’s face, but it is {with_unit(head.thickness)} thick; set them less deep, or "
                "measure the headstock again"
            )

    @property
    def slotted(self) -> bool:
        """Whether the new posts are drilled into a slotted headstock's sides."""
        return self.tuners is not None and self.tuners.roller is not None

    @property
    def points(self) -> tuple[str, ...]:
        """The points that any of it stands on."""
        head = self.headstock.named if self.headstock is not None else ()
        return tuple(dict.fromkeys((*head, *(hole.point for hole in self.holes if hole.point is not None))))


def _frets(what: str, frets: tuple[int, ...], twice: tuple[int, ...]) -> None:
    no_repeats(f"Among {what[:1].lower()}{what[1:]}, fret", map(str, frets))
    for fret in (*frets, *twice):
        if not 1 <= fret <= LAST_FRET:
            raise NotAJob(f"{what} name fret {fret}; frets count from 1 to {LAST_FRET}")
    for fret in twice:
        if fret not in frets:
            raise NotAJob(f"{what} want two at fret {fret}, which has none; add it to their frets")
