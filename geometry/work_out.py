"""From a job to its layout, one direction, no way back: survey, neck, frets, strings, saddle line, bridge, old work,
check distances. A stage whose inputs are missing says so in a finding, and the layout ends there.

Places come first, and are enough for a picture; what is to be said of them is judged afterwards, in the same order.
"""

from collections.abc import Iterable, Iterator
from typing import Literal

from msgspec.structs import replace

from geometry.bounds import fingerboard as board_bounds
from geometry.bounds import nut_sizes, points_round
from geometry.bounds import saddle_and_bridge as bridge_bounds
from geometry.bounds import side_against_side as height_bounds
from geometry.bounds import string_makes as make_bounds
from geometry.bounds import stringing_asked as string_bounds
from geometry.findings import Finding
from geometry.frets import fret_lines, ladder_check, slants
from geometry.frets.miscounted import counted_wrong, miscounted
from geometry.hardware import markers
from geometry.job import Job
from geometry.layout import (
    HardwarePlan,
    Laid,
    Layout,
    accused_alone,
)
from geometry.neck import find_neck, straightness, string_paths
from geometry.old_work.find_old import find_old
from geometry.old_work.holes import old_holes_told
from geometry.old_work.inside import read_inside
from geometry.perturbed_states import PerturbedStates
from geometry.placed import centre_choices, margins, small_nuts
from geometry.placed.check_distances import check_distances
from geometry.placed.place_everything import OnNeck, OnStrings, PlacedInstrument, place_everything
from geometry.placed.placed_points import place_points, rough_places, seen_from
from geometry.saddle import saddle_line, saddle_line_told, string_plan_findings, string_plans
from geometry.saddle.heights import heights_that_wait, saddle_height, top_fall
from geometry.saddle.in_pieces import pieces_told
from geometry.saddle.in_pieces.pieces import left_and_right
from geometry.survey import survey
from geometry.survey.judge.verdict_findings import survey_findings
from geometry.survey.result import Surveyed
from geometry.with_bridge import with_bridge


def work_out(job: Job) -> Layout:
    """Work out all that the job's readings and inputs carry. Pure: the same job gives the same layout.

    Raises nothing for a job that could be made: what is missing or wrong stands in the findings.
    """
    return lay_out(job, survey(job))


def surveyed_alike(one: Job, other: Job) -> bool:
    """Whether two jobs have the same survey: readings, points and frets, and the words for them."""
    inputs = ((job.points, job.readings, job.frets, job.unit, job.hand) for job in (one, other))
    return next(inputs) == next(inputs)


def lay_out(job: Job, surveyed: Surveyed) -> Layout:
    """The layout of a job whose readings are adjusted already."""
    return lay_places(job, surveyed).judged()


def lay_places(job: Job, surveyed: Surveyed) -> Laid:
    """The places of that layout, which is not judged yet."""
    if job.separate is not None:
        job = replace(job, saddle=None)  # its block tells of one saddle in a slot
    placed = place_everything(job, surveyed)
    frame = placed.neck.frame if placed.neck is not None else None
    placed_at = place_points(placed.states, frame)
    layout = Layout(
        frame="neck" if frame is not None else "straightedge",
        points=placed_at,
        readings=surveyed.fits,
        survey=seen_from(surveyed.report, frame),
        rough=rough_places(surveyed, frame),
        hardware=HardwarePlan(holes=markers.place_holes(job, placed_at)),
    )
    laid = (
        Laid(layout)
        .tells(survey_findings, job, surveyed)
        .tells(_miscounted, job, surveyed)
        .tells(points_round.findings, job, placed_at)
        .tells(read_inside.findings, job)
    )
    return _with_headstock(job, placed, _with_solids(job, placed, _with_neck(job, surveyed, placed, laid)))


def _miscounted(job: Job, surveyed: Surveyed) -> Iterable[Finding]:
    return counted_wrong(job, surveyed) or miscounted(job, surveyed)


def _with_headstock(job: Job, placed: PlacedInstrument, laid: Laid) -> Laid:
    """The headstock, which stands on the neck; its strings come last of all."""
    if job.hardware.headstock is None and job.hardware.tuners is None:
        return laid
    from geometry.bounds import odd_holes  # few jobs have one: the others need not wait for it
    from geometry.hardware import (
        headstock_and_posts,
        headstock_told,
    )

    layout = laid.layout
    found = (
        headstock_and_posts.place(placed.states, job, layout.points, layout.strings)
        if placed.neck is not None
        else None
    )
    laid = laid.with_places(hardware=replace(layout.hardware, headstock=found))
    return laid.tells(headstock_told.findings, job, found).tells(odd_holes.of_headstock, job, found)


def _with_solids(job: Job, placed: PlacedInstrument, laid: Laid) -> Laid:
    """Saddle and nut as solids, where anything was read or asked of them."""
    layout = laid.layout
    thick = job.bridge is not None and None not in job.bridge.thicknesses
    if layout.saddle is None or not (job.nut or job.board.radii or job.board.arch or thick or layout.floating):
        return laid
    from geometry.solids.with_solids import with_solids  # not every job has them: the others need not wait for it

    return with_solids(job, placed, laid).tells(nut_sizes.findings, job)


def _with_neck(job: Job, surveyed: Surveyed, placed: PlacedInstrument, laid: Laid) -> Laid:
    if placed.neck is None:
        return laid.says(find_neck.missing(placed.states, job))
    seen, on = placed.states, placed.neck
    points = laid.layout.points
    described = find_neck.describe(on.frame, points)
    old = find_old(job, points, laid.layout.survey.diameters)
    laid = (
        laid.with_places(neck=described, old=old)
        .tells(old_holes_told.unread, job, old)
        .tells(find_neck.findings, job, described, points)
        .tells(board_bounds.board_findings, job, described)
        .tells(_along_the_edges, job, surveyed, placed, on)
    )
    if on.spaced is None or on.lines is None:
        return laid.says(fret_lines.missing(seen, job))
    plan = fret_lines.describe(seen, job, on.frame, on.spaced, on.lines)
    if job.frets.slanted:
        plan = replace(plan, slants=slants.find_slants(seen, job, on.paths, on.spaced))
    placed_on = replace(markers.place(seen, job, on.frame, on.paths, on.spaced, plan), holes=laid.layout.hardware.holes)
    readings = laid.layout.readings
    laid = (
        laid.with_places(frets=plan, hardware=placed_on)
        .tells(fret_lines.findings, job, seen, plan, on.spaced)
        .tells(slants.findings, job, seen, plan, on.spaced)
        .tells(ladder_check.findings, job, plan, readings, accused_alone(laid.layout.survey, job.readings))
        .tells(fret_lines.unchecked, job, readings)
        .tells(board_bounds.fret_findings, job, described, plan)
        .tells(markers.findings, job, plan, placed_on, described.end)
    )
    if placed.saddle is None:
        return laid.says(string_plan_findings.missing(job))
    lost = saddle_line_told.place_unknown(seen, job, placed.saddle.line)
    if lost is not None:
        return laid.says(lost)
    return with_bridge(job, seen, on, placed.saddle, _with_saddle(job, seen, on, placed.saddle, laid))


def _along_the_edges(job: Job, surveyed: Surveyed, placed: PlacedInstrument, on: OnNeck) -> Iterator[Finding]:
    """What is seen along the board's edges, and by which of them the neck centre line turns."""
    looked = straightness.look_along(placed.states, on.frame)
    yield from straightness.findings(job, looked)
    yield from centre_choices.turn_findings(job, surveyed, placed, looked)


def _with_saddle(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    if on.spaced is None or on.lines is None or on.strings is None:
        raise AssertionError("a saddle stands on frets and strings")
    left, right = left_and_right(strings.pieces)
    outer = left.slot, right.slot
    plan = saddle_line.describe(states, job, on.frame, on.spaced, strings.line, outer)
    plan = pieces_told.with_pieces(states, job, strings.strung, strings.pieces, strings.peaks, plan)
    plan = replace(plan, waits_for=tuple(dict.fromkeys((*plan.waits_for, *strings.wanted.waits_for(states)))))
    typed_leans = string_plan_findings.typed_leans(strings.wanted)
    wrong: dict[Literal["slot", "saddle"], object] = {
        "slot": saddle_line_told.slot_leans(job, plan),
        "saddle": typed_leans,
    }
    plan = replace(plan, wrong_way=tuple(what for what, leans in wrong.items() if leans is not None))
    twelfth = fret_lines.twelfth(job, on.paths, on.spaced)
    gaps = margins.find_gaps(on.frame, strings.strung, twelfth)
    inside = margins.find_margins(states, on.frame, strings.strung, on.lines, gaps)
    ready = strings.wanted.ready
    fall = top_fall.find_fall(states, ready, job.bass, on.frame, strings.line)
    described = string_plans.describe(job, strings.strung, strings.wanted, strings.peaks, strings.ends)
    laid = laid.with_places(
        saddle=plan,
        margins=inside,
        strings=described,
        checks=check_distances(states, job, on.frame, twelfth, outer, strings.seated, fall, inside),
    )
    layout = laid.layout
    rows = layout.frets.lines if layout.frets is not None and any(on.strings.first) else ()
    starts = small_nuts.findings(job, described, rows) if rows else ()
    laid = (
        laid.tells(string_paths.findings, job, on.strings)
        .says(*starts)
        .tells(
            string_plan_findings.findings,
            job,
            states,
            strings.strung,
            strings.wanted,
            strings.peaks,
            strings.pieces,
            typed_leans,
        )
        .tells(string_bounds.findings, job, described)
        .tells(make_bounds.findings, job, described)
        .tells(height_bounds.findings, job, states, ready)
        .tells(saddle_line_told.findings, job, plan)
        .tells(pieces_told.findings, job, plan, described)
    )
    if layout.neck is not None:
        laid = laid.tells(bridge_bounds.saddle_findings, job, plan, layout.neck)
    laid = laid.tells(saddle_height.findings, job, states, strings.strung, strings.pins, ready)
    if not any(finding.code == "strings.starts_off" for finding in starts):
        laid = laid.tells(margins.findings, job, states, on.frame, strings.strung, on.lines, inside)
        laid = laid.tells(margins.unchecked, job, states, gaps)
    return laid.tells(top_fall.findings, job, fall).tells(heights_that_wait.findings, job, states, ready, on.frame)
