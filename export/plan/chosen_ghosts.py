"""Places the bridge may be moved to, as ghosts on the plan: faint outlines, the one that is looked at with its slot."""

from typing import TYPE_CHECKING

from export.drawing.flatten import polyline
from export.drawing.marks import Mark, Path
from export.plan.labels import Label
from export.plan.plan_view import PlanView

if TYPE_CHECKING:
    from geometry.choice.choose import ChosenPlace


def ghosts(view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The outline of each place; of the one looked at the slot and its name too."""
    marks: list[Mark] = []
    labels: list[Label] = []
    for place in view.choices:
        of, looked_at = f"choice:{place.best_at[0]}", place.best_at[0] == view.chosen
        marks += _ghost(place, of, looked_at)
        if looked_at:
            name, short = place.best_at[0], place.best_at[0].partition(" of ")[0]
            labels.append(Label(at=place.outline[0][:2], words=name, short=short, of=of, clear=1.0))
    return marks, labels


def _ghost(place: "ChosenPlace", of: str, looked_at: bool) -> list[Mark]:
    outline = Mark(
        shape=Path(place.outline, closed=True),
        purpose="kept",
        of=of,
        tone="worked out" if looked_at else "quiet",
        weight=2.0 if looked_at else 1.0,
    )
    slot = Mark(shape=polyline(place.slot, closed=True), purpose="kept", of=of, tone="worked out")
    return [outline, slot] if looked_at else [outline]
