"""From a job to its layout, one direction, no way back: survey, neck, frets, strings, saddle line, bridge, old work,
check distances. A stage whose inputs are missing says so in a finding, and the layout ends there.
"""

from collections.abc import Callable, Iterator

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
from geometry.layout import BridgePlan, Consequences, HardwarePlan, Layout, OldPlan, accused
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
    text="No bridge is chosen yet: the saddle line is known, the bridge’s outline and seat are not. Fill in "
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
        findings=(
            *survey_findings(job, surveyed),
            *(counted_wrong(job, surveyed) or miscounted(job, surveyed)),
            *read_inside.findings(job),
        ),
    )
    return _with_headstock(job, placed, _with_solids(job, placed, _with_neck(job, surveyed, placed, layout)))


def _with_headstock(job: Job, placed: PlacedInstrument, layout: Layout) -> Layout:
    """The headstock, which stands on the neck; its strings come last of all."""
    if job.hardware.headstock is None and job.hardware.tuners is None:
        return layout
    from geometry.hardware import (  # few jobs have one: the others need not wait for it
        headstock_and_posts,
        headstock_told,
    )

    found = (
        headstock_and_posts.place(placed.states, job, layout.points, layout.strings)
        if placed.neck is not None
        else None
    )
    hardware = replace(layout.hardware, headstock=found)
    return _told(replace(layout, hardware=hardware), *headstock_told.findings(job, found))


def _with_solids(job: Job, placed: PlacedInstrument, layout: Layout) -> Layout:
    """Saddle and nut as solids, where anything was read or asked of them."""
    thick = job.bridge is not None and None not in job.bridge.thicknesses
    if layout.saddle is None or not (job.nut or job.board.radii or job.board.arch or thick or layout.floating):
        return layout
    from geometry.solids.with_solids import with_solids  # not every job has them: the others need not wait for it

    return with_solids(job, placed, layout)


def _with_neck(job: Job, surveyed: Surveyed, placed: PlacedInstrument, layout: Layout) -> Layout:
    if placed.neck is None:
        return _told(layout, find_neck.missing(placed.states, job))
    seen, on = placed.states, placed.neck
    described = find_neck.describe(on.frame, layout.points)
    old = find_old(job, layout.points, layout.survey.diameters)
    layout = replace(layout, neck=described, old=old)
    looked = straightness.look_along(seen, on.frame)
    layout = _told(
        layout,
        *find_neck.findings(job, described, layout.points),
        *board_bounds.board_findings(job, described),
        *straightness.findings(job, looked),
        *centre_choices.turn_findings(job, surveyed, placed, looked),
    )
    if on.spaced is None or on.lines is None:
        return _told(layout, fret_lines.missing(seen, job))
    plan = fret_lines.describe(seen, job, on.frame, on.spaced, on.lines)
    if job.frets.slanted:
        plan = replace(plan, slants=slants.find_slants(seen, job, on.paths, on.spaced))
    layout = _told(
        replace(layout, frets=plan),
        *fret_lines.findings(job, seen, plan, on.spaced),
        *slants.findings(job, seen, plan, on.spaced),
        *ladder_check.findings(job, plan, layout.readings, accused(layout.survey)),
        *fret_lines.unchecked(job, layout.readings),
        *board_bounds.fret_findings(job, described, plan),
    )
    placed_on = markers.place(seen, job, on.frame, on.spaced, plan)
    placed_on = replace(placed_on, holes=layout.hardware.holes)
    layout = _told(replace(layout, hardware=placed_on), *markers.findings(job, plan, placed_on, described.end))
    if placed.saddle is None:
        return _told(layout, string_plan_findings.missing(job))
    lost = saddle_line_told.place_unknown(seen, job, placed.saddle.line)
    if lost is not None:
        return _told(layout, lost)
    return _with_bridge(job, seen, on, placed.saddle, _with_saddle(job, seen, on, placed.saddle, layout))


def _with_saddle(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    if on.spaced is None or on.lines is None or on.strings is None:
        raise AssertionError("a saddle stands on frets and strings")
    left, right = left_and_right(strings.pieces)
    outer = left.slot, right.slot
    plan = saddle_line.describe(states, job, on.spaced, strings.line, outer)
    plan = pieces_told.with_pieces(states, job, strings.strung, strings.pieces, strings.peaks, plan)
    plan = replace(plan, waits_for=tuple(dict.fromkeys((*plan.waits_for, *strings.wanted.waits_for(states)))))
    twelfth = fret_lines.twelfth(job, on.paths, on.spaced)
    gaps = margins.find_gaps(on.frame, strings.strung, twelfth)
    inside = margins.find_margins(states, on.frame, strings.strung, on.lines, gaps)
    ready = strings.wanted.ready
    fall = top_fall.find_fall(states, ready, job.bass, on.frame, strings.line)
    layout = replace(
        layout,
        saddle=plan,
        margins=inside,
        strings=string_plans.describe(job, strings.strung, strings.wanted, strings.peaks, strings.ends),
        checks=check_distances(states, job, on.frame, twelfth, outer, strings.seated, fall, inside),
    )
    rows = layout.frets.lines if layout.frets is not None and any(on.strings.first) else ()
    starts = small_nuts.findings(job, layout.strings, rows) if rows else ()
    off_board = any(finding.code == "strings.starts_off" for finding in starts)
    return _told(
        layout,
        *string_paths.findings(job, on.strings),
        *starts,
        *string_plan_findings.findings(job, states, strings.strung, strings.wanted, strings.peaks, strings.pieces),
        *string_bounds.findings(job, layout.strings),
        *make_bounds.findings(job, layout.strings),
        *height_bounds.findings(job, states, ready),
        *saddle_line_told.findings(job, plan),
        *pieces_told.findings(job, plan, layout.strings),
        *(() if layout.neck is None else bridge_bounds.saddle_findings(job, plan, layout.neck)),
        *saddle_height.findings(job, states, strings.strung, strings.pins, ready),
        *(() if off_board else margins.findings(job, states, on.frame, strings.strung, on.lines, inside)),
        *top_fall.findings(job, fall),
        *heights_that_wait.findings(job, states, ready, on.frame),
    )


def _with_bridge(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    """The bridge under the saddle, by how it is held, and the tail behind it."""
    layout = BY_HOW_HELD[job.held](job, states, on, strings, layout)
    if job.tail is None:
        return layout
    from geometry.tail.with_tail import with_tail  # few jobs have one: the others need not wait for it

    return with_tail(job, states, on, strings, layout)


def _floating(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    from geometry.floating.with_floating import with_floating  # few jobs have one: the others need not wait for it

    return with_floating(job, states, on, strings, layout)


def _separate(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    from geometry.separate.with_separate import with_separate  # few jobs have them: the others need not wait for it

    return with_separate(job, states, on, strings, layout)


def _glued(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:
    if job.bridge is None or strings.seated is None:
        return _told(layout, NO_BRIDGE)
    plan = seat_bridge.describe(states, job, on.frame, job.bridge, strings.seated, strings.pins)
    tied: tuple[Finding, ...] = ()
    if job.bridge.tie is not None:
        plan, tied = _tied(job, job.bridge, states, on, strings, replace(layout, bridge=plan))
    old = scar.with_scar(layout.old, job.bridge, strings.seated)
    follows = find_consequences(job, states, on.frame, old, job.bridge, strings.seated, strings.pins)
    return _told(
        replace(layout, bridge=plan, old=old, consequences=follows),
        *bridge_told.findings(job, job.bridge, plan, old),
        *bridge_told.too_short(job, job.bridge, strings.seated, strings.pins),
        *tied,
        *scar.findings(job, old, follows),
        *metal.findings(job, old, job.bridge, strings.seated, follows),
        *_of_old(job, old, follows),
        *_against_old(job, replace(layout, bridge=plan, old=old)),
    )


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


BY_HOW_HELD: dict[Held, Callable[[Job, PerturbedStates, OnNeck, OnStrings, Layout], Layout]] = {
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


def _told(layout: Layout, *found: Finding) -> Layout:
    return replace(layout, findings=layout.findings + found)
