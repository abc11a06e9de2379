"""The desk: the header, the cards, the drawing board and the strip, put together and kept in step with the document."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QHBoxLayout,
    QMainWindow,
    QMenuBar,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.desk.cards.card import Card, keep_still, tab_down
from app.desk.document.document import Document
from app.desk.document.open_and_save import Asks, Dialogs, Doors
from app.desk.document.preferences import Bench
from app.desk.document.recovery import LeftBehind, Recovery, left_behind
from app.desk.document.working_out import Thinking, compose
from app.desk.frame.commands import Commands
from app.desk.frame.header import Header
from app.desk.frame.notice import Notice
from app.desk.frame.strip import Strip
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.look import Look, dress
from app.say import key_figures
from geometry.job import Job


class Desk(QWidget):
    """What fills the window's frame. `asks` stands in for the platform's dialogs in tests.

    `unwanted`: the sheets, by name, that are not to be printed this time.
    """

    def __init__(self, frame: QMainWindow, bench: Bench, asks: Asks | None = None) -> None:
        super().__init__(frame)
        self.frame, self.bench, self.look = frame, bench, bench.look()
        self.document = document = Document(Thinking().work_out, parent=self)
        self.setAccessibleName("Desk")
        self.setAcceptDrops(True)
        self.notice = Notice(self.look)
        self.doors = Doors(document, asks or Dialogs(self), self)
        self.recovery = Recovery(document, self)
        self.header = Header(document, self.look)
        self.strip = Strip(self.look)
        self.board = DrawingBoard(document, self.look, compose)
        self.cards = QStackedWidget()
        self.opened: dict[str, Card] = {}
        self.unwanted: set[str] = set()
        self._hand = document.job.hand
        self._lay_out()
        self.commands = Commands(self)
        self._connect()

    def start(self) -> None:
        """Show what there is to begin with, and begin to work layouts out."""
        self.open_card("Start" if self.document.job == Job() else "Measure")
        self._named()
        self.document.wake()

    def menu_bar(self) -> QMenuBar:
        return self.frame.menuBar()

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.cards)
        middle.addWidget(self.board, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.header)
        column.addWidget(self.notice)
        column.addLayout(middle, 1)
        column.addWidget(self.strip)
        self._give_room()

    def _give_room(self) -> None:
        """Cards give way where large text would leave the plan no room."""
        wide = self.look.card_width(self.frame.width())
        self.cards.setFixedWidth(wide)
        self.header.set_side(wide)

    def _connect(self) -> None:
        self.document.changed.connect(self.refresh)
        self.document.named.connect(self._named)
        self.document.started.connect(self.unwanted.clear)
        self.document.started.connect(self._to_the_top)
        self.bench.look_changed.connect(self.show_look)
        self.doors.failed.connect(self.say_wrong)
        self.doors.told.connect(self.notice.say)
        self.recovery.keeps.connect(self._say_keeps)
        self.doors.used.connect(self._used)
        self.header.steps.chosen.connect(self.open_card)
        self.strip.went_to.connect(self.go_to)
        self.commands.measure.findings.went_to.connect(self.go_to)
        self.board.touched.connect(self._touched)
        self.board.asked_menu.connect(self._menu_on_plan)
        self.board.refused = self.commands.measure.table.readings.refused
        self.board.typing_begins.connect(self.commands.measure.begin_visit)
        self.board.put_value.connect(self.commands.measure.put_on_plan)
        self.board.gave_up.connect(self.commands.measure.take_back)

    # what is shown

    def open_card(self, name: str) -> None:
        """Open a step's card; made when it is first asked for."""
        from app.desk.cards.make_card import make

        card = self.opened.get(name)
        if card is None:
            card = self.opened[name] = make(name, self)
            self.cards.addWidget(card)
        if card is not self.cards.currentWidget():
            self.board.hand.let_go()
        self.cards.setCurrentWidget(card)
        if name != "Start":
            self.header.steps.choose(name)
        card.refresh()
        tab_down(card)
        card.opened()
        self.commands.measuring.show_in_hand()

    @property
    def card(self) -> Card:
        found = self.cards.currentWidget()
        assert isinstance(found, Card)
        return found

    def refresh(self) -> None:
        """Take over the document everywhere; before the desk has started there is nothing to show it on."""
        if self.cards.currentWidget() is None:
            return
        try:
            self.board.refresh()
            self.board.repaint()  # the eye waits for the plan; what else is painted with it still shows the job before
        finally:
            self._refresh_rest()

    def _refresh_rest(self) -> None:
        if self.document.job.hand != self._hand:
            self._change_hands()
        keep_still(self.card, self.card.refresh)
        self.strip.show_figures(key_figures.key_figures(self.document.job, self.document.layout))
        self._named()

    def _change_hands(self) -> None:
        """Cards that call sides bass and treble are made anew for the other hand."""
        self._hand = self.document.job.hand
        open_now = next((name for name, card in self.opened.items() if card is self.card), "")
        for name in ("Strings", "Bridge"):
            old = self.opened.pop(name, None)
            if old is not None:
                self.cards.removeWidget(old)
                old.deleteLater()
        if open_now and open_now not in self.opened:
            self.open_card(open_now)

    def _named(self) -> None:
        mark = "" if self.document.saved else "*"
        self.frame.setWindowTitle(f"{self.document.name}{mark} – Offsquare")
        self.header.refresh()

    def show_look(self, look: Look) -> None:
        """Change theme or text size while running."""
        self.look = look
        dress(look)
        self._give_room()
        self.notice.look = look
        self.header.show_look(look)
        self.strip.show_look(look)
        self.board.show_look(look)
        for card in self.opened.values():
            card.show_look(look)

    def say_wrong(self, sentence: str) -> None:
        self.notice.say(sentence, wrong=True)

    def _touched(self, of: str) -> None:
        """Something on the plan was clicked."""
        for card in self.opened.values():
            card.touched(of)

    def _to_the_top(self) -> None:
        """Another job is read from the top of each card."""
        for card in self.opened.values():
            for area in card.findChildren(QScrollArea):
                area.verticalScrollBar().setValue(0)

    def _menu_on_plan(self, of: str, at: QPoint) -> None:
        from app.desk.plan.plan_menu import show

        show(self, of, at)

    def go_to(self, where: str) -> None:
        """Go to what a finding is about: a reading in its table, or a place on the plan."""
        kind, _, name = where.partition(":")
        if kind == "reading":
            self.open_card("Measure")
            self.commands.measure.table.go_to(name)
            self.commands.measure.table.setFocus()
            return
        if kind == "step":
            self.open_card(name.capitalize())
        elif kind == "field":
            self._go_to_field(where)
        else:
            self.board.show_place(where)

    def _go_to_field(self, where: str) -> None:
        """Open the card that has the field, and go to it there."""
        block = where.removeprefix("field:").partition(".")[0]
        if block == "board":
            self.commands.about(where)
            return
        name = {"strings": "Strings", "frets": "Strings", "sheets": "Sheets"}.get(block, "Bridge")
        if self.opened.get(name) is not self.card:
            self.open_card(name)
        self.card.go_to(where)

    # what comes and goes

    def _used(self) -> None:
        if self.document.path is not None:
            self.bench.keep(self.bench.kept.with_recent(self.document.path))
        if "Start" in self.opened and self.card is self.opened["Start"]:
            self.open_card("Measure")

    def offer(self, found: tuple[LeftBehind, ...], unread: Sequence[str] = ()) -> None:
        """Offer work that a crash left behind, one job after the other; tell of what can't be read."""
        if not found:
            if unread:
                self.say_wrong(" ".join(unread))
            return
        newest, rest = found[0], found[1:]

        def bring() -> None:
            if self.doors.may_leave():
                self.document.start(newest.job, newest.path, seen=newest.seen, changed_since=True)
                if self.recovery.keep():
                    newest.drop()
                self.open_card("Measure")
                self._say_more_left(rest)

        def throw() -> None:
            newest.drop()
            self.offer(rest)

        sentence = " ".join((newest.says(), "Bring it back?", *unread))
        self.notice.say(sentence, ("Bring it back", bring), ("Throw it away", throw))

    def _say_more_left(self, rest: tuple[LeftBehind, ...]) -> None:
        if rest:
            more = "Another job was" if len(rest) == 1 else f"{len(rest)} more jobs were"
            self.notice.say(f"{more} left unsaved as well; they are offered when the program is started next.")

    def _say_keeps(self, keeps: bool) -> None:
        """No copy of unsaved work can be written, or one can again."""
        if keeps:
            self.notice.hide()
        else:
            self.say_wrong("No copy of your work can be kept (is the disk full?): save it, or a crash would lose it.")

    def may_close(self) -> bool:
        """Whether the window may close; unsaved work is asked about first."""
        if not self.doors.may_leave():
            return False
        self.recovery.drop()
        return True

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._give_room()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses the button that has the focus, as the space bar does."""
        focused = self.focusWidget()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(focused, QAbstractButton):
            focused.click()
        elif event.key() == Qt.Key.Key_Escape and self.notice.isVisible():
            self.notice.hide()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _dropped(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = _dropped(event)
        if path is not None:
            event.acceptProposedAction()
            self.doors.open_path(path)


def _dropped(event: QDropEvent) -> Path | None:
    """The one file that is dropped, or None."""
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None


def open_on(desk: Desk, path: Path | None, unread: Sequence[str] = ()) -> Desk:
    """The desk on a job file where one is named; work that a crash left behind is offered a little later, and what was
    `unread` of the settings is told.
    """
    if path is not None:
        desk.doors.open_path(path)
    QTimer.singleShot(400, desk, lambda: _look_back(desk, [*unread]))
    return desk


def _look_back(desk: Desk, unread: list[str]) -> None:
    from app.file import leftovers

    leftovers.begin(desk.bench.kept)
    desk.offer(left_behind(unread.append), unread)
