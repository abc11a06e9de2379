"""The three ways of entering points of old work, on the top or on the headstock: readings still to be taken, places
pointed at on the plan, and a typed list.
"""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.desk.cards.list_of_points import ListOfPoints
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.edit.old_work import old_places
from app.edit.old_work.old_kinds import KINDS, AnyKind, to_enter
from geometry.job import Job, NotAJob
from geometry.layout import XY


def unchanged(made: Job) -> Job:
    """Nothing more is said of the points."""
    return made


class WaysOfEntry(QWidget):
    """`finish` adds to the job what else was said of the points. Signals: `measuring` with the reading to take first;
    `pointing` with what is to be pointed at, and what takes the places; `wrong` with why a place cannot be, or nothing.
    """

    measuring = Signal(str)
    pointing = Signal(str, object)
    wrong = Signal(str)

    def __init__(
        self, document: Document, kind: AnyKind, parent: QWidget, finish: Callable[[Job], Job] = unchanged
    ) -> None:
        super().__init__(parent)
        self.document, self.kind, self.finish = document, kind, finish
        self.list: ListOfPoints | None = None
        self.read = make_button("Read", "", self)
        self.point = make_button("Point", "Each click on the plan is a point, in order; Enter ends", self)
        self.typed = make_button("Type a list", "Type or paste a name and two numbers a line", self)
        self.row = QHBoxLayout()
        self.row.setSpacing(8)
        for button in (self.read, self.point, self.typed):
            self.row.addWidget(button)
        self.row.addStretch(1)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.addLayout(self.row)
        self.read.clicked.connect(self._read)
        self.point.clicked.connect(self._point)
        self.typed.clicked.connect(self._type)
        self.show_kind(kind)

    def show_kind(self, kind: AnyKind) -> None:
        """Enter this kind from now on."""
        about = KINDS[kind]
        if kind != self.kind and self.list is not None:
            self.list.hide()
            self.list.deleteLater()
            self.list = None
        self.kind = kind
        for button in (self.read, self.point, self.typed):
            button.setAccessibleName(f"{button.text()}: {about.says}")
        self.refresh()

    def refresh(self) -> None:
        """How many readings it would be now."""
        about, many = KINDS[self.kind], to_enter(self.document.job, self.kind)
        what = f"{many} {about.one.split()[0]}{'s' if many > 1 else ''}"
        self.read.setAccessibleDescription(f"Puts readings for {what} on the Measure card, to be taken")

    def _read(self) -> None:
        made, first = old_places.ask_readings(self.document.job, self.kind)
        self.document.edit(f"readings for {KINDS[self.kind].says}", self.finish(made))
        self.measuring.emit(first)

    def _point(self) -> None:
        self.wrong.emit("")
        about, kind = KINDS[self.kind], self.kind
        says = f"Point at {about.says}" if about.usual == 1 else f"Point at {about.says}: each {about.one}, in order"
        self.pointing.emit(f"{says}.", lambda things: self.pointed(kind, things))

    def pointed(self, kind: AnyKind, things: tuple[str | XY, ...]) -> None:
        """Points or places were pointed at on the plan."""
        document = self.document
        try:
            made = old_places.point_at(document.job, document.layout, kind, things)
        except NotAJob as error:
            self.wrong.emit(f"{error}.")
            return
        document.edit(f"pointing at {KINDS[kind].says}", self.finish(made))

    def _type(self) -> None:
        if self.list is None:
            self.list = ListOfPoints(self.document, self.kind, self.finish, self)
            self.list.done.connect(self._listed)
            self.column.addWidget(self.list)
        self.list.open()

    def _listed(self) -> None:
        if self.list is not None:
            self.list.hide()
        self.typed.setFocus()
