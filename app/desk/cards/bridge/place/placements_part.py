"""The part of the Bridge card that keeps placements: the present one is kept, laid beside, brought back, dropped."""

import datetime

from PySide6.QtCore import QEvent, QPoint, Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app.desk.cards.bridge.place.placements_table import ComparisonTable
from app.desk.cards.card import ROUNDS, keep_still
from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.fold import FoldHead
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import LONG, Field
from app.desk.widgets.look import Look
from app.edit.bridge import kept_places
from app.say import plain_words
from geometry.job import Job, Kept, NotAJob
from geometry.placed import kept_placements, kept_told

ABOUT = (
    "Keep the layout as it is, then change what you like: how far it moves stands here, and what was kept stays on the "
    "plan as a ghost."
)


class PlacementsPart(QWidget):
    """Folded away until a placement is kept. `at`: which of the kept ones is laid beside. Signals: `went_to` with the
    fields that move the bridge by hand.
    """

    went_to = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.at, self._count = document, 0, 0
        self._done_to: Job | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(8)
        self.body = QWidget(self)
        self.fold = FoldHead("Placements", self.body, look, self, self._fill)
        column.addWidget(self.fold)
        column.addWidget(self.body)
        document.started.connect(self._forget)

    def _fill(self) -> None:
        inner = QVBoxLayout(self.body)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(12)
        inner.addWidget(label(ABOUT, "label", self.body))
        says = "Opens “Another place for the bridge” where it is moved by numbers, or by dragging"
        self.move_button = plain_button("Move the bridge by hand", says, self.body)
        self.move_button.clicked.connect(lambda: self.went_to.emit("field:bridge.moved"))
        keeps = "Keeps saddle, bridge, scar and check distances as they are now, with the settings that made them"
        self.keep_button = make_button("Keep this placement", keeps, self.body)
        self.keep_button.clicked.connect(lambda: keep_still(self.window(), self._keep_here, self.keep_button))
        self.wrong = label("", "wrong", self.body)
        self.wrong.hide()
        self.done = label("", "text", self.body)
        self.done.hide()
        self.which = Choice("Beside", "The kept placement that the present one is laid beside", self.body)
        self.beside = label("The present placement beside", "text", self.body)
        self.beside.setBuddy(self.which)
        self.which.activated.connect(self._choose)
        says = "What the kept placement is called"
        give_up = self.document.give_up
        self.name = Field("Its name", self._rename, give_up, describe=says, wide=LONG, parent=self.body)
        self.name.line.setAlignment(Qt.AlignmentFlag.AlignLeft)
        self.table = ComparisonTable(self.fold.look, self.body)
        self.below = label("", "label", self.body)
        self._lay_out(inner)
        self._show_kept()

    def _lay_out(self, inner: QVBoxLayout) -> None:
        inner.addLayout(_in_a_row(self.keep_button, self.move_button))
        inner.addWidget(self.wrong)
        stack = QVBoxLayout()
        stack.setSpacing(4)
        stack.addWidget(self.beside)
        stack.addWidget(self.which)
        inner.addLayout(stack)
        inner.addWidget(self.name)
        says = "Brings back its neck centre line, frets, strings, saddle and bridge; readings stay as they are"
        self.back_button = make_button("Bring it back", says, self.body)
        self.drop_button = plain_button("Drop it", "Takes the kept placement out of the job", self.body)
        self.back_button.clicked.connect(self._bring_back)
        self.drop_button.clicked.connect(self._drop)
        self.name.after = self.which
        inner.addLayout(_in_a_row(self.back_button, self.drop_button))
        inner.addWidget(self.done)  # under the buttons: they stay under the pointer
        inner.addWidget(self.table)
        inner.addWidget(self.below)

    @property
    def kept(self) -> Kept | None:
        """The one that is laid beside."""
        kept = self.document.job.kept
        return kept[min(self.at, len(kept) - 1)] if kept else None

    def keep(self) -> bool:
        """Keep the present placement and lay it beside, its name in hand to be typed over; whether it was kept."""
        today = datetime.datetime.now().astimezone().date().isoformat()
        try:
            made = kept_places.keep(self.document.job, self.document.layout, today)
        except NotAJob as error:
            self.fold.setChecked(True)
            self._say(str(error))
            return False
        self.at = len(made.kept) - 1
        self.document.edit(f"keeping {made.kept[-1].name}", made)
        self.fold.setChecked(True)
        self.name.line.setFocus(Qt.FocusReason.TabFocusReason)
        self.name.line.selectAll()
        return True

    def _keep_here(self) -> None:
        self.keep()

    def keep_and_reveal(self) -> None:
        """Keep the present placement from another card: its name is in hand, and what it is laid beside in sight."""
        if not self.keep():
            self.fold.setFocus(Qt.FocusReason.TabFocusReason)
        self._show_name()
        for wait in (*ROUNDS, 2 * ROUNDS[-1]):  # words that wrap over it take so long to find their height
            QTimer.singleShot(wait, self, self._show_name)

    def _show_name(self) -> None:
        self._to_the_top()
        area = self._area()
        if area is not None and self.kept is not None:
            area.ensureWidgetVisible(self.name)

    def reveal(self) -> None:
        """Bring it to the top of the card, with the focus on it."""
        self.fold.setFocus(Qt.FocusReason.TabFocusReason)
        self._to_the_top()

    def _area(self) -> QScrollArea | None:
        """What it is scrolled in."""
        area = self.parentWidget()
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        return area

    def _to_the_top(self) -> None:
        area = self._area()
        inside = area.widget() if area is not None else None
        if area is not None and inside is not None:
            QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
            area.verticalScrollBar().setValue(self.mapTo(inside, QPoint(0, 0)).y())

    def refresh(self) -> None:
        job = self.document.job
        count = len(job.kept)
        if self.fold.rows.is_made:
            if job != self._done_to:
                self._say_done("")
            if count != self._count:
                self._say("")
        more, self._count = count > self._count, count
        self.at = max(min(self.at, count - 1), 0)
        self.fold.show_text(f"Placements: {count} kept" if count else "Placements")
        if more:
            self.fold.setChecked(True)
        if self.fold.rows.is_made:
            self._show_kept()

    def _show_kept(self) -> None:
        """What there is to do, and the present placement beside a kept one."""
        job, layout, kept = self.document.job, self.document.layout, self.kept
        self.move_button.setVisible(job.bridge is not None and job.held == "glue")
        self.keep_button.setEnabled(kept_places.can_keep(layout))
        for widget in (self.beside, self.which, self.name, self.table, self.below, self.back_button, self.drop_button):
            widget.setVisible(kept is not None)
        if kept is None:
            return
        named = [kept_told.heading(job, one) for one in job.kept]
        if named != [self.which.itemText(at) for at in range(self.which.count())]:
            self.which.clear()
            self.which.addItems(named)
        self.which.setCurrentIndex(self.at)
        self.name.show_text(kept.name)
        found = None if layout is None else kept_placements.compare(job, layout, kept)
        self.table.show_rows(kept_told.rows(job, found) if found is not None else ())
        waits = "It can be compared once the saddle has a place again."
        self.below.setText(" ".join(kept_told.below(job, found)) if found is not None else waits)
        self.below.setVisible(bool(self.below.text()))
        self.back_button.setEnabled(kept_places.bring_back(job, kept.name) != job)

    def show_look(self, look: Look) -> None:
        self.fold.show_look(look)
        if self.fold.rows.is_made:
            self.table.show_look(look)

    def _choose(self, at: int) -> None:
        self.at = at
        self.refresh()

    def _rename(self, text: str, word: str) -> None:
        if self.kept is not None:
            made = kept_places.rename(self.document.job, self.kept.name, text)
            self.document.edit(f"calling a placement “{text.strip()}”", made, word)

    def _bring_back(self) -> None:
        if self.kept is not None:
            made = kept_places.bring_back(self.document.job, self.kept.name)
            if self.back_button.hasFocus():
                self.which.setFocus(Qt.FocusReason.OtherFocusReason)  # else it would go to what drops the placement
            name, lost = self.kept.name, not kept_places.is_kept(self.document.job)
            self.document.edit(f"bringing back “{name}”", made)
            if lost:
                self._say_done(f"“{name}” was brought back. The one before was not kept: Undo brings that back.")

    def _drop(self) -> None:
        if self.kept is None:
            return
        name, last = self.kept.name, len(self.document.job.kept) == 1
        if self.drop_button.hasFocus():  # it may go out of sight, and the focus would land on something that acts
            (self.fold if last else self.which).setFocus(Qt.FocusReason.OtherFocusReason)
        self.document.edit(f"dropping “{name}”", kept_places.drop(self.document.job, name))
        self._say_done(f"“{name}” was dropped. Undo brings it back.")

    def _forget(self) -> None:
        """Another job is about to come."""
        self.at = self._count = 0
        self.fold.setChecked(False)
        if self.fold.rows.is_made:
            self.name.forget()
            self._say("")
            self._say_done("")

    def _say_done(self, sentence: str) -> None:
        """What was done and can be undone, said until the job's next change."""
        self._done_to = self.document.job
        self.done.setText(sentence)
        self.done.setVisible(bool(sentence))

    def _say(self, sentence: str) -> None:
        self.wrong.setText(plain_words.sentence(sentence))
        self.wrong.setVisible(bool(sentence))


def _in_a_row(*buttons: QPushButton) -> QHBoxLayout:
    """Buttons side by side, from the left."""
    row = QHBoxLayout()
    row.setSpacing(8)
    for button in buttons:
        row.addWidget(button)
    row.addStretch(1)
    return row
