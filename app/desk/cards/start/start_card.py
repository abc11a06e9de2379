"""A new job: six questions at most, then straight to the first reading. Recent and sample jobs are one click away."""

from collections.abc import Sequence
from pathlib import Path

from msgspec import structs
from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.desk.cards.card import BRIEF, Card, hair, scrolled
from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.document.preferences import Preferences
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.one_of import OneOf
from app.desk.widgets.look import GRID, SIDE, Look
from app.desk.widgets.tab_order import tab_down
from app.desk.widgets.words.wrapped_label import SteadyLabel
from app.edit import tools_at_hand
from app.edit.bridge import held_entries
from app.edit.start import first_questions
from app.file import samples
from app.file.job_file import name_of
from app.file.settings import ToolsAtHand
from geometry import words
from geometry.job.job import Hand


class StartCard(Card):
    """Signals: `begun` with the new job; `asked_open`; `asked_path` and `asked_sample` with a file's name; `turned`
    with the hand and the unit as soon as one is chosen, so that the plan shows it.
    """

    title = "New job"
    line = "Six questions, then the first reading."
    a_step = False
    begun = Signal(object)
    asked_open = Signal()
    asked_path = Signal(str)
    asked_sample = Signal(str)
    turned = Signal(str, str, str)

    def __init__(self, document: Document, look: Look, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.preferences, self.in_front = preferences, False
        self.inside, column = scrolled(self, self.column)
        column.setSpacing(GRID)
        self._questions(column)
        column.addSpacing(16)
        self._files(column)
        column.addStretch(1)
        self._at_the_foot()

    def make_room(self) -> None:
        """In a low window the questions have the room of the title and of the line under it."""
        super().make_room()
        for said in (self.heading, self.under):
            said.setVisible(self.lines >= BRIEF)

    def _at_the_foot(self) -> None:
        """The way on stays in sight, however low the window and however large the text."""
        row = QHBoxLayout()
        row.setContentsMargins(SIDE, GRID, SIDE, GRID)
        row.addWidget(self.begin)
        row.addStretch(1)
        self.column.addWidget(hair(self))
        self.column.addLayout(row)

    def _questions(self, column: QVBoxLayout) -> None:
        self.hands: dict[Hand, OneOf] = {}
        group, row = QButtonGroup(self), QHBoxLayout()
        sides: tuple[Hand, ...] = ("right", "left")
        for hand in sides:
            button = OneOf(f"{hand.capitalize()}-handed", "Which hand plucks; it says which side is bass", self.inside)
            group.addButton(button)
            row.addWidget(button)
            self.hands[hand] = button
        self.hands["right"].setChecked(True)
        row.addStretch(1)
        self._ask(column, "1  Which hand?", row)
        self.strings = _choice(
            "Strings",
            "A usual set, or their number alone; Up and Down choose",
            first_questions.string_choices(),
            self.inside,
        )
        self._ask(column, "2  Which strings?", self.strings)
        self.lists = _choice(
            "Measuring list",
            "Which readings the job begins with; Up and Down choose",
            first_questions.list_choices(),
            self.inside,
        )
        self.held = _choice(
            "How the bridge is held",
            "It decides what an old one has left on the top; Up and Down choose",
            held_entries.ANSWERS,
            self.inside,
        )
        self._ask(column, "3  How is the bridge held?", self.held)
        self._ask(column, "4  Are the strings on?", self._strings_on())
        self.about = SteadyLabel(self.inside)
        self.about.setProperty("role", "label")
        self._ask(column, "5  What is to be measured?", self.lists, self.about)
        self._tools(column)
        self.begin = make_button("Begin", "Makes the job and takes the first reading in hand", self, "main")
        self.begin.setDefault(True)
        self.begin.clicked.connect(self._begin)
        for box in (self.strings, self.lists, self.held):
            box.currentIndexChanged.connect(self._describe)
        self.on.toggled.connect(self._describe)
        self._describe()

    def _ask(self, column: QVBoxLayout, question: str, *answers: QWidget | QHBoxLayout) -> None:
        """A question, close over its answers."""
        asked = QVBoxLayout()
        asked.setSpacing(2)
        asked.addWidget(label(question, "heading", self.inside))
        for answer in answers:
            if isinstance(answer, QWidget):
                asked.addWidget(answer)
            else:
                asked.addLayout(answer)
        column.addLayout(asked)

    def _strings_on(self) -> QHBoxLayout:
        """Whether there are strings to read heights of; a bridge that is off has none."""
        says = "Whether heights are read on the strings or under a straightedge"
        self.on = OneOf("Yes", says, self.inside, name="Yes, the strings are on")
        self.off = OneOf("No, or the bridge is off", says, self.inside)
        group, row = QButtonGroup(self), QHBoxLayout()
        for button in (self.on, self.off):
            group.addButton(button)
            row.addWidget(button)
        self.on.setChecked(True)
        row.addStretch(1)
        return row

    def _tools(self, column: QVBoxLayout) -> None:
        """The unit and what lengths are read with; asked once, for it is remembered."""
        known = tools_at_hand.known(self.preferences.settings.tools)
        says = "Which unit a bare number is in, and what is answered in; Up and Down choose"
        self.unit = _choice("Unit", says, list(tools_at_hand.UNITS.items()), self.inside)
        says = "What lengths are read with; Up and Down choose"
        self.rule = _choice("Rule or tape", says, list(tools_at_hand.RULES.items()), self.inside)
        says = "What widths and small heights are read with; Up and Down choose"
        self.caliper = _choice("Caliper", says, list(tools_at_hand.CALIPERS.items()), self.inside)
        first, second = QHBoxLayout(), QHBoxLayout()
        first.addWidget(label("6  Measured with?", "heading", self.inside), 1)
        first.addWidget(self.unit, 1)
        second.addWidget(self.rule, 1)
        second.addWidget(self.caliper, 1)
        both = QVBoxLayout()
        both.setSpacing(8)
        both.addLayout(first)
        both.addLayout(second)
        column.addLayout(both)
        for box, chosen in ((self.unit, known.unit), (self.rule, known.rule), (self.caliper, known.caliper)):
            box.setCurrentIndex(box.findData(chosen))
        self.unit.currentIndexChanged.connect(self._unit_chosen)
        self.held.currentIndexChanged.connect(self._turn)
        for button in self.hands.values():
            button.toggled.connect(self._turn)

    def _unit_chosen(self) -> None:
        """The usual rule and caliper of the unit, unless the rule that is chosen is of that unit already."""
        unit, inches = self.unit.currentData(), self.rule.currentData() in (tools_at_hand.RULE_64, "tape 1/32")
        if (unit == "in") != inches:
            self.rule.setCurrentIndex(self.rule.findData(tools_at_hand.usual_rule(unit)))
            self.caliper.setCurrentIndex(self.caliper.findData(tools_at_hand.usual_caliper(unit)))
        self._turn()

    def _turn(self) -> None:
        self.turned.emit(self.hand, self.unit.currentData(), self.held.currentData())

    @property
    def hand(self) -> Hand:
        """The hand that is chosen."""
        return "left" if self.hands["left"].isChecked() else "right"

    def refresh(self) -> None:
        """The header turns the unit as well."""
        unit = self.document.job.unit
        if self.in_front and unit != self.unit.currentData():
            self.unit.setCurrentIndex(self.unit.findData(unit))

    def hideEvent(self, event: QHideEvent) -> None:
        """Another card's job may have another unit."""
        self.in_front = False
        super().hideEvent(event)

    def _files(self, column: QVBoxLayout) -> None:
        column.addWidget(label("Or go on with a job", "heading", self.inside))
        links = _links(column)
        open_button = plain_button("Open a job file…", "Opens a job that was saved", self.inside)
        open_button.clicked.connect(self.asked_open)
        links.addWidget(open_button)
        self.recent = QVBoxLayout()
        self.recent.setSpacing(0)
        links.addLayout(self.recent)
        column.addSpacing(4)
        column.addWidget(label("Or look at a sample job", "heading", self.inside))
        links = _links(column)
        for path in samples.paths():
            said = name_of(path).replace("-", " ")
            button = plain_button(
                words.first_large(said), "Opens a sample job; saving it asks for a new name", self.inside
            )
            button.setProperty("path", str(path))
            button.clicked.connect(self._sample)
            links.addWidget(button)

    def opened(self) -> None:
        """The recent jobs are those of this moment."""
        while (item := self.recent.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for name in self.preferences.settings.recent:
            path = Path(name)
            if path.exists():
                button = plain_button(name_of(path), f"Opens {name}", self.inside)
                button.setProperty("path", name)
                button.clicked.connect(self._recent)
                self.recent.addWidget(button)
        tab_down(self)
        QWidget.setTabOrder(self.caliper, self.begin)  # behind the last question, though it stands at the card's foot
        self.hands[self.hand].setFocus()
        self.in_front = True
        self._turn()
        QTimer.singleShot(0, self, self._to_the_top)

    def _describe(self) -> None:
        answers = self.on.isChecked(), self.held.currentData(), self.strings.currentData()
        self.about.may_say(first_questions.about_list(name, *answers) for name, _ in first_questions.list_choices())
        self.about.setText(first_questions.about_list(self.lists.currentData(), *answers))

    def _begin(self) -> None:
        at_hand = ToolsAtHand(
            unit=self.unit.currentData(), rule=self.rule.currentData(), caliper=self.caliper.currentData()
        )
        self.preferences.keep(structs.replace(self.preferences.settings, tools=at_hand))
        job = first_questions.begin(
            hand=self.hand,
            string_set=self.strings.currentData(),
            measuring=self.lists.currentData(),
            at_hand=at_hand,
            strings_on=self.on.isChecked(),
            held=self.held.currentData(),
        )
        kept = self.preferences.settings
        self.begun.emit(first_questions.with_records(first_questions.on_paper(job, kept.paper), kept.records))

    def _recent(self) -> None:
        self.asked_path.emit(self.sender().property("path"))

    def _sample(self) -> None:
        self.asked_sample.emit(self.sender().property("path"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not isinstance(self.focusWidget(), QPushButton):
            self._begin()
        else:
            super().keyPressEvent(event)

    def _to_the_top(self) -> None:
        """The focus may have scrolled the card before it was laid out."""
        for area in self.findChildren(QScrollArea):
            area.verticalScrollBar().setValue(0)


def _links(column: QVBoxLayout) -> QVBoxLayout:
    """Where plain buttons stand one below the other."""
    links = QVBoxLayout()
    links.setSpacing(0)
    column.addLayout(links)
    return links


def _choice(name: str, says: str, options: Sequence[tuple[str, str]], parent: QWidget) -> Choice:
    box = Choice(name, says, parent)
    for key, text in options:
        box.addItem(text, key)
    return box
