"""What the Measure card says under its table: an entry that cannot be, what to look at again or to measure next."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from app.desk.cards.card import Note
from app.desk.widgets.inputs.buttons import make_button, outdented, plain_button
from app.desk.widgets.look import SIDE, Look
from app.say.look_again import LookAgain
from geometry.job import Reading
from geometry.words import first_small

NEXT, ALL_TAKEN = "Strings", "All readings taken: on to Strings"
"""The card that comes after the readings, where no other asked for them, and what leads to it."""


class MeasureNotes(QWidget):
    """Signals: `went` to the reading to look at again, `struck` to strike it out, `coarser` to say that all were read
    as coarsely as they agree; `show_next` to show the reading that might be next on the plan, or to put it away;
    `take_next` with that reading; `went_on` to the next card, by its name; `took_64ths` to say that what was typed in
    64ths was read so.
    """

    went = Signal()
    struck = Signal()
    coarser = Signal()
    show_next = Signal(bool)
    take_next = Signal(object)
    went_on = Signal(str)
    took_64ths = Signal()

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.wrong, self.look_again, self.next = (Note(look, self) for _ in range(3))
        self.again = LookAgain()
        """What is to be looked at again: the links act on the readings that its words name."""
        self.reading: Reading | None = None
        """The reading that might be next."""
        self._room, self._brief, self._offers, self._asked = True, False, False, False
        self._advice = self._named = ""
        self.go_button = plain_button("Go to it", "Takes the reading in hand", self.look_again)
        self.out_button = plain_button("Strike it out", "Takes the reading out of the fit", self.look_again)
        says = "Adds the reading in hand, or the first of them, a second time, to be measured; both are kept"
        self.second_button = plain_button("Add a second reading", says, self.look_again)
        self.second_button.hide()
        self.coarse_button = plain_button(
            "Say so", "Says of each reading taken that it was read as coarsely as all agree", self.look_again
        )
        self.coarse_button.hide()
        self.why_button = plain_button("Why", "Says how far it is out and what the others say", self.look_again)
        self.why_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # a click leaves the keys with the value in hand
        self.why_button.hide()
        self.show_button = plain_button("Show it", "Draws the reading on the plan as it would be taken", self.next)
        self.show_button.setCheckable(True)
        self.take_button = plain_button("Take it", "Adds the reading to the table and takes it in hand", self.next)
        self.tools_button = plain_button("", "Says that these were read with a rule of 64ths", self)
        self.tools_button.hide()
        self.on_button = make_button("", "", self, "main")
        self.on_button.hide()
        self.lead_to("")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for note in (self.wrong, self.look_again, self.next):
            column.addWidget(note)
            note.setContentsMargins(0, 8, 0, 0)
            note.hide()
        self._last = last = QVBoxLayout()
        tools = outdented(QHBoxLayout())
        tools.addWidget(self.tools_button, 0, Qt.AlignmentFlag.AlignLeft)
        last.addLayout(tools)
        last.addWidget(self.on_button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addLayout(last)
        self._keep_off()
        _row(self.look_again, self.go_button, self.second_button, self.out_button, self.coarse_button, self.why_button)
        _beside_head(self.next, self.show_button, self.take_button)
        self.go_button.clicked.connect(self.went)
        self.out_button.clicked.connect(self.struck)
        self.coarse_button.clicked.connect(self.coarser)
        self.why_button.clicked.connect(self._ask_why)
        self.show_button.toggled.connect(self.show_next)
        self.on_button.clicked.connect(self.go_on)
        self.tools_button.clicked.connect(self.took_64ths)
        self.take_button.clicked.connect(lambda: self.take_next.emit(self.reading))

    def show_look(self, look: Look) -> None:
        for note in (self.wrong, self.look_again, self.next):
            note.show_look(look)

    def say_next(self, text: str, reading: Reading | None = None, named: str = "") -> None:
        """Show what is worth measuring next, or why nothing is; the reading is `named` where there is little room."""
        self.reading, self._advice, self._named = reading, text, named
        for button in (self.show_button, self.take_button):
            button.setVisible(reading is not None)
        self.show_button.setChecked(False)
        self.make_room(self._room, brief=self._brief)

    def lead_to(self, asked: str, where: str = "") -> None:
        """The way on when all readings are taken: back to the card that `asked` for some, or to the place `where` on
        one, else on to the next card.
        """
        self._leads_to = where or asked or NEXT
        self.on_button.setText(f"All readings taken: back to {asked}" if asked else ALL_TAKEN)
        self.on_button.setAccessibleName(self.on_button.text())
        self.on_button.setAccessibleDescription(
            f"All readings are taken; opens {asked if where else f'the {asked or NEXT} card'}"
        )

    def go_on(self) -> None:
        """To the card that is next; what was asked for by another is taken then."""
        name = self._leads_to
        self.lead_to("")
        self.went_on.emit(name)

    def offer_next_card(self, offers: bool) -> None:
        """All readings are taken: the next card is offered, and what would be worth a reading need not be taken."""
        self._offers = offers
        self.on_button.setVisible(offers)
        self._keep_off()
        self._tell_next()

    def _keep_off(self) -> None:
        """What can be pressed below the notes keeps off them; where there is nothing, the readings have the room."""
        offered = not self.on_button.isHidden() or not self.tools_button.isHidden()
        self._last.setContentsMargins(SIDE, 10 if offered else 0, SIDE, 0)

    def say_64ths(self, count: int) -> None:
        """So many readings were typed in 64ths of an inch and are said to be read with a rule in millimetres."""
        many, them = ("1 reading", "it") if count == 1 else (f"{count} readings", "them")
        self.tools_button.setText(f"{many} in 64ths: say that a 64ths rule read {them}")
        self.tools_button.setAccessibleName(self.tools_button.text())
        self.tools_button.setVisible(count > 0)
        self._keep_off()

    def make_room(self, room: bool, *, brief: bool) -> None:
        """Whether there is room for what might be measured next. `brief`: why to look again is said in a few words, or
        where there is no room at all when asked; then the rest of it.
        """
        self._room, self._brief = room, brief
        self._tell_next()
        self._tell_why()

    def _tell_next(self) -> None:
        """What to measure next and why; where there is little room in one line, why as a tip."""
        short = self._brief and self.reading is not None
        liked = ", if you like" if self._offers and self.reading is not None else ""
        head = f"Next{liked}: {first_small(self._named)}" if short else f"Measure next{liked}"
        self.next.say(head if self._advice else "", "" if short else self._advice)
        self.next.body.setVisible(not short)
        self.next.head.setWordWrap(short)
        for tipped in (self.next.head, self.show_button, self.take_button):
            tipped.setToolTip(self._advice if short else "")
        self.next.setVisible(self._room and bool(self._advice))

    def _ask_why(self) -> None:
        self._asked = not self._asked
        self._tell_why()

    def forget(self) -> None:
        """Another job is about to come: of what is wrong there nobody has asked why, and no card for readings."""
        self._asked = False
        self.lead_to("")

    def _tell_why(self) -> None:
        whole = not self._brief or self._asked
        why, few = self.again.body, self.again.in_few_words
        self.look_again.say(self.again.head, why if whole else few, "look")
        self.look_again.body.setVisible(bool(why) and (whole or self._room))
        self.why_button.setVisible(self._brief and bool(why) and not (self._room and few == why))
        self.why_button.setText("Less" if self._asked else "Why")
        self.why_button.setAccessibleName(self.why_button.text())

    def say_look_again(self, again: LookAgain) -> None:
        """The words, and what can be done to the readings that they speak of."""
        if again.readings != self.again.readings:
            self._asked = False
        self.again = again
        self.look_again.say(again.head, self.look_again.body.text(), "look")
        self.coarse_button.setVisible(again.coarse)
        self._tell_why()
        self.go_button.setVisible(bool(again.readings))
        self.out_button.setVisible(len(again.readings) == 1)


def _beside_head(note: Note, *buttons: QPushButton) -> None:
    """Buttons in the line of a short heading: the readings need the room."""
    row = QHBoxLayout()
    row.setSpacing(4)
    note.column.removeWidget(note.head)
    row.addWidget(note.head, 1)
    for button in buttons:
        row.addWidget(button)
    note.column.insertLayout(0, row)


def _row(note: Note, *buttons: QPushButton) -> None:
    row = outdented(QHBoxLayout())
    row.setSpacing(4)
    for button in buttons:
        row.addWidget(button)
    row.addStretch(1)
    note.column.addLayout(row)
