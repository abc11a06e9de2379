"""The Bridge card's rows for a bridge that is glued: saddle and slot, bridge and seat, pin holes, proof, choice."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.bridge.kinds.ends_part import EndsPart
from app.desk.cards.bridge.kinds.kind_part import KindPart
from app.desk.cards.bridge.kinds.made_part import MadePart
from app.desk.cards.bridge.kinds.traced_part import TracedPart
from app.desk.cards.bridge.place.choice_part import ChoicePart
from app.desk.cards.bridge.place.cover_part import CoverPart
from app.desk.cards.bridge.proof_section import ProofSection
from app.desk.cards.card import bring_into_sight
from app.desk.cards.card import words as label
from app.desk.cards.form import Form, Get, Name, Put
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.look import Look
from app.desk.widgets.made_later import MadeLater
from app.edit.bridge import bridge_entries, traced_outline
from geometry import words
from geometry.job import Job
from geometry.job.measured.proof import STAGES

OUTLINES = [
    ("belly", "with a belly"),
    ("straight", "straight"),
    ("reversed belly", "belly reversed"),
    ("stepped wings", "stepped wings"),
    ("tapered wings", "tapered wings"),
    ("pyramid", "pyramid ends"),
    ("traced", "traced"),
]


class GluedPart(KindPart):
    """A bridge of one piece, glued, with a slot for its saddle. Its rows are made when a job first has one; what the
    plan shows of it is there before.
    """

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self._begin(parent)
        self.cover = CoverPart(document, look, self.places)
        self.choice = ChoicePart(document, look, self.places)
        for place in (self.cover, self.choice):
            self.places.column.addWidget(place)
        self.later = MadeLater(self, self._fill)

    def _fill(self) -> None:
        self.wood = label("", "label", self)
        self._saddle()
        self.heights = label("", "label", self)
        self.column.addWidget(self.heights)
        self._bridge()
        self.column.addWidget(self.wood)
        self.ends = EndsPart(self.document, self.look, self)
        self.column.addWidget(self.ends)
        self._cut_slot()
        self._proof()

    def _begin(self, card: QWidget) -> None:
        """Before there is a bridge its usual sizes are shown, but nothing is drawn from them unasked. What begins it,
        `beginning`, stands at the head of the card, over what waits for it.
        """
        self.beginning = QWidget(card)
        says = "There is no bridge yet. Below stand usual sizes: take them as a start, or type yours over them."
        begin_words = label(says, "text", self.beginning)
        says = "Begins the bridge with the sizes shown below"
        self.begin = make_button("Take usual sizes as a start", says, self.beginning, "main")
        self.begin.clicked.connect(self._take_sizes)
        column = QVBoxLayout(self.beginning)
        column.setContentsMargins(0, 4, 0, 0)
        column.setSpacing(8)
        column.addWidget(begin_words)
        column.addWidget(self.begin, 0, Qt.AlignmentFlag.AlignLeft)

    def _take_sizes(self) -> None:
        self.document.edit("beginning the bridge", bridge_entries.begin(self.document.job))

    def _saddle(self) -> None:
        form = self.form
        form.section("Saddle")
        form.length("Thickness", *_field("saddle", "thickness"), key="saddle.thickness")
        form.length(
            "Slot’s length",
            *_field("saddle", "slot_length"),
            optional=True,
            says="Empty: the strings and a little.",
            key="saddle.slot_length",
        )
        form.length(
            "Slot’s depth",
            *_field("saddle", "slot_depth"),
            optional=True,
            says="From the bridge’s top. Empty: not told.",
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
        self.made = MadePart(self.document, self.look, self)
        self.column.addWidget(self.made)

    def _bridge(self) -> None:
        form = self.form
        form.section("Bridge")
        outline = _field("bridge", "outline")[0]
        form.choice("Outline", OUTLINES, outline, traced_outline.choose, key="bridge.outline")
        self.traced = TracedPart(self.document, self)
        self.column.addWidget(self.traced)
        form.length("Length, wing to wing", *_field("bridge", "length"), key="bridge.length")
        form.length("Width at the wings", *_field("bridge", "width"), key="bridge.width")
        says = "Behind the wings, or before them where it is reversed. Empty: as usual."
        depth = "Belly or middle stands out by"
        self._only(bridge_entries.stands_out, depth, "belly_depth", says)
        self._only(bridge_entries.has_wings, "Length of a wing", "wing_length", "Empty: as usual.")
        says = "To the slot’s front edge. Empty: as usual."
        self._only(lambda job: not bridge_entries.has_slot(job), "Front to slot, in the middle", "front_to_slot", says)
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

    def _only(self, wanted: Callable[[Job], bool], name: str, field: str, says: str) -> None:
        """A length of the bridge that only some have."""
        get, put = _field("bridge", field)
        self.form.only(
            wanted, lambda rows: rows.length(name, get, put, optional=True, says=says, key=f"bridge.{field}")
        )

    def _cut_slot(self) -> None:
        form = self.form
        form.section(
            "A slot that is cut already", "From the bridge’s front edge to the slot’s, at the slot’s two ends."
        )
        form.tick("The slot is cut", bridge_entries.has_slot, bridge_entries.put_has_slot, key="bridge.slot_front")
        form.only(bridge_entries.has_slot, self._slot_ends)

    def _slot_ends(self, form: Form) -> None:
        for side in ("left", "right"):
            name = _at_side("Front to slot", side)
            form.length(name, bridge_entries.slot_of(side), bridge_entries.slot_put(side), optional=True)

    def _proof(self) -> None:
        self.proof_heading = self.proof.form.section(
            "Proof", "Distances that show whether the bridge is where it belongs, and how far off it is if not."
        )
        self.proofs = tuple(ProofSection(self.document, self.look, stage, self.proof) for stage in STAGES)
        for section in self.proofs:
            self.proof.column.addWidget(section)

    def go_to(self, where: str) -> bool:
        if where.startswith("field:proof"):
            self.proofs[0].go_to()
            return True
        if where == "step:bridge":
            return self._go_to_begin()
        moves = where.startswith(("field:choice", "field:bridge.moved"))
        if moves and self.choice.go_to(where):
            return True
        return any(part.go_to(where) for part in (self.made, self.ends)) or super().go_to(where)

    def _go_to_begin(self) -> bool:
        """To the nearest way to a bridge, while there is none."""
        if self.document.job.bridge is not None:
            return False
        bring_into_sight(self.begin)
        self.begin.setFocus(Qt.FocusReason.TabFocusReason)
        return True

    def show_rows(self, on: bool) -> None:
        if on:
            self.later.now()
        super().show_rows(on)

    def refresh(self) -> None:
        super().refresh()
        job, layout = self.document.job, self.document.layout
        self.traced.refresh()
        self.made.refresh()
        self.ends.refresh()
        self.proof_heading.setVisible(job.bridge is not None)
        for line, says in ((self.wood, bridge_entries.wood), (self.heights, bridge_entries.saddle_heights)):
            line.setText(says(job, layout))
            line.setVisible(bool(line.text()))
        for section in self.proofs:
            section.refresh()
        self.cover.refresh()
        self.choice.refresh()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        for place in (self.cover, self.choice):
            place.show_look(look)
        if self.later.is_made:
            for part in (self.made, self.ends):
                part.show_look(look)
            for section in self.proofs:
                section.show_look(look)


def _field(block: str, name: str) -> tuple[Get, Put]:
    """A field of the saddle or bridge block, begun with its usual values where it is empty."""

    def get(job: Job) -> Any:
        return getattr(bridge_entries.block(job, block), name)

    def put(job: Job, value: Any) -> Job:
        return bridge_entries.put(job, block, **{name: value})

    return get, put


def _at_side(name: str, side: str) -> Name:
    """A name with the side as the job's hand calls it."""
    return lambda job: f"{name}, {words.side(side, job.hand)}"
