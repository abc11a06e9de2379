"""Written pages as sheets: portrait, each with the job, the fingerprint and its number at the foot."""

from export.drawing.flatten import Box
from export.drawing.marks import Drawing, Line, Mark, Text
from export.paper.flow import Flow
from export.paper.furniture import day
from export.paper_sizes import Paper, paper_named
from export.records import Sheet, Stamp, printable_area
from geometry import words
from geometry.job import Job

FOOT = 8.0
"""What is kept for the foot of a page, mm."""


def written_ground(stamp: Stamp) -> Box:
    """Where the words of a page stand, over its foot. Raises `ExportError` where the paper is too small."""
    ground = printable_area(_paper(stamp), stamp.margin, stamp.correction)
    return Box(ground.x0, ground.y0 + FOOT, ground.x1, ground.y1)


def put_head(flow: Flow, job: Job, stamp: Stamp, title: str) -> None:
    """The first page's head: what it is, when and from which file, and whose instrument."""
    flow.y -= 6.0
    flow.put((flow.ground.x0, flow.y), title, 5.2, bold=True)
    flow.put((flow.ground.x1, flow.y), f"{day(stamp.date)} · file {stamp.fingerprint}", 2.3, side="e")
    flow.y -= 2.0
    flow.words(job.title or "Untitled job", 3.1)
    flow.words(words.job_line(job), 2.3)
    flow.y -= 1.0


def numbered(flow: Flow, job: Job, stamp: Stamp, template: str) -> tuple[Sheet, ...]:
    """The pages of a flow on `written_ground`, each with its foot."""
    paper, title = _paper(stamp), template.capitalize().replace("-", " ")
    ground = printable_area(paper, stamp.margin, stamp.correction)
    made = []
    for number, marks in enumerate(flow.pages, 1):
        below = _foot(ground, job, stamp, f"page {number} of {len(flow.pages)}")
        made.append(
            Sheet(
                name=f"{template} {number}",
                template=template,
                drawing=Drawing(title=f"{title} {number}", marks=(*marks, *below)),
                paper=paper,
                margin=stamp.margin,
                correction=stamp.correction,
            )
        )
    return tuple(made)


def _paper(stamp: Stamp) -> Paper:
    """The paper asked for, of a roll as much as a page."""
    paper = paper_named(stamp.paper)
    return Paper(paper.name, paper.width, min(paper.height, paper.width * 1.42))


def _foot(ground: Box, job: Job, stamp: Stamp, page: str) -> list[Mark]:
    """The line at a page's foot: the job, its fingerprint, and which page it is."""
    y = ground.y0
    left = Text((ground.x0, y + 1.2), f"{job.title or 'Untitled job'} · file {stamp.fingerprint}", 2.0)
    right = Text((ground.x1, y + 1.2), page, 2.0, 0.0, "eb")
    line = Line((ground.x0, y + 5.4), (ground.x1, y + 5.4))
    return [Mark(shape=line, purpose="dimension"), *(Mark(shape=text, purpose="note") for text in (left, right))]
