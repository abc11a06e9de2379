"""Pages laid over the plan as they will be taped."""

from export.drawing.flatten import polyline
from export.drawing.marks import Mark
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from export.records import called


def sheets_over(view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The edges of each page, with its name in a corner."""
    marks: list[Mark] = []
    labels: list[Label] = []
    if "sheets" not in view.overlays:
        return marks, labels
    for sheet in view.sheets:
        if sheet.transform is None:
            continue
        wide, high = sheet.paper.width, sheet.paper.height
        corners = [sheet.transform.back(at) for at in ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))]
        page = polyline(corners, True)
        marks.append(Mark(shape=page, purpose="register", of=f"sheet:{sheet.name}", tone="quiet", filled=True))
        labels.append(
            Label(at=corners[3], words=called(sheet.name), of=f"sheet:{sheet.name}", tone="quiet", prefer=-45)
        )
    return marks, labels
