"""The consequences of the new place: all that the new bridge uncovers, covers and hits, with its ±."""

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Points
from geometry.job import Bridge, Job
from geometry.layout import Amount, Consequences, OldPlan
from geometry.neck.find_neck import NeckFrame
from geometry.old_work.footprint import scar_told, seen_by_eye
from geometry.old_work.gaps.old_work_states import OldInRows, in_all_rows
from geometry.old_work.holes import old_holes, plugs
from geometry.old_work.inside import unchecked_told, under_the_top
from geometry.perturbed_states import PerturbedStates


def find_consequences(
    job: Job,
    states: PerturbedStates,
    frame: NeckFrame,
    plan: OldPlan,
    bridge: Bridge,
    seated: SeatedBridge,
    pins: Points | None,
) -> Consequences | None:
    """What the seated bridge does to the old work; `plan` has its scar. None where nothing is known to compare with."""
    rows = in_all_rows(job, states, frame, plan, seated, pins)
    return _found(job, rows, plan, bridge) if rows.places else None


def _found(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> Consequences:
    named = [f"pin:{string.name}" for string in job.strings.list] if rows.pins is not None and job.strings else []
    footprint, bare = scar_told.wood_and_finish(job, rows, plan, bridge)
    holes = old_holes.fates(job, rows, plan, bridge, named)
    return Consequences(
        cover=scar_told.cover(job, rows, plan, bridge),
        moves=scar_told.moves(job, rows, plan, bridge),
        footprint_pm95=scar_told.footprint_pm95(job, rows, plan),
        scar_area=footprint.bare if footprint is not None else None,
        scar_sides=scar_told.scar_sides(job, rows, plan, bridge),
        finish_clear=_least(bare.beyond) if bare is not None else None,
        finish_save=bare.bare if bare is not None else None,
        areas=scar_told.bared(job, rows, plan, bridge),
        holes=holes,
        plugs=plugs.grouped(holes),
        gaps=tuple(under_the_top.gaps(job, rows, plan, bridge, named)),
        wings=tuple(seen_by_eye.wing_tips(rows, bridge)),
        seen=tuple(seen_by_eye.seen(rows, bridge)),
        unseen=unchecked_told.unseen(job, rows, plan),
    )


def _least(amount: Amount) -> Amount:
    """An area that is not less than none, by rounding."""
    return amount if amount.value >= 0 else Amount(value=0.0, pm95=amount.pm95)
