"""What the job is called and what is said of the instrument as a whole; every change is live and can be undone."""

from typing import Any

import msgspec
from PySide6.QtCore import QSize
from PySide6.QtWidgets import QDialog, QPlainTextEdit, QVBoxLayout, QWidget

from app.desk.cards.card import close_row, scrolled, words
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.form import Form, Get, Put
from app.desk.document.document import Document
from app.desk.widgets.inputs.fields import LONG
from app.desk.widgets.look import SIDE, Look
from app.say.plain_words import sentence
from geometry.job import Job, NotAJob

ENDS = (
    ("corners", "it has true corners"),
    ("rounded", "it is rounded"),
    ("raised", "it stands over the top"),
    ("undercut", "it is undercut"),
    ("flush", "it is flush with the top"),
)
CENTRES = (
    (None, "not chosen yet"),
    ("bisector", "whole board"),
    ("nut to fret 12", "nut to fret 12"),
    ("midpoints", "by midpoints"),
    ("threads", "by two threads"),
)
NOTE = 5
"""How many lines the note shows; common practice, no source."""
AROUND_NOTE = 20
"""What the note's border, its padding and its page's margin take over and under its lines, pixels."""
MIDWAY = "Midway between the edges of the whole board, or from nut to fret 12: they differ where the board turns there."


class AboutJob(QDialog):
    """Name, note, hand, and what was read of the board."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self.setWindowTitle("About the job")
        self.setAccessibleName("About the job")
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 20, 0, 20)
        outer.setSpacing(12)
        title = words("About the job", "title", self)
        title.setContentsMargins(SIDE, 0, SIDE, 0)
        outer.addWidget(title)
        self.inside, column = scrolled(self, outer)
        self.form = Form(self.document, column, self.inside)
        self.title = self.form.text(
            "Name",
            lambda job: job.title,
            lambda job, text: _replace(job, title=text),
            wide=LONG,
            key="title",
        )
        self._note(column)
        hands = [("right", "right-handed"), ("left", "left-handed")]
        says = "Turning it over moves no point; bass and treble change sides."
        hand = (lambda job: job.hand), (lambda job, hand: _replace(job, hand=hand))
        self.form.choice("Hand", hands, *hand, says=says, key="hand")
        edges = [("outside", "outside"), ("inside", "inside")]
        says = "On a bound board: which side of the binding."
        self.form.choice("Edge that was read", edges, *_board("edge"), says=says, key="board.edge")
        self.form.choice("Neck centre line", CENTRES, *_board("centre"), says=MIDWAY, key="board.centre")
        self.turns = FindingsList(look, self.inside)
        self.turns.went_to.connect(self.form.go_to)
        column.addWidget(self.turns)
        self.form.choice("Board’s end", ENDS, *_board("end"), key="board.end")
        self.form.tick("It has a zero fret", *_board("zero_fret"), key="board.zero_fret")
        column.addStretch(1)
        row = close_row(self)
        row.setContentsMargins(SIDE, 0, SIDE, 0)
        outer.addLayout(row)
        self.window_below, self.visit = parent.window(), 0
        self._say_turns()
        self.document.changed.connect(self._changed)

    def show_job(self, look: Look) -> None:
        """Open it with the job as it stands, in that look."""
        self.visit += 1
        self.turns.show_look(look)
        self.refresh()
        self.open()
        self.note.setFixedHeight(NOTE * self.note.fontMetrics().lineSpacing() + AROUND_NOTE)
        self._take_room(self.window_below.size(), look.text_scale)

    def _changed(self) -> None:
        if self.isVisible():
            self.refresh()

    def _say_turns(self) -> None:
        """What the choice of the centre line does, where the board turns."""
        layout = self.document.layout
        found = layout.findings if layout is not None else ()
        self.turns.show_found([finding for finding in found if finding.code == "board.turns"])

    def _take_room(self, room: QSize, scale: float) -> None:
        """As large as its text asks for, but never larger than the window."""
        wide, around = min(round(460 * scale), room.width()), 64 + round(64 * scale)
        self.resize(wide, min(self.inside.heightForWidth(wide) + around, room.height()))

    def _note(self, column: QVBoxLayout) -> None:
        name = words("Note", "", self)
        self.note = QPlainTextEdit(self.document.job.note, self)
        self.note.setAccessibleName("Note")
        self.note.setAccessibleDescription("The instrument’s story, what the owner wants")
        self.note.setTabChangesFocus(True)
        self.form.fields["note"] = self.note
        name.setBuddy(self.note)
        stack = QVBoxLayout()
        stack.setSpacing(4)
        stack.addWidget(name)
        stack.addWidget(self.note)
        column.addLayout(stack)
        self.wrong = words("", "wrong", self)
        self.wrong.hide()
        column.addWidget(self.wrong)
        self.note.textChanged.connect(self._typed)

    def _typed(self) -> None:
        text = self.note.toPlainText()
        if text != self.document.job.note:
            try:
                self.document.edit("the note", _replace(self.document.job, note=text), f"note {id(self)} {self.visit}")
            except NotAJob as error:
                self.wrong.setText(sentence(str(error)))
            else:
                self.wrong.setText("")
            self.wrong.setVisible(bool(self.wrong.text()))

    def refresh(self) -> None:
        self.form.refresh()
        self._say_turns()
        if self.note.toPlainText() != self.document.job.note:
            self.note.setPlainText(self.document.job.note)


def _replace(job: Job, **fields: Any) -> Job:
    return msgspec.structs.replace(job, **fields)


def _board(name: str) -> tuple[Get, Put]:
    def put(job: Job, value: Any) -> Job:
        return _replace(job, board=msgspec.structs.replace(job.board, **{name: value}))

    return (lambda job: getattr(job.board, name)), put
