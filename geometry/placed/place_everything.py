"""Everything that is placed from the survey, in all perturbed states: neck, frets, strings, saddle line, bridge.

A stage that lacks its inputs is None, and so are all that stand on it.
"""

import msgspec
from msgspec.structs import replace

from geometry.bridge import seat_bridge, seated_bridge, stand_bridge
from geometry.frame import Array, Points
from geometry.frets.fret_fit import FittedSpacing, fit_frets
from geometry.frets.fret_lines import FretLines, fret_lines
from geometry.job import Bridge, Job, Saddle
from geometry.job.bridges.floating import STANDS
from geometry.job.bridges.tail import READ
from geometry.neck.find_neck import NeckFrame, find_neck
from geometry.neck.string_paths import Across, OuterPaths, across, on_the_nut, outer_paths
from geometry.perturbed_states import PerturbedStates, perturb
from geometry.placed.small_nuts import start_where_said
from geometry.saddle import saddle_line, string_plans
from geometry.saddle.in_pieces import pieces
from geometry.saddle.in_pieces.pieces import Peaks, Piece
from geometry.saddle.in_pieces.splitting import weights_for
from geometry.saddle.saddle_line import SaddleLine, Slot, Strung
from geometry.saddle.string_plans import WantedCompensation
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
    `peaks` where the saddle in it peaks under each string. `pieces` are the saddle's, with the slots that are cut:
    one whose slot is `slot`, or several of which `line` and `slot` are the whole. Strings end in `pins`, or in `ties`.
    """

    wanted: WantedCompensation
    strung: Strung
    line: SaddleLine
    slot: Slot
    peaks: Peaks
    seated: seated_bridge.SeatedBridge | None
    pins: Points | None
    pieces: tuple[Piece, ...]
    ties: Points | None = None

    @property
    def ends(self) -> Points | None:
        """Where the strings end in the bridge, (rows, n)."""
        return self.pins if self.ties is None else self.ties


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
    states = perturb(surveyed, moved, unknowns, string_plans.own_unknowns(job), unread(surveyed.extra_at, job.frets))
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
    ends = paths.start + paths.along * spaced.nominal
    strings = start_where_said(job, frame, strings, lines, ends)
    start = on_the_nut(frame, strings.nut)
    # all rows only for what was heard on a trial saddle, whose ± they tell
    rows = len(start) if job.strings is not None and job.strings.heard else 1
    nominal = saddle_line.nominal_places(ends[:rows], strings.saddle)
    bare = saddle_line.Strung(start=start[:rows], nominal=nominal, break_point=nominal)
    wanted = string_plans.compensate_all(job, states, frame, bare, lines)
    strung = saddle_line.string_up(start, ends, strings.saddle, wanted.compensation(states), strings.first)
    neck = replace(neck, strings=strings)
    return PlacedInstrument(states=states, neck=neck, saddle=_lay_saddle(job, states, frame, wanted, strung))


def _lay_saddle(
    job: Job, states: PerturbedStates, frame: NeckFrame, wanted: WantedCompensation, strung: Strung
) -> OnStrings:
    """The saddle line under the strings, and the bridge under the saddle."""
    wish, strings, bridge = job.saddle or USUAL, job.strings, job.bridge
    longest = None if job.floating is None else mm(job.floating.length)
    asks = pieces.Asks(wanted.ready.places.nominal, weights_for(string_plans.counting(wanted.each)))
    line, slot, parts = pieces.slots_for(strung, wish, strings, asks, string_plans.lay_line, longest)
    seated, pins, ties = None, None, None
    if bridge is not None and strings is not None:
        seated = seat_bridge.seat(states, job, frame, bridge, slot)
        parts, slot = pieces.carried_along(parts, slot, seated.slot), seated.slot
        if len(parts) > 1:
            seated = replace(seated, parts=tuple(piece.slot for piece in parts))
        pins = seat_bridge.pin_places(seated, strung, bridge, strings, parts)
        ties = _tied(bridge, seated, strung)
    elif job.floating is not None:
        seated = stand_bridge.stand(job.floating, slot)
    steps = pieces.steps_of(wish, strings) if strings is not None else None
    peaks = pieces.find_peaks(strung, parts, steps) if job.separate is None else string_plans.own_peaks(strung)
    return OnStrings(
        wanted=wanted,
        strung=strung,
        line=line,
        slot=slot,
        peaks=peaks,
        seated=seated,
        pins=pins,
        pieces=parts,
        ties=ties,
    )


def _tied(bridge: Bridge, seated: seated_bridge.SeatedBridge, strung: Strung) -> Points | None:
    """Where the strings go into a tie block, (rows, n); None for a bridge without."""
    if bridge.tie is None:
        return None
    from geometry.bridge.tied import tie_places  # few bridges have one: the others need not wait for it

    return tie_places(seated, strung, bridge.tie)


def _moved(job: Job, surveyed: Surveyed) -> list[str]:
    """The points that anything is placed from: those of the neck, the frets, trial saddles and a kept footprint."""
    starts = ("nut.", "end.", "fret12.", "edge.", "thread.", "trial.", *_stand_on(job))
    names = [name for name in surveyed.point_at if name.startswith(starts)]
    if job.old is not None and job.bridge is not None and job.bridge.seat == "old footprint":
        names += [name for name in job.old.outline if name not in names]
    return names


def _stand_on(job: Job) -> tuple[str, ...]:
    """What points are called that a floating bridge, a tailpiece and a strap pin are placed from."""
    feet = STANDS if job.floating is not None else ()
    tail = () if job.tail is None else READ if not job.tail.pin else (*READ, "body.")
    return (*feet, *tail)


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
    if not read:
        declared = (job.frets.declared(side) for side in ("left", "right"))
        read = [mm(scale) for scale in declared if scale is not None]
    if read:
        return sum(read) / len(read)
    return mm(job.frets.scale) if job.frets.scale is not None else REACH
