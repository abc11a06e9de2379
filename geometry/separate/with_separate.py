"""Saddles of their own on bases that are screwed down: whether their travel reaches every string's place."""

import math

import numpy as np
from msgspec.structs import replace

from geometry.bridge import seat_bridge
from geometry.frame import Array, Points, dot, unit, xys
from geometry.frets import fret_lines
from geometry.job import Job, Separate
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, Check, Laid, Layout, SaddleReach, SeparatePlan, Slanted
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings
from geometry.saddle import string_plans
from geometry.saddle.heights import top_fall
from geometry.saddle.heights.break_angle import SaddleHeight
from geometry.saddle.heights.read_heights import Height
from geometry.saddle.heights.saddle_height import over_top
from geometry.saddle.in_pieces.pieces import Peaks
from geometry.separate import base_holes, base_holes_told, distances, separate_told
from geometry.separate.narrowest import narrowest
from geometry.separate.reach import places_pm95, reach_of
from geometry.separate.set_bases import Base, set_bases
from geometry.units import mm


def with_separate(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    """The layout with the saddles' reach, their bases and holes, and what is to be said of them."""
    separate, layout = job.separate, laid.layout
    if separate is None or job.strings is None or on.spaced is None:
        return laid
    strung, names = strings.strung, tuple(string.name for string in job.strings.list)
    pm95 = places_pm95(states, on.frame, strung, strings.wanted)
    bases = set_bases(separate, strung, strings.line, pm95)
    saddles = reach_of(job, separate, strung, bases, pm95, strings.wanted.ready.places.nominal)
    screws = base_holes.screw_holes(separate, bases, names)
    through = base_holes.through_holes(separate, bases, strung.break_point, names)
    plan = _plan(job, separate, states, on, strings, layout, (bases, saddles, screws, through), pm95)
    fall = top_fall.find_fall(states, strings.wanted.ready, job.bass, on.frame, strings.line)
    twelfth = fret_lines.twelfth(job, on.paths, on.spaced)
    checks = distances.distances(job, states, on.frame, twelfth, strung, bases, screws, fall)
    laid = laid.with_places(
        separate=plan,
        checks=(*(_widened(job, check, saddles) for check in checks), *layout.checks),
        strings=string_plans.describe(
            job, strung, strings.wanted, _peaks(saddles), through.at if len(through.names) else None
        ),
    )
    return laid.tells(separate_told.findings, job, separate, plan, laid.layout).tells(
        base_holes_told.findings, job, separate, plan, layout.old
    )


_Made = tuple[tuple[Base, ...], tuple[SaddleReach, ...], base_holes.HolesInRows, base_holes.HolesInRows]


def _plan(
    job: Job,
    separate: Separate,
    states: PerturbedStates,
    on: OnNeck,
    strings: OnStrings,
    layout: Layout,
    made: _Made,
    pm95: Array,
) -> SeparatePlan:
    bases, saddles, screws, through = made
    names = tuple(one.string for one in saddles)
    corners = [base_holes.corners_of(separate, base) for base in bases]
    each = len(separate.screws)
    pieces = [np.concatenate((ring, screws.at[:, k * each : (k + 1) * each]), axis=1) for k, ring in enumerate(corners)]
    pm95s = [seat_bridge.pm95s(states, on.frame, piece) for piece in pieces]
    holes = base_holes.as_holes(screws, mm(separate.screw))
    everything = base_holes.together(screws, through)
    gaps, over = base_holes.to_old(
        states,
        on.frame,
        everything,
        layout.old,
        separate.opening,
        _round_all(corners) if separate.opening else corners[0],
    )
    left = min(one.least - one.pm95 for one in saddles)
    wide = mm(separate.through.diameter) if separate.through is not None else 0.0
    return SeparatePlan(
        saddles=saddles,
        bases=tuple(
            base_holes.base_plan(base, names, xys(ring[0]), pms, holes[k * each : (k + 1) * each])
            for k, (base, ring, pms) in enumerate(zip(bases, corners, pm95s, strict=True))
        ),
        left=left,
        travel=mm(separate.travel) - 2 * min(one.least - one.pm95 for one in saddles),
        best=_best(separate, strings, pm95),
        through=base_holes.as_holes(through, wide),
        through_pm95=seat_bridge.pm95s(states, on.frame, through.at) if len(through.names) else (),
        used_again=tuple(
            gap.old.removeprefix("point:") for gap in gaps if base_holes_told.takes(gap, separate, layout.old)
        ),
        walls=tuple(sorted((*base_holes.between(everything), *gaps), key=lambda gap: gap.mm)),
        opening=_opening(separate, layout),
        over=tuple(over),
        degrees=_degrees(job, separate, states, strings, bases, through.at if len(through.names) else None),
        across_checked=states.checked(seat_bridge.across(on.frame, corners[0])),
    )


def _round_all(corners: list[Points]) -> Points:
    """One outline round all bases that stand side by side: from the first's outer corners to the last's."""
    if len(corners) == 1:
        return corners[0]
    ends = sorted(corners, key=lambda ring: float(ring[0].imag.mean()))
    right, left = ends[0], ends[-1]
    return np.stack((left[:, 0], right[:, 1], right[:, 2], left[:, 3]), axis=1)


def _best(separate: Separate, strings: OnStrings, pm95: Array) -> Slanted | None:
    """How it would be at the slant that leaves the most reach; for one base alone."""
    if separate.bases != "one":
        return None
    places = strings.strung.break_point[0]
    strip = narrowest(places.real, places.imag, pm95)
    width = strip.width
    return Slanted(turn=-math.atan(strip.slope), left=(mm(separate.travel) - width) / 2, travel=width)


def _peaks(saddles: tuple[SaddleReach, ...]) -> Peaks:
    """Where each string breaks: where it wants to, or as near as its travel lets it, in the first row."""
    short = [min(one.ahead, 0.0) or max(-one.behind, 0.0) for one in saddles]
    x = [one.wanted[0] - off for one, off in zip(saddles, short, strict=True)]
    return Peaks(np.full(len(x), 0.5), np.array(x))


def _opening(separate: Separate, layout: Layout) -> tuple[tuple[float, float], ...]:
    found = [layout.points.get(name) for name in separate.opening]
    return tuple((one.x, one.y) for one in found if one is not None) if all(found) else ()


def _degrees(
    job: Job,
    separate: Separate,
    states: PerturbedStates,
    strings: OnStrings,
    bases: tuple[Base, ...],
    through: Points | None,
) -> tuple[tuple[float, float] | None, tuple[float, float] | None]:
    """How steeply the outer strings [bass, treble] go down to their through holes, with the ±, degrees."""
    if through is None or separate.thickness is None:
        return (None, None)
    broken, along = strings.strung.break_point[0], unit(strings.strung.along[0])
    away = through[0] - broken
    behind = np.copysign(np.abs(away), dot(along, away))
    ends = dict(zip(SIDES, (int(broken.imag.argmax()), int(broken.imag.argmin())), strict=True))
    found = {}
    for side, string in ends.items():
        taken = over_top(states, strings.wanted.ready, side, string).taken
        base = next(one for one in bases if string in one.strings)
        on = [one[string] for one in (base.own(broken[None])[0].real, base.own(through[:1])[0].real)]
        found[job.bass_or_treble(side)] = _goes_down(separate, taken, float(behind[string]), *map(float, on))
    return found["bass"], found["treble"]


def _goes_down(
    separate: Separate, taken: Height | None, behind: float, saddle: float, hole: float
) -> tuple[float, float] | None:
    """How steeply a string goes down to a hole that lies so far `behind` its break point (0 or less: not behind);
    `saddle` and `hole` are both places behind the base's front, mm. Past the base it goes down to the body, but no
    steeper than to the base's back edge. None where the hole does not lie behind.
    """
    if taken is None or behind <= 0:
        return None
    thick, end = mm(separate.thickness or 0), mm(separate.length)
    ways = [(thick, behind)]
    if hole > end:
        ways = [(0.0, behind)]
        if saddle < end:
            ways.append((thick, behind * (end - saddle) / (hole - saddle)))
    each = [
        SaddleHeight(string_over_top=taken.mm, over_top_sd=taken.sd, bridge=over, behind=back).degrees
        for over, back in ways
    ]
    known = [one for one in each if one is not None]
    degrees = min(known, default=None)
    return None if degrees is None or len(known) < len(ways) else (degrees[0], TWO_SIDED_95 * degrees[1])


def _widened(job: Job, check: Check, saddles: tuple[SaddleReach, ...]) -> Check:
    """A distance to a string's own place is no surer than that string's compensation."""
    if not check.code.startswith("fret12.saddle."):
        return check
    hand = check.code.rsplit(".", 1)[1]
    outer = max(saddles, key=lambda one: one.wanted[1] * (1 if (hand == "bass") == (job.bass == "left") else -1))
    return replace(check, pm95=max(check.pm95, outer.pm95))
