"""The job sheet's figures: how the fret readings fit, where the saddle's ± comes from, cents before and after."""

from export.drawing.transform import Transform
from export.paper.flow import SIZE, Flow
from export.plots import Plot, cents_before_and_after, chain_of_doubt, fret_fits
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout

HIGH, LOW, APART = 42.0, 31.0, 8.0
"""A plot's height, the least it may be where a page has no more room, and the room between two side by side, mm."""
OWN_PAGE = 108.0
"""How high plots grow where a page has room, mm."""
TITLE, HEADING = 8.0, 13.0
"""What a plot's title takes over it, and the heading over all, mm."""
FITS = "How the fret readings fit, each with its own ±"
CHAIN = "Where the {}’s ± comes from"
CENTS = "Cents at each fret, each on its own scale; between the dotted lines no ear can be sure"


def rows_of_figures(job: Job, layout: Layout, wide: float) -> int:
    """How many rows of plots there are across so much room, mm."""
    pair = _pair(job, layout, ((wide - APART) / 2, HIGH))
    return (len(pair) > 0) + (cents_before_and_after(layout.strings, (wide, HIGH)) is not None)


def least(rows: int) -> float:
    """The room that so many rows of plots need at least, mm."""
    return HEADING + rows * (LOW + TITLE) if rows else 0.0


def figures(flow: Flow, job: Job, layout: Layout, count: int, below: float = 0.0) -> None:
    """All plots that there is something to show in: two beside each other, and cents below across the page, so many
    rows. `below` is the room (mm) that is wanted under them.
    """
    wide = flow.ground.width
    half = (wide - APART) / 2
    high = _high(flow, max(count, 1), below)
    pairs = _pair(job, layout, (half, high))
    if len(pairs) == 1:
        pairs = _pair(job, layout, (wide, high))
    cents = cents_before_and_after(layout.strings, (wide, high))
    rows = [row for row in (pairs, [(CENTS, cents)] if cents is not None else []) if row]
    if rows:
        flow.heading("Figures", follows=len(rows) * (high + TITLE))
    for row in rows:
        _side_by_side(flow, row, half + APART, high)


def _pair(job: Job, layout: Layout, size: tuple[float, float]) -> list[tuple[str, Plot]]:
    """Those of the two plots beside each other in which there is something to show, with their titles."""
    both = (
        (FITS, fret_fits(job, layout, size)),
        (CHAIN.format(how_held(job).ridge), chain_of_doubt(job, layout, size)),
    )
    return [(title, plot) for title, plot in both if plot is not None]


def _high(flow: Flow, rows: int, below: float) -> float:
    """How high plots are, so that all rows stand on the page that is begun, where they can; else on one of their own.
    They fill it, but for what is wanted below.
    """
    room = (flow.room - HEADING) / rows - TITLE
    if room >= LOW:
        return max(min(HIGH, room), min(OWN_PAGE, (flow.room - HEADING - below) / rows - TITLE))
    own = (flow.ground.height - HEADING - below) / rows - TITLE
    return min(OWN_PAGE, own) if own >= HIGH else HIGH


def _side_by_side(flow: Flow, row: list[tuple[str, Plot]], step: float, high: float) -> None:
    """Plots with their titles above them, from the left."""
    flow.need(high + TITLE)
    flow.y -= SIZE + 2.0
    for count, (title, plot) in enumerate(row):
        x = flow.ground.x0 + count * step
        flow.put((x, flow.y), title, bold=True)
        flow.pages[-1] += Transform(shift=(x, flow.y - 1.5 - high)).marks(plot.drawing.marks)
    flow.y -= high + 4.0
