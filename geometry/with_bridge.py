"""The bridge under the saddle by how it is held, what it does to the old work, and the tail behind it."""

from collections.abc import Callable, Iterator
from functools import partial

from msgspec.structs import replace

from geometry.bounds import old_bridge as old_bounds
from geometry.bounds import saddle_and_bridge as bridge_bounds
from geometry.bridge import bridge_told, seat_bridge
from geometry.findings import Finding
from geometry.job import Bridge, Held, Job
from geometry.layout import (
    BridgePlan,
    Consequences,
    Laid,
    Layout,
    OldPlan,
    with_findings,
)
from geometry.old_work.consequences import find_consequences
from geometry.old_work.footprint import scar
from geometry.old_work.holes import old_holes_told
from geometry.old_work.inside import metal, unchecked_told, under_told
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings

NO_BRIDGE = Finding(
    grade="look",
    code="bridge.missing",
    text="No bridge is chosen yet: the saddle line is known, the bridge’s outline and seat are not. Take usual sizes "
    "as a start on the Bridge card, or type yours.",
    where="step:bridge",
)


def with_bridge(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
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
    """Old holes, braces and plate, and what of them nothing checks."""
    if follows is not None:
        yield from old_holes_told.findings(job, follows)
        yield from under_told.findings(job, follows)
        yield from unchecked_told.findings(job, old, follows)


def _against_old(job: Job, layout: Layout) -> tuple[Finding, ...]:
    """The bridge against the board and against the old one."""
    if layout.neck is None or layout.frets is None or layout.bridge is None:
        return ()
    return (
        *bridge_bounds.bridge_findings(job, layout.neck, layout.frets, layout.bridge),
        *old_bounds.findings(job, layout.bridge, layout.old),
    )
