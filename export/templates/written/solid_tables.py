"""The job sheet's tables of saddle and nut as solids, and the steps at which they are made."""

from export.cautions import Step
from export.paper.flow import Column
from export.templates.blanks.solid_views import break_and_press
from export.templates.standing import crown_profile
from geometry.job import Job
from geometry.layout import Layout
from geometry.solids.fineness import slot_wide, told_nut, told_saddle

Rows = list[list[str]]

SADDLE = (
    Column("string", 16, "s", bold=True),
    Column("from bass end", 28, "e"),
    Column("over the top", 30, "e"),
    Column("over the bridge", 32, "e"),
    Column("over the slot’s floor", 38, "e", bold=True),
    Column("breaks by", 24, "e"),
    Column("presses", 20, "e"),
)
CROWN = (
    Column("string", 16, "s", bold=True),
    Column("from bass end", 30, "e"),
    Column("over the top", 34, "e", bold=True),
    Column("breaks by", 26, "e"),
    Column("presses", 24, "e"),
)
NUT = (
    Column("string", 16, "s", bold=True),
    Column("from bass end", 30, "e", bold=True),
    Column("width", 20, "e"),
    Column("bottom over the board", 40, "e", bold=True),
    Column("over the nut’s bottom", 40, "e"),
    Column("deep", 24, "e"),
    Column("set back", 20, "e"),
)


def saddle(job: Job, layout: Layout) -> Rows:
    """The saddle under each string: its heights with their ±, how steeply the string breaks and how hard it presses."""
    blank = layout.saddle_blank
    if blank is None:
        return []
    told = told_saddle(job, blank)
    return [
        [
            one.string,
            told.fine(one.along),
            told.with_pm(one.over_top),
            told.with_pm(one.over_bridge),
            told.with_pm(one.whole),
            *break_and_press(one, job.unit),
        ]
        for one in blank.strings
    ]


def crown(job: Job, layout: Layout) -> Rows:
    """The crown of a bridge that is held by the strings, under each string."""
    known = layout.floating.heights if layout.floating is not None else None
    return [] if known is None else crown_profile.rows(job, known)


def nut(job: Job, layout: Layout) -> Rows:
    """The nut's slots: place, width, bottom and how far the front edge is set back, with their ±."""
    blank = layout.nut_blank
    if blank is None:
        return []
    told = told_nut(job, blank)
    return [
        [
            slot.string,
            told.with_pm(slot.along),
            slot_wide(slot, job.unit),
            told.with_pm(slot.over_board),
            told.with_pm(slot.over_bed),
            told.with_pm(slot.deep),
            told.fine(slot.behind) if slot.behind else "",
        ]
        for slot in blank.slots
    ]


def filled(columns: tuple[Column, ...], rows: Rows) -> tuple[tuple[Column, ...], Rows]:
    """A table without the columns in which no row holds a word; the first stays, which names the rows."""
    keep = [at for at in range(len(columns)) if at == 0 or any(row[at] for row in rows)]
    return tuple(columns[at] for at in keep), [[row[at] for at in keep] for row in rows]


def steps(layout: Layout, *, fit_later: bool) -> tuple[tuple[Step, str], ...]:
    """Where saddle and nut are made, before the strings go on; whether the saddle's top waits."""
    found: list[tuple[Step, str]] = []
    if layout.saddle_blank is not None:
        file = "file its steps, and peak it" if layout.saddle is not None and layout.saddle.steps else "peak it"
        then = ". Not yet:" if fit_later else ";"
        says = f"Shape the saddle by its blank’s sheet, a little high{then} {file} under each string."
        found.append(("saddle", says))
    if layout.nut_blank is not None:
        found.append(
            ("nut", "Shape the nut by its blank’s sheet; file the slots to their bottoms last, string by string.")
        )
    return tuple(found)
