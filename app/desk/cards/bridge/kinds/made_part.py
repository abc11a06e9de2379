"""Whether the saddle is one piece: the answer, what only that kind of saddle needs, and the ways side by side."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.desk.cards.bridge.kinds.kind_part import BridgePart
from app.desk.cards.card import words as label
from app.desk.cards.form import Form
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.look import Look
from app.edit.bridge import bridge_entries


class MadePart(BridgePart):
    """The saddle's pieces or its steps."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        answers, get, put = bridge_entries.MADE, bridge_entries.made, bridge_entries.put_made
        self.form.choice("Is the saddle one piece?", answers, get, put, key="saddle.made", wide=True)
        form = self.form
        self.parts = (
            form.shown_while(lambda job: bridge_entries.made(job) in ("two", "three"), self._after),
            form.shown_while(lambda job: bridge_entries.made(job) not in ("one", "steps"), self._pieces),
            form.shown_while(lambda job: bridge_entries.made(job) == "steps", self._steps),
        )
        self.ways = WaysPart(document, look, self)
        self.column.addWidget(self.ways)

    def _after(self, form: Form) -> None:
        says = "The strings after which it is parted, from treble to bass, such as 2, 4. Empty: where that is best."
        splits = bridge_entries.splits, bridge_entries.put_splits
        form.text("Parted after", *splits, wide=80, says=says, key="saddle.splits")

    def _pieces(self, form: Form) -> None:
        saddle = bridge_entries.saddle_field
        form.length("Wood between two slots", *saddle("wall"), key="saddle.wall")
        says = "A warning is shown for one that is shorter."
        form.length("A piece’s least length", *saddle("least_piece"), says=says, key="saddle.least_piece")

    def _steps(self, form: Form) -> None:
        says, least = "A warning is shown for one that is narrower.", bridge_entries.saddle_field("least_step")
        form.length("A step’s least width", *least, says=says, key="saddle.least_step")

    def go_to(self, where: str) -> bool:
        shown = (part for part in self.parts if part.parent.isVisibleTo(self))
        return super().go_to(where) or any(part.go_to(where) for part in shown)

    def refresh(self) -> None:
        super().refresh()
        self.ways.refresh()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.ways.show_look(look)


WAYS = (
    "The worst string’s cents at fret 12, whether each string stays within its own ±, and the thinnest saddle that "
    "will do, for the places as worked out, without their ±."
)
"""What stands in the columns."""


class WaysPart(Fold):
    """The ways to make the saddle, each with what it leaves over; worked out while it is unfolded."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("Choice of saddle", look, parent, self._fill)
        self.document = document
        self.head.toggled.connect(self.refresh)

    def _fill(self) -> None:
        self.about = label(WAYS, "label", self.inside)
        self.column.addWidget(self.about)
        self.grid = QGridLayout()
        self.grid.setHorizontalSpacing(14)
        self.grid.setVerticalSpacing(4)
        self.column.addLayout(self.grid)
        self.cells: list[QLabel] = []
        self.none = label("", "label", self.inside)
        self.column.addWidget(self.none)

    def refresh(self) -> None:
        """Show them for the document's layout, one below the other: a line each and what it leaves under it."""
        job, layout = self.document.job, self.document.layout
        self.setVisible(layout is not None and len(layout.strings) > 1)
        if not self.is_open or layout is None:
            return
        from geometry.saddle.choice_of_saddle import CARD_HEADS, card_rows, saddle_choices

        found = saddle_choices(job, layout)
        table = (CARD_HEADS, *card_rows(job, found)) if found else ()
        texts = [(text, at) for row in table for at, text in enumerate(row)]
        while len(self.cells) < len(texts):
            at = len(self.cells)
            cell = label("", "label" if at < len(CARD_HEADS) else "text", self.inside)
            side = Qt.AlignmentFlag.AlignTop  # a name is as wide as its column, or it would wrap where it need not
            if at % len(CARD_HEADS):
                side |= Qt.AlignmentFlag.AlignRight
            self.grid.addWidget(cell, at // len(CARD_HEADS), at % len(CARD_HEADS), side)
            self.cells.append(cell)
        for at, cell in enumerate(self.cells):
            cell.setText(texts[at][0] if at < len(texts) else "")
            cell.setVisible(at < len(texts))
        self.grid.setColumnStretch(0, 1)
        self.none.setText("" if found else "A slot that is cut or moves with the bridge chooses its saddle by itself.")
        self.none.setVisible(not found)
        self.about.setVisible(bool(found))
