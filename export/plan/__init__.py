"""The plan: the whole instrument as measured and as worked out, drawn once for the screen and for the job sheet."""

from export.drawing.marks import Drawing, Mark
from export.plan import chosen_ghosts, headstock_drawn, instrument, kept_ghosts, measured_points, reading_as_taken
from export.plan.bridge import bridgework, close_up, margin_dimensions
from export.plan.label_obstacles import label_grounds
from export.plan.labels import Label, LabelPlaces, kept_labels, labels_by_key, may_stay, place_labels
from export.plan.overlays import sheets_over
from export.plan.plan_view import USUAL_OVERLAYS, Overlay, PlanView
from geometry.job import Job
from geometry.layout import Layout

__all__ = ["USUAL_OVERLAYS", "LabelPlaces", "Overlay", "PlanView", "compose", "compose_with"]


def compose(job: Job, layout: Layout, view: PlanView) -> Drawing:
    """The plan of a layout as it is looked at: marks from the ground up, labels last."""
    return compose_with(job, layout, view)[0]


def compose_with(
    job: Job, layout: Layout, view: PlanView, before: LabelPlaces | None = None
) -> tuple[Drawing, LabelPlaces]:
    """The plan, and where its labels stand. They stay where they stood `before` unless others came into sight."""
    pages = sheets_over(view)
    stages = [instrument.instrument(layout, hollow=job.held == "glue")]
    stages += [(marks, [label]) for marks, label in pages]
    stages += [instrument_lines(layout, view), (bridgework.bridge_outline(layout, view), [])]
    if "old bridge" in view.overlays:
        stages.append(bridgework.old_work(job, layout, view))
    stages += [headstock_drawn.rest(job, layout, view)]
    stages += [kept_ghosts.ghosts(job, layout, view), chosen_ghosts.ghosts(view)]
    stages += [instrument.strings(layout, view), bridgework.bridgework(job, layout, view)]
    sizes = close_up.sizes(job, layout, view)
    stages += [margin_dimensions.margins(job, layout, view), close_up.corners(job, layout, view)]
    stages += [(one.arrows, [one.label]) for one in sizes]
    stages += [measured_points.points(job, layout, view), reading_as_taken.in_hand(job, layout, view)]
    marks = [mark for some, _ in stages for mark in some]
    labels = [label for _, wanted in stages for label in wanted]
    asked = labels_by_key(_ordered(labels)) if "labels" in view.overlays else {}
    if before is not None and may_stay(asked, view, before):
        more, stands = kept_labels(asked, view, before), before
    else:
        more, stands = place_labels(asked, view, label_grounds(marks, view))
    said = [label for key, label in asked.items() if stands.get(key) is not None]
    named = [*(pages if "labels" in view.overlays else ()), *((one.arrows, one.label) for one in sizes)]
    unsaid = [marks for marks, label in named if label not in said]
    drawn = [mark for some, _ in stages if some not in unsaid for mark in some]
    return Drawing(title=job.title, marks=(*drawn, *more)), stands


def instrument_lines(layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Edge lines past the board's end, and the seam."""
    marks = instrument.edges_carried_on(layout)
    if "seam" not in view.overlays:
        return marks, []
    more, labels = instrument.seam_line(layout, instrument.measured_body(layout), view)
    return marks + more, labels


def _ordered(labels: list[Label]) -> list[Label]:
    """Labels by how much they matter: large ones, then named ones, then the ± of points."""
    return sorted(labels, key=lambda label: (-label.height, label.tone == "quiet"))
