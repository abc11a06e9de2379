"""The templates by name, and their sheets."""

from collections.abc import Callable

import msgspec

from export import cautions
from export.drawing.room.clear_words import words_clear
from export.errors import ExportError
from export.paper.lay_sheets import Figure, PrintOrder, Sheet, Stamp, lay
from export.paper_sizes import paper_named
from export.records import printable_area
from export.templates.table_of_templates import GLUED, RECORDS, STOCK, TEMPLATES, Part, Template
from export.templates.to_be_read_first import looks_of, readings_in_doubt, stops_of
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout

__all__ = [
    "GLUED",
    "RECORDS",
    "SAME_PAGE",
    "STOCK",
    "TEMPLATES",
    "LeftOut",
    "Part",
    "Template",
    "all_sheets",
    "asked_for",
    "chosen",
    "figure_of",
    "is_of_its_kind",
    "sheets",
    "template_named",
]


def template_named(name: str) -> Template:
    """The template of that name. Raises `ExportError`."""
    if name not in TEMPLATES:
        raise ExportError(f"There is no template “{name}”; the templates are {', '.join(TEMPLATES)}")
    return TEMPLATES[name]


def figure_of(template: Template, job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """What a template draws, no words on lines. Raises `ExportError`, also for a template of a bridge that is glued
    where the job's is not.
    """
    is_of_its_kind(template, job)
    assert template.draw is not None
    figure = template.draw(job, layout, stamp)
    return msgspec.structs.replace(figure, marks=words_clear(figure.marks))


def is_of_its_kind(template: Template, job: Job) -> None:
    """Raises `ExportError` for a template of a glued bridge where the job's is not."""
    instead = how_held(job).instead
    if instead and template.name in GLUED:
        raise ExportError(f"These templates are of a bridge that is glued: {', '.join(GLUED)}. Take {instead} here")


LeftOut = Callable[[str], None]
"""Told, in a sentence, of each thing that could not be made and so is left out."""


def sheets(job: Job, layout: Layout, stamp: Stamp, left_out: LeftOut | None = None) -> tuple[Sheet, ...]:
    """The pages of the stamp's templates, in order, those that it chooses.

    Where the layout cannot serve a template, `left_out` is told and the others are made. Raises `ExportError` for
    names that are not known, and for what cannot be made where there is no `left_out`.
    """
    return chosen(all_sheets(job, layout, stamp, left_out), stamp.only)


def all_sheets(job: Job, layout: Layout, stamp: Stamp, left_out: LeftOut | None = None) -> tuple[Sheet, ...]:
    """As `sheets`, but all of them, whichever the stamp chooses."""
    templates = asked_for(job, stamp, left_out)
    printable_area(
        paper_named(stamp.paper), stamp.margin, stamp.correction
    )  # paper that holds nothing is never left out
    pages: list[Sheet] = []
    for template in templates:
        try:
            pages += _pages(template, job, layout, stamp)
        except ExportError as error:
            if left_out is None:
                raise
            left_out(str(error))
    return tuple(pages)


SAME_PAGE = "The placement template of a bridge that is held by the strings is “Bridge’s place”, which is written once"


def asked_for(job: Job, stamp: Stamp, left_out: LeftOut | None = None) -> tuple[Template, ...]:
    """The stamp's templates, each once; `left_out` is told of one that would be the same page as another. Raises
    `ExportError` for a name that is not known.
    """
    names = dict.fromkeys(stamp.templates)
    if job.floating is not None and "bridge-place" in names and names.pop("placement", True) is None and left_out:
        left_out(SAME_PAGE)
    return tuple(map(template_named, names))


def _pages(template: Template, job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    if template.pages is not None:
        is_of_its_kind(template, job)
        return template.pages(job, layout, stamp)
    figure = figure_of(template, job, layout, stamp)
    figure = msgspec.structs.replace(figure, notes=(*figure.notes, *cautions.of_template(template.name, job.held)))
    order = PrintOrder(figure=figure, template=template.name, title=job.title, stamp=stamp, unit=job.unit)
    found = {"stops": stops_of(layout), "looks": looks_of(layout), "doubt": readings_in_doubt(job, layout)}
    return lay(msgspec.structs.replace(order, **found))


def chosen(pages: tuple[Sheet, ...], only: tuple[str, ...]) -> tuple[Sheet, ...]:
    """The sheets that are called so, in full (`full-length A1`) or by row and column (`A1`); no name: all of them.

    Raises `ExportError` for a name that none has.
    """
    wanted = {name.casefold() for name in only}
    for name in only if pages else ():
        if not any(name.casefold() in _names(page) for page in pages):
            raise ExportError(f"No sheet is called {name}; there are {', '.join(page.name for page in pages)}")
    return tuple(page for page in pages if not wanted or wanted & _names(page))


def _names(page: Sheet) -> set[str]:
    return {page.name.casefold(), page.name.removeprefix(f"{page.template} ").casefold()}
