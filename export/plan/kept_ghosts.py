"""Kept placements on the plan, as ghosts: thin lines of their own type, each with its name, under the present one;
several have letters instead, with which they stand in lists. On paper one that is as the present one is left out.
"""

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Mark, Path
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.bridge import bridge_outline
from geometry.job import Bridge, Job, Kept, Places
from geometry.layout import Layout
from geometry.placed import kept_told
from geometry.placed.kept_placements import lies_as_now, seen_now
from geometry.units import Length, mm


def ghosts(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Every kept placement on the neck as it is found now; nothing while none can be found."""
    marks: list[Mark] = []
    labels: list[Label] = []
    if layout.neck is None or "placements" not in view.overlays:
        return marks, labels
    for number, kept in enumerate(job.kept):
        if view.on_paper and _as_now(job, layout, kept):
            continue
        places = seen_now(kept.places, layout.neck)
        marks += _ghost(kept, places, view)
        named = places.corners or places.slot
        labels.append(_name(job, kept, named[number % 4], led=view.close_up))
    return marks, labels


def _as_now(job: Job, layout: Layout, kept: Kept) -> bool:
    """Whether its ghost would be covered by the present placement."""
    outlines = [bridge_outline.outline(bridge) if bridge is not None else None for bridge in (kept.bridge, job.bridge)]
    return outlines[0] == outlines[1] and lies_as_now(job, layout, kept)


def _name(job: Job, kept: Kept, at: XY, *, led: bool) -> Label:
    """Its letter among several; else its name and the day, or the name alone where there is no room for both."""
    letter, of = kept_told.letter(job, kept), f"kept:{kept.name}"
    if letter:
        return Label(at=at, words=letter, of=of, tone="quiet", clear=1.0, led=led)
    said = f"{kept.name}, {kept.when}" if kept.when else kept.name
    return Label(at=at, words=said, short=kept.name, of=of, tone="quiet", clear=1.0, led=led)


def _ghost(kept: Kept, places: Places, view: PlanView) -> list[Mark]:
    of = f"kept:{kept.name}"
    shapes: list[Path | Circle] = []
    if kept.separate is None:  # saddles of their own have no slot
        shapes += [polyline(slot, closed=True) for slot in places.slots or (places.slot,)]
    if places.corners is not None:
        shapes.append(_outline(kept.bridge, places.corners))
    wide = _hole(kept)
    if view.near and wide is not None:
        shapes += [Circle(at, mm(wide) / 2) for at in places.pins]
    return [Mark(shape=shape, purpose="kept", of=of, tone="quiet") for shape in shapes]


def _hole(kept: Kept) -> Length | None:
    """The diameter of pin holes, or of through holes."""
    if kept.separate is not None:
        return kept.separate.through.diameter if kept.separate.through is not None else None
    return kept.bridge.pins.diameter if kept.bridge is not None and kept.bridge.pins is not None else None


def _outline(bridge: Bridge | None, corners: tuple[XY, XY, XY, XY]) -> Path:
    """The bridge's outline on its four corners, of which the first two are its front's."""
    if bridge is None:
        return polyline(corners, closed=True)
    left, right = complex(*corners[0]), complex(*corners[1])
    middle, leftward = (left + right) / 2, (left - right) / abs(left - right)
    placed = [(middle + leftward * complex(y, -x), bulge) for x, y, bulge in bridge_outline.outline(bridge)]
    return Path(tuple((at.real, at.imag, bulge) for at, bulge in placed), closed=True)
