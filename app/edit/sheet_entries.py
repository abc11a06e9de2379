"""What the Sheets card says and puts back of stock: the piece that parts are laid on, and what is seldom asked."""

from app.edit.edits import replace
from geometry import units
from geometry.job import Job, NotAJob
from geometry.job.sheets import CUTS
from geometry.units import Length, Unit


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
