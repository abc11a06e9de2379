"""The desk: the header, the cards, the drawing board and the strip, put together and kept in step with the document.

Here alone everything is known to everything; each part is given what it needs, and none is given the desk.
"""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QMainWindow, QVBoxLayout, QWidget

from app.desk.cards.card import Card
from app.desk.cards.card_context import CardContext
from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import make, measure_card, steps
from app.desk.document.document import Document
from app.desk.document.open_and_save import Dialogs, JobFiles, Questions
from app.desk.document.preferences import Preferences
from app.desk.document.recovery import Recovery
from app.desk.document.working_out import WorkingOut
from app.desk.frame.go_to import GoTo
from app.desk.frame.header import Header
from app.desk.frame.job_commands import JobCommands
from app.desk.frame.menus.edit_menu import edit_menu
from app.desk.frame.menus.file_menu import file_menu
from app.desk.frame.menus.help_menu import help_menu
from app.desk.frame.menus.plan_menu import PlanMenu
from app.desk.frame.menus.view_menu import looks_menu, view_menu
from app.desk.frame.offer_left_behind import OfferLeftBehind
from app.desk.frame.strip import Strip
from app.desk.output.exporter import Exporter
from app.desk.output.job_pages import JobPages
from app.desk.output.sheet_printer import SheetPrinter
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.plan.painting.compose_picture import compose
from app.desk.widgets.look import Look
from app.desk.widgets.notice import Notice
from app.desk.widgets.style_sheet import apply_look
from app.say import what_changed
from app.say.figures import key_figures
from geometry.job import Job

if TYPE_CHECKING:
    from app.desk.cards.measure.measure_card import MeasureCard


class Desk(QWidget):
    """What fills the window's frame. `questions` stands in for the platform's dialogs in tests."""

    def __init__(self, frame: QMainWindow, preferences: Preferences, questions: Questions | None = None) -> None:
        super().__init__(frame)
        self.frame, self.preferences, self.look = frame, preferences, preferences.look()
        self.document = document = Document(WorkingOut().lay_places, parent=self)
        self.setAccessibleName("Desk")
        self.setAcceptDrops(True)
        self.notice, self.guide = Notice(self.look), Notice(self.look)
        self.job_files = JobFiles(document, questions or Dialogs(self), self)
        self.recovery = Recovery(document, self)
        self.pages = JobPages(document, preferences)
        self.exporter = Exporter(self.pages, self.notice, self)
        self.printer = SheetPrinter(self.pages, self.notice, self)
        self.header = Header(document, self.look, steps())
        self.strip = Strip(self.look)
        self.board = DrawingBoard(document, self.look, compose)
        self.cards = CardStack(lambda name: make(name, self._context()))
        self.commands = JobCommands(document, self.job_files, preferences, self.board, self.cards, self.exporter, self)
        self.go_to = GoTo(self.cards, self.board, self.commands.about)
        self.plan_menu = PlanMenu(document, self.board, self.cards, self.go_to, self.commands.add_reading, self)
        self.left_behind = OfferLeftBehind(
            document, self.job_files, self.recovery, self.notice, lambda: self.cards.open("Measure")
        )
        self._lay_out()
        self.menu_actions = self._menus()
        self._connect()

    def _context(self) -> CardContext:
        """What each card is lent."""
        return CardContext(
            document=self.document,
            preferences=self.preferences,
            board=self.board,
            pages=self.pages,
            stack=self.cards,
            look=self.look,
            go_to=self.go_to,
            add_reading=self.commands.add_reading,
            turn_blank=self.commands.turn_blank,
            begin=self.commands.begin,
            ask_open=self.job_files.open,
            open_path=self.commands.open_recent,
            open_sample=self.commands.open_sample,
            export=self.commands.export,
            print_sheets=self.printer.print_sheets,
            print_check_sheet=self.printer.print_check_sheet,
            show_tools=self.header.show_tools,
        )

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.cards)
        middle.addWidget(self.board, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.header)
        column.addLayout(middle, 1)
        column.addWidget(self.guide)
        column.addWidget(self.notice)  # under the cards: what was pressed stays under the pointer
        column.addWidget(self.strip)
        self._give_room()

    def _give_room(self) -> None:
        """Cards give way where large text would leave the plan no room."""
        wide = self.look.card_width(self.frame.width())
        self.cards.setFixedWidth(wide)
        self.header.set_side(wide)

    def _menus(self) -> dict[str, QAction]:
        """The menus; their actions by name."""
        bar, commands = self.frame.menuBar(), self.commands
        made: dict[str, QAction] = {}
        made |= file_menu(bar, self, commands, self.job_files, self.preferences, self.printer.print_sheets)
        ask = self.board.pointer.ask_distance
        made |= edit_menu(bar, self, self.document.stack, self.cards, commands.add_reading, ask)
        made |= view_menu(bar, self, self.cards, self.preferences)
        made |= looks_menu(bar, self, self.board)
        made |= help_menu(bar, self, self._begin_example, self.preferences.look, lambda: self.document.job.held, made)
        return made

    def _connect(self) -> None:
        document = self.document
        document.laid_out.connect(self._paint_places)
        document.changed.connect(self.refresh)
        document.named.connect(self._named)
        document.started.connect(self.notice.job_changes)
        document.changed.connect(self.notice.job_changed)
        document.started.connect(self.cards.to_the_top)
        self.preferences.look_changed.connect(self.show_look)
        self.job_files.failed.connect(self.say_wrong)
        self.job_files.told.connect(self.notice.say)
        self.job_files.used.connect(self._used)
        self.recovery.keeps.connect(self._say_keeps)
        self.menu_actions["Undo"].triggered.connect(self._say_undone)
        self.header.steps.chosen.connect(self.cards.open)
        self.header.unit.clicked.connect(self.commands.next_unit)
        self.header.name.clicked.connect(lambda: self.commands.about())
        self.strip.went_to.connect(self.go_to)
        self.cards.turning.connect(self.board.pointer.let_go)
        self.cards.opened.connect(self.header.steps.choose)
        self.cards.opened.connect(self.document.work_on)
        self.board.touched.connect(self.cards.touched)
        self.board.asked_menu.connect(self.plan_menu.show)

    def start(self) -> None:
        """Begin to work layouts out, and show what there is to begin with: the job on the plan first, a card then."""
        beside = (self.header, self.cards, self.strip)
        for part in beside:
            part.setUpdatesEnabled(False)  # they are painted behind the plan
        try:
            self.document.wake()
            self.cards.open("Start" if self.document.job == Job() else "Measure")
        finally:  # whatever goes wrong, the card can be seen and the job saved
            for part in beside:
                part.setUpdatesEnabled(True)

    # what is shown

    @property
    def card(self) -> Card:
        """The card that is open."""
        found = self.cards.card
        assert found is not None
        return found

    @property
    def measure(self) -> "MeasureCard":
        """The Measure card, open or not."""
        return measure_card(self.cards)

    def refresh(self) -> None:
        """Take over the document everywhere; before the desk has started there is nothing to show it on."""
        if not self.document.awake:
            return
        try:
            if self.document.layout is None:
                self.board.refresh()
                self.board.repaint()
        finally:
            self.cards.refresh()
            self.strip.show_figures(key_figures.key_figures(self.document.job, self.document.layout))
            self._named()

    def _paint_places(self) -> None:
        """Both pictures first; what else is painted with them still shows the job before."""
        self.board.refresh()
        self.board.repaint()

    def _named(self) -> None:
        mark = "" if self.document.saved else "*"
        self.frame.setWindowTitle(f"{self.document.name}{mark} – Offsquare")
        self.header.refresh()

    def show_look(self, look: Look) -> None:
        """Change theme or text size while running."""
        self.look = look
        apply_look(look)
        self._give_room()
        self.notice.look = self.guide.look = look
        self.header.show_look(look)
        self.strip.show_look(look)
        self.board.show_look(look)
        self.cards.show_look(look)

    def say_wrong(self, sentence: str) -> None:
        self.notice.say(sentence, wrong=True)

    def _begin_example(self) -> None:
        """Open the sample of the worked example and show its first step."""
        from app.desk.frame.example import Example, sample_path

        path = sample_path()
        if path is None:
            self.say_wrong("The sample jobs are missing; install the program again.")
        elif self.job_files.open_sample(path):
            self.board.fit()
            Example(self.document, self.cards, self.board, self.header.steps, self.strip, self.guide).show()

    # what comes and goes

    def _used(self) -> None:
        """A job file was opened or saved."""
        if self.document.path is not None:
            self.preferences.keep(self.preferences.settings.with_recent(self.document.path))
        if self.cards.is_open("Start"):
            self.cards.open("Measure")

    def _say_undone(self) -> None:
        """Say what was taken back, and show it."""
        undone = self.document.last_undone()
        if undone is None:
            return
        name = undone.text
        place = what_changed.where(undone.with_it, undone.without, undone.made_on)
        if what_changed.in_dialog(place):  # no dialog comes up unasked: it would take the keys from the next undo
            self.notice.say(f"Taken back: {name}.", ("Show it", lambda: self.go_to(place)), passing=True)
            return
        if place:
            self.go_to(place)
        self.notice.say(f"Taken back: {name}.", passing=True)

    def keep_work(self) -> bool:
        """Write the copy of unsaved work now; whether it stands."""
        return self.recovery.keep()

    def _say_keeps(self, keeps: bool) -> None:
        """No copy of unsaved work can be written, or one can again."""
        if keeps:
            self.notice.over()
        else:
            sentence = "No copy of your work can be kept (is the disk full?): save it, or a crash would lose it."
            self.notice.say(sentence, wrong=True, lasting=True)

    def may_close(self) -> bool:
        """Whether the window may close; unsaved work is asked about first."""
        if not self.job_files.may_leave():
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
            self.notice.close_it()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _dropped(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = _dropped(event)
        if path is not None:
            event.acceptProposedAction()
            self.job_files.open_path(path)


def _dropped(event: QDropEvent) -> Path | None:
    """The one file that is dropped, or None."""
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None
