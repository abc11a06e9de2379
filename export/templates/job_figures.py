"""The job sheet's figures: how the fret readings fit, where the saddle's ± comes from, cents before and after."""

from export.drawing.transform import Transform
from export.paper.flow import SIZE, Flow
from export.plots import Plot, cents_before_and_after, chain_of_doubt, fret_fits
from geometry.job import Job
from geometry.layout import Layout

HIGH, LOW, APART = 42.0, 28.0, 8.0
"""A plot's height, the least it may be where a page has no more room, and the room between two side by side, mm."""
TITLE, HEADING = 8.0, 13.0
"""What a plot's title takes over it, and the heading over all, mm."""
FITS = "How the fret readings fit, each with its own ±"
CHAIN = "Where the saddle's ± comes from"
CENTS = "Cents at each fret, each on its own scale; between the dotted lines no ear can be sure"


def figures(flow: Flow, job: Job, layout: Layout) -> None:
    """All plots that there is something to show in: two beside each other, and cents below across the page."""
    wide = flow.ground.width
    half, high = (wide - APART) / 2, _high(flow)
    pairs = [
        (title, plot)
        for title, plot in (
            (FITS, fret_fits(job, layout, (half, high))),
            (CHAIN, chain_of_doubt(job, layout, (half, high))),
        )
        if plot is not None
    ]
    cents = cents_before_and_after(layout.strings, (wide, high))
    rows = [row for row in (pairs, [(CENTS, cents)] if cents is not None else []) if row]
    if rows:
        flow.heading("Figures", follows=len(rows) * (high + TITLE))
    for row in rows:
        _side_by_side(flow, row, half + APART, high)


def _high(flow: Flow) -> float:
    """How high plots are, so that both rows stand on the page that is begun, where they can."""
    room = (flow.y - flow.ground.y0 - HEADING) / 2 - TITLE
    return min(HIGH, room) if room >= LOW else HIGH


def _side_by_side(flow: Flow, row: list[tuple[str, Plot]], step: float, high: float) -> None:
    """Plots with their titles above them, from the left."""
    flow.need(high + TITLE)
    flow.y -= SIZE + 2.0
    for count, (title, plot) in enumerate(row):
        x = flow.ground.x0 + count * step
        flow.put((x, flow.y), title, bold=True)
        flow.pages[-1] += Transform(shift=(x, flow.y - 1.5 - high)).marks(plot.drawing.marks)
    flow.y -= high + 4.0
