"""Pages laid over the plan as they will be taped."""

from export.drawing.clip import clip_line
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Mark
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from export.records import called

NamedPage = tuple[list[Mark], Label]
"""A page's edges, and its name."""


def sheets_over(view: PlanView) -> list[NamedPage]:
    """Each page that lies somewhere on the instrument and has an edge in sight, with its name in a corner of it, or
    beside an edge where no corner is seen: one whose name finds no room is not to be drawn either.
    """
    found: list[NamedPage] = []
    for sheet in view.sheets if "sheets" in view.overlays else ():
        if sheet.transform is None or sheet.nowhere:
            continue
        wide, high = sheet.paper.width, sheet.paper.height
        corners = [sheet.transform.back(at) for at in ((0.0, high), (0.0, 0.0), (wide, high), (wide, 0.0))]
        beside = (*corners, *_middles([corners[at] for at in (0, 1, 3, 2)], view))
        of = f"sheet:{sheet.name}"
        page = polyline([corners[at] for at in (1, 3, 2, 0)], True)
        mark = Mark(shape=page, purpose="register", of=of, tone="quiet", filled=True)
        label = Label(
            at=beside[0], elsewhere=beside[1:], words=called(sheet.name), of=of, tone="quiet", prefer=-45, needed=True
        )
        found.append(([mark], label))
    return found


def _middles(ring: list[XY], view: PlanView) -> list[XY]:
    """The middle of what is seen of each edge of a page."""
    window = view.window
    edges = zip(ring, (*ring[1:], ring[0]), strict=True)
    seen = [(a, b) if window is None else clip_line(a, b, window) for a, b in edges]
    return [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in filter(None, seen)]
