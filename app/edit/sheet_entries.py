"""What the Sheets card says and puts back: paper, the stock that parts are laid on, and what is seldom asked."""

from app.edit.edits import replace
from geometry import units
from geometry.job import Job, NotAJob
from geometry.job.sheets import CUTS
from geometry.units import Length, Unit

PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Legal", "Tabloid", "ANSI C", "ANSI D")
"""The sizes of paper to choose from."""


def own_paper(job: Job) -> str:
    """A size of paper that is none of those to choose from, as it was typed."""
    return "" if job.sheets.paper in PAPERS else job.sheets.paper


def put_own_paper(job: Job, text: str) -> Job:
    """The job with paper of a typed size; where nothing is typed, one of those to choose from. Raises `NotAJob`."""
    from export.errors import ExportError
    from export.paper_sizes import paper_named, typed_in

    paper = text.strip() or (job.sheets.paper if job.sheets.paper in PAPERS else PAPERS[0])
    paper = typed_in(paper, job.unit)
    try:
        paper_named(paper)
    except ExportError as error:
        raise NotAJob(str(error)) from None
    return replace(job, sheets=replace(job.sheets, paper=paper))


def stock_from(text: str, unit: Unit, called: str) -> tuple[Length, Length]:
    """A width and a height with an x between them, each in any unit. Raises `NotAJob`, which begins as it is called."""
    sides = text.casefold().replace("×", "x").split("x")
    if len(sides) != 2:
        raise NotAJob(f"{called} takes a width and a height, such as 300x120, not “{text}”")
    try:
        return units.keep(sides[0], unit), units.keep(sides[1], unit)
    except units.NotALength as error:
        raise NotAJob(f"{called}: {error}") from None


def stock_of(job: Job) -> str:
    """The stock as it would be typed again; nothing where there is none."""
    if job.sheets.stock is None:
        return ""
    return " x ".join(units.typed(side, job.unit) for side in job.sheets.stock)


def put_stock(job: Job, text: str) -> Job:
    """The job with another stock, or with none where nothing is typed."""
    stock = stock_from(text, job.unit, "The stock") if text.strip() else None
    return replace(job, sheets=replace(job.sheets, stock=stock))


def seldom_used(job: Job) -> str:
    """In a few words, what of stock, turning and cutters of their own is in force."""
    sheets = job.sheets
    said = []
    if sheets.stock is not None:
        grain = f", grain {sheets.grain.replace('along', 'along its')}" if sheets.grain != "unknown" else ""
        said.append(f"stock {' by '.join(units.with_unit(side) for side in sheets.stock)}{grain}")
    if sheets.turning:
        said.append("holes to turn on")
    for operation in ("outline", "window"):
        if operation in sheets.cutters:
            said.append(f"{units.with_unit(sheets.cutters[operation])} for {CUTS[operation]}")
    return f"In force: {'; '.join(said)}." if said else "None of it is in force."
