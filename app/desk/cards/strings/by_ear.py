"""By ear: what a tuner showed on a trial saddle, as lines that can be added and taken away."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import TypedLine
from app.edit.strings import string_entries
from app.edit.strings.trial_entries import ask_trial
from app.say import plain_words
from geometry.job import Heard, Held, NotAJob
from geometry.job.bridges.floating import TODAY

HOW: dict[Held, str] = {
    "glue": "Set a trial saddle on the top, string it up and read where its ends lie, bass and treble: the link below "
    "asks for them on the Measure card. Tune the open string and read a tuner at a fret.",
    "strings": "The bridge is its own trial: on the Bridge card ask for its feet, read where they stand, tune the open "
    "string and read a tuner at a fret. If it was slid since, measure its feet again.",
    "screws": "Set the saddles on one straight line and read where the strings break over the outer ones: the link "
    "below asks for them on the Measure card. Tune the open string and read a tuner at a fret.",
}
"""How it is done, by how the bridge is held."""


class ByEar(QWidget):
    """`how`: the line that says how it is done. Signals: `went_to_measure` when what was heard on is to be measured,
    `asked` with the first of a trial saddle's readings.
    """

    went_to_measure = Signal()
    asked = Signal(str)

    def __init__(self, document: Document, how: QLabel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.shown: tuple[Heard, ...] = ()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(12)
        self.how = how
        self.lines = QVBoxLayout()
        self.column.addLayout(self.lines)
        self.string = Choice("String heard", "The string that was played", self)
        self.against = Choice("Against", "What the tuner’s reading is compared with", self)
        self.against.addItem("its harmonic", "harmonic")
        self.against.addItem("the open string", "open")
        self.fret = _line("Fret", "12", "The fret at which the tuner was read", self)
        self.cents = _line("Cents", "", "What the tuner showed, sharp is plus", self)
        self.trial = _line("Trial saddle", "1", "The number of the trial saddle that was on", self)
        self.wrong = label("", "wrong", self)
        self.setFocusProxy(self.string)
        self._lay_out()
        self.refresh()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(12)
        pairs = (
            ("String", self.string),
            ("Fret", self.fret),
            ("Against", self.against),
            ("Cents, sharp is +", self.cents),
            ("Trial saddle", self.trial),
        )
        for at, (name, widget) in enumerate(pairs):
            said = QLabel(name, self)
            said.setWordWrap(True)
            said.setBuddy(widget)
            if widget is self.trial:
                self.trial_said = said
            widget.setProperty("in_form", True)
            grid.addWidget(said, at, 0)
            grid.addWidget(widget, at, 1)
        grid.setColumnStretch(0, 1)
        self.column.addLayout(grid)
        self.wrong.hide()
        add = make_button("Add what was heard", "Adds a line with what the tuner showed", self)
        add.clicked.connect(self._add)
        says = "Puts the readings of its ends on the Measure card, to be taken"
        self.measure = plain_button("Measure the trial saddle", says, self)
        self.measure.clicked.connect(self._measure)
        self.column.addWidget(add, 0, Qt.AlignmentFlag.AlignLeft)  # beside the other it is too wide for large text
        self.column.addWidget(self.wrong)  # under what was pressed, which stays under the pointer
        self.column.addWidget(self.measure, 0, Qt.AlignmentFlag.AlignLeft)

    def refresh(self) -> None:
        stands = self.document.job.floating is not None
        self.how.setText(HOW[self.document.job.held])
        self.trial_said.setText("The bridge stands as" if stands else "Trial saddle")
        self.measure.setText("Measure where its feet stand" if stands else "Measure the trial saddle")
        usual, other = (TODAY, "1") if stands else ("1", TODAY)
        if self.trial.text() in ("", other):
            self.trial.setText(usual)
        block = string_entries.block(self.document.job)
        kept = self.string.currentData()
        names = [s.name for s in block.list]
        if names != [self.string.itemData(at) for at in range(self.string.count())]:
            self.string.clear()
            for name in names:
                self.string.addItem(name, name)
            self.string.setCurrentIndex(max(self.string.findData(kept), 0))
        if block.heard != self.shown:
            self._show(block.heard)

    def _show(self, heard: tuple[Heard, ...]) -> None:
        self.shown = heard
        while (item := self.lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        for at, one in enumerate(heard):
            line = QWidget(self)
            row = QHBoxLayout(line)
            row.setContentsMargins(0, 0, 0, 0)
            said = string_entries.heard(one)
            row.addWidget(label(said, "text", line), 1)
            button = plain_button("Remove", "Takes this line away", line, name=f"Remove: {said}")
            button.setProperty("at", at)
            button.clicked.connect(self._remove)
            row.addWidget(button)
            self.lines.addWidget(line)

    def _add(self) -> None:
        job = self.document.job
        try:
            made = string_entries.add_heard(
                job,
                self.string.currentData() or "",
                self.fret.text() or "12",
                self.cents.text(),
                self.against.currentData(),
                self.trial.text() or "1",
            )
        except NotAJob as error:
            self.wrong.setText(plain_words.sentence(str(error)))
            self.wrong.show()
            return
        self.wrong.hide()
        self.cents.clear()
        self.document.edit("adding what was heard", made)

    def _measure(self) -> None:
        """Ask for the trial saddle's ends; what stands there already, or cannot be laid yet, has its own readings."""
        job, layout, name = self.document.job, self.document.layout, self.trial.text().strip() or "1"
        if job.floating is not None or layout is None or layout.saddle is None or not name.isalnum():
            self.went_to_measure.emit()
            return
        made, first = ask_trial(job, layout, name)
        if made != job:
            self.document.edit("the trial saddle’s readings", made)
        self.asked.emit(first)

    def _remove(self) -> None:
        at = self.sender().property("at")
        self.document.edit("removing what was heard", string_entries.remove_heard(self.document.job, at))


def _line(name: str, usual: str, says: str, parent: QWidget) -> TypedLine:
    """A line that begins with what is usual, and comes back to it with Escape."""
    line = TypedLine(name, f"{says}; Up and Down step", parent)
    line.setText(usual)
    line.setProperty("role", "value")
    line.setAlignment(Qt.AlignmentFlag.AlignRight)
    line.given_up.connect(lambda: line.setText(usual))
    line.entered.connect(lambda: line.focusNextChild())
    return line
