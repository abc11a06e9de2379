"""The Bridge card: the saddle and its slot, the bridge and its seat, and pin holes."""

from typing import Any

from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from app.desk.cards.bridge.choice_part import ChoicePart
from app.desk.cards.bridge.cover_part import CoverPart
from app.desk.cards.bridge.go_block import GoBlock
from app.desk.cards.bridge.placements_part import PlacementsPart
from app.desk.cards.bridge.proof_section import ProofSection
from app.desk.cards.bridge.traced_part import TracedPart
from app.desk.cards.card import Card, scrolled
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.form import Form, Get, Name, Put
from app.desk.cards.plot_picture import PlotPicture
from app.desk.document.document import Document
from app.desk.widgets.buttons import make_button
from app.desk.widgets.look import Look
from app.edit import bridge_entries, traced_outline
from export.drawing.marks import XY
from export.plots import Plot, chain_of_doubt
from geometry import words
from geometry.job import Job
from geometry.job.proof import STAGES

CHAIN_HIGH = 40.0
"""How high the plot of the chain is, mm at text scale 1."""
FIELDS = ("field:bridge", "field:saddle", "step:bridge")
OUTLINES = [
    ("belly", "with a belly"),
    ("straight", "straight"),
    ("reversed belly", "belly reversed"),
    ("stepped wings", "stepped wings"),
    ("tapered wings", "tapered wings"),
    ("pyramid", "pyramid ends"),
    ("traced", "traced"),
]
ABOUT = ("bridge", "saddle", "slot", "pin", *FIELDS)


class BridgeCard(Card):
    """How the saddle and the bridge are to be, what may be done now, and the proof."""

    title = "Bridge"
    line = "The slot follows the saddle line; the bridge is seated from it."

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.inside, column = scrolled(self, self.column)
        (self.area,) = self.findChildren(QScrollArea)
        self.inside_column = column
        self.form = Form(document, column, self.inside)
        self.go = GoBlock(document, look, self.inside)
        column.addWidget(self.go)
        self.findings = FindingsList(look, self.inside)
        column.addWidget(self.findings)
        self.wood = label("", "label", self.inside)
        self._begin(column)
        self._saddle()
        self._doubt(column)
        self._bridge()
        column.addWidget(self.wood)
        self._pins()
        self._cut_slot()
        self._proof(column)
        self.cover = CoverPart(document, look, self.inside)
        column.addWidget(self.cover)
        self.choice = ChoicePart(document, look, self.inside)
        column.addWidget(self.choice)
        self.placements = PlacementsPart(document, look, self.inside)
        column.addWidget(self.placements)
        column.addStretch(1)
        for found in (self.go, self.findings):
            found.went_to.connect(self.follow)
        self.refresh()

    def _begin(self, column: QVBoxLayout) -> None:
        """Before there is a bridge its usual sizes are shown, but nothing is drawn from them unasked."""
        self.begin_words = label(
            "There is no bridge yet. These are usual sizes: type yours over them, or take them as a start.",
            "text",
            self.inside,
        )
        says = "Begins the bridge with the sizes shown"
        self.begin = make_button("Take these sizes as a start", says, self.inside, "main")
        self.begin.clicked.connect(self._take_sizes)
        column.addWidget(self.begin_words)
        column.addWidget(self.begin)

    def _take_sizes(self) -> None:
        self.document.edit("beginning the bridge", bridge_entries.begin(self.document.job))

    def _saddle(self) -> None:
        form = self.form
        form.section("Saddle")
        form.length("Thickness", *_field("saddle", "thickness"), key="saddle.thickness")
        form.length(
            "Slot's length",
            *_field("saddle", "slot_length"),
            optional=True,
            says="Empty: the strings and a little.",
            key="saddle.slot_length",
        )
        form.length(
            "Slot's depth",
            *_field("saddle", "slot_depth"),
            optional=True,
            says="From the bridge's top. Empty: not told.",
            key="saddle.slot_depth",
        )
        peaks = [(0.0, "at the front"), (0.25, "a quarter in"), (0.5, "in the middle"), (0.75, "three quarters in")]
        form.choice("It peaks", [*peaks, (1.0, "at the back")], *_field("saddle", "peak_at"), key="saddle.peak_at")
        form.tick(
            "Straight across, without slant",
            *_field("saddle", "straight"),
            says="What it costs is said in cents.",
            key="saddle.straight",
        )

    def _doubt(self, column: QVBoxLayout) -> None:
        """How the saddle's ± comes together, as a picture."""
        self.doubt_heading = self.form.section(
            "Where its ± comes from",
            "The ± that has come together by board, frets and strings, and the share that each carries.",
        )
        self.doubt = PlotPicture("The saddle's ± along the chain", CHAIN_HIGH, self.look, self.inside)
        column.addWidget(self.doubt)

    def _chain(self, size: XY) -> Plot | None:
        layout = self.document.layout
        return chain_of_doubt(self.document.job, layout, size) if layout is not None else None

    def _bridge(self) -> None:
        form = self.form
        form.section("Bridge")
        outline = _field("bridge", "outline")[0]
        form.choice("Outline", OUTLINES, outline, traced_outline.choose, key="bridge.outline")
        self.traced = TracedPart(self.document, self.inside)
        self.inside_column.addWidget(self.traced)
        form.length("Length, wing to wing", *_field("bridge", "length"), key="bridge.length")
        form.length("Width at the wings", *_field("bridge", "width"), key="bridge.width")
        says = "Behind the wings, or before them where it is reversed. Empty: as usual."
        depth, key = "Belly or middle stands out by", "bridge.belly_depth"
        form.length(depth, *_field("bridge", "belly_depth"), optional=True, says=says, key=key)
        says = "Where its wings are stepped or tapered. Empty: as usual."
        wing, key = "Length of a wing", "bridge.wing_length"
        form.length(wing, *_field("bridge", "wing_length"), optional=True, says=says, key=key)
        says = "To the slot's front edge, while it is not cut. Empty: as usual."
        front, key = "Front to slot, in the middle", "bridge.front_to_slot"
        form.length(front, *_field("bridge", "front_to_slot"), optional=True, says=says, key=key)
        for index, side in enumerate(("left", "right")):
            name = _at_side("Thickness at the slot", side)
            get, put = bridge_entries.thickness_of(index), bridge_entries.thickness_put(index)
            says = (
                ""
                if index == 0
                else "With the heights over the top it tells how high the saddle stands. Empty: not told."
            )
            form.length(name, get, put, optional=True, says=says, key=f"bridge.thickness.{side}")
        seats = [
            ("square", "square to the neck"),
            ("with slot", "turned with the slot"),
            ("old footprint", "on the old footprint"),
        ]
        form.choice("Seated", seats, *_field("bridge", "seat"), key="bridge.seat")

    def _pins(self) -> None:
        form = self.form
        form.section("Pin holes")
        form.tick("It has pin holes", bridge_entries.has_pins, bridge_entries.put_has_pins, key="bridge.pins")
        form.length("Behind the slot", *_pins("behind_slot"), says="From the slot's back edge to the holes' middles.")
        form.length("Diameter", *_pins("diameter"))
        says = "A pin's thin end: holes are drilled below it, then reamed. Empty: told by a taper of 1 in 20."
        form.length("The pins' small end", *_pins("small_end"), optional=True, says=says, key="bridge.pins.small_end")
        says = "Where strings lie in pairs: how far the second one's hole lies behind the first one's."
        form.length("Second row behind by", *_pins("second_row"), says=says)
        form.choice("Their row runs", [("slot", "along the slot"), ("bridge", "along the bridge")], *_pins("row"))

    def _cut_slot(self) -> None:
        form = self.form
        form.section(
            "A slot that is cut already", "From the bridge's front edge to the slot's, at the slot's two ends."
        )
        form.tick("The slot is cut", bridge_entries.has_slot, bridge_entries.put_has_slot, key="bridge.slot_front")
        for side in ("left", "right"):
            name = _at_side("Front to slot", side)
            form.length(name, bridge_entries.slot_of(side), bridge_entries.slot_put(side), optional=True)

    def _proof(self, column: QVBoxLayout) -> None:
        self.form.section(
            "Proof", "Distances that show whether the bridge is where it belongs, and what it says if not."
        )
        self.proofs = tuple(ProofSection(self.document, self.look, stage, self.inside) for stage in STAGES)
        for section in self.proofs:
            column.addWidget(section)

    def go_to(self, where: str) -> bool:
        if where.startswith("field:kept"):
            self.placements.reveal()
            return True
        if where.startswith("field:proof"):
            self.proofs[0].go_to()
            return True
        moves = where.startswith(("field:choice", "field:bridge.moved"))
        return (moves and self.choice.go_to(where)) or self.form.go_to(where)

    def refresh(self) -> None:
        job, layout = self.document.job, self.document.layout
        self.form.refresh()
        self.traced.refresh()
        for widget in (self.begin_words, self.begin):
            widget.setVisible(job.bridge is None)
        self.go.refresh()
        self.findings.show_layout(layout, ABOUT)
        self.doubt.show_plot(self._chain)
        self.doubt_heading.setVisible(self.doubt.plot is not None)
        self.wood.setText(bridge_entries.wood(job, layout))
        self.wood.setVisible(bool(self.wood.text()))
        for section in self.proofs:
            section.refresh()
        self.cover.refresh()
        self.choice.refresh()
        self.placements.refresh()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.go.show_look(look)
        for section in self.proofs:
            section.show_look(look)
        self.findings.show_look(look)
        self.cover.show_look(look)
        self.choice.show_look(look)
        self.placements.show_look(look)
        self.doubt.show_look(look)


def _field(block: str, name: str) -> tuple[Get, Put]:
    """A field of the saddle or bridge block, begun with its usual values where it is empty."""

    def get(job: Job) -> Any:
        return getattr(bridge_entries.block(job, block), name)

    def put(job: Job, value: Any) -> Job:
        return bridge_entries.put(job, block, **{name: value})

    return get, put


def _pins(name: str) -> tuple[Get, Put]:
    return bridge_entries.pins_of(name), bridge_entries.pins_put(name)


def _at_side(name: str, side: str) -> Name:
    """A name with the side as the job's hand calls it."""
    return lambda job: f"{name}, {words.side(side, job.hand)}"
