"""A list of points typed or pasted: a name and two numbers a line, seen from outside or from inside."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.choice import Choice, Tick
from app.edit.old_work import old_places
from app.edit.old_work.old_kinds import KINDS, AnyKind
from app.say import plain_words
from app.say.how_to import SEEN_INSIDE
from geometry import words
from geometry.job import Job, NotAJob

LINES, AROUND = 5, 20
"""So many lines of a list are seen at once; and what its border, its padding and its page's margin take, pixels."""


class ListOfPoints(QWidget):
    """`finish` adds to the job what else was said of the points. Signals: `done` when it was taken or given up."""

    done = Signal()

    def __init__(self, document: Document, kind: AnyKind, finish: Callable[[Job], Job], parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.kind, self._finish = document, kind, finish
        self.how = Choice("The two numbers are", "From where the points were read", self)
        self.text = QPlainTextEdit(self)
        self.text.setAccessibleName(f"A list of points for {KINDS[kind].says}")
        self.text.setAccessibleDescription("A name and two numbers a line, parted by semicolons")
        self.text.setTabChangesFocus(True)
        self.inside = Tick(SEEN_INSIDE, "What is read off this list comes mirrored", self)
        self.wrong = label("", "wrong", self)
        self.add = make_button("Take the list", "Adds its points as readings", self, "main")
        self.give_up = plain_button("Give up", "Adds nothing", self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 0)
        column.setSpacing(6)
        for widget in (self.how, self.text, self.inside, self.wrong):
            column.addWidget(widget)
        row = QHBoxLayout()
        row.addWidget(self.add)
        row.addWidget(self.give_up)
        row.addStretch(1)
        column.addLayout(row)
        self.add.clicked.connect(self._add)
        self.give_up.clicked.connect(self.done)
        self.inside.clicked.connect(self._said_inside)
        document.started.connect(self.hide)  # what is typed is of the job before

    def open(self) -> None:
        """With what may be typed, in the job's unit and for its hand."""
        job = self.document.job
        about = KINDS[self.kind]
        bass, treble = (f"{words.side(side, job.hand)} edge" for side in (job.bass, _other(job.bass)))
        self.how.clear()
        if about.on_head:
            self.how.addItem("from the nut’s bass corner, and from its treble one", "nut")
        else:
            self.how.addItem(f"along and off the {bass}, from the nut", bass)
            self.how.addItem(f"along and off the {treble}, from the nut", treble)
        self.how.addItem("x and y off a sheet", "sheet")
        self.how.setCurrentIndex(2 if about.under else 0)
        self.inside.setVisible(not about.on_head)
        self.inside.setChecked((self.document.from_inside or about.under) and not about.on_head)
        like = (old_places.FROM_NUT if about.on_head else old_places.OFF_EDGE)[job.unit]
        self.text.setPlaceholderText(f"One point a line, like\n{like}")
        self.text.clear()
        self._say("")
        self.show()
        self.text.setFocus()

    def event(self, event: QEvent) -> bool:
        """So many lines at every text size."""
        if event.type() in (QEvent.Type.Polish, QEvent.Type.StyleChange):
            self.text.ensurePolished()
            self.text.setFixedHeight(self.text.fontMetrics().lineSpacing() * LINES + AROUND)
        return super().event(event)

    def _said_inside(self, on: bool) -> None:
        self.document.from_inside = on

    def _add(self) -> None:
        document = self.document
        try:
            made = old_places.typed_list(
                document.job, self.kind, self.text.toPlainText(), self.how.currentData(), inside=self.inside.isChecked()
            )
        except NotAJob as error:
            self._say(str(error))
            return
        document.edit(f"a list for {KINDS[self.kind].says}", self._finish(made))
        self.done.emit()

    def _say(self, wrong: str) -> None:
        self.wrong.setText(plain_words.sentence(wrong))
        self.wrong.setVisible(bool(wrong))


def _other(side: str) -> str:
    return "left" if side == "right" else "right"
