"""The ways of fitting the new posts, side by side: what each comes to, and the one that is taken."""

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.made_later import MadeLater
from app.edit.headstock import tuner_entries

NAMED = {
    "first post": "Keep the first post",
    "middle post": "Keep the middle post",
    "most old holes": "Keep the most old holes",
    "least wood": "Plug the least wood",
}


class FittingRow(QWidget):
    """One way; the one in force says so instead of offering itself."""

    def __init__(self, keep: str, take: Callable[[], None], parent: QWidget) -> None:
        super().__init__(parent)
        self.name = label(NAMED[keep], "text", self)
        self.says = label("", "label", self)
        self.taken = label("In force", "quiet", self, wrap=False)
        self.button: QPushButton = make_button("Take this one", "Fits the new posts so", self)
        self.button.setAccessibleName(f"Take this one: {NAMED[keep]}")
        self.button.clicked.connect(take)
        head = QHBoxLayout()
        head.addWidget(self.name, 1)
        head.addWidget(self.taken)
        head.addWidget(self.button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 4)
        column.setSpacing(2)
        column.addLayout(head)
        column.addWidget(self.says)

    def show_way(self, says: str, *, in_force: bool) -> None:
        """What it comes to."""
        self.says.setText(says)
        self.taken.setVisible(in_force)
        self.button.setVisible(not in_force)


class FittingsPart(QWidget):
    """All four; seen while there are posts to fit."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self.rows: dict[str, FittingRow] = {}
        self.later = MadeLater(self, self._fill)

    def _fill(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(6)
        column.addWidget(label("How the posts are fitted", "heading", self))
        self.rows = {keep: FittingRow(keep, self._taker(keep), self) for keep in NAMED}
        for row in self.rows.values():
            column.addWidget(row)

    def _taker(self, keep: str) -> Callable[[], None]:
        def take() -> None:
            _, put = tuner_entries.tuner_field("keep")
            self.document.edit(NAMED[keep].lower(), put(self.document.job, keep))

        return take

    def refresh(self) -> None:
        """What each way comes to, as the job is now."""
        tuners = self.document.job.hardware.tuners
        said = dict(tuner_entries.fittings_said(self.document.job, self.document.layout))
        if said:
            self.later.now()
        self.setVisible(bool(said))
        for keep, row in self.rows.items():
            row.show_way(said.get(keep, ""), in_force=tuners is not None and tuners.keep == keep)
