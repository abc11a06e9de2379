"""From string paths to the saddle line: each string's break point, the straight line that best fits them, the slot.

**Break point**: where a string leaves the saddle, `compensation` past its nominal place along the neck centre line.
The slot's front edge lies `peak_at` × thickness in front of the saddle line.
"""

import msgspec
import numpy as np

from geometry.findings import Finding
from geometry.frame import Array, Points, crossing, pair, unit, xy
from geometry.frets import Spaced
from geometry.job import Job, Saddle
from geometry.layout import SaddlePlan
from geometry.neck import NeckFrame
from geometry.paths import Across, OuterPaths, on_the_nut
from geometry.sample import Sample
from geometry.spacing import CENTS
from geometry.strings.line import TIE, Line
from geometry.units import mm, said

BEYOND = 10.0
"""How far the slot runs past the outer strings where its length is not given, mm (common practice, no source)."""
LEANS = 0.4
"""A slant from which on a saddle is said to lean, mm (common practice, no source)."""


class Strung(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """All strings in list order in all rows: `start` on the nut, `nominal` point and `break_point` (rows, n)."""

    start: Points
    nominal: Points
    break_point: Points

    @property
    def along(self) -> Points:
        """The paths' directions, (rows, n)."""
        return unit(self.break_point - self.start)


class SaddleLine(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The line x = `at` + `lean` × y in all rows (rows,); the outer strings' y on it and the x of the nut's front on
    their paths, [left, right] (rows, 2).
    """

    at: Array
    lean: Array
    outer: Array
    nut: Array

    @property
    def from_nut(self) -> Array:
        """The outer strings' distance from the nut's front to the line, along the centre line (rows, 2)."""
        return self.x(self.outer) - self.nut

    def x(self, y: Array) -> Array:
        """Where the line lies at places y (rows, k)."""
        return self.at[:, None] + self.lean[:, None] * y


def string_up(frame: NeckFrame, strings: Across, paths: OuterPaths, spaced: Spaced, compensation: Array) -> Strung:
    """Every string's path in all rows; `compensation` (rows, n) in mm."""
    start = on_the_nut(frame, strings.nut)
    ends = paths.start + paths.along * spaced.nominal
    along = (ends[:, 0] - ends[:, 1])[:, None]
    nominal = ends[:, :1].real + 1j * strings.saddle
    for _ in range(3):
        aim = nominal.real + compensation + 1j * strings.saddle
        nominal = crossing(start, aim - start, ends[:, 1:], along)
    return Strung(start=start, nominal=nominal, break_point=nominal.real + compensation + 1j * strings.saddle)


def fit_line(strung: Strung, best: Line, straight: bool) -> SaddleLine:
    """The saddle line in all rows: least squares with the strings held as `best` holds them in the first row."""
    x, y = strung.break_point.real, strung.break_point.imag
    pressed = best.stays != 0
    held = np.where(pressed, 1 + TIE, TIE)
    aim = x - np.where(pressed, (best.break_x - best.line) / (1 + TIE), 0.0)
    share = held / held.sum()
    middle_y, middle_x = y @ share, aim @ share
    off = y - middle_y[:, None]
    lean = np.zeros(len(x))
    if not straight and x.shape[1] > 1:
        lean = (off * aim) @ share / ((off**2) @ share)
    ends = [int(y[0].argmax()), int(y[0].argmin())]
    at = middle_x - lean * middle_y
    return SaddleLine(at=at, lean=lean, outer=y[:, ends], nut=strung.start[:, ends].real)


class Slot(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """A slot in all rows: the middle of its front edge (rows,) and the direction `leftward` along it."""

    middle: Points
    leftward: Points
    length: float
    thickness: float
    peak: float

    @property
    def tailward(self) -> Points:
        """Square to the slot, toward the tail (rows,)."""
        return -1j * self.leftward

    def ends(self, depth: float) -> Points:
        """The left and right ends of the line `depth` mm behind the front edge, (rows, 2)."""
        reach = np.array([0.5, -0.5]) * self.length
        return (self.middle + self.tailward * depth)[:, None] + self.leftward[:, None] * reach

    def x_at(self, y: Array) -> Array:
        """Where the slot's saddle line lies at places y (rows, k)."""
        on = (self.middle + self.tailward * (self.peak * self.thickness))[:, None]
        return on.real + (self.leftward.real / self.leftward.imag)[:, None] * (y - on.imag)


def wanted_slot(line: SaddleLine, saddle: Saddle) -> Slot:
    """The slot that the saddle line asks for."""
    leftward: Points = (line.lean + 1j) / np.hypot(line.lean, 1.0)
    y = line.outer.mean(axis=1)
    thickness = mm(saddle.thickness)
    return Slot(
        middle=line.at + line.lean * y + 1j * y + 1j * leftward * (saddle.peak_at * thickness),
        leftward=leftward,
        length=mm(saddle.slot_length) if saddle.slot_length is not None else float(np.ptp(line.outer[0])) + 2 * BEYOND,
        thickness=thickness,
        peak=saddle.peak_at,
    )


def describe(sample: Sample, job: Job, spaced: Spaced, line: SaddleLine, slot: Slot) -> SaddlePlan:
    """The saddle as the layout holds it: the line wanted, and the slot as it will be or as it is cut.

    Its ± is that of its distance from the nut's front along the outer strings, which is what the tuning hangs on.
    """
    x = line.x(line.outer)
    nominal = spaced.nominal[0]
    length = line.from_nut
    pm = sample.pm95(length)
    slant = x[:, 0] - x[:, 1] if job.bass == "left" else x[:, 1] - x[:, 0]
    wanted = wanted_slot(line, job.saddle or Saddle())
    on = wanted.ends(wanted.peak * wanted.thickness)[0]
    front, back = slot.ends(0.0)[0], slot.ends(slot.thickness)[0]
    left_over = slot.x_at(line.outer)[0] - x[0]
    left_over[np.abs(left_over) < 1e-9] = 0.0
    return SaddlePlan(
        line=(xy(on[0]), xy(on[1])),
        at_strings=(xy(x[0, 0] + 1j * line.outer[0, 0]), xy(x[0, 1] + 1j * line.outer[0, 1])),
        front=(xy(front[0]), xy(front[1])),
        slot=(xy(front[0]), xy(front[1]), xy(back[1]), xy(back[0])),
        slant=float(abs(slant[0])),
        slant_pm95=float(sample.pm95(slant)),
        longer="neither" if abs(slant[0]) < 0.05 else "bass" if slant[0] > 0 else "treble",
        pm95=pair(pm),
        cents95=pair(CENTS * pm / nominal),
        checked=sample.checked(length[:, 0]) and sample.checked(length[:, 1]),
        left_over=pair(left_over),
        left_over_cents=pair(CENTS * left_over / nominal),
    )


def findings(job: Job, plan: SaddlePlan, line: SaddleLine, slot: Slot) -> tuple[Finding, ...]:
    """Which side is longer, and a slot that leans the wrong way or cannot follow the line."""
    bass = 0 if job.bass == "left" else 1
    cut = slot.x_at(line.outer)[0]
    leaning = float(cut[bass] - cut[1 - bass])
    signed = plan.slant if plan.longer == "bass" else -plan.slant
    words = {"bass": "the bass side", "treble": "the treble side"}
    cut_longer = "treble" if plan.longer == "bass" else "bass"
    found = []
    if abs(leaning) > LEANS and abs(signed) > LEANS and leaning * signed < 0:
        found.append(
            Finding(
                grade="stop",
                code="slot.leans",
                text=f"The slot leans the wrong way for a {job.hand}-handed instrument: it stands "
                f"{said(abs(leaning), job.unit)} farther on {words[cut_longer]}, and the strings want "
                f"{said(plan.slant, job.unit)} more on {words[plan.longer]}. Fill the slot and cut it anew.",
                values={"slant": signed, "cut": leaning},
                where="saddle",
            )
        )
    worst = max(plan.left_over, key=abs)
    if abs(worst) >= 0.05:
        cents = max(plan.left_over_cents, key=abs)
        found.append(
            Finding(
                grade="look",
                code="slot.left_over",
                text=f"The slot as cut cannot follow the saddle line: {said(abs(worst), job.unit, 2)} is left "
                f"over at the outer strings, {abs(cents):.1f} cents at the twelfth fret. "
                "Seat the bridge with the slot, or cut it anew.",
                values={"mm": worst, "cents": cents},
                where="saddle",
            )
        )
    if not found and plan.longer != "neither":
        side = job.bass if plan.longer == "bass" else ("left" if job.bass == "right" else "right")
        found.append(
            Finding(
                grade="good",
                code="saddle.slant",
                text=f"The saddle stands {said(plan.slant, job.unit)} farther on {words[plan.longer]}, at the {side}.",
                values={"slant": signed},
                where="saddle",
            )
        )
    return tuple(found)
