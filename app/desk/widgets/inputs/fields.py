"""Fields a person types into: they keep what was typed, say what they understood, and never throw away a wrong entry.

While an entry is wrong it stays in the field with a sentence under it, and the last good value stays in force.
"""

from collections.abc import Callable
from functools import cached_property

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.desk.widgets.inputs.clicked_whole import ClickedWhole
from app.desk.widgets.words.wrapped_label import WrappedLabel
from app.edit.step_length import parts_of, step
from app.edit.typing_visit import Visit
from app.say.plain_words import sentence
from geometry import units
from geometry.units import Length, Unit

Put = Callable[[str, str], None]
"""Takes what was typed, and the word of the visit, and puts it into force; raises `NotAJob` or `NotALength` with the
sentence to show.
"""

TYPED = "Escape takes back what is typed"
"""What is said of a line that explains itself otherwise."""
LONG = 240
"""From so many pixels on a line stands under its name, as wide as the card: beside it, it would cut what is typed."""


class TypedLine(ClickedWhole):
    """A line edit for one value; the arrow keys up and down step by the fineness of what was typed, the page keys by
    ten steps. Signals: `begun` when the focus comes to stay, `typed` at each key or step, `settled` on Enter or on
    leaving, `entered` on Enter alone, `given_up` on Escape.
    """

    begun = Signal()
    typed = Signal(str)
    settled = Signal()
    entered = Signal()
    given_up = Signal()

    def __init__(self, name: str, describe: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts = 1
        self._describe = describe or TYPED
        self.setAccessibleName(name)
        self.setAccessibleDescription(self._describe)
        self.textEdited.connect(self._typed)
        self.editingFinished.connect(self.settled)

    def describe(self, says: str) -> None:
        """What is said of it from now on, beside what is wrong or understood."""
        self._describe = says

    def say(self, wrong: str, hint: str = "") -> None:
        """Say why the entry cannot be, or what was understood, to those who listen; a wrong one is marked."""
        self.setAccessibleDescription(" ".join(filter(None, (wrong, hint, self._describe))))
        if (self.property("wrong") or "false") != (on := "true" if wrong else "false"):
            self.setProperty("wrong", on)
            self.style().unpolish(self)
            self.style().polish(self)

    def _typed(self, text: str) -> None:
        self._parts = 1
        self.typed.emit(text)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_Escape:
                untouched = not self.isModified() and isinstance(self.window(), QDialog)
                self.given_up.emit()
                event.setAccepted(not untouched)  # with nothing to take back it closes the dialog
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                self.settled.emit()
                self.entered.emit()
            case Qt.Key.Key_Up | Qt.Key.Key_Down | Qt.Key.Key_PageUp | Qt.Key.Key_PageDown:
                self.step(_steps(event))
            case _:
                super().keyPressEvent(event)

    def step(self, count: int) -> None:
        """Move the value by steps; a fraction keeps its fineness for as long as it is stepped."""
        self._parts = max(self._parts, parts_of(self.text()))
        self.setText(step(self.text(), count, self._parts))
        self.setModified(True)
        self.typed.emit(self.text())

    def event(self, event: QEvent) -> bool:
        """Undo and redo belong to the desk, not to the line."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride:
            keys = QKeySequence.StandardKey
            if event.matches(keys.Undo) or event.matches(keys.Redo):
                event.ignore()
                return False
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() not in (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason):
            self._parts = 1
            self.begun.emit()
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()


def _steps(event: QKeyEvent) -> int:
    up = event.key() in (Qt.Key.Key_Up, Qt.Key.Key_PageUp)
    large = event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)
    return (1 if up else -1) * (10 if large else 1)


class Field(QWidget):
    """A name, a line to type in, what was understood, and a sentence when it is wrong.

    `put` takes the text; `take_back` undoes what was put with a word, and where there is none the text that was in
    force is put again; `understood` says in a few words what the text means, or nothing. `after`: where Enter goes, if
    not to the next field.
    """

    def __init__(
        self,
        name: str,
        put: Put,
        take_back: Callable[[str], None] | None = None,
        *,
        describe: str = "",
        understood: Callable[[str], str] | None = None,
        wide: int = 112,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._understood = understood
        self._shown, self._before, self._why, self._putting = "", "", "", False
        self._usual = ""
        self.after: QWidget | None = None
        self.visit = Visit(put, take_back or self._put_before)
        self.line = TypedLine(name, describe, self)
        self.line.setProperty("role", "value")
        self.line.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.long = wide >= LONG
        self.line.short = not self.long
        self.line.setMinimumWidth(wide)
        if not self.long:
            self.line.setMaximumWidth(round(wide * 1.5))
        self.name = WrappedLabel(name, self)
        self.name.setBuddy(self.line)
        self.name.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._lay_out()
        self.line.begun.connect(self._begin)
        self.line.typed.connect(self._typed)
        self.line.settled.connect(self._settled)
        self.line.entered.connect(self._next)
        self.line.given_up.connect(self._give_up)

    def _lay_out(self) -> None:
        row = QVBoxLayout() if self.long else QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4 if self.long else 12)
        row.addWidget(self.name, 1)
        row.addWidget(self.line)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(2)
        self.column.addLayout(row)

    @cached_property
    def hint(self) -> QLabel:
        """What was understood, close under the line; made when there is something to say for the first time."""
        hint = QLabel(self, textFormat=Qt.TextFormat.PlainText)
        hint.setProperty("role", "hint")
        hint.setAlignment(Qt.AlignmentFlag.AlignRight)
        hint.hide()
        self.column.insertWidget(1, hint)
        return hint

    @cached_property
    def wrong(self) -> WrappedLabel:
        """Why it cannot be, under all else; made when it is first wrong."""
        wrong = WrappedLabel("", self)
        wrong.setProperty("role", "wrong")
        wrong.hide()
        self.column.addWidget(wrong)
        return wrong

    def show_name(self, name: str, heard: str = "") -> None:
        """Call the field by another name; `heard`: what it is called for who cannot see what stands over it."""
        if name != self.name.text():
            self.name.setText(name)
        self.line.setAccessibleName(heard or name)

    def show_text(self, text: str) -> None:
        """Show the value in force; what the person is just typing stays as it is typed."""
        if text == self._shown:
            return
        self._shown = text
        if not self._putting:
            self.line.setText(text)
            if not self.line.hasFocus():
                self.line.setCursorPosition(0)  # of what is too long the beginning is read
        self._say(self.line.text(), "")

    def show_usual(self, usual: str) -> None:
        """What is assumed while nothing is typed: said under the line, never in it."""
        if usual != self._usual:
            self._usual = usual
            self._say(self.line.text(), self._why)

    def describe(self, says: str) -> None:
        """What is said of the line for who cannot see what stands under it."""
        self.line.describe(says)
        self._say(self.line.text(), self._why)

    def forget(self) -> None:
        """Another job is about to come: what was typed for this one, and why it could not be, end with it."""
        self._show_in_force()
        self._begin()

    def _begin(self) -> None:
        self._before = self._shown  # the value in force, even where a wrong entry still stands
        self.visit.begin()

    def _typed(self, text: str) -> None:
        self._putting = True
        why = self.visit.put(text)
        self._putting = False
        self._say(text, why if self._why else "")  # not wrong before it is settled

    def _settled(self) -> None:
        text = self.line.text()
        why = "" if text == self._shown and not self._why else self.visit.settle(text)
        if why:
            self.line.setText(text)
        self._say(text, why)
        self._begin()

    def _give_up(self) -> None:
        self.visit.give_up()
        self._show_in_force()
        self.line.selectAll()

    def _put_before(self, _word: str) -> None:
        self.visit.put(self._before)

    def _show_in_force(self) -> None:
        self.line.setText(self._shown)
        self._say(self._shown, "")

    def _next(self) -> None:
        if self._why:
            return
        if self.after is not None:
            self.after.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.focusNextChild()

    def _say(self, text: str, why: str) -> None:
        self._why = why
        hint = self._understood(text) if self._understood and not why else ""
        hint = hint or ("" if text.strip() or why else self._usual)
        for label, said in (("wrong", sentence(why)), ("hint", hint)):
            if said or label in vars(self):
                shown: QLabel = getattr(self, label)
                shown.setText(said)
                shown.setVisible(bool(said))
        self.line.say(why, hint)


def understood(unit: Unit) -> Callable[[str], str]:
    """Says what a typed length is in mm where that is not plain from the text itself."""

    def say(text: str) -> str:
        try:
            plain = _plain_mm(units.keep(text, unit))
        except units.NotALength:
            return ""
        return "" if " ".join(text.split()).removesuffix(" mm") == plain else f"= {plain} mm"

    return say


def in_mm(value: object, unit: Unit) -> str:
    """The same of a value as it is kept: a length, or the two of a pair."""
    if isinstance(value, str):
        return understood(unit)(value)
    if isinstance(value, tuple) and any(isinstance(part, str) for part in value):
        return f"= {' ; '.join(map(_plain_mm, value))} mm"
    return ""


def _plain_mm(length: Length) -> str:
    """A length in mm without the unit's name: hundredths, all of them shown of one in inches, so that those typed in
    fractions are as long as each other.
    """
    value = units.half_away(units.mm(length))
    return units.show(value, "mm", 2) if units.unit_typed(length) == "in" else units.show_number(round(value, 2))


def typed_length(text: str, unit: Unit) -> Length:
    """What was typed, as it is kept; raises `NotALength`."""
    if not text.strip():
        raise units.NotALength(f"Nothing is typed here; write a length like {units.WRITTEN[unit]}")
    return units.keep(text, unit)
