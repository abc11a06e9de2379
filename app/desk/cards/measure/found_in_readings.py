"""Which findings stand on the Measure card."""

from app.edit.measure.reading_groups import OF_OLD
from app.say.figures.progress import OF_THE_BOARD, UNLOOKED
from geometry.findings import Finding
from geometry.layout import Layout


def found_in_readings(layout: Layout | None) -> list[Finding]:
    """What was found in the readings themselves besides the survey's own verdict: at most two, the worst first, and
    before others what the step's sign stands for.

    While readings contradict each other, what follows from them would only lead astray.
    """
    if layout is None or layout.neck is None or layout.survey.suspects or layout.survey.groups:
        return []
    told = ("survey.", "point.loose")
    of_old_work = tuple(f"point:{family}." for family in OF_OLD)
    found = [
        f
        for f in layout.findings
        if f.grade != "good"
        and (
            f.where.startswith(("reading:", "seam", "point:", "field:board."))
            or f.code.startswith(("board.", *UNLOOKED))
        )
        and not f.code.startswith(told)
        and not f.where.startswith(of_old_work)  # what becomes of it stands on the Old work card
    ]
    return sorted(found, key=lambda f: (f.grade != "stop", f.code not in OF_THE_BOARD, f.code not in UNLOOKED))[:2]
