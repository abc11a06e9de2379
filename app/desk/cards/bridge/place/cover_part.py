"""The smallest bridge of its family that hides the old footprint, beside the bridge as it is."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.look import Look
from app.edit.bridge.cover_old import cover_old
from app.say import smallest_bridge
from geometry.old_work.footprint.covering import covering_of

HEADS = ("", "as it is", "hides it all")


class CoverPart(Fold):
    """Shown while the old footprint would not surely be hidden."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("A bridge that hides the old one", look, parent, self._fill)
        self.document = document
        self.head.toggled.connect(self.refresh)

    def _fill(self) -> None:
        self.grid = QGridLayout()
        self.grid.setHorizontalSpacing(20)
        self.grid.setVerticalSpacing(4)
        self.cells: list[QLabel] = []
        self.column.addLayout(self.grid)
        self.words = label("", "label", self.inside)
        self.column.addWidget(self.words)
        says = "Makes the bridge so large, its sizes rounded up; its slot stays where it is"
        self.take = make_button("Take these sizes", says, self.inside)
        self.take.clicked.connect(self._take)
        row = QHBoxLayout()
        row.addWidget(self.take)
        row.addStretch(1)
        self.column.addLayout(row)

    def _take(self) -> None:
        made = cover_old(self.document.job, self.document.layout)
        self.document.edit("a bridge that hides the old one", made)

    def refresh(self) -> None:
        """Show both, or nothing where the old footprint is hidden or no such bridge is known."""
        job, layout = self.document.job, self.document.layout
        found = covering_of(job.bridge, layout) if layout is not None and job.bridge is not None else None
        self.setVisible(found is not None)
        if found is None or not self.is_filled:
            return
        table = (HEADS, *smallest_bridge.rows(job, found))
        texts = [text for row in table for text in row]
        while len(self.cells) < len(texts):
            at = len(self.cells)
            cell = label("", "label" if at % len(HEADS) == 0 or at < len(HEADS) else "text", self.inside, wrap=False)
            side = Qt.AlignmentFlag.AlignLeft if at % len(HEADS) == 0 else Qt.AlignmentFlag.AlignRight
            self.grid.addWidget(cell, at // len(HEADS), at % len(HEADS), side)
            self.cells.append(cell)
        for at, cell in enumerate(self.cells):
            cell.setText(texts[at] if at < len(texts) else "")
        self.grid.setColumnStretch(0, 1)
        self.words.setText(smallest_bridge.sentence(job, found))
        self.take.setEnabled(cover_old(job, layout) != job)
