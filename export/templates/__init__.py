"""The templates by name, and their sheets."""

from collections.abc import Callable

import msgspec

from export.errors import ExportError
from export.sheets import Figure, Order, Sheet, Stamp, lay
from export.templates import placement
from geometry.job import Job
from geometry.layout import Layout


class Template(msgspec.Struct, frozen=True, kw_only=True):
    """A template: what it is called and what it is for. A drawing has `draw`, a written sheet `pages`.

    Both raise `ExportError` where the layout does not go far enough.
    """

    name: str
    title: str
    says: str
    draw: Callable[[Job, Layout], Figure] | None = None
    pages: Callable[[Job, Layout, Stamp], tuple[Sheet, ...]] | None = None


TEMPLATES: dict[str, Template] = {
    "placement": Template(
        name="placement",
        title="Placement template",
        says="Tape it on the top, its notch against the board's end: where bridge, slot and pin holes go.",
        draw=placement.draw,
    ),
}


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
    for name in stamp.templates:
        template = template_named(name)
        if template.pages is not None:
            pages += template.pages(job, layout, stamp)
        elif template.draw is not None:
            figure = template.draw(job, layout)
            pages += lay(Order(figure=figure, template=name, title=job.title, stamp=stamp, stops=stops))
    return tuple(pages)
