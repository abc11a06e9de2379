"""The band along the top: the job's name and its state at the left, the steps, the job's unit at the right."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.desk.document.document import Document
from app.desk.frame.step_row import StepRow
from app.desk.widgets.look import SIDE, VALUE, Look, colour
from app.say.figures import progress
from geometry import words
from geometry.findings import Finding


class Titles(QWidget):
    """Signals: `resized` when the name and the state have another room."""

    resized = Signal()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()


class Header(QWidget):
    """Name, steps, unit. The unit is a button that turns to the next one."""

    def __init__(self, document: Document, look: Look, steps: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.tools: tuple[Finding, ...] = ()
        self.setObjectName("band")
        self.name = QPushButton(self)
        self.name.setProperty("role", "name")
        self.name.setAccessibleDescription("The job’s name; press to change it, its note, its hand")
        self.state = QLabel(self)
        self.state.setProperty("role", "label")
        self.state.setContentsMargins(6, 0, 0, 0)
        self.state.setAccessibleName("State of the job")
        self.state.setTextFormat(Qt.TextFormat.PlainText)
        self.titles = Titles(self)
        self.titles.resized.connect(self._elide)
        column = QVBoxLayout(self.titles)
        column.setContentsMargins(SIDE - 6, 0, 8, 0)
        column.setSpacing(0)
        column.addStretch(1)
        column.addWidget(self.name, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.state)
        column.addStretch(1)
        self.steps = StepRow(steps, look, self)
        self.unit = QPushButton(self)
        self.unit.setProperty("role", "plain")
        self.unit.setAccessibleDescription("The unit of a bare number; press for the next one")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 16, 0)
        row.setSpacing(8)
        self.titles.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.titles.setMinimumWidth(160)
        row.addWidget(self.titles, 1000)
        row.addWidget(self.steps, 1)
        row.addWidget(self.unit)
        self.show_look(look)

    def show_look(self, look: Look) -> None:
        self.look = look
        self.setFixedHeight(self.sizeHint().height())
        self.steps.show_look(look)
        self.update()

    def set_side(self, wide: int) -> None:
        """The titles stand over the card, as wide as it where the steps leave room."""
        self.titles.setMaximumWidth(wide)

    def show_tools(self, found: tuple[Finding, ...]) -> None:
        """What there is to say of cutter and kerf, known a little later than the rest."""
        if found != self.tools:
            self.tools = found
            self.refresh()

    def sizeHint(self) -> QSize:
        return QSize(1200, round(60 * self.look.text_scale))

    def refresh(self) -> None:
        document = self.document
        self._elide()
        self.name.setAccessibleName(f"Job: {document.name}")
        waits = progress.measure_waits(document.job, document.layout)
        self.steps.show_signs(progress.steps(document.job, document.layout, self.tools), waits)
        self.unit.setText(document.job.unit)
        self.unit.setAccessibleName(f"Unit: {document.job.unit}")

    def _elide(self) -> None:
        """The name as far as there is room for it, and the state."""
        metrics = QFontMetricsF(self.look.font(VALUE, bold=True))
        room = self.titles.width() - SIDE - 16
        self.name.setText(metrics.elidedText(self.document.name, Qt.TextElideMode.ElideRight, room))
        self.state.setText(self._state(room))

    def _state(self, room: float) -> str:
        """The job in a line and whether it is saved; where there is no room for both, only that."""
        document = self.document
        saved = "saved" if document.saved and document.path else "not saved yet" if not document.path else "edited"
        whole = f"{words.job_line(document.job)} · {saved}"
        wordings = (whole, saved, saved.removesuffix(" yet"))
        fits = (said for said in wordings if self.state.fontMetrics().horizontalAdvance(said) <= room)
        return next(fits, wordings[-1])

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(self.look.palette.card))
        painter.fillRect(QRectF(0, self.height() - 1, self.width(), 1), colour(self.look.palette.hair))
        painter.end()
