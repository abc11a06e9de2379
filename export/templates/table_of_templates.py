"""The table of templates: what each is called, what it is for, what draws it."""

from collections.abc import Callable
from typing import Literal

import msgspec

from export.records import Figure, Sheet, Stamp
from export.templates import stock
from export.templates.blanks import nut, nut_drawn, saddle_drawn
from export.templates.glued import bridge, placement, plate, tie_block
from export.templates.hardware import headstock, headstock_sides, markers
from export.templates.separate import saddle_bases
from export.templates.standing import bridge_place, crown, tailpiece
from export.templates.written import before_after, check_sheet, job_sheet
from geometry.go_or_wait import Work
from geometry.job import Held, Job
from geometry.layout import Layout

Part = Literal["bridge", "nut and saddle", "headstock and markers", "owner and printer"]
"""What of an instrument a template is about, or for whom it is."""


class Template(msgspec.Struct, frozen=True, kw_only=True):
    """A template: what it is called, what it is for and which part it is about. A drawing has `draw`, a written sheet
    `pages`. `held`: the one way of holding a bridge that it is for, where it is for no other. `does`: the steps of go
    or wait that its file lets a machine do on the wood.

    Both raise `ExportError` where the layout does not go far enough.
    """

    name: str
    title: str
    says: str
    part: Part
    held: Held | None = None
    does: tuple[Work, ...] = ()
    draw: Callable[[Job, Layout, Stamp], Figure] | None = None
    pages: Callable[[Job, Layout, Stamp], tuple[Sheet, ...]] | None = None


def _placement(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """Where the bridge goes, however it is held."""
    return placement.draw(job, layout, stamp) if job.floating is None else bridge_place.draw(job, layout, stamp)


def _full_length(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """The same from the nut."""
    if job.floating is None:
        return placement.draw_full_length(job, layout, stamp)
    return bridge_place.drawn(job, layout, "nut", "Bridge’s place, full length")


PLACED: tuple[Work, ...] = ("glue", "pins", "slot", "stand")
"""The steps that are done where the sheet of the bridge's place has them."""
_ALL = (
    Template(
        name="placement",
        title="Placement template",
        says="Taped on the top against the board’s end: where the bridge goes, with its slot and holes.",
        part="bridge",
        does=PLACED,
        draw=_placement,
    ),
    Template(
        name="full-length",
        title="Placement, full length",
        says="The same from the nut, over fret 12, in several sheets.",
        part="bridge",
        does=PLACED,
        draw=_full_length,
    ),
    Template(
        name="bridge",
        title=bridge.BRIDGE,
        says="Outline, slot, holes and locating dowels, for drilling and routing.",
        part="bridge",
        held="glue",
        does=("pins", "slot"),
        draw=bridge.draw,
    ),
    Template(
        name="clearing",
        title=bridge.CLEARING,
        says="The footprint drawn in by a ledge: where the finish comes off.",
        part="bridge",
        held="glue",
        draw=bridge.draw_clearing,
    ),
    Template(
        name="plate",
        title="Plate",
        says="The plate under the top with its pin holes, seen from inside.",
        part="bridge",
        held="glue",
        draw=plate.draw,
    ),
    Template(
        name="tie-block",
        title="Tie block",
        says="The block behind the saddle, seen from behind: its holes to drill.",
        part="bridge",
        held="glue",
        draw=tie_block.draw,
    ),
    Template(
        name="bridge-place",
        title="Bridge’s place",
        says="Taped on the top against the board’s end: the feet, the crown’s line, how far it may be slid.",
        part="bridge",
        held="strings",
        does=PLACED,
        draw=bridge_place.draw,
    ),
    Template(
        name="crown",
        title="Crown",
        says="A floating bridge’s upper edge: where each string breaks, and how high.",
        part="bridge",
        held="strings",
        does=("crown",),
        draw=crown.draw,
    ),
    Template(
        name="tailpiece",
        title="Tailpiece",
        says="Behind the bridge: the tail’s middle, where the strings end, its holes.",
        part="bridge",
        draw=tailpiece.draw,
    ),
    Template(
        name="saddle-bases",
        title="Saddle bases",
        says="Where each string has its own saddle: the base with its holes, from the face.",
        part="bridge",
        held="screws",
        does=("screws", "through"),
        draw=saddle_bases.draw_face,
    ),
    Template(
        name="saddle-bases-back",
        title="Saddle bases, back",
        says="The holes through the body and their ferrules from the back, mirrored.",
        part="bridge",
        held="screws",
        does=("through",),
        draw=saddle_bases.draw_back,
    ),
    Template(
        name="nut-slots",
        title="Nut slots",
        says="A strip to stick on the nut: each string’s slot.",
        part="nut and saddle",
        draw=nut.draw,
    ),
    Template(
        name="nut-blank",
        title="Nut blank",
        says="The nut from its front and from above: each slot’s place, width and bottom.",
        part="nut and saddle",
        draw=nut_drawn.draw,
    ),
    Template(
        name="saddle-blank",
        title="Saddle blank",
        says="The saddle from the front and from above: how high it stands under each string.",
        part="nut and saddle",
        held="glue",
        draw=saddle_drawn.draw,
    ),
    Template(
        name="headstock",
        title="Headstock",
        says="Old holes to plug and new posts to drill, from the face.",
        part="headstock and markers",
        draw=headstock.draw_face,
    ),
    Template(
        name="headstock-back",
        title="Headstock, back",
        says="The same from the back, mirrored.",
        part="headstock and markers",
        draw=headstock.draw_back,
    ),
    Template(
        name="headstock-sides",
        title="Headstock, sides",
        says="A strip for each side of a slotted headstock that folds over its edge: where the posts are drilled.",
        part="headstock and markers",
        draw=headstock_sides.draw,
    ),
    Template(
        name="post-jig",
        title="Drilling jig",
        says="A strip for each side with the posts’ middles, to make a jig by.",
        part="headstock and markers",
        draw=headstock.draw_jig,
    ),
    Template(
        name="side-markers",
        title="Side markers",
        says="A strip that folds over the board’s edge: where the dots are drilled.",
        part="headstock and markers",
        draw=markers.draw_side,
    ),
    Template(
        name="face-markers",
        title="Face markers",
        says="The dots in the board’s face, laid on its frets.",
        part="headstock and markers",
        draw=markers.draw_face,
    ),
    Template(
        name="job-sheet",
        title="Job sheet",
        says="The written record to work from: results, check distances, drills, readings, the steps.",
        part="owner and printer",
        pages=job_sheet.pages,
    ),
    Template(
        name="before-and-after",
        title="Before and after",
        says="A page for the owner: what was measured, moved by, in tune to, and both drawings.",
        part="owner and printer",
        pages=before_after.pages,
    ),
    Template(
        name="check-sheet",
        title="Check sheet",
        says="Squares to measure a printer by; it gives the printer’s correction.",
        part="owner and printer",
        pages=check_sheet.pages,
    ),
)
GLUED = ("placement", "full-length", "bridge", "clearing", "plate", "before-and-after")
"""Templates of a bridge that is glued."""
RECORDS = ("job-sheet", "before-and-after")
"""Written pages that a bench makes of each of its jobs, or of none."""
STOCK = Template(
    name="stock",
    title="Stock",
    says="Bridge, plate and nut strip on one piece of stock; for machines only.",
    part="bridge",
    draw=stock.draw,
)
TEMPLATES: dict[str, Template] = {template.name: template for template in _ALL}
