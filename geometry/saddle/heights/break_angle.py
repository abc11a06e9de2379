"""The saddle's height: how far it stands over the bridge, how steeply the strings break over it, and what wood is left.

All bounds: common practice, no source. Lengths in mm, angles in radians.
"""

import math

import msgspec

from geometry.findings import Finding, Grade
from geometry.layout import TWO_SIDED_95
from geometry.units import Unit, said, said_angle, said_pm

LOW, HIGH = 2.0, 8.0
"""A saddle that stands out less presses too lightly; one that stands out more levers at the bridge."""
SHALLOW, STEEP = math.radians(12), math.radians(45)
"""A string that breaks less buzzes and slips sideways; one that breaks more leans the saddle forward."""
LEAST_WOOD = 2.0
"""Under the slot."""
LEAST_SEATED = 0.4
"""Of the saddle's whole height this part at least stands in the slot."""
SD_THICKNESS, SD_DEPTH, SD_BEHIND = 0.1, 0.2, 0.3
"""One standard deviation of the bridge's thickness and the slot's depth as measured, and of how far behind the peak a
string enters the bridge."""


class SaddleHeight(msgspec.Struct, frozen=True, kw_only=True):
    """What is known of the saddle's height; None where it is not.

    `string_over_top`: the string's underside over the top, at the saddle, with its standard deviation `over_top_sd`.
    `bridge`: the bridge's thickness at the slot. `slot_depth`: from the bridge's top. `behind`: from the string's break
    point to where it enters the bridge (pin or tie hole), along the string.
    """

    string_over_top: float | None = None
    over_top_sd: float = 0.0
    bridge: float | None = None
    slot_depth: float | None = None
    behind: float | None = None

    @property
    def projection(self) -> float | None:
        """How far the saddle stands out over the bridge."""
        if self.string_over_top is None or self.bridge is None:
            return None
        return self.string_over_top - self.bridge

    @property
    def wood(self) -> float | None:
        """The wood left under the slot."""
        return None if self.bridge is None or self.slot_depth is None else self.bridge - self.slot_depth

    @property
    def projection_sd(self) -> float:
        """The projection's standard deviation."""
        return math.hypot(self.over_top_sd, SD_THICKNESS)

    @property
    def degrees(self) -> tuple[float, float] | None:
        """How steeply the strings break over the saddle, and its standard deviation, degrees."""
        out, behind = self.projection, self.behind
        if out is None or behind is None or out <= 0:
            return None
        sd = math.hypot(behind * self.projection_sd, out * SD_BEHIND) / (out * out + behind * behind)
        return math.degrees(break_angle(out, behind)), math.degrees(sd)


def break_angle(projection: float, behind: float) -> float:
    """How steeply a string goes down from the saddle's peak, `projection` over the bridge, into it `behind` (radians).

    The degree or less by which it comes up to the saddle is left out.
    """
    return math.atan2(projection, behind)


def said_degrees(degrees: float, pm95: float) -> str:
    """An angle in whole degrees with its ±, rounded up: never better than it is."""
    return said_angle(degrees, pm95, 0)


def saddle_height_findings(
    height: SaddleHeight, side: str = "", unit: Unit = "mm", at: str = ""
) -> tuple[Finding, ...]:
    """What is too low, too high, too shallow or too thin; `side` (bass, treble, both) is named where it is given, or
    another place, `at`, in words with a space before them.
    """
    found = []
    at = at or (" at both sides" if side == "both" else f" at the {side} side" if side else "")
    out, wood = height.projection, height.wood
    if out is not None:
        found += _projection(out, height.projection_sd * TWO_SIDED_95, at, unit)
        if height.degrees is not None:
            found += _angle(*height.degrees, at)
        if height.slot_depth is not None and out > 0:
            seated = height.slot_depth / (height.slot_depth + out)
            if seated < LEAST_SEATED:
                text = (
                    f"Only {said(height.slot_depth, unit)} of the saddle stands in the slot{at} and "
                    f"{said(out, unit)} stands out of it: it will lean forward. Deepen the slot or lower the "
                    "saddle."
                )
                found.append(_finding("look", "saddle.leaning", text, {"seated": seated}))
    if wood is not None and wood < LEAST_WOOD:
        grade: Grade = "stop" if wood <= 0 else "look"
        text = f"{said(max(wood, 0), unit)} of wood stays under the slot{at}; leave {said(LEAST_WOOD, unit)} or more."
        found.append(_finding(grade, "wood.under", text, {"wood": wood}))
    return tuple(found)


def _projection(out: float, wide: float, at: str, unit: Unit) -> list[Finding]:
    values, stands = {"projection": out, "pm95": wide}, said_pm(wide, unit, abs(out))
    if out <= 0:
        text = (
            f"The strings would lie {stands} below the bridge’s top{at}: no saddle can carry them. "
            "Look at the heights; the neck angle may need a reset first."
        )
        return [_finding("stop", "saddle.none", text, values)]
    if out < LOW:
        text = (
            f"The saddle would stand only {stands} over the bridge{at}: the strings would press lightly on "
            "it. A thinner bridge or a neck reset comes first."
        )
        return [_finding("look", "saddle.low", text, values)]
    if out > HIGH:
        text = (
            f"The saddle would stand {stands} over the bridge{at}: so tall a saddle can split its slot. A "
            "thicker bridge is safer."
        )
        return [_finding("look", "saddle.high", text, values)]
    return []


def _angle(degrees: float, sd: float, at: str) -> list[Finding]:
    values, wide = {"degrees": degrees, "pm95": TWO_SIDED_95 * sd}, said_degrees(degrees, TWO_SIDED_95 * sd)
    if degrees < math.degrees(SHALLOW):
        text = f"The strings break over the saddle by only {wide}{at}; ramp the pin holes’ front edges."
        return [_finding("look", "saddle.shallow", text, values)]
    if degrees > math.degrees(STEEP):
        text = f"The strings break over the saddle by {wide}{at}; move the holes back or lower the saddle."
        return [_finding("look", "saddle.steep", text, values)]
    return []


def _finding(grade: Grade, code: str, text: str, values: dict[str, float]) -> Finding:
    return Finding(grade=grade, code=code, text=text, values=values, where="saddle")
