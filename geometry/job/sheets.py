"""What is to be printed and cut, and on what."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length

Work = Literal["cut", "route", "drill", "mark", "lay", "centre", "hidden", "before", "metal", "dimension", "note"]
"""What a line in a file for a machine is for."""


class Sheets(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Paper and templates by name; `turn` portrait, landscape or either; kerf and cutter for the files.

    `dxf` is the release of DXF, `arcs` how arcs of outlines are written; `purposes` names the lines that are written by
    what they are for, None: all of them. `ledge` is the finish left round the footprint.
    """

    paper: str = "A4"
    turn: Literal["either", "portrait", "landscape"] = "either"
    margin: Length = 8.0
    templates: tuple[str, ...] = ("placement",)
    kerf: Length = 0.0
    cutter: Length | None = None
    datum: Literal["board end", "saddle centre", "lower left"] = "board end"
    text: Literal["text", "outlines"] = "text"
    dxf: Literal["R2010", "R12"] = "R2010"
    arcs: Literal["bulges", "chords"] = "bulges"
    purposes: tuple[Work, ...] | None = None
    ledge: Length = 0.8

    def __post_init__(self) -> None:
        length_between("The sheet's margin", self.margin, 5, 40)
        length_between("The ledge of finish", self.ledge, 0, 5)
        length_between("The kerf", self.kerf, 0, 2)
        length_between("The cutter", self.cutter, 0.1, 25)
        if self.purposes is not None and not self.purposes:
            raise NotAJob("The files for machines name no purpose; name one at least, or leave “purposes” out")
