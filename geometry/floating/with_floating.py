"""A bridge held by the strings alone: where its feet stand, where its crown is cut, how far it is moved to tune it."""

from functools import partial

from geometry.bounds import saddle_and_bridge as bridge_bounds
from geometry.floating import feet, feet_told, sliding, stands, stands_told
from geometry.job import Job
from geometry.layout import FloatingPlan, Laid, Layout, with_findings
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings

ROOM = ("saddle.room", "saddle.straight")
"""What tells already, where it can, how thick a crown would carry all strings."""


def with_floating(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    """The layout with it and what is to be said of it."""
    layout, floating, seated = laid.layout, job.floating, strings.seated
    if floating is None or seated is None or layout.saddle is None or layout.neck is None or layout.frets is None:
        return laid
    bridge = feet.describe(states, on.frame, floating, seated)
    turn, at_feet = sliding.turn_range(states, seated, floating)
    plan = FloatingPlan(
        feet=feet.feet(job, floating, seated),
        crown=layout.saddle.line,
        window=bridge.front_pm95,
        turn_pm95=turn,
        feet_pm95=at_feet,
        cents_per_mm=sliding.cents_per_mm(strings.wanted.ready, strings.peaks.x - strings.strung.nominal[0].real),
        thicker=sliding.thick_enough(job, strings.strung),
        today=stands.today(states, on.frame, floating, seated),
        marks=stands.marks(floating, layout.points),
    )
    return (
        laid.with_places(bridge=bridge, floating=plan)
        .tells(bridge_bounds.standing_findings, job, layout.neck, layout.frets, bridge)
        .tells(feet_told.findings, job, floating, bridge, plan, layout.points)
        .then(partial(_with_crown_told, job, plan))
        .tells(stands_told.apart, job, floating, layout.points)
        .tells(stands_told.findings, job, layout.saddle, plan, bridge)
        .tells(feet_told.height_findings, job, states, strings.strung, strings.wanted.ready)
    )


def _with_crown_told(job: Job, plan: FloatingPlan, layout: Layout) -> Layout:
    """How thick the crown must be, where nothing has told it yet."""
    told = any(finding.code in ROOM and "needed" in finding.values for finding in layout.findings)
    return layout if told else with_findings(layout, feet_told.crown_findings(job, plan))
