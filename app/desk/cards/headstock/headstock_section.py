"""The headstock as found, in its section: the ways of entering its points, then what is made of them."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.cards.headstock import sections
from app.desk.cards.headstock.sections import Section
from app.desk.cards.ways_of_entry import WaysOfEntry
from app.desk.document.document import Document
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.look import Look
from app.edit.old_work.old_kinds import HEAD_KINDS
from geometry import words
from geometry.job import Job

HOW = "Read its points on the Measure card, point at them on the plan, or type a list: what is read comes in here."


class HeadstockSection(Section):
    """Signals: those of its ways of entry."""

    measuring = Signal(str)
    pointing = Signal(str, object)

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        parts = sections.headstock_rows, sections.headstock_shape, sections.headstock_said
        super().__init__(document, look, "Headstock", parts, parent)
        self.entry: EntryPart | None = None

    def refresh(self) -> None:
        super().refresh()
        if self.entry is not None:
            self.entry.ways.refresh()

    def _make(self, job: Job) -> None:
        if self.entry is None:
            self.entry = EntryPart(self.document, self.fold.inside)
            self.entry.ways.measuring.connect(self.measuring)
            self.entry.ways.pointing.connect(self.pointing)
            self.fold.column.addWidget(self.entry)
        super()._make(job)


class EntryPart(QWidget):
    """What of the headstock is entered, and how."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.what = Choice("Enter", "What of the headstock is entered", self)
        for kind, about in HEAD_KINDS.items():
            self.what.addItem(words.first_large(about.says), kind)
        self.ways = WaysOfEntry(document, self.what.currentData(), self)
        self.wrong = label("", "wrong", self)
        self.wrong.hide()
        named = QLabel("Enter", self)
        named.setBuddy(self.what)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(named)
        row.addWidget(self.what, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 12)
        column.setSpacing(8)
        column.addWidget(label(HOW, "label", self))
        column.addLayout(row)
        column.addWidget(self.ways)
        column.addWidget(self.wrong)
        self.what.currentIndexChanged.connect(lambda: self.ways.show_kind(self.what.currentData()))
        self.ways.wrong.connect(self._say)
        document.started.connect(lambda: self._say(""))

    def _say(self, wrong: str) -> None:
        self.wrong.setText(wrong)
        self.wrong.setVisible(bool(wrong))
