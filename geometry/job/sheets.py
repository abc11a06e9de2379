"""What is to be printed and cut, and on what."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length, mm

Work = Literal["cut", "route", "drill", "mark", "lay", "centre", "hidden", "before", "metal", "dimension", "note"]
"""What a line in a file for a machine is for."""
Operation = Literal["outline", "window", "slot", "holes"]
"""What a cutter does: round a part, within a window, in a slot, or in holes that are milled rather than drilled."""

CUTS: dict[Operation, str] = {"outline": "outlines", "window": "windows", "slot": "slots", "holes": "holes"}
"""The operations in words."""

PILOT = 1.0
"""The diameter of a template's pilot holes, mm: that of a scriber, and the least that a pin hole can have (common
practice, no source)."""


class Sheets(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Paper and templates by name; `turn` portrait, landscape or either; kerf and cutters for the files.

    `cutters` names one for an operation, in place of `cutter`; holes are milled only where theirs is named, else they
    are drilled. `datum` own: the board's end, and of a loose part its lower left corner. `window`: the bridge's place
    is a window to cut out, instead of an outline to mark. `edge`: how far a placement template's own outer edge lies
    round its lines in files for machines; None: it has none, for a machine that works on the instrument itself.
    `pilot`: the diameter of its pin holes then. `pin_holes` elsewhere: undersize, to be reamed, or finished. `dxf` is
    the release of DXF, `arcs` how arcs of outlines are written; `purposes` names the lines that are written by what
    they are for, None: all of them. `ledge` is the finish left round the footprint. `turning`: two holes beside bridge
    and plate, to turn them over on. `stock`: the width and height of a piece that the small parts are laid on, None:
    there is no such file; `grain` which way its grain runs.
    """

    paper: str = "A4"
    turn: Literal["either", "portrait", "landscape"] = "either"
    margin: Length = 8.0
    templates: tuple[str, ...] = ("placement",)
    kerf: Length = 0.0
    cutter: Length | None = None
    cutters: dict[Operation, Length] = {}
    window: bool = False
    edge: Length | None = 8.0
    pilot: Length = PILOT
    pin_holes: Literal["to ream", "finished"] = "to ream"
    datum: Literal["own", "board end", "saddle centre", "lower left"] = "own"
    text: Literal["text", "outlines"] = "text"
    dxf: Literal["R2010", "R12"] = "R2010"
    arcs: Literal["bulges", "chords"] = "bulges"
    purposes: tuple[Work, ...] | None = None
    ledge: Length = 0.8
    turning: bool = False
    stock: tuple[Length, Length] | None = None
    grain: Literal["unknown", "along width", "along height"] = "unknown"

    def __post_init__(self) -> None:
        length_between("The sheet’s margin", self.margin, 5, 40)
        length_between("The ledge of finish", self.ledge, 0, 5)
        length_between("The kerf", self.kerf, 0, 2)
        length_between("The cutter", self.cutter, 0.1, 25)
        for operation, cutter in self.cutters.items():
            length_between(f"The cutter for {CUTS[operation]}", cutter, 0.1, 25)
        length_between("The edge round a template", self.edge, 2, 50)
        length_between("A template’s pilot hole", self.pilot, 0.5, 12)
        for called, length in zip(("width", "height"), self.stock or (), strict=False):
            length_between(f"The stock’s {called}", length, 10, 3000)
        if self.purposes is not None and not self.purposes:
            raise NotAJob("The files for machines name no purpose; name one at least, or leave “purposes” out")

    @property
    def names_tool(self) -> bool:
        """Whether anything is named that may not fit what it is to cut: a cutter, a kerf, other pilot holes."""
        return self.cutter is not None or bool(self.cutters) or mm(self.kerf) > 0 or mm(self.pilot) != PILOT
