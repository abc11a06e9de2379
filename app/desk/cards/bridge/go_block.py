"""What may be glued and cut now and what must wait, at the top of the Bridge card: first what the layout says, and a
moment later, when the hands are idle, the reading or trial that would change it most.
"""

from msgspec.structs import replace
from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.card import bring_into_sight, keep_still
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.say.figures.verdicts_now import verdicts_now
from geometry import go_or_wait
from geometry.findings import Finding
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job

IDLE = 400
"""How long the hands rest before what-ifs are worked out, ms."""


class GoBlock(QWidget):
    """Signals: `went_to` with what would change a verdict."""

    went_to = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self._told: tuple[Job, list[Finding]] | None = None
        """What was worked out last, and of which job."""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(2)
        column.addWidget(label("Go or wait", "heading", self))
        self.list = FindingsList(look, self)
        self.list.setAccessibleName("What may be done now, and what must wait")
        self.list.went_to.connect(self.went_to)
        column.addWidget(self.list)
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(IDLE)
        self._idle.timeout.connect(self.tell_changes)

    def refresh(self) -> None:
        """What the layout says; what would change it follows."""
        job, layout = self.document.job, self.document.layout
        steps = verdicts_now(job, layout) if layout is not None else ()
        self.setVisible(bool(steps))
        if self._told is not None and layout is not None and self._told[0] == _placed(job):
            self.list.show_found(list(self._told[1]))  # keeping a placement changes nothing here: the card stays put
            return
        if layout is not None:
            self.list.show_found(go_or_wait.as_findings(job, layout, steps))
        if any(not step.go for step in steps):
            self._idle.start()

    def reveal(self) -> bool:
        """Bring it into sight, with the focus on what must wait first; whether there is anything to say."""
        if self.isHidden():
            return False
        bring_into_sight(self)
        self.list.lines[0].setFocus(Qt.FocusReason.TabFocusReason)
        return True

    def tell_changes(self) -> None:
        """The one thing that would change each verdict, worked out."""
        job, layout = self.document.job, self.document.layout
        if layout is not None and self.isVisible():
            found = go_or_wait.as_findings(job, layout, told_of(job, layout).steps)
            self._told = _placed(job), list(found)
            keep_still(self.window(), lambda: self.list.show_found(found))  # what is typed into below stays put

    def show_look(self, look: Look) -> None:
        """The same words in other colours and sizes."""
        self.list.show_look(look)


def _placed(job: Job) -> Job:
    """The job without the placements that are kept beside it."""
    return replace(job, kept=())
