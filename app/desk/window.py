"""The desk's window: puts the header, the cards, the drawing board and the strip together, and opens them on a job.

What is slow to load (numpy, shapely, the exporters) is loaded after the first picture is on the screen.
"""

import sys
from pathlib import Path

import msgspec
from PySide6.QtCore import QTimer
from PySide6.QtGui import QCloseEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from app import digest
from app.desk import look as looks
from app.desk.cards.card import WIDE, Card
from app.desk.cards.measure import MeasureCard
from app.desk.document import Document
from app.desk.drawing_board import DrawingBoard, Wish
from app.desk.header import Header
from app.desk.steps import StepName
from app.desk.strip import Strip
from app.desk.view import Box, View
from export.drawing.marks import Drawing
from geometry.job import Job
from geometry.layout import Layout


def work_out(job: Job) -> Layout:
    """The real thing, loaded when it is first needed."""
    from geometry.work_out import work_out as real

    return real(job)


def compose(job: Job, layout: Layout, view: View, scale: float, seen: Box, wish: Wish) -> Drawing:
    """The plan's drawing, loaded when it is first needed."""
    from export.drawing.flatten import Box as FlatBox
    from export.plan import PlanView
    from export.plan import compose as real

    wanted = PlanView(
        scale=scale,
        turn=view.turn,
        inside=view.inside,
        window=FlatBox(*seen),
        overlays=wish.overlays,  # type: ignore[arg-type]  # the view menu knows the overlays' names
        reading=wish.reading,
        advice=wish.advice,
        sheets=wish.sheets,  # type: ignore[arg-type]  # opaque to the desk
    )
    return real(job, layout, wanted)


class Desk(QMainWindow):
    """The window."""

    def __init__(self, document: Document, look: looks.Look) -> None:
        super().__init__()
        self.document, self.look = document, look
        document.setParent(self)
        self.header = Header(document, look)
        self.strip = Strip(look)
        self.board = DrawingBoard(document, look, compose)
        self.cards = QStackedWidget()
        self.cards.setFixedWidth(round(WIDE * look.text_scale))
        self.measure = MeasureCard(document, look)
        self.opened: dict[StepName, Card] = {"Measure": self.measure}
        self.cards.addWidget(self.measure)
        self._lay_out()
        document.changed.connect(self.refresh)
        document.named.connect(self._named)
        self.measure.in_hand.connect(self._took_reading)
        self.header.steps.choose("Measure")
        self._named()

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.cards)
        middle.addWidget(self.board, 1)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.header)
        column.addLayout(middle, 1)
        column.addWidget(self.strip)
        self.setCentralWidget(whole)
        self.resize(1280, 800)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        QTimer.singleShot(0, self.document.wake)

    def refresh(self) -> None:
        """Take over the document everywhere."""
        self.board.refresh()
        current = self.cards.currentWidget()
        if isinstance(current, Card):
            current.refresh()
        self.strip.show_figures(digest.figures(self.document.job, self.document.layout))
        self.header.steps.show_signs({name: card.sign() for name, card in self.opened.items()})
        self._named()

    def _took_reading(self, reading_id: str) -> None:
        self.board.show_wish(msgspec.structs.replace(self.board.wish, reading=reading_id))

    def _named(self) -> None:
        mark = "" if self.document.saved else "*"
        self.setWindowTitle(f"{self.document.name}{mark} – Offsquare")
        self.header.refresh()

    def closeEvent(self, event: QCloseEvent) -> None:
        event.accept()


def run(path: Path | None) -> int:
    """Open the window, on a job file where one is given. Returns the exit code."""
    found = QApplication.instance()
    app = found if isinstance(found, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName("Offsquare")
    app.setStyle("Fusion")
    looks.load_typeface()
    look = looks.Look(looks.LIGHT)
    app.setPalette(looks.qt_palette(look.palette))
    app.setStyleSheet(looks.style_sheet(look))
    document = Document(work_out)
    if path is not None:
        document.open(path)
    desk = Desk(document, look)
    desk.show()
    return app.exec()
