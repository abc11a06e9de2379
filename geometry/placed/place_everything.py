"""Everything that is placed from the survey, in all perturbed states: neck, frets, strings, saddle line, bridge.

A stage that lacks its inputs is None, and so are all that stand on it.
"""

import msgspec

from geometry.bridge import seat_bridge
from geometry.frame import Array, Points
from geometry.frets.fret_fit import FittedSpacing, fit_frets
from geometry.frets.fret_lines import FretLines, fret_lines
from geometry.job import Job, Saddle
from geometry.neck.find_neck import NeckFrame, find_neck
from geometry.neck.string_paths import Across, OuterPaths, across, on_the_nut, outer_paths
from geometry.perturbed_states import PerturbedStates, perturb
from geometry.saddle import saddle_line, string_plans
from geometry.saddle.saddle_line import SaddleLine, Slot, Strung
from geometry.saddle.string_plans import Peaks, WantedCompensation
from geometry.survey.result import Surveyed
from geometry.survey.rows.one_scale import unread
from geometry.units import mm

USUAL = Saddle()
"""The saddle while nothing is said of it."""
REACH = 640.0
"""About where a saddle lies while nothing of the frets is known, mm (common practice, no source)."""


class OnNeck(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """What stands on the neck alone: the strings side by side (None while not given), the outer paths, the frets' fit
    and their lines (None while none is read).
    """

    frame: NeckFrame
    strings: Across | None
    paths: OuterPaths
    spaced: FittedSpacing | None
    lines: FretLines | None


class OnStrings(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """What stands on the strings. `wanted` is what each asks for, `slot` the slot as it will be or as it is cut, and
    `peaks` where the saddle in it peaks under each string.
    """

    wanted: WantedCompensation
    strung: Strung
    line: SaddleLine
    slot: Slot
    peaks: Peaks
    seated: seat_bridge.SeatedBridge | None
    pins: Points | None


class PlacedInstrument(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """All of it. `states` carries the strings' own uncertainty once they are known."""

    states: PerturbedStates
    neck: OnNeck | None = None
    saddle: OnStrings | None = None

    @property
    def saddle_places(self) -> Array | None:
        """The saddle's distance from the nut's front along the outer strings [left, right], in all rows (rows, 2)."""
        return None if self.saddle is None else self.saddle.line.from_nut


def place_everything(job: Job, surveyed: Surveyed, also: tuple[str, ...] = ()) -> PlacedInstrument:
    """Place all that the job's inputs allow; the points in `also` are moved as well."""
    unknowns = [name for name in surveyed.extra_at if name.startswith(("scale.", "shift."))]
    moved = _moved(job, surveyed)
    moved += [name for name in also if name not in moved]
    states = perturb(surveyed, moved, unknowns, string_plans.own_unknowns(job), unread(surveyed.extra_at))
    frame = find_neck(states, job)
    if frame is None:
        return PlacedInstrument(states=states)
    strings = across(job, frame)
    paths = outer_paths(frame, strings, _reach(job, states))
    spaced = fit_frets(states, job, frame, paths)
    lines = fret_lines(job, frame, paths, spaced) if spaced is not None else None
    neck = OnNeck(frame=frame, strings=strings, paths=paths, spaced=spaced, lines=lines)
    if strings is None or spaced is None or lines is None:
        return PlacedInstrument(states=states, neck=neck)
    start, ends = on_the_nut(frame, strings.nut), paths.start + paths.along * spaced.nominal
    # all rows only for what was heard on a trial saddle, whose ± they tell
    rows = len(start) if job.strings is not None and job.strings.heard else 1
    nominal = saddle_line.nominal_places(ends[:rows], strings.saddle)
    bare = saddle_line.Strung(start=start[:rows], nominal=nominal, break_point=nominal)
    wanted = string_plans.compensate_all(job, states, frame, bare, lines)
    strung = saddle_line.string_up(start, ends, strings.saddle, wanted.compensation(states))
    return PlacedInstrument(states=states, neck=neck, saddle=_lay_saddle(job, states, frame, wanted, strung))


def _lay_saddle(
    job: Job, states: PerturbedStates, frame: NeckFrame, wanted: WantedCompensation, strung: Strung
) -> OnStrings:
    """The saddle line under the strings, and the bridge under the saddle."""
    wish = job.saddle or USUAL
    line = string_plans.lay_line(strung, wish)
    slot = saddle_line.wanted_slot(line, wish)
    seated, pins = None, None
    if job.bridge is not None and job.strings is not None:
        seated = seat_bridge.seat(states, job, frame, job.bridge, slot)
        slot = seated.slot
        pins = seat_bridge.pin_places(seated, strung, job.bridge, job.strings)
    peaks = string_plans.find_peaks(strung, slot) if job.separate is None else string_plans.own_peaks(strung)
    return OnStrings(wanted=wanted, strung=strung, line=line, slot=slot, peaks=peaks, seated=seated, pins=pins)


def _moved(job: Job, surveyed: Surveyed) -> list[str]:
    """The points that anything is placed from: those of the neck, the frets, trial saddles and a kept footprint."""
    starts = ("nut.", "end.", "fret12.", "edge.", "thread.", "trial.")
    names = [name for name in surveyed.point_at if name.startswith(starts)]
    if job.old is not None and job.bridge is not None and job.bridge.seat == "old footprint":
        names += [name for name in job.old.outline if name not in names]
    return names


def _reach(job: Job, states: PerturbedStates) -> float:
    """About how far the saddle lies from the nut, for the outer paths' directions; alike for both hands."""
    scales = [states.unknown(f"scale.{side}") for side in ("left", "right", "centre")]
    read = [float(scale[0]) for scale in scales if scale is not None]
    if not read:
        read = [
            2 * states.apart(f"fret12.{side}", f"nut.{side}")
            for side in ("left", "right")
            if states.has(f"fret12.{side}", f"nut.{side}")
        ]
    if read:
        return sum(read) / len(read)
    return mm(job.frets.scale) if job.frets.scale is not None else REACH
