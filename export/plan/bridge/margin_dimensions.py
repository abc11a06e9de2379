"""The outer strings' margins on the plan, as dimensions, where one looks closely enough to read them."""

import math

from export.drawing.dimension import arrow
from export.drawing.marks import Mark
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.job import Job
from geometry.layout import PLACES, Layout
from geometry.units import said_pm

LEAST_SEEN = 4.0
"""A shorter dimension (paper mm) is all arrowheads, and its number would stand among strings and frets."""


def margins(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """From each outer string to the board's edge at the nut, at fret 12 and at the board's end, with its ±."""
    marks: list[Mark] = []
    labels: list[Label] = []
    for margin in layout.margins.at if layout.margins is not None else ():
        a, b = margin.string_xy, margin.edge_xy
        if margin.mm <= 0 or math.dist(a, b) * view.scale < LEAST_SEEN:
            continue
        of = f"check:margin.{PLACES[margin.place]}.{job.bass_or_treble(margin.side)}"
        marks += arrow(a, b, "dimension", scale=view.scale, both=True, of=of)
        labels.append(
            Label(
                at=b,
                words=said_pm(margin.pm95, job.unit, margin.mm) + ("" if margin.checked else ", not checked"),
                of=of,
                prefer=110 if b[1] > a[1] else -110,
                clear=2.6,
            )
        )
    return marks, labels
