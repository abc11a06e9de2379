"""From a job to its layout, one direction, no way back: survey, neck, frets, strings, saddle line, bridge, old work,
check distances. A stage whose inputs are missing says so in a finding, and the layout ends there.
"""

from geometry import bridge, fret_places, frets, margins, neck, old_work, saddle, saddle_height, string_plans
from geometry.check_distances import check_distances
from geometry.findings import Finding
from geometry.frets import Spaced, fit_frets, fret_line
from geometry.job import Job, Saddle
from geometry.layout import Layout, OldPlan
from geometry.miscounted import miscounted
from geometry.neck import NeckFrame, find_neck
from geometry.paths import Across, OuterPaths, across, outer_paths
from geometry.placed_points import place_points, rough_places
from geometry.sample import Sample, sample
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.survey_findings import survey_findings
from geometry.units import mm

REACH = 640.0
"""About where a saddle lies while nothing of the frets is known, mm."""
Parts = dict[str, object]


def work_out(job: Job) -> Layout:
    """Work out all that the job's readings and inputs carry. Pure: the same job gives the same layout.

    Raises nothing for a job that could be made: what is missing or wrong stands in the findings.
    """
    return lay_out(job, survey(job))


def lay_out(job: Job, surveyed: Surveyed) -> Layout:
    """The layout of a job whose readings are adjusted already."""
    seen = sample(surveyed, _moved(job, surveyed), _unknowns(surveyed), string_plans.own_unknowns(job))
    frame = find_neck(seen, job)
    found: list[Finding] = [*survey_findings(surveyed), *miscounted(job, surveyed)]
    parts: Parts = {}
    if frame is None:
        found.append(neck.missing(seen))
    else:
        parts, more = _from_the_neck(job, seen, frame)
        found += more
    return Layout(
        frame="neck" if frame is not None else "straightedge",
        points=place_points(seen, frame),
        readings=surveyed.fits,
        survey=surveyed.report,
        rough=rough_places(surveyed, frame),
        findings=tuple(found),
        **parts,  # type: ignore[arg-type]  # each stage puts in the record of its own name
    )


def _from_the_neck(job: Job, seen: Sample, frame: NeckFrame) -> tuple[Parts, list[Finding]]:
    described = neck.describe(seen, frame)
    old = old_work.find_old(seen, job, frame)
    parts: Parts = {"neck": described, "old": old}
    found = list(neck.findings(seen, job, frame, described))
    strings = across(job, frame)
    paths = outer_paths(frame, strings, _reach(job, seen))
    spaced = fit_frets(seen, job, frame, paths)
    if spaced is None:
        return parts, [*found, frets.missing()]
    parts["frets"] = plan = frets.describe(seen, job, frame, paths, spaced)
    found += frets.findings(job, plan, spaced)
    found += fret_places.findings(job, plan, seen.surveyed.fits)
    if strings is None:
        return parts, [*found, string_plans.missing(job)]
    more, more_found = _from_the_strings(job, seen, frame, strings, paths, spaced, old)
    return parts | more, found + more_found


def _from_the_strings(
    job: Job, seen: Sample, frame: NeckFrame, strings: Across, paths: OuterPaths, spaced: Spaced, old: OldPlan
) -> tuple[Parts, list[Finding]]:
    made = string_plans.compensate_all(job, seen, frame, strings, paths, spaced)
    seen = seen.with_sd(made.sds)
    strung = saddle.string_up(frame, strings, paths, spaced, made.compensation(seen))
    wish = job.saddle or Saddle()
    line = string_plans.lay_line(strung, wish)
    slot = saddle.wanted_slot(line, wish)
    seated, pins = None, None
    parts: Parts = {}
    found: list[Finding] = []
    if job.bridge is not None:
        seated = bridge.seat(seen, job, frame, job.bridge, slot)
        slot = seated.slot
        pins = bridge.pin_places(seated, strung, job.bridge)
        parts["bridge"] = plan = bridge.describe(seen, job, job.bridge, seated, pins)
        found += bridge.findings(job, plan)
    else:
        found.append(Finding(grade="look", code="bridge.missing", text=NO_BRIDGE, where="step:bridge"))
    parts["margins"] = inside = margins.find_margins(job, frame, paths, spaced)
    parts["saddle"] = placed = saddle.describe(seen, job, spaced, line, slot)
    parts["strings"] = string_plans.describe(job, strung, made, slot, pins)
    if job.bridge is not None and seated is not None:
        old = old_work.with_scar(old, job.bridge, seated)
    parts["old"] = old
    parts["checks"] = check_distances(seen, job, frame, fret_line(job, paths, spaced, 12), slot, seated)
    found = [
        *string_plans.findings(job, made),
        *saddle.findings(job, placed, line, slot),
        *saddle_height.findings(job, seen, strung, pins),
        *margins.findings(job, inside),
        *found,
        *old_work.findings(job, old, job.bridge, seated, pins),
    ]
    return parts, found


NO_BRIDGE = "No bridge is chosen yet: the saddle line is known, the bridge's outline and seat are not."


def _moved(job: Job, surveyed: Surveyed) -> list[str]:
    """The points that anything is placed from: those that make the neck, the frets and a kept footprint."""
    starts = ("nut.", "end.", "fret12.", "edge.", "thread.")
    names = [name for name in surveyed.point_at if name.startswith(starts)]
    if job.old is not None and job.bridge is not None and job.bridge.seat == "old footprint":
        names += [name for name in job.old.outline if name not in names]
    return names


def _unknowns(surveyed: Surveyed) -> list[str]:
    return [name for name in surveyed.extra_at if name.startswith(("scale.", "shift."))]


def _reach(job: Job, seen: Sample) -> float:
    """About how far the saddle lies from the nut, for the outer paths' directions; alike for both hands."""
    sides = ("left", "right", "centre")
    read = [float(scale[0]) for side in sides if (scale := seen.unknown(f"scale.{side}")) is not None]
    if not read:
        read = [
            2 * float(abs(seen.point(f"fret12.{side}")[0] - seen.point(f"nut.{side}")[0]))
            for side in ("left", "right")
            if seen.has(f"fret12.{side}", f"nut.{side}")
        ]
    if read:
        return sum(read) / len(read)
    return mm(job.frets.scale) if job.frets.scale is not None else REACH
