"""The notice bar over the strip: one sentence the person should know, with up to two things to do about it."""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QWidget
from shiboken6 import isValid

from app.desk.widgets.inputs.buttons import Button
from app.desk.widgets.look import GRID, Look, colour
from app.desk.widgets.words.wrapped_label import WrappedLabel

Answer = tuple[str, Callable[[], None]]
"""A button's words, and what it does."""


class Holds(NamedTuple):
    """Whether what was said `still` holds, asked at each change of the job, and what is said while it does not."""

    still: Callable[[], bool]
    else_say: str


class Said(NamedTuple):
    """What was said, as `Notice.say` takes it."""

    sentence: str
    answers: tuple[Answer, ...] = ()
    wrong: bool = False
    lasting: bool = False
    passing: bool = False
    holds: Holds | None = None


class Notice(QWidget):
    """Hidden while there is nothing to say. What it says is of the open job and goes with it, unless `lasting`; if it
    is `passing`, with the job’s next change. What was once said and **holds no more** is told beside whatever else is
    said, until the person closes that.
    """

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look, self.wrong = look, False
        self.words = WrappedLabel("", self)
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(3 * GRID, GRID, 2 * GRID, GRID)
        self.row.setSpacing(GRID)
        self.row.addWidget(self.words, 1)
        self._said = Said("")
        self._held: dict[str, Said] = {}  # by what is said once it holds no more
        self._answers: list[Callable[[], None]] = []
        self.buttons = [Button(self) for _ in range(3)]
        self._before: QWidget | None = None  # where the focus was
        for button in self.buttons:
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # a click leaves the focus where the work is
            button.setAccessibleName("Close")
            button.setAccessibleDescription("Puts the notice away")
            button.clicked.connect(self._answered)
            self.row.addWidget(button)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._focus_moved)
        self.hide()

    def say(
        self,
        sentence: str,
        *answers: Answer,
        wrong: bool = False,
        lasting: bool = False,
        passing: bool = False,
        holds: Holds | None = None,
    ) -> None:
        """Show a sentence; a button to put it away is always there. `lasting`: it is not about the open job; `passing`:
        about its last change; `holds`: of the job as it was when this was said.
        """
        said = Said(sentence, answers, wrong, lasting, passing, holds)
        if holds is not None:
            self._held.pop(holds.else_say, None)
            self._held[holds.else_say] = said
        self._show(said)

    def _show(self, said: Said) -> None:
        self._said = said
        given = (*said.answers, ("Close", self._forget_told))
        self._answers = [do for _, do in given]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(given))
            if at < len(given):
                button.setText(given[at][0])
                button.setAccessibleName(given[at][0])
        self._tell()
        self.show()

    def _tell(self) -> None:
        """What was said last, and what holds no more."""
        no_more, own = self._no_more(), self._said.holds
        first = () if own is not None and own.else_say in no_more else (self._said.sentence,)
        sentence = " ".join((*first, *no_more))
        self.wrong = self._said.wrong or bool(no_more)
        self.words.setText(sentence)
        self.words.setAccessibleName(sentence)
        for button in self.buttons[: len(self._answers)]:
            button.setAccessibleDescription(sentence)
        self.update()

    def _no_more(self) -> list[str]:
        """What is to be said of all that holds no more."""
        return [say for say, said in self._held.items() if said.holds is not None and not said.holds.still()]

    def job_changes(self) -> None:
        """Another job is about to come: what was said of this one, or could be done about it, goes."""
        self._held.clear()
        if not self._said.lasting:
            self._put_away()
        elif not self.isHidden():
            self._tell()

    def job_changed(self) -> None:
        """The job was changed: what was said of the change before goes, and what holds no more is put right."""
        if self.isHidden() or self._said.passing:
            self.over()
        else:
            self._tell()

    def over(self) -> None:
        """What was said last has no more to say; what else holds no more is told in its place."""
        no_more = self._no_more()
        if no_more:
            self._show(self._held[no_more[-1]])
        else:
            self._put_away()

    def close_it(self) -> None:
        """The person has read it: it goes, and what it told comes no more."""
        self._forget_told()
        self._put_away()

    def _forget_told(self) -> None:
        """What holds no more has been read; what still holds is told of once it does not."""
        for told in self._no_more():
            del self._held[told]

    def _put_away(self) -> None:
        """Hide; the focus goes back where it was before it came here."""
        here, back = self._has(QApplication.focusWidget()), self._before
        self.hide()
        if here and back is not None and isValid(back) and back.isVisible():
            back.setFocus(Qt.FocusReason.OtherFocusReason)

    def _has(self, widget: QWidget | None) -> bool:
        return widget is not None and self.isAncestorOf(widget)

    def _focus_moved(self, old: QWidget | None, now: QWidget | None) -> None:
        if self._has(now) and not self._has(old):
            self._before = old

    def _answered(self) -> None:
        button = self.sender()
        self._put_away()
        if isinstance(button, Button):
            self._answers[self.buttons.index(button)]()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_it()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        p = self.look.palette
        painter.fillRect(self.rect(), colour(p.look_ground if self.wrong else p.row))
        painter.fillRect(0, 0, 4, self.height(), colour(p.look if self.wrong else p.steel_line))
        painter.end()
