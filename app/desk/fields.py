"""Fields a person types into: they keep what was typed, say what they understood, and never throw away a wrong entry.

While an entry is wrong it stays in the field with a sentence under it, and the last good value stays in force.
"""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from app.stepping import parts_of, step
from geometry import units
from geometry.job import NotAJob
from geometry.units import Length, Unit

Put = Callable[[str], None]
"""Takes what was typed and puts it into force; raises `NotAJob` or `NotALength` with the sentence to show."""


TYPED = "Escape takes back what is typed"
"""What is said of a line that explains itself otherwise."""


class TypedLine(QLineEdit):
    """A line edit for one value; the arrow keys up and down step by the fineness of what was typed, the page keys by
    ten steps. Signals: `typed` at each key or step, `settled` on Enter or on leaving, `given_up` on Escape.
    """

    typed = Signal(str)
    settled = Signal()
    entered = Signal()
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts = 1
        self.textEdited.connect(self.typed)
        self.editingFinished.connect(self.settled)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_Escape:
                self.given_up.emit()
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
        self._parts = 1
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()


def _steps(event: QKeyEvent) -> int:
    up = event.key() in (Qt.Key.Key_Up, Qt.Key.Key_PageUp)
    large = event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)
    return (1 if up else -1) * (10 if large else 1)


class Field(QWidget):
    """A name, a line to type in, what was understood, and a sentence when it is wrong.

    `put` takes the text; `understood` says in a few words what the text means, or nothing.
    """

    def __init__(
        self,
        name: str,
        put: Put,
        *,
        describe: str = "",
        understood: Callable[[str], str] | None = None,
        wide: int = 112,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._put, self._understood, self._describe = put, understood, describe
        self._shown, self._before, self._visits, self._putting = "", "", 0, False
        self.line = TypedLine(self)
        self.line.setProperty("role", "value")
        self.line.setAccessibleName(name)
        self.line.setAccessibleDescription(describe or TYPED)
        self.line.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.line.setMinimumWidth(wide)
        self.line.setMaximumWidth(round(wide * 1.5))
        self.name = QLabel(name, self)
        self.name.setBuddy(self.line)
        self.name.setWordWrap(True)
        self.name.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.hint = QLabel(self)
        self.hint.setProperty("role", "hint")
        self.hint.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.wrong = QLabel(self)
        self.wrong.setProperty("role", "wrong")
        self.wrong.setWordWrap(True)
        self._lay_out()
        self.line.typed.connect(self._typed)
        self.line.settled.connect(self._settled)
        self.line.entered.connect(self._next)
        self.line.given_up.connect(self._give_up)
        self.line.installEventFilter(self)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self.name, 1)
        row.addWidget(self.line)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.hint)
        column.addWidget(self.wrong)
        self.hint.hide()
        self.wrong.hide()

    @property
    def word(self) -> str:
        """What merges all edits of one visit to the field into one undo step."""
        return f"{self.name.text()} {id(self)} {self._visits}"

    def show_text(self, text: str) -> None:
        """Show the value in force; what the person is just typing stays as it is typed."""
        if text == self._shown:
            return
        self._shown = text
        if not self._putting:
            self.line.setText(text)
        self._say(self.line.text(), "")

    def _try(self, text: str) -> str:
        """Put a text into force; the sentence that says why not, or nothing."""
        self._putting = True
        try:
            self._put(text)
        except (NotAJob, units.NotALength, ValueError) as error:
            return str(error)
        finally:
            self._putting = False
        return ""

    def _typed(self, text: str) -> None:
        wrong = self._try(text)
        self._say(text, "" if wrong and not self.wrong.isVisible() else wrong)

    def _settled(self) -> None:
        text = self.line.text()
        if text == self._shown and not self.wrong.isVisible():
            return
        wrong = self._try(text)
        if wrong:
            self._try(self._before)  # what stood there before, not half of what was typed
            self.line.setText(text)
        self._say(text, wrong)

    def _give_up(self) -> None:
        self.line.setText(self._before)
        self._say(self._before, self._try(self._before))
        self.line.selectAll()

    def _next(self) -> None:
        if not self.wrong.isVisible():
            self.focusNextChild()

    def _say(self, text: str, wrong: str) -> None:
        self.wrong.setText(wrong)
        self.wrong.setVisible(bool(wrong))
        hint = self._understood(text) if self._understood and not wrong else ""
        self.hint.setText(hint)
        self.hint.setVisible(bool(hint))
        self.line.setAccessibleDescription(" ".join(filter(None, (wrong, hint, self._describe))) or TYPED)
        if self.line.property("wrong") != (on := "true" if wrong else "false"):
            self.line.setProperty("wrong", on)
            self.line.style().unpolish(self.line)
            self.line.style().polish(self.line)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.line and event.type() == QEvent.Type.FocusIn:
            self._before = self._shown  # the value in force, even where a wrong entry still stands
            self._visits += 1
        return super().eventFilter(watched, event)


def understood(unit: Unit) -> Callable[[str], str]:
    """Says what a typed length is in mm where that is not plain from the text itself."""

    def say(text: str) -> str:
        try:
            value = units.parse(text, unit)
        except units.NotALength:
            return ""
        plain = units.show_number(float(f"{value:.2f}"))
        return "" if " ".join(text.split()).removesuffix(" mm") == plain else f"= {plain} mm"

    return say


def typed_length(text: str, unit: Unit) -> Length:
    """What was typed, as it is kept; raises `NotALength`."""
    if not text.strip():
        raise units.NotALength("Nothing is typed here; write a length like 643.5, 64,4 cm or 25 11/32 in")
    return units.keep(text, unit)
