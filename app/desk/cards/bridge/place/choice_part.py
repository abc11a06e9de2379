"""The choice of place on the Bridge card: the range and the weights, the places found, and the bridge moved by hand.

The search runs on a thread of its own; an edit of the job ends it, and what it had found is put aside.
"""

import threading
from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QEnterEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from app.desk.cards.bridge.place.slides import Slides
from app.desk.cards.card import words as label
from app.desk.cards.form import Form, Name
from app.desk.cards.form_rows import unfold_to
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.look import Look
from app.edit.bridge import choice_entries
from app.say import chosen_places
from geometry.choice.choose import ChosenPlace
from geometry.job import Job

WHY = "A bridge whose slot is still to be cut can hide more of the old work, or stand squarer, and still play in tune."
WEIGHTS = (
    ("tune", "Points for each cent out of tune"),
    ("margins", "Points for each {one} of uneven margins"),
    ("scar", "Points for each {area} of scar"),
    ("holes", "Points for each old hole not used again"),
    ("clearance", "Points for each {one} lacking at brace, plate, metal"),
    ("looks", "Points for each {one} askew to the seam"),
)
"""What counts, in the words below."""


class ChoicePart(Fold):
    """Signals: `found` when there are other `places` to be seen, none where they are out of date; `pointed` when
    another one is `looked_at`, by what it is best at.
    """

    found = Signal()
    pointed = Signal()
    _done = Signal(object, object)

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("Another place for the bridge", look, parent, self._fill)
        self.document = document
        self.places: tuple[ChosenPlace, ...] = ()
        self.looked_at = ""
        self._searched: Job | None = None
        self._stop = threading.Event()
        self.form = Form(document, self.column, self.inside)
        self._done.connect(self._show, Qt.ConnectionType.QueuedConnection)

    def _fill(self) -> None:
        self._places(self.column)
        self._range()
        self._moved()
        self.slides.refresh()
        self.document.started.connect(self._forget)

    def _moved(self) -> None:
        form = self.form
        form.section("Moved by hand", "From where the strings want it. Every number follows as you drag or type.")
        self.slides = Slides(self.document, self.inside)
        self.column.addWidget(self.slides)
        form.length("Along, + to the tail", *_moved("along"), key="bridge.moved.along")
        says = "The strings go with it."
        form.length(_across, *_moved("across"), says=says, key="bridge.moved.across")
        form.number(_turned, *_moved("turn"), key="bridge.moved.turn")
        form.choice(
            "The slot",
            [("stays", "stays with the strings"), ("goes along", "moves with the bridge")],
            *_moved("slot"),
            wide=True,
        )

    def _range(self) -> None:
        form = self.form
        form.section("Range", "How far the bridge may go either way, and what a place may cost.")
        form.length("Range along", *_choice("along"), key="choice.along")
        form.length("Range across", *_choice("across"), key="choice.across")
        form.number("Range of turn, in degrees", *_choice("turn"), key="choice.turn")
        form.number("Cents that hiding may cost", *_choice("cents"), key="choice.cents")
        form.length("Standing square may move it by", *_choice("within"), key="choice.within")
        says = "Each fault costs a place points; the fewest are “best by your weights”. 0 counts for nothing."
        form.section("Weights", says)
        for key, name in WEIGHTS:
            get, put = choice_entries.weight_of(key), choice_entries.weight_put(key)
            form.number(_weight(name), get, put, key=f"choice.weights.{key}")

    def _places(self, column: QVBoxLayout) -> None:
        self.form.section("Places to choose from", WHY)
        self.look_for = make_button(
            "Find the places", "Looks for the places that are each best at something", self.inside
        )
        self.look_for.clicked.connect(self.search)
        self.cancel = plain_button("Stop looking", "Ends the search", self.inside)
        self.cancel.clicked.connect(self._cancel)
        self.cancel.hide()
        row = QHBoxLayout()
        row.addWidget(self.look_for)
        row.addWidget(self.cancel)
        row.addStretch(1)
        column.addLayout(row)
        self.says = label("", "label", self.inside)
        self.says.hide()
        column.addWidget(self.says)
        self.rows = QVBoxLayout()
        self.rows.setSpacing(16)
        column.addLayout(self.rows)

    def search(self) -> None:
        """Begin to look for the places of the job as it is now."""
        job, layout = self.document.job, self.document.layout
        self._cancel()
        if layout is None or layout.bridge is None:
            self._say("There is nothing to choose yet: the saddle’s place and the bridge come first.")
            return
        from geometry.choice.poses import no_choice

        if no_choice(job):
            self._say(no_choice(job))
            return
        self._searched, stop = job, threading.Event()
        self._stop = stop

        def run() -> None:
            from geometry.choice import choose
            from geometry.survey import survey

            found = choose(job, survey(job), layout, stop.is_set)
            if not stop.is_set():
                self._done.emit(job, found)

        self._say("Looking…")
        self.look_for.setEnabled(False)
        self.cancel.show()
        threading.Thread(target=run, name="choosing", daemon=True).start()

    def _say(self, sentence: str) -> None:
        self.says.setText(sentence)
        self.says.setVisible(bool(sentence))

    def _cancel(self) -> None:
        self._stop.set()
        self.look_for.setEnabled(True)
        self.cancel.hide()
        self._say("")

    def _forget(self) -> None:
        """Nothing of one job stays in the next."""
        self._cancel()
        self._searched = None
        self._show_places(())

    def _show(self, job: Job, places: tuple[ChosenPlace, ...]) -> None:
        if job is not self._searched or self._stop.is_set():  # it may have been on its way when it was stopped
            return
        self.look_for.setEnabled(True)
        self.cancel.hide()
        self._say("" if places else "No place within this range leaves enough wood; make the range wider.")
        self._show_places(places)

    def _show_places(self, places: tuple[ChosenPlace, ...]) -> None:
        self.places = places
        while (item := self.rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for place, row in zip(places, chosen_places.rows(self.document.job, places), strict=True):
            line = PlaceLine(row, self.inside)
            line.taken.connect(self._taker(place))
            line.pointed.connect(self._looker(place.best_at[0]))
            self.rows.addWidget(line)
        self.looked_at = ""
        self.found.emit()

    def _taker(self, place: ChosenPlace) -> Callable[[], None]:
        def take() -> None:
            made = choice_entries.take_found(self.document.job, place.moved)
            self.document.edit(f"the place {place.best_at[0]}", made)

        return take

    def _looker(self, name: str) -> Callable[[bool], None]:
        def look_at(on: bool) -> None:
            self.looked_at = name if on else ""
            self.pointed.emit()

        return look_at

    def go_to(self, where: str) -> bool:
        """Show the field that a finding is about; whether there is one."""
        return unfold_to(self, self.form, where)

    def refresh(self) -> None:
        """Show the job; places that were found for other readings or inputs are out of date."""
        bridge = self.document.job.bridge
        moved = bridge.moved if bridge is not None else None
        self.say(f"Moved {chosen_places.moved(self.document.job, moved)}." if moved is not None else "")
        if not self.is_filled:
            return
        self.form.refresh()
        self.slides.refresh()
        if self._searched is None:
            return
        still = choice_entries.without_place(self._searched) == choice_entries.without_place(self.document.job)
        if not still:
            self._forget()
            self._say("The job has changed since: look again.")


class PlaceLine(QWidget):
    """One place. Signals: `taken` when the bridge is to go there, `pointed` when it is looked at."""

    taken = Signal()
    pointed = Signal(bool)

    def __init__(self, row: chosen_places.PlaceRow, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(row.name)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(label(row.name, "heading", self))
        column.addWidget(label(f"{row.moved[:1].upper()}{row.moved[1:]}.", "text", self))
        grid = QGridLayout()
        column.addLayout(grid)
        grid.setHorizontalSpacing(20)
        grid.setVerticalSpacing(0)
        for at, (head, figure) in enumerate(zip(chosen_places.HEADS, row.figures, strict=True)):
            name, value = label(head, "label", self), label(figure, "text", self, wrap=False)
            for part in (name, value):
                part.setToolTip(chosen_places.MEANS[at])
            grid.addWidget(name, at, 0)
            grid.addWidget(value, at, 1, Qt.AlignmentFlag.AlignRight)
        grid.setColumnStretch(0, 1)
        if row.gives_up:
            column.addWidget(label(f"{row.gives_up[:1].upper()}{row.gives_up[1:]}.", "label", self))
        button = make_button("Take this place", f"Moves the bridge: {row.moved}", self, name=f"Take: {row.name}")
        button.clicked.connect(self.taken)
        button.installEventFilter(self)
        under = QHBoxLayout()
        under.setContentsMargins(0, 6, 0, 0)
        under.addWidget(button)
        under.addStretch(1)
        column.addLayout(under)

    def enterEvent(self, event: QEnterEvent) -> None:
        self.pointed.emit(True)
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.pointed.emit(False)
        super().leaveEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """With the keyboard a place is looked at while its button has the focus."""
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.pointed.emit(event.type() == QEvent.Type.FocusIn)
        return super().eventFilter(watched, event)


def _across(job: Job) -> str:
    return f"Across, + to the {job.bass_or_treble('left')} side"


def _turned(job: Job) -> str:
    return f"Turned (°), + {job.bass_or_treble('left')} end to the nut"


def _moved(key: str) -> tuple[Callable[[Job], object], Callable[[Job, object], Job]]:
    return choice_entries.moved_of(key), choice_entries.moved_put(key)


def _choice(key: str) -> tuple[Callable[[Job], object], Callable[[Job, object], Job]]:
    return choice_entries.choice_of(key), choice_entries.choice_put(key)


def _weight(name: str) -> Name:
    """What counts, in the job's unit."""
    return lambda job: name.format(**{by: said for by, (said, _) in choice_entries.MUCH[job.unit].items()})
