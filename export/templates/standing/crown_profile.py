"""The crown from the front, in its own size: how high it stands over the top under each string, a profile to file by.

It is seen as one looks from the nut to the tail, so that left is left; its lower edge lies on the top, where the feet
stand.
"""

from export.drawing.marks import XY, Mark
from export.hole_table import Table
from export.templates.blanks import solid_views
from export.templates.blanks.solid_views import View, break_and_press, in_rows
from geometry.job import Job
from geometry.layout import SaddleBlank, SaddleString
from geometry.solids.fineness import told_saddle
from geometry.units import said_pm, said_roughly, show

OF = "crown profile"


def front(job: Job, crown: SaddleBlank, corner: XY) -> list[Mark]:
    """The profile with its lower left corner there, a line under each string, its name and its height."""
    view = View(corner, 1.0)
    ring = [(0.0, 0.0), (crown.length, 0.0), *reversed(crown.profile)]
    marks = [view.ring(ring, "cut", OF)]
    top = max(high for _, high in crown.profile)
    places = [from_left(job, crown, one) for one in crown.strings]
    numbers = [told_saddle(job, crown).fine(one.over_top[0]) for one in crown.strings]
    for one, x, number, row in zip(crown.strings, places, numbers, in_rows(places, numbers), strict=True):
        low = 2.2 + 2 * solid_views.ROW * row
        marks += [
            view.line((x, 0.0), (x, one.over_top[0]), "centre", f"string:{one.string}", 0.75),
            view.words((x, top), one.string, off=(0.0, low + solid_views.ROW), anchor="mb", bold=True),
            view.words((x, top), number, off=(0.0, low), anchor="mb", height=solid_views.NUMBER),
        ]
    marks += solid_views.letters(job, view, crown.length, "left", min(crown.profile[0][1], crown.profile[-1][1]))
    return [*marks, *solid_views.sides(job, view, crown.length, "left", "the crown seen from the nut")]


def from_left(job: Job, crown: SaddleBlank, one: SaddleString) -> float:
    """Where a string stands from the crown's left end, mm."""
    return one.along if job.bass == "left" else crown.length - one.along


def notes(job: Job, crown: SaddleBlank) -> tuple[str, ...]:
    """How the profile is to be used, and what its roundness follows."""
    rounded = (
        f"Rounded by the board’s radius at the bridge, {said_roughly(crown.radius[0], job.unit)}: "
        f"{said_pm(crown.crown[1], job.unit, crown.crown[0])} in the middle."
        if crown.radius is not None
        else "The board’s radius is not known: from outer string to outer string the edge is straight."
    )
    return (
        "From the front: heights over the top, to the string’s underside. Hold its lower edge level with the feet, and "
        "leave the crown a little high.",
        rounded,
    )


def table(job: Job, crown: SaddleBlank) -> Table:
    """Each string's height over the top with its ±, how steeply it breaks and how hard it presses."""
    return Table(
        title=f"The crown’s height under each string, {job.unit}",
        head=("string", "from bass end", "over top", "breaks by", "presses"),
        rows=tuple(tuple(row) for row in rows(job, crown)),
        sides="seeee",
    )


def rows(job: Job, crown: SaddleBlank) -> list[list[str]]:
    """The same as rows, a string each; how far along the crown as on the strip that is stuck on it."""
    told = told_saddle(job, crown)
    return [
        [
            one.string,
            show(one.along, job.unit),
            told.with_pm(one.over_top),
            *break_and_press(one, job.unit),
        ]
        for one in crown.strings
    ]
