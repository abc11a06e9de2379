"""Saddle and nut as solids, as they are worked out: every height and place with its ±, as (mm, ± mm)."""

from geometry.layout.record import XY, Record


class SaddleString(Record, frozen=True):
    """The saddle under one string: how far `along` it from its bass end, and its height `over_top`, over the bridge's
    top and over the slot's floor (`whole`), None where that is not known. `degrees`: how steeply the string breaks over
    it, and its ±; `press`: the force with which it presses on the saddle there, N.
    """

    string: str
    along: float
    over_top: XY
    over_bridge: XY | None = None
    whole: XY | None = None
    degrees: XY | None = None
    press: float | None = None


class SaddleBlank(Record, frozen=True):
    """The saddle, or the crown of a floating bridge, by itself: `length` by `thickness`, its strings in list order.
    `profile` is its upper edge from its left end to its right one, (along from the left end, height) at many places,
    all strings' among them; heights count from the slot's floor, or where its depth is not told from the bridge's top,
    or from the top (`floor`), as a crown's do.

    `radius`: of the crown over the strings, with its ±; None where it is flat. `crown`: by how much it stands over the
    straight line between the outer strings, in their middle, with its ±. `wood` is left under the slot at [left,
    right], None where not told.
    """

    length: float
    thickness: float
    strings: tuple[SaddleString, ...]
    profile: tuple[XY, ...]
    floor: str
    radius: XY | None
    crown: XY
    wood: tuple[XY | None, XY | None]


class NutSlot(Record, frozen=True):
    """One string's slot in the nut: how far its middle lies `along` the nut's front from its bass end, with its ±; its
    `width`; its bottom at the front `over_board`, over the board's face right under the string, and `over_bed`, over
    the nut's bottom; how `deep` it is in a blank of known height. None where that is not known. `behind`: how far
    behind the nut's front the string leaves it, before it if negative. `edge`: wood from its side to the nut's end.
    """

    string: str
    along: XY
    width: float | None = None
    over_board: XY | None = None
    over_bed: XY | None = None
    deep: XY | None = None
    behind: float = 0.0
    edge: float | None = None


class NutBlank(Record, frozen=True):
    """The nut by itself: its `length` with its ±, `turn` (radians, counter-clockwise) to square, `thickness`, its
    `slots` in list order, which fall away to the headstock by `back_angle` (radians). `face` is the board's face over
    the nut's bottom along its length, from its left end to its right one, (along, height); empty where not told.
    `zero_fret`: the slots only guide.
    """

    length: XY
    turn: float
    thickness: float
    back_angle: float
    slots: tuple[NutSlot, ...]
    face: tuple[XY, ...] = ()
    height: float | None = None
    zero_fret: bool = False
