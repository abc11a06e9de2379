"""The chosen reading, under the table: its name, how it is taken with a picture of it, with what it was read, and what
can be done. It is all that is said of a reading besides its one line, and stands in one place.
"""

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.look import LABEL, SIDE, TEXT, VALUE, Look
from app.desk.widgets.reading_picture import ReadingPicture
from app.edit import list_answers
from app.say.how_to import TAKING
from geometry import words
from geometry.job import Reading
from geometry.job.measured.kinds import SHAPES
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS, usual

BEGINS = "0123456789.,±+"
"""What a typed ± begins with; a letter looks for an instrument in the list."""
NAMED = (("value", VALUE), ("strong", TEXT), ("strong label", LABEL))
"""The letters of a name, from large to small: their role in the style sheet, and their size."""
LINES = 4
"""Lines kept free for how a reading is taken, so that the table stays where it is from one reading to the next."""


class ReadingPanel(QWidget):
    """Signals: `fineness` with an instrument or a typed ±; `yes` to the question asked; `strike` to strike out or
    bring back; `remove`; `add`.
    """

    fineness = Signal(str)
    yes = Signal()
    strike = Signal()
    remove = Signal()
    add = Signal()

    def __init__(self, how: QLabel, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.how, self._shown = how, ""
        self.called = label("", "value", self, wrap=False)
        self.understood = label("", "hint", self, wrap=False)
        self.understood.setAccessibleName("What was understood")
        self.picture = ReadingPicture(look, self)
        self.with_ = _with(self)
        self.yes_button = plain_button("Yes", "Answers the question and takes the next reading", self)
        self.yes_button.hide()
        self.strike_button = plain_button("Strike out", "Takes the reading out of the fit; it stays in the job", self)
        self.remove_button = plain_button("Remove", "Takes the reading out of the job", self)
        says = "By its kind and points, chosen here or pointed out on the plan"
        self.add_button = plain_button("Add…", says, self, name="Add a reading")
        self._lay_out()
        self._offer(INSTRUMENTS)
        self.with_.activated.connect(self._chose)
        line = self.with_.lineEdit()
        if line is not None:
            line.returnPressed.connect(self._typed)
            line.installEventFilter(self)
        self.with_.view().installEventFilter(self)
        self.yes_button.clicked.connect(self.yes)
        self.strike_button.clicked.connect(self.strike)
        self.remove_button.clicked.connect(self.remove)
        self.add_button.clicked.connect(self.add)

    def _lay_out(self) -> None:
        head, upper, lower = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        head.setContentsMargins(6, 0, 6, 0)
        head.addWidget(self.called, 1)
        head.addWidget(self.understood)
        self.how.setAlignment(Qt.AlignmentFlag.AlignTop)
        upper.setSpacing(16)
        upper.setContentsMargins(6, 0, 6, 0)
        upper.addWidget(self.how, 1)
        upper.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignTop)
        lower.setContentsMargins(6, 0, 0, 0)
        lower.setSpacing(2)
        lower.addWidget(self.with_, 1)
        for button in (self.yes_button, self.strike_button, self.remove_button, self.add_button):
            lower.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(SIDE - 6, 0, SIDE - 6, 0)
        column.setSpacing(2)
        column.addLayout(head)
        column.addLayout(upper)
        column.addSpacing(4)
        column.addLayout(lower)

    def keep_room(self, lines: int) -> None:
        """Room for so many lines of how a reading is taken."""
        self.how.setMinimumHeight(lines * self.how.fontMetrics().lineSpacing())
        if self.with_.property("small") != (lines < LINES):
            self.with_.setProperty("small", lines < LINES)  # in full, beside the buttons
            for styled in (self.with_.lineEdit(), self.with_):
                if styled is not None:
                    styled.style().polish(styled)

    def show_look(self, look: Look) -> None:
        self.picture.show_look(look)

    def show_group(self, said: str) -> None:
        """A group's line is chosen: how many of it are taken, and nothing to do to a reading."""
        self._call(said.removesuffix(", open").removesuffix(", folded"))
        self.understood.setText("")
        for widget in (self.with_, self.strike_button, self.remove_button):
            widget.setEnabled(False)
        self.yes_button.hide()

    def show_reading(self, reading: Reading, called: str, understood: str = "") -> None:
        """Show a reading, and in mm what was understood where that is not plain from what was typed."""
        self.understood.setText(understood)
        self._call(called)
        for widget in (self.with_, self.strike_button, self.remove_button):
            widget.setEnabled(True)
        asks = bool(list_answers.question(reading))
        self.yes_button.setVisible(asks)
        if asks:
            self.yes_button.setAccessibleName(TAKING[reading.kind].yes)
        degrees = SHAPES[reading.kind].degrees
        told = reading.within is not None or reading.sigma is not None or not SHAPES[reading.kind].values
        known = reading.with_ or (None if told else usual(degrees))
        self._offer(GAUGES if degrees else INSTRUMENTS)
        if known is not None:
            self.with_.setCurrentIndex(self.with_.findData(known))
        else:
            self.with_.setCurrentIndex(-1)
            self.with_.setEditText(words.first_large(words.fineness(reading)))
        self._shown = self.with_.currentText()
        line = self.with_.lineEdit()
        if line is not None:
            line.setCursorPosition(0)  # the beginning is what is read
        self.strike_button.setText("Bring back" if reading.struck else "Strike out")
        self.strike_button.setAccessibleName(self.strike_button.text())

    def _call(self, called: str) -> None:
        """The name in the largest letters that it has room for in one line, and all of it as a tip; what was
        understood beside it where there is some left.
        """
        beside = self.understood.sizeHint().width() + 12 if self.understood.text() else 0
        room = max(80.0, self.width() - 2 * SIDE)
        role, font = self._letters(called, room)
        self.understood.setVisible(bool(beside) and font.horizontalAdvance(called) <= room - beside)
        if self.called.property("role") != role:
            self.called.setProperty("role", role)
            self.called.style().polish(self.called)
        self.called.setText(font.elidedText(called, Qt.TextElideMode.ElideRight, room))
        self.called.setToolTip(f"{called} {self.understood.text()}".strip())
        self.called.setAccessibleName(called)

    def _letters(self, called: str, room: float) -> tuple[str, QFontMetricsF]:
        """Which letters a name has room for, and their sizes; in none of these, the smallest."""
        look = self.picture.look
        sized = [(role, QFontMetricsF(look.font(size, bold=True))) for role, size in NAMED]
        return next((each for each in sized if each[1].horizontalAdvance(called) <= room), sized[-1])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._call(self.called.accessibleName())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Pressed anywhere, the choice opens; a ± that is typed instead goes into the line, be the list open or not."""
        if watched is self.with_.view():
            return isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and self._typed_over(event)
        if event.type() == QEvent.Type.MouseButtonRelease and self.with_.isEnabled():
            self.with_.showPopup()
            return True
        return super().eventFilter(watched, event)

    def _typed_over(self, event: QKeyEvent) -> bool:
        """Whether a key that was pressed in the open list begins a ±; the list then makes way for the line."""
        line = self.with_.lineEdit()
        if line is None or not event.text() or event.text() not in BEGINS:
            return False
        self.with_.hidePopup()
        line.setFocus(Qt.FocusReason.OtherFocusReason)
        line.setText(event.text())
        return True

    def _offer(self, instruments: Iterable[str]) -> None:
        """What such a reading may be read with."""
        names = list(instruments)
        if names == [self.with_.itemData(at) for at in range(self.with_.count())]:
            return
        self.with_.clear()
        for at, name in enumerate(names):
            self.with_.addItem(words.instrument_short(name), name)
            self.with_.setItemData(at, words.instrument(name), Qt.ItemDataRole.ToolTipRole)

    def _chose(self, at: int) -> None:
        self.fineness.emit(self.with_.itemData(at))

    def _typed(self) -> None:
        text = self.with_.currentText()
        if text == self._shown:
            return
        at = self.with_.findText(text)
        self.fineness.emit(self.with_.itemData(at) if at >= 0 else text)


def _with(parent: QWidget) -> Choice:
    """The choice of what a reading was read with, which takes a typed ± as well."""
    says = "An instrument, or type how sure the reading is, such as ± 0.5; for all the readings chosen"
    box = Choice("Read with", says, parent)
    box.setEditable(True)
    box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
    box.setToolTip("Read with")
    line = box.lineEdit()
    if line is not None:
        line.setAccessibleName("Read with")
        line.setAccessibleDescription(says)
    return box
