"""The worked example: ten steps through a sample job, which the person does with their own hand.

What is said stands in a bar of its own, so that what the program says meanwhile stays to be read.
"""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QRect, QTimer
from PySide6.QtWidgets import QScrollArea, QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import measure_card
from app.desk.document.document import Document
from app.desk.frame.point_at import PointAt
from app.desk.frame.step_row import StepRow
from app.desk.frame.strip import Strip
from app.desk.frame.tour import TOUR, Seen
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.notice import Answer, Notice
from app.file import samples

SAMPLE = "one-slip"
LOOKS_EVERY = 120
"""So many ms between looks at what the hand has done."""
MARGIN = 80
"""What is seen over and under what is scrolled to, pixels."""


class Example(QObject):
    """Walks through the steps. It ends with the last one, with its bar's Close, or with the job."""

    def __init__(
        self, document: Document, cards: CardStack, board: DrawingBoard, steps: StepRow, strip: Strip, bar: Notice
    ) -> None:
        super().__init__(bar)
        self.document, self.cards, self.board = document, cards, board
        self.steps, self.strip, self.bar = steps, strip, bar
        self.at, self.over, self.stayed = 0, "", 0
        self.ring = PointAt(bar.look, bar.window())
        self.before = self.seen()
        self.timer = QTimer(self)
        self.timer.setInterval(LOOKS_EVERY)
        self.timer.timeout.connect(self._look)
        document.started.connect(self.end)

    def seen(self) -> Seen:
        """What the hand can have changed, as it is now."""
        return Seen(
            job=self.document.job,
            layout=self.document.layout,
            card=self.cards.card.title if self.cards.card is not None else "",
            reading=measure_card(self.cards).table.chosen or "",
            scale=self.board.plan.paper_scale,
            stayed=self.stayed,
        )

    def show(self) -> None:
        """Say what the step is about, and point at it."""
        step = TOUR[self.at]
        if not self.cards.is_open(step.card):
            self.cards.open(step.card)
        self.before = self.seen()
        answers: list[Answer] = []
        if self.at:
            answers.append(("Back", lambda: self._go(-1)))
        if self.at < len(TOUR) - 1:
            answers.append(("Skip this" if step.done else "Next", lambda: self._go(1)))
        self.bar.say(f"{self.at + 1} of {len(TOUR)}   {step.says(self.before)}", *answers)
        self._point()
        self.timer.start()
        QTimer.singleShot(LOOKS_EVERY, self, self._bring_into_sight)

    def _bring_into_sight(self) -> None:
        """Scroll to what is spoken of, once; from then on the card stays where the hand scrolls it."""
        widget, _ = self._target(TOUR[self.at].points_at)
        area = widget
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        if widget is not None and isinstance(area, QScrollArea):
            area.ensureWidgetVisible(widget, 0, MARGIN)

    def end(self) -> None:
        """Put away what belongs to the example."""
        self.timer.stop()
        self.ring.hide()
        self.bar.hide()
        self.deleteLater()

    def _go(self, by: int) -> None:
        self.at += by
        self.show()

    def _look(self) -> None:
        """Look whether the hand has done it, and whether what is rung has moved."""
        if not self.bar.isVisible():
            self.end()
            return
        over = self.board.pointer.over
        self.stayed = self.stayed + 1 if over == self.over and over.startswith("point:") else 0
        self.over = over
        done = TOUR[self.at].done
        if done is not None and done(self.before, self.seen()):
            self._go(1)
        self._point()

    def _point(self) -> None:
        self.ring.ring(*self._target(TOUR[self.at].points_at))

    def _target(self, points_at: str) -> tuple[QWidget | None, QRect | None]:
        """The widget that is spoken of, and which part of it."""
        kind, _, name = points_at.partition(":")
        targets: dict[str, Callable[[str], tuple[QWidget | None, QRect | None]]] = {
            "row": self._row,
            "plan": lambda _: (self.board.plan, None),
            "step": lambda name: (self.steps.buttons.get(name), None),
            "figure": self._figure,
            "named": self._named,
        }
        return targets[kind](name) if kind in targets else (None, None)

    def _row(self, _name: str) -> tuple[QWidget | None, QRect | None]:
        table = measure_card(self.cards).table
        row = table.visualRect(table.currentIndex())
        return table.viewport(), QRect(0, row.top(), table.viewport().width(), row.height())

    def _figure(self, name: str) -> tuple[QWidget | None, QRect | None]:
        wanted = {"readings": ("reading:", "step:measure"), "slot": ("check:fret12.slot", "reading:")}[name]
        cells = [cell for cell in self.strip.cells if cell.isVisible() and cell.figure.where.startswith(wanted)]
        more = self.strip.more if self.strip.more.isVisible() else self.strip  # it turns over to the others
        return (cells[0] if cells else more), None

    def _named(self, name: str) -> tuple[QWidget | None, QRect | None]:
        """A control of the open card, by the name that it has for those who don't see it."""
        found = [widget for widget in self.cards.findChildren(QWidget) if widget.accessibleName() == name]
        return next((widget for widget in found if widget.isVisible()), None), None


def sample_path() -> Path | None:
    """Where the sample job of the worked example is."""
    return samples.find(SAMPLE) or next(iter(samples.paths()), None)
