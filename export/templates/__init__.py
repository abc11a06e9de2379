"""The templates by name, and their sheets."""

from collections.abc import Callable

import msgspec

from export.errors import ExportError
from export.sheets import Figure, Order, Sheet, Stamp, lay
from export.templates import bridge, check_sheet, job_sheet, nut, placement, plate
from geometry.job import Job
from geometry.layout import Layout


class Template(msgspec.Struct, frozen=True, kw_only=True):
    """A template: what it is called and what it is for. A drawing has `draw`, a written sheet `pages`.

    Both raise `ExportError` where the layout does not go far enough.
    """

    name: str
    title: str
    says: str
    draw: Callable[[Job, Layout, Stamp], Figure] | None = None
    pages: Callable[[Job, Layout, Stamp], tuple[Sheet, ...]] | None = None


_ALL = (
    Template(
        name="placement",
        title="Placement template",
        says="Taped on the top against the board's end: where bridge, slot and pin holes go.",
        draw=placement.draw,
    ),
    Template(
        name="full-length",
        title="Placement, full length",
        says="The same from the nut, over fret 12, in several sheets.",
        draw=placement.draw_full_length,
    ),
    Template(
        name="bridge",
        title="Bridge",
        says="Outline, slot, pin holes and locating dowels, for drilling and routing.",
        draw=bridge.draw,
    ),
    Template(
        name="clearing",
        title="Finish clearing",
        says="The footprint drawn in by a ledge: where the finish comes off.",
        draw=bridge.draw_clearing,
    ),
    Template(
        name="plate",
        title="Plate",
        says="The plate under the top with its pin holes, seen from inside.",
        draw=plate.draw,
    ),
    Template(
        name="nut-slots",
        title="Nut slots",
        says="A strip to stick on the nut: each string's slot.",
        draw=nut.draw,
    ),
    Template(
        name="job-sheet",
        title="Job sheet",
        says="The written record to work from: results, check distances, drills, readings, the steps.",
        pages=job_sheet.pages,
    ),
    Template(
        name="check-sheet",
        title="Check sheet",
        says="Squares to measure a printer by; it gives the printer's correction.",
        pages=check_sheet.pages,
    ),
)
TEMPLATES: dict[str, Template] = {template.name: template for template in _ALL}


def template_named(name: str) -> Template:
    """The template of that name. Raises `ExportError`."""
    if name not in TEMPLATES:
        raise ExportError(f"There is no template “{name}”; the templates are {', '.join(TEMPLATES)}")
    return TEMPLATES[name]


def stops_of(layout: Layout) -> tuple[str, ...]:
    """What forbids the work to go on, in words."""
    return tuple(finding.text for finding in layout.findings if finding.grade == "stop")


def sheets(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    """All pages of the stamp's templates, in order. Raises `ExportError`."""
    stops = stops_of(layout)
    pages: list[Sheet] = []
    for name in dict.fromkeys(stamp.templates):
        template = template_named(name)
        if template.pages is not None:
            pages += template.pages(job, layout, stamp)
        elif template.draw is not None:
            figure = template.draw(job, layout, stamp)
            pages += lay(Order(figure=figure, template=name, title=job.title, stamp=stamp, stops=stops))
    if not stamp.only:
        return tuple(pages)
    chosen = tuple(page for page in pages if page.name in stamp.only)
    if not chosen:
        raise ExportError(f"No sheet is called {', '.join(stamp.only)}; there are {', '.join(p.name for p in pages)}")
    return chosen
