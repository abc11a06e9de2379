"""The layout as a whole."""

from typing import Literal

import msgspec

from geometry.findings import Finding
from geometry.layout.blanks import NutBlank, SaddleBlank
from geometry.layout.floating_plan import FloatingPlan, TailPlan
from geometry.layout.hardware_plan import HardwarePlan
from geometry.layout.measured import Fit, FretPlan, Margins, Neck, PlacedPoint, Survey
from geometry.layout.old_plan import Consequences, OldPlan
from geometry.layout.record import XY, Record
from geometry.layout.separate_plan import SeparatePlan
from geometry.layout.strings_to_bridge import BridgePlan, SaddlePlan, StringPlan


class Check(Record, frozen=True):
    """A distance to check with a rule before the glue: between two places that are really there.

    `from_` and `to` are words for the person ("board end, bass", "bridge front, bass edge"); `code` never changes.
    """

    code: str
    from_: str = msgspec.field(name="from")
    to: str
    from_xy: XY
    to_xy: XY
    distance: float
    pm95: float


class Layout(Record, frozen=True):
    """All that is worked out. `frame` is "neck", or "straightedge" as long as no neck can be found.

    `rough` holds start places of points that are loose or still to be measured, for drawing only.
    """

    frame: Literal["neck", "straightedge"]
    points: dict[str, PlacedPoint]
    readings: tuple[Fit, ...]
    survey: Survey
    rough: dict[str, XY] = msgspec.field(default_factory=dict)
    neck: Neck | None = None
    frets: FretPlan | None = None
    margins: Margins | None = None
    strings: tuple[StringPlan, ...] = ()
    saddle: SaddlePlan | None = None
    bridge: BridgePlan | None = None
    saddle_blank: SaddleBlank | None = None
    nut_blank: NutBlank | None = None
    floating: FloatingPlan | None = None
    tail: TailPlan | None = None
    separate: SeparatePlan | None = None
    old: OldPlan = OldPlan()
    consequences: Consequences | None = None
    hardware: HardwarePlan = HardwarePlan()
    checks: tuple[Check, ...] = ()
    findings: tuple[Finding, ...] = ()


def leans_opposite(layout: Layout) -> bool:
    """Whether it is the slot, as it is cut, that leans the other way than the strings want."""
    return layout.saddle is not None and "slot" in layout.saddle.wrong_way


def leans_wrong(layout: Layout) -> bool:
    """Whether a slot or a saddle leans the wrong way for the hand."""
    return layout.saddle is not None and bool(layout.saddle.wrong_way)
