"""From a job to its layout, one direction, no way back: survey, neck, frets, strings, saddle line, bridge, old work,
check distances. A stage whose inputs are missing says so in a finding, and the layout ends there.

Places come first, and are enough for a picture; what is to be said of them is judged afterwards, in the same order.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Literal

from msgspec.structs import replace

from geometry.bounds import fingerboard as board_bounds
from geometry.bounds import old_bridge as old_bounds
from geometry.bounds import saddle_and_bridge as bridge_bounds
from geometry.bounds import side_against_side as height_bounds
from geometry.bounds import string_makes as make_bounds
from geometry.bounds import stringing_asked as string_bounds
from geometry.bridge import bridge_told, seat_bridge
from geometry.findings import Finding
from geometry.frets import fret_lines, ladder_check, slants
from geometry.frets.miscounted import counted_wrong, miscounted
from geometry.hardware import markers
from geometry.job import Bridge, Held, Job
from geometry.layout import (
    BridgePlan,
    Consequences,
    HardwarePlan,
    Laid,
    Layout,
    OldPlan,
    SaddlePlan,
    accused,
    with_findings,
)
from geometry.neck import find_neck, straightness, string_paths
from geometry.old_work.consequences import find_consequences
from geometry.old_work.find_old import find_old
from geometry.old_work.footprint import scar
from geometry.old_work.holes import old_holes_told
from geometry.old_work.inside import metal, read_inside, under_told
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

NO_BRIDGE = Finding(
    grade="look",
    code="bridge.missing",
    text="No bridge is chosen yet: the saddle line is known, the bridge's outline and seat are not. Fill in "
    "the Bridge card.",
    where="step:bridge",
)


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
        .tells(read_inside.findings, job)
    )
    return _with_headstock(job, placed, _with_solids(job, placed, _with_neck(job, surveyed, placed, laid)))


def _miscounted(job: Job, surveyed: Surveyed) -> Iterable[Finding]:
    return counted_wrong(job, surveyed) or miscounted(job, surveyed)


def _with_headstock(job: Job, placed: PlacedInstrument, laid: Laid) -> Laid:
    """The headstock, which stands on the neck; its strings come last of all."""
    if job.hardware.headstock is None and job.hardware.tuners is None:
        return laid
    from geometry.hardware import (  # few jobs have one: the others need not wait for it
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
    return laid.tells(headstock_told.findings, job, found)


def _with_solids(job: Job, placed: PlacedInstrument, laid: Laid) -> Laid:
    """Saddle and nut as solids, where anything was read or asked of them."""
    layout = laid.layout
    thick = job.bridge is not None and None not in job.bridge.thicknesses
    if layout.saddle is None or not (job.nut or job.board.radii or job.board.arch or thick or layout.floating):
        return laid
    from geometry.solids.with_solids import with_solids  # not every job has them: the others need not wait for it

    return with_solids(job, placed, laid)


def _with_neck(job: Job, surveyed: Surveyed, placed: PlacedInstrument, laid: Laid) -> Laid:
    if placed.neck is None:
        return laid.says(find_neck.missing(placed.states, job))
    seen, on = placed.states, placed.neck
    points = laid.layout.points
    described = find_neck.describe(on.frame, points)
    laid = (
        laid.with_places(neck=described, old=find_old(job, points, laid.layout.survey.diameters))
        .tells(find_neck.findings, job, described, points)
        .tells(board_bounds.board_findings, job, described)
        .tells(_along_the_edges, job, surveyed, placed, on)
    )
    if on.spaced is None or on.lines is None:
        return laid.says(fret_lines.missing(seen, job))
    plan = fret_lines.describe(seen, job, on.frame, on.spaced, on.lines)
    if job.frets.slanted:
        plan = replace(plan, slants=slants.find_slants(seen, job, on.paths, on.spaced))
    placed_on = replace(markers.place(seen, job, on.frame, on.spaced, plan), holes=laid.layout.hardware.holes)
    readings = laid.layout.readings
    laid = (
        laid.with_places(frets=plan, hardware=placed_on)
        .tells(fret_lines.findings, job, seen, plan, on.spaced)
        .tells(slants.findings, job, seen, plan, on.spaced)
        .tells(ladder_check.findings, job, plan, readings, accused(laid.layout.survey))
        .tells(fret_lines.unchecked, job, readings)
        .tells(board_bounds.fret_findings, job, described, plan)
        .tells(markers.findings, job, plan, placed_on, described.end)
    )
    if placed.saddle is None:
        return laid.says(string_plan_findings.missing(job))
    lost = saddle_line_told.place_unknown(seen, job, placed.saddle.line)
    if lost is not None:
        return laid.says(lost)
    return _with_bridge(job, seen, on, placed.saddle, _with_saddle(job, seen, on, placed.saddle, laid))


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
    plan = saddle_line.describe(states, job, on.spaced, strings.line, outer)
    plan = pieces_told.with_pieces(states, job, strings.strung, strings.pieces, strings.peaks, plan)
    plan = replace(plan, waits_for=tuple(dict.fromkeys((*plan.waits_for, *strings.wanted.waits_for(states)))))
    plan = replace(plan, wrong_way=tuple(_wrong_way(job, strings, plan)))
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
            string_plan_findings.findings, job, states, strings.strung, strings.wanted, strings.peaks, strings.pieces
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
    return laid.tells(top_fall.findings, job, fall).tells(heights_that_wait.findings, job, states, ready, on.frame)


def _wrong_way(job: Job, strings: OnStrings, plan: SaddlePlan) -> Iterator[Literal["slot", "saddle"]]:
    if saddle_line_told.slot_leans(job, plan) is not None:
        yield "slot"
    if string_plan_findings.typed_leans(strings.wanted) is not None:
        yield "saddle"


def _with_bridge(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    """The bridge under the saddle, by how it is held, and the tail behind it."""
    laid = BY_HOW_HELD[job.held](job, states, on, strings, laid)
    if job.tail is None:
        return laid
    from geometry.tail.with_tail import with_tail  # few jobs have one: the others need not wait for it

    return with_tail(job, states, on, strings, laid)


def _floating(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    from geometry.floating.with_floating import with_floating  # few jobs have one: the others need not wait for it

    return with_floating(job, states, on, strings, laid)


def _separate(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    from geometry.separate.with_separate import with_separate  # few jobs have them: the others need not wait for it

    return with_separate(job, states, on, strings, laid)


def _glued(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    if job.bridge is None or strings.seated is None:
        return laid.says(NO_BRIDGE)
    plan = seat_bridge.describe(states, job, on.frame, job.bridge, strings.seated, strings.pins)
    tied: tuple[Finding, ...] = ()
    if job.bridge.tie is not None:
        plan, tied = _tied(job, job.bridge, states, on, strings, replace(laid.layout, bridge=plan))
    laid = laid.with_places(bridge=plan, old=scar.with_scar(laid.layout.old, job.bridge, strings.seated))
    laid = (
        laid.tells(bridge_told.findings, job, job.bridge, plan, laid.layout.old)
        .tells(bridge_told.too_short, job, job.bridge, strings.seated, strings.pins)
        .says(*tied)
    )
    return laid.then(partial(_follow, job, states, on, strings)).tells(_against_old, job, laid.layout)


def _follow(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    """What the seated bridge does to the old work, and what is to be said of that."""
    assert job.bridge is not None
    assert strings.seated is not None
    old = layout.old
    follows = find_consequences(job, states, on.frame, old, job.bridge, strings.seated, strings.pins)
    layout = with_findings(
        replace(layout, consequences=follows),
        (*scar.findings(job, old, follows), *metal.findings(job, old, job.bridge, strings.seated, follows)),
    )
    return with_findings(layout, _of_old(job, old, follows))


def _tied(
    job: Job, bridge: Bridge, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout
) -> tuple[BridgePlan, tuple[Finding, ...]]:
    """The bridge with its tie block, and what is to be said of that."""
    plan = layout.bridge
    assert plan is not None
    from geometry.bridge import tied, tied_told  # few bridges have one: the others need not wait for it

    if bridge.tie is None or strings.seated is None or strings.ties is None:
        return plan, ()
    block = tied.describe(states, job, on.frame, bridge, strings.seated, strings.strung)
    if block is None:
        return plan, ()
    crown = None
    if job.board.radii or job.board.arch:
        from geometry.solids.with_solids import crown_over_outer  # tied bridges are on flat boards as a rule

        crown = crown_over_outer(job, layout, strings.strung.break_point[0].imag)
    breaks = tied_told.breaks(job, states, strings.strung, strings.ties, strings.wanted.ready, block, crown)
    block = replace(block, breaks=breaks)
    return replace(plan, tie=block), tied_told.findings(job, bridge, bridge.tie, block)


BY_HOW_HELD: dict[Held, Callable[[Job, PerturbedStates, OnNeck, OnStrings, Laid], Laid]] = {
    "glue": _glued,
    "strings": _floating,
    "screws": _separate,
}
"""What is added to a layout for the bridge."""


def _of_old(job: Job, old: OldPlan, follows: Consequences | None) -> Iterator[Finding]:
    """Old holes, braces and plate."""
    if follows is not None:
        yield from old_holes_told.unread(job, old)
        yield from old_holes_told.findings(job, follows)
        yield from under_told.findings(job, follows)


def _against_old(job: Job, layout: Layout) -> tuple[Finding, ...]:
    """The bridge against the board and against the old one."""
    if layout.neck is None or layout.frets is None or layout.bridge is None:
        return ()
    return (
        *bridge_bounds.bridge_findings(job, layout.neck, layout.frets, layout.bridge),
        *old_bounds.findings(job, layout.bridge, layout.old),
    )
