"""What the Sheets card says and puts back: paper, templates, the stock that parts are laid on, what is seldom asked."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from app.edit.edits import replace
from geometry import units, words
from geometry.job import Job, NotAJob
from geometry.job.bridges.how_held import how_held
from geometry.job.sheets import CUTS
from geometry.units import Length, Unit

if TYPE_CHECKING:
    from export.records import Sheet
    from export.templates import Part

MAIN = ("placement", "bridge-place", "saddle-bases", "job-sheet")
"""The templates that nearly every job wants, by how its bridge is held: see `main_templates`."""

PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Legal", "Tabloid", "ANSI C", "ANSI D")
"""The sizes of paper to choose from."""

GRAINS = {"unknown": "not told", "along width": "along its width", "along height": "along its height"}
"""Which way the stock's grain runs, in words."""


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


def main_templates(job: Job) -> tuple[str, ...]:
    """Where the bridge goes, and the written record: what nearly every job wants."""
    return how_held(job).placed_by, "job-sheet"


def is_ticked(job: Job, name: str) -> bool:
    """Whether a template is chosen; that of a floating bridge's place by either of its names."""
    return not {name, _other_name(job, name)}.isdisjoint(job.sheets.templates)


def put_ticked(job: Job, name: str, *, on: bool) -> Job:
    """The job with a template chosen or not, by one name alone."""
    kept = tuple(one for one in job.sheets.templates if one not in (name, _other_name(job, name)))
    return replace(job, sheets=replace(job.sheets, templates=(*kept, name) if on else kept))


def is_twice(job: Job, name: str) -> bool:
    """Whether a template is the same page as the job's main one, under another name."""
    return name == "placement" and job.held == "strings"


def _other_name(job: Job, name: str) -> str:
    """The placement template of a bridge that is held by the strings is drawn as its place."""
    return "placement" if name == "bridge-place" and is_twice(job, "placement") else name


def ticked_of(job: Job, part: "Part") -> str:
    """Which templates of a part are chosen, but those that are in sight anyway; nothing where none is."""
    from export.templates import TEMPLATES

    chosen = [
        _called(template.title)
        for template in TEMPLATES.values()
        if template.part == part
        and template.name in job.sheets.templates
        and template.name not in main_templates(job)
        and not is_twice(job, template.name)
    ]
    return f"Ticked: {words.joined(chosen)}." if chosen else ""


def pages_told(pages: "Sequence[Sheet]", wanted: "Sequence[Sheet]", paper: str) -> str:
    """Which templates are printed and written, on how many sheets, of how many there are."""
    from export.templates import TEMPLATES

    if not pages:
        return "Nothing to print yet."
    titles = dict.fromkeys(_called(TEMPLATES[page.template].title) for page in wanted or pages)
    of = f"{len(wanted)} of " if len(wanted) != len(pages) else ""
    counted = f"{of}{words.how_many(len(pages), 'sheet')} of {paper}"
    return f"{words.first_large(words.joined(tuple(titles)))}: {counted}."


def _called(title: str) -> str:
    """A template among others in a sentence: no comma within its name."""
    return words.first_small(title.replace(",", ""))


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
        grain = f", grain {GRAINS[sheets.grain]}" if sheets.grain != "unknown" else ""
        said.append(f"stock {' by '.join(units.with_unit(side) for side in sheets.stock)}{grain}")
    if sheets.turning:
        said.append("holes to turn on")
    for operation in ("outline", "window"):
        if operation in sheets.cutters:
            said.append(f"{units.with_unit(sheets.cutters[operation])} for {CUTS[operation]}")
    return f"In force: {'; '.join(said)}." if said else "None of it is in force."
