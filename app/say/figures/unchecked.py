"""Which readings are **checked** by others: a gross error in one would show. A tick stands for no others."""

from geometry.job import Job
from geometry.layout import Layout


def unchecked(layout: Layout) -> frozenset[str]:
    """The readings, by id, in which a slip would not show, wholly or in one of their numbers."""
    return frozenset(fit.id for fit in layout.readings if not fit.checked)


def well_checked(job: Job, layout: Layout) -> bool:
    """Whether the readings agree, and a gross error in any that decides where the saddle lies would show. While there
    is no saddle any of them may come to decide it, but for the heights, which nothing ever checks.
    """
    if layout.survey.verdict != "clean":
        return False
    if layout.saddle is not None:
        return layout.saddle.checked
    heights = {r.id for r in job.readings if r.kind == "height"}
    return unchecked(layout) <= heights


def margins_checked(layout: Layout) -> bool:
    """Whether a gross error in any reading that decides how far the strings run from the board's edges would show."""
    return layout.margins is None or all(margin.checked for margin in layout.margins.at)
