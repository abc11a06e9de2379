"""The templates by name, and their sheets."""

from collections.abc import Callable

import msgspec

from export.errors import ExportError
from export.sheets import Figure, Order, Sheet, Stamp, lay
from export.templates import placement
from geometry.job import Job
from geometry.layout import Layout


class Template(msgspec.Struct, frozen=True, kw_only=True):
    """A template: what it is called, what it is for, and how it is drawn. `draw` raises `ExportError`."""

    name: str
    title: str
    says: str
    draw: Callable[[Job, Layout], Figure]


TEMPLATES: dict[str, Template] = {
    "placement": Template(
        name="placement",
        title="Placement template",
        says="Tape it on the top, its notch against the board's end: where bridge, slot and pin holes go.",
        draw=placement.draw,
    ),
}


def sheets(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    """All pages of the stamp's templates, in order. Raises `ExportError`."""
    stops = tuple(finding.text for finding in layout.findings if finding.grade == "stop")
    pages: list[Sheet] = []
    for name in stamp.templates:
        template = TEMPLATES.get(name)
        if template is None:
            raise ExportError(f"There is no template “{name}”; the templates are {', '.join(TEMPLATES)}")
        pages += lay(Order(figure=template.draw(job, layout), template=name, title=job.title, stamp=stamp, stops=stops))
    return tuple(pages)
