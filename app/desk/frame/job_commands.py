"""What the window's menus, buttons and cards do to the job as a whole: begin, open, export, print, add a reading."""

from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import measure_card
from app.desk.document.document import Document
from app.desk.document.open_and_save import JobFiles
from app.desk.document.preferences import Preferences
from app.desk.output.exporter import Exporter
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.kept_dialog import kept_dialog
from app.edit import edits
from app.edit.bridge import held_entries
from geometry.job import Held, Job
from geometry.job.job import Hand
from geometry.units import Unit


class JobCommands:
    """`window`: over which dialogs are shown."""

    def __init__(
        self,
        document: Document,
        job_files: JobFiles,
        preferences: Preferences,
        board: DrawingBoard,
        cards: CardStack,
        exporter: Exporter,
        window: QWidget,
    ) -> None:
        self.document, self.job_files, self.preferences = document, job_files, preferences
        self.board, self.cards, self.exporter, self.window = board, cards, exporter, window

    def new(self) -> None:
        """Put the job away and ask the questions of a new one."""
        if self.job_files.new(Job()):
            self.cards.open("Start")

    def turn_blank(self, hand: Hand, unit: Unit, held: Held) -> None:
        """Show a job in which nothing was typed for the other hand, in another unit or with its bridge held in another
        way: it is only being begun.
        """
        before = self.document.job
        made = _blank(hand, unit, held)
        if before != made and before == _blank(before.hand, before.unit, before.held):
            self.document.start(made)

    def begin(self, job: Job) -> None:
        """Begin the job that the start card made, at its first reading."""
        if self.job_files.new(job):
            self.cards.open("Measure")
            self.board.fit()
            measure_card(self.cards).start()

    def open_recent(self, name: str) -> None:
        if self.job_files.open_path(Path(name)):
            self._opened()

    def open_sample(self, name: str) -> None:
        if self.job_files.open_sample(Path(name)):
            self._opened()

    def _opened(self) -> None:
        self.board.fit()
        self.cards.open("Measure")

    def next_unit(self) -> None:
        """Turn to the next unit; what was typed keeps its own."""
        turns: dict[Unit, Unit] = {"mm": "in", "in": "cm", "cm": "mm"}
        unit = turns[self.document.job.unit]
        self.document.edit(f"unit {unit}", edits.set_unit(self.document.job, unit))

    def about(self, where: str = "") -> None:
        """The job's name and note, its hand, its board; at the field that a finding is about."""
        from app.desk.frame.about_job import AboutJob

        look = self.preferences.look()
        about = kept_dialog(AboutJob, "About the job", self.window, lambda: AboutJob(self.document, look, self.window))
        about.show_job(look)
        about.form.go_to(where)

    def export(self) -> None:
        """Write the files, from whichever card, into the folder that the Sheets card shows meanwhile."""
        from app.desk.cards.sheets.sheets_card import SheetsCard

        self.cards.open("Sheets")
        self.exporter.export(self.cards.get_as("Sheets", SheetsCard).into.folder)

    def add_reading(self) -> None:
        """Open the Measure card and ask for a new reading."""
        self.cards.open("Measure")
        measure_card(self.cards).add()


def _blank(hand: Hand, unit: Unit, held: Held) -> Job:
    """A job in which nothing was typed."""
    return held_entries.hold(edits.set_unit(Job(hand=hand), unit), held)
