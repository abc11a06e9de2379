"""The plan: the whole instrument as measured and as worked out, drawn once for the screen and for the job sheet."""

import math

from export.drawing.flatten import Box, vertices_of
from export.drawing.marks import Circle, Drawing, Mark, Path, Text, Vertex
from export.drawing.typeface import ACROSS, ALONG, width
from export.plan import bridgework, instrument, margin_dimensions, measured_points, reading_as_taken
from export.plan.labels import Label, Stands, keyed, place, stay
from export.plan.occupied_cells import CELL, Taken
from export.plan.overlays import sheets_over
from export.plan.plan_view import ALWAYS, Overlay, PlanView
from geometry.job import Job
from geometry.layout import Layout

__all__ = ["ALWAYS", "Overlay", "PlanView", "Stands", "compose", "compose_with"]


STEEL = ("straightedge:", "rule:")
OUTLINED = ("body", "string")
"""What of the instrument itself words keep clear of: the body's edge and the strings."""


def compose(job: Job, layout: Layout, view: PlanView) -> Drawing:
    """The plan of a layout as it is looked at: marks from the ground up, labels last."""
    return compose_with(job, layout, view)[0]


def compose_with(job: Job, layout: Layout, view: PlanView, before: Stands | None = None) -> tuple[Drawing, Stands]:
    """The plan, and where its labels stand. They stay where they stood `before` unless there are others now."""
    marks, labels = instrument.instrument(layout)
    stages = [sheets_over(view), instrument_lines(layout, view), (bridgework.ground(layout, view), [])]
    if "old bridge" in view.overlays:
        stages.append(bridgework.old_work(job, layout, view))
    stages += [(instrument.strings(layout, view), []), bridgework.bridgework(job, layout, view)]
    stages.append(margin_dimensions.margins(job, layout, view))
    stages += [measured_points.points(job, layout, view), reading_as_taken.in_hand(job, layout, view)]
    for some, wanted in stages:
        marks += some
        labels += wanted
    asked = keyed(_ordered(labels)) if "labels" in view.overlays else {}
    if before is not None and before.keys() == asked.keys():
        more, stands = stay(asked, view, before), before
    else:
        more, stands = place(asked, _taken(marks, view))
    return Drawing(title=job.title, marks=(*marks, *more)), stands


def instrument_lines(layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Edge lines past the board's end, and the seam."""
    marks = instrument.edges_carried_on(layout)
    if "seam" not in view.overlays:
        return marks, []
    more, labels = instrument.seam_line(layout, instrument.measured_body(layout))
    return marks + more, labels


def _ordered(labels: list[Label]) -> list[Label]:
    """Labels by how much they matter: large ones, then named ones, then the ± of points."""
    return sorted(labels, key=lambda label: (-label.height, label.tone == "quiet"))


def _plate(text: Text, view: PlanView) -> Box:
    """The ground under a reading's value, which stands upright on the screen (paper mm)."""
    (x, y), wide = view.seen(text.at), width(text.text, text.height, text.bold)
    upright = view.placing.shape(text)
    assert isinstance(upright, Text)
    x -= ALONG[upright.anchor[0]] * wide
    y -= ACROSS[upright.anchor[1]] * text.height
    more, high = reading_as_taken.PLATE
    return Box(x - more, y - high, x + wide + more, y + text.height + high)


def _ground(strip: Path, view: PlanView) -> list[tuple[Vertex, ...]]:
    """Lines along a strip of steel, so close that no words find room on it."""
    (ax, ay, _), (bx, by, _), (cx, cy, _), (dx, dy, _) = strip.vertices
    count = math.ceil(math.hypot(dx - ax, dy - ay) * view.scale / CELL)
    shares = [k / count for k in range(1, count)]
    return [
        ((ax + share * (dx - ax), ay + share * (dy - ay), 0.0), (bx + share * (cx - bx), by + share * (cy - by), 0.0))
        for share in shares
    ]


def _taken(marks: list[Mark], view: PlanView) -> Taken:
    """What labels keep clear of: points, the bridge's work, lines of reading; not the body's ground or the strings."""
    lines: list[tuple[Vertex, ...]] = []
    boxes: list[Box] = [view.seen_box(view.covered)] if view.covered else []
    for mark in marks:
        shape = mark.shape
        if isinstance(shape, Text) and mark.of.startswith("reading:"):
            boxes.append(_plate(shape, view))
            continue
        if isinstance(shape, Text) or mark.of == "scar" or (mark.purpose == "body" and mark.of[:6] not in OUTLINED):
            continue
        if isinstance(shape, Circle):
            (x, y), r = view.seen(shape.centre), shape.radius * view.scale
            boxes.append(Box(x - r, y - r, x + r, y + r))
        else:
            lines.append(vertices_of(shape))
            if mark.of.startswith(STEEL) and isinstance(shape, Path):
                lines += _ground(shape, view)
    return Taken(view, lines, boxes)
