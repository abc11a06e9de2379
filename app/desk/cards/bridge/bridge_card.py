"""The Bridge card: how the bridge is held, what may be done now, and the rows of that kind of bridge."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from app.desk.cards.bridge.go_block import GoBlock
from app.desk.cards.bridge.kinds.floating_part import FloatingPart
from app.desk.cards.bridge.kinds.glued_part import GluedPart
from app.desk.cards.bridge.kinds.kind_part import KindPart
from app.desk.cards.bridge.kinds.separate_part import SeparatePart
from app.desk.cards.bridge.kinds.tail_part import TailPart
from app.desk.cards.bridge.place.placements_part import PlacementsPart
from app.desk.cards.card import Card, scrolled
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.form import Form
from app.desk.cards.plot_picture import PlotPicture
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.desk.widgets.tab_order import tab_down_again
from app.edit.bridge import held_entries
from app.say.figures.progress import OTHER_KINDS
from export.drawing.marks import XY
from export.plots import Plot, chain_of_doubt
from geometry.findings import Finding
from geometry.job import Held
from geometry.layout import Layout

CHAIN_HIGH = 40.0
"""How high the plot of the chain is, mm at text scale 1."""
FIELDS = ("field:bridge", "field:saddle", "field:floating", "field:separate", "field:tail", "step:bridge")
ABOUT = ("bridge", "saddle", "slot", "pin", "floating", "separate", "tail", *FIELDS)
PARTS: dict[Held, Callable[[Document, Look, QWidget], KindPart]] = {
    "strings": FloatingPart,
    "screws": SeparatePart,
}
"""The rows of each kind but the glued one, whose choice of place the plan shows as well."""


class BridgeCard(Card):
    """How the bridge is held and what it is to be, what may be done now, and the proof. The rows of other kinds
    than a glued one are made when they are first needed.
    """

    title = "Bridge"
    line = "The strings say where they want to break; the bridge is placed by that."

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.inside, column = scrolled(self, self.column)
        (self.area,) = self.findChildren(QScrollArea)
        self.form = Form(document, column, self.inside)
        held = held_entries.held, held_entries.hold
        self.held = self.form.choice("How is it held?", held_entries.ANSWERS, *held, wide=True)
        self.glued = GluedPart(document, look, self.inside)
        column.addWidget(self.glued.beginning)
        self.go = GoBlock(document, look, self.inside)
        column.addWidget(self.go)
        self.findings = FindingsList(look, self.inside)
        column.addWidget(self.findings)
        self.doubt_heading = self.form.section(
            "Where its ± comes from",
            "The ± of how far it stands from the nut, as it grows by board, frets and strings, and the share of each.",
        )
        self.doubt = PlotPicture("How the ± comes together", CHAIN_HIGH, self.look, self.inside)
        column.addWidget(self.doubt)
        self.rows, self.places, self.proofs = (QVBoxLayout() for _ in range(3))
        column.addLayout(self.rows)
        self.tail = TailPart(document, look, self.inside)
        column.addWidget(self.tail)
        self.form.section("Other places and sizes")
        column.addLayout(self.places)
        self.placements = PlacementsPart(document, look, self.inside)
        column.addWidget(self.placements)
        column.addLayout(self.proofs)
        column.addStretch(1)
        self.parts: dict[Held, KindPart] = {}
        self._add("glue", self.glued)
        for found in (self.go, self.findings, self.placements):
            found.went_to.connect(self.follow)
        self.refresh()

    @property
    def part(self) -> KindPart:
        """The rows of the bridge as it is held now."""
        held = self.document.job.held
        if held not in self.parts:
            self._add(held, PARTS[held](self.document, self.look, self.inside))
        return self.parts[held]

    def _add(self, held: Held, part: KindPart) -> None:
        self.parts[held] = part
        self.rows.addWidget(part)
        self.places.addWidget(part.places)
        self.proofs.addWidget(part.proof)
        tab_down_again(part)

    def _chain(self, size: XY) -> Plot | None:
        layout = self.document.layout
        return chain_of_doubt(self.document.job, layout, size) if layout is not None else None

    def go_to(self, where: str) -> bool:
        if where.startswith("field:kept"):
            self.placements.reveal()
            return True
        shown = self.tail.go_to(where) or self.part.go_to(where)
        return shown or (where == "step:bridge" and self.go.reveal())

    def refresh(self) -> None:
        now, layout = self.part, self.document.layout
        self.form.refresh()
        held = self.focusWidget()
        others = (part for part in self.parts.values() if part is not now)
        if held is not None and any(r.isAncestorOf(held) for p in others for r in (p, p.places, p.proof)):
            held.clearFocus()  # hidden with the focus it would hand it on, and the card would scroll after it
        for part in self.parts.values():
            part.show_rows(part is now)
        now.refresh()
        begins = now is self.glued and self.document.job.bridge is None
        if self.focusWidget() is self.glued.begin and not begins:
            self.held.setFocus(Qt.FocusReason.OtherFocusReason)  # above it; what stands below would scroll the card
        self.glued.beginning.setVisible(begins)
        self.tail.refresh()
        self.go.refresh()
        self.findings.show_found(_of_bridge(layout))
        self.doubt.show_plot(self._chain)
        self.doubt_heading.setVisible(self.doubt.plot is not None)
        self.placements.refresh()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.go.show_look(look)
        self.findings.show_look(look)
        self.placements.show_look(look)
        self.doubt.show_look(look)
        for part in self.parts.values():
            part.show_look(look)
        self.tail.show_look(look)


def _of_bridge(layout: Layout | None) -> list[Finding]:
    """What was found of the bridge; of another kind than a glued one wherever on the instrument it points. That there
    is none stands over its button.
    """
    found = [f for f in (layout.findings if layout is not None else ()) if f.code != "bridge.missing"]
    return [f for f in found if f.where.startswith(ABOUT) or f.code.partition(".")[0] in OTHER_KINDS]
