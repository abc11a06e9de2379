"""The choice of place as a page of plain text: `offsquare choose JOB`."""

from collections.abc import Iterator

from app.say import chosen_places, terminal
from geometry.choice import choose
from geometry.choice.poses import no_choice
from geometry.job import Job
from geometry.layout import Layout
from geometry.survey import survey
from geometry.work_out import lay_out

NONE = "There is nothing to choose yet: the saddle’s place and the bridge come first; `offsquare work-out` says why.\n"


def page(job: Job) -> str:
    """A paragraph a place, ending in a line's end."""
    if no_choice(job):
        return f"{no_choice(job)}\n"
    surveyed = survey(job)
    layout = lay_out(job, surveyed)
    found = chosen_places.rows(job, choose(job, surveyed, layout))
    if not found:
        return NONE
    wide = max(map(len, chosen_places.HEADS))
    parts = list(_first(job, layout))
    for row in found:
        lines = [row.name, f"  {row.moved}"]
        lines += [f"  {head:<{wide}}  {figure}" for head, figure in zip(chosen_places.HEADS, row.figures, strict=True)]
        lines += [f"  {row.gives_up}"] * bool(row.gives_up)
        parts.append("\n".join(lines))
    return terminal.plain("\n\n".join(parts)) + "\n"


def _first(job: Job, layout: Layout) -> Iterator[str]:
    """What must be known before any of the places is chosen: readings that do not agree, and stops."""
    from export.templates.to_be_read_first import doubt_of

    doubt = doubt_of(job, layout)
    if doubt:
        yield terminal.one_line(doubt)
    for finding in layout.findings:
        if finding.grade == "stop":
            yield f"STOP: {terminal.one_line(finding.text)}"
