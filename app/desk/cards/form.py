"""Rows of a card that show one value of the job each and put it back: lengths, numbers, words, choices and ticks."""

import math
from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QVBoxLayout

from app.desk.cards.card import words
from app.desk.cards.form_rows import FormRows
from app.desk.widgets.inputs.choice import Choice, Tick, UnderTick
from app.desk.widgets.inputs.fields import Field, typed_length, understood
from app.edit.edits import Get as Get
from app.edit.edits import Put as Put
from geometry import units
from geometry.job import Job, NotAJob
from geometry.words import first_small

Name = str | Callable[[Job], str]
"""What a row is called; where that changes with the job, as bass and treble do with its hand, it is said of the job."""

Says = str | Callable[[Job], str]
"""What stands under a row; where that changes with the job, as examples do with its unit, it is said of the job."""

Options = Sequence[tuple[Any, str]] | Callable[[Job], Sequence[tuple[Any, str]]]
"""What may be chosen, each value with its words; where that changes with the job, it is asked of the job."""

A_LENGTH = "A length in any unit; Up and Down step it, Escape takes it back"
A_NUMBER = "A number; Up and Down step it, Escape takes it back"
ONE_OF_SEVERAL = "Up and Down choose another"
YES_OR_NO = "The space bar ticks it or takes the tick away"
"""What is said of a control that has no words of its own."""


class Form(FormRows):
    """The rows of one card, or of a part of it; `refresh` shows the document's values in all of them."""

    def length(
        self, name: Name, get: Get, put: Put, *, says: Says = "", optional: bool = False, key: str = ""
    ) -> Field:
        """A length in any unit; with `optional` nothing typed means none given."""
        document = self.document

        def named() -> str:
            return name if isinstance(name, str) else name(document.job)

        def put_text(text: str, word: str) -> None:
            job = document.job
            kept = None if optional and not text.strip() else typed_length(text, job.unit)
            document.edit(f"{first_small(named())} {text.strip()}".strip(), put(job, kept), word)

        def show() -> None:
            field.show_name(named())
            value = get(document.job)
            field.show_text("" if value is None else units.typed(value, document.job.unit))

        def say(text: str) -> str:
            return understood(document.job.unit)(text)

        field = Field(
            named(),
            put_text,
            document.give_up,
            describe=self._said(says) or A_LENGTH,
            understood=say,
            parent=self.parent,
        )
        self._add(field, show, says, key)
        return field

    def number(self, name: Name, get: Get, put: Put, *, says: str = "", whole: bool = False, key: str = "") -> Field:
        """A plain number."""
        document = self.document

        def named() -> str:
            return name if isinstance(name, str) else name(document.job)

        def put_text(text: str, word: str) -> None:
            value = _number(text, whole=whole)
            document.edit(f"{first_small(named())} {text.strip()}", put(document.job, value), word)

        def show() -> None:
            field.show_name(named())
            field.show_text(units.show_number(get(document.job)))

        field = Field(named(), put_text, document.give_up, describe=says or A_NUMBER, parent=self.parent)
        self._add(field, show, says, key)
        return field

    def optional_number(
        self, name: str, get: Get, put: Put, *, says: str = "", whole: bool = False, key: str = ""
    ) -> Field:
        """A plain number; nothing typed means none given."""
        document = self.document

        def put_text(text: str, word: str) -> None:
            value = _number(text, whole=whole) if text.strip() else None
            document.edit(f"{first_small(name)} {text.strip()}".strip(), put(document.job, value), word)

        def show() -> None:
            value = get(document.job)
            field.show_text("" if value is None else units.show_number(value))

        field = Field(name, put_text, document.give_up, describe=says or A_NUMBER, parent=self.parent)
        self._add(field, show, says, key)
        return field

    def text(self, name: Name, get: Get, put: Put, *, wide: int = 200, says: Says = "", key: str = "") -> Field:
        """Words."""
        document = self.document

        def named() -> str:
            return name if isinstance(name, str) else name(document.job)

        def put_text(text: str, word: str) -> None:
            document.edit(f"{first_small(named())} {text}", put(document.job, text), word)

        def show() -> None:
            field.show_name(named())
            field.show_text(get(document.job))

        field = Field(named(), put_text, document.give_up, describe=self._said(says), wide=wide, parent=self.parent)
        field.line.setAlignment(Qt.AlignmentFlag.AlignLeft)
        self._add(field, show, says, key)
        return field

    def choice(
        self,
        name: Name,
        options: Options,
        get: Get,
        put: Put,
        *,
        says: str = "",
        key: str = "",
        wide: bool = False,
    ) -> Choice:
        """One of several; `wide` stands under its name, for what is said in more than a word or two."""
        document = self.document

        def called() -> str:
            return name if isinstance(name, str) else name(document.job)

        box = Choice(called(), says or ONE_OF_SEVERAL, self.parent)
        box.setProperty("in_form", not wide)
        wrong: list[QLabel] = []
        named = QLabel(called(), self.parent, textFormat=Qt.TextFormat.PlainText)
        named.setBuddy(box)
        named.setWordWrap(True)

        def chose(at: int) -> None:
            said = f"{first_small(called())}: {box.itemText(at)}"
            try:
                document.edit(said, put(document.job, box.itemData(at)))
            except NotAJob as error:
                show()
                complain(f"{error}.")

        def complain(why: str) -> None:
            """Why it cannot be, under the row; made when it is first wrong."""
            if not wrong:
                wrong.append(words("", "wrong", self.parent))
                self.column.insertWidget(self.column.indexOf(stack) + 1, wrong[0])
            wrong[0].setText(why)
            wrong[0].show()

        def show() -> None:
            for label in wrong:
                label.hide()
            named.setText(called())
            box.setAccessibleName(called())
            _offer(box, options(document.job) if callable(options) else options)
            at = box.findData(get(document.job))
            if at != box.currentIndex():
                box.setCurrentIndex(at)

        if key:
            self.fields[key] = box
        box.activated.connect(chose)
        row = QVBoxLayout() if wide else QHBoxLayout()
        row.setSpacing(4 if wide else 12)
        row.addWidget(named, 1)
        row.addWidget(box)
        self._stack(row, says)
        stack = self._last
        self._shows.append(show)
        show()
        return box

    def tick(self, name: str, get: Get, put: Put, *, says: str = "", key: str = "") -> Tick:
        """Yes or no."""
        document, box = self.document, Tick(name, says or YES_OR_NO, self.parent)

        def clicked(on: bool) -> None:
            document.edit(f"{first_small(name)}: {'yes' if on else 'no'}", put(document.job, on))

        if key:
            self.fields[key] = box
        box.clicked.connect(clicked)
        stack = QVBoxLayout()
        stack.setSpacing(0)
        stack.addWidget(box)
        if says:
            stack.addWidget(UnderTick(says, box, self.parent))
        self.column.addLayout(stack)
        self._shows.append(lambda: box.setChecked(bool(get(document.job))))
        self._shows[-1]()
        return box

    def _said(self, says: Says) -> str:
        return says if isinstance(says, str) else says(self.document.job)

    def _add(self, field: Field, show: Callable[[], None], says: Says = "", key: str = "") -> None:
        field.line.setProperty("in_form", not field.long)
        self.document.started.connect(field.forget)
        if key:
            self.fields[key] = field
        row = QHBoxLayout()
        row.addWidget(field)
        under = self._stack(row, self._said(says), may_say=not isinstance(says, str))
        self._shows.append(show)
        show()
        if under is not None and not isinstance(says, str):
            self._shows.append(lambda: self._say_again(field, under, self._said(says)))

    def _say_again(self, field: Field, under: QLabel, says: str) -> None:
        """What stands under a row, as the job is now."""
        if says != under.text():
            under.setText(says)
            under.setVisible(bool(says))
            field.describe(says)

    def _stack(self, row: QBoxLayout, says: str, *, may_say: bool = False) -> QLabel | None:
        """A row with the line that explains it, given back, close under it; `may_say`: it may explain later."""
        stack, under = QVBoxLayout(), words(says, "label", self.parent) if says or may_say else None
        stack.setSpacing(2)
        stack.addLayout(row)
        if under is not None:
            stack.addWidget(under)
            under.setHidden(not says)
        self._last = stack
        self.column.addLayout(stack)
        return under


def _offer(box: Choice, options: Sequence[tuple[Any, str]]) -> None:
    """Let a box offer these and no others."""
    if list(options) != [(box.itemData(at), box.itemText(at)) for at in range(box.count())]:
        box.clear()
        for value, text in options:
            box.addItem(text, value)


def _number(text: str, *, whole: bool) -> float:
    try:
        number = int(text) if whole else float(text.replace(",", "."))
    except ValueError:
        kind = "a whole number" if whole else "a number"
        raise NotAJob(f"“{text}” is not {kind}; type figures only") from None
    if not math.isfinite(number):
        raise NotAJob(f"“{text}” is no number that can be measured; type figures only")
    return number
