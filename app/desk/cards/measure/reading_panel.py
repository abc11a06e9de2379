"""The chosen reading, under the table: a picture of how it is taken, with what it was read, and what can be done."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.desk.widgets.buttons import plain_button
from app.desk.widgets.choice import Choice
from app.desk.widgets.look import SIDE
from app.edit import list_answers
from app.say.how_to import TAKING
from geometry import words
from geometry.job import Reading
from geometry.job.instruments import GAUGES, INSTRUMENTS, usual
from geometry.job.kinds import SHAPES


class ReadingPanel(QWidget):
    """Signals: `fineness` with an instrument or a typed ±; `yes` to the question asked; `strike` to strike out or
    bring back; `remove`; `add`.
    """

    fineness = Signal(str)
    yes = Signal()
    strike = Signal()
    remove = Signal()
    add = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        says = "An instrument, or type how sure the reading is, such as ± 0.5"
        self.with_ = Choice("Read with", says, self)
        self.with_.setEditable(True)
        self.with_.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self._offer(INSTRUMENTS)
        line = self.with_.lineEdit()
        if line is not None:
            line.setAccessibleName("Read with")
            line.setAccessibleDescription(says)
        label = QLabel("Read with", self)
        label.setProperty("role", "label")
        label.setBuddy(self.with_)
        self.yes_button = plain_button("Yes", "Answers the question and takes the next reading", self)
        self.yes_button.hide()
        self.strike_button = plain_button("Strike out", "Takes the reading out of the fit; it stays in the job", self)
        self.remove_button = plain_button("Remove", "Takes the reading out of the job", self)
        says = "By its kind and points, chosen here or pointed out on the plan"
        self.add_button = plain_button("Add a reading…", says, self)
        upper, lower = QHBoxLayout(), QHBoxLayout()
        upper.setSpacing(12)
        upper.addWidget(label)
        upper.addWidget(self.with_, 1)
        lower.setContentsMargins(0, 0, 0, 0)
        lower.setSpacing(0)
        for button in (self.yes_button, self.strike_button, self.remove_button, self.add_button):
            lower.addWidget(button)
        lower.addStretch(1)
        self.understood = QLabel(self)
        self.understood.setProperty("role", "hint")
        self.understood.setAccessibleName("What was understood")
        lower.addWidget(self.understood)
        column = QVBoxLayout(self)
        column.setContentsMargins(SIDE - 6, 0, SIDE, 0)
        upper.setContentsMargins(6, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(upper)
        column.addLayout(lower)
        self.with_.activated.connect(self._chose)
        if line is not None:
            line.returnPressed.connect(self._typed)
        self.yes_button.clicked.connect(self.yes)
        self.strike_button.clicked.connect(self.strike)
        self.remove_button.clicked.connect(self.remove)
        self.add_button.clicked.connect(self.add)

    def show_reading(self, reading: Reading, understood: str = "") -> None:
        """Show a reading, and in mm what was understood where that is not plain from what was typed."""
        self.understood.setText(understood)
        asks = bool(list_answers.question(reading))
        self.yes_button.setVisible(asks)
        if asks:
            self.yes_button.setAccessibleName(TAKING[reading.kind].yes)
        degrees = SHAPES[reading.kind].degrees
        known = reading.with_ or (usual(degrees) if reading.within is None and reading.sigma is None else None)
        self._offer(GAUGES if degrees else INSTRUMENTS)
        if known is not None:
            self.with_.setCurrentIndex(self.with_.findData(known))
        else:
            self.with_.setCurrentIndex(-1)
            self.with_.setEditText(words.fineness(reading))
        self.strike_button.setText("Bring back" if reading.struck else "Strike out")
        self.strike_button.setAccessibleName(self.strike_button.text())

    def _offer(self, instruments: Iterable[str]) -> None:
        """What such a reading may be read with."""
        names = list(instruments)
        if names == [self.with_.itemData(at) for at in range(self.with_.count())]:
            return
        self.with_.clear()
        for name in names:
            self.with_.addItem(words.instrument(name), name)

    def _chose(self, at: int) -> None:
        self.fineness.emit(self.with_.itemData(at))

    def _typed(self) -> None:
        text = self.with_.currentText()
        at = self.with_.findText(text)
        self.fineness.emit(self.with_.itemData(at) if at >= 0 else text)
