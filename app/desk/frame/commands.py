"""The desk's commands: the menus, with what each line of them does."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, get_args

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from app.desk.document.preferences import TEXT_SIZES
from app.desk.frame.menus import LINE, Command, fill, shortcuts, submenu
from app.desk.frame.steps import STEPS
from app.desk.plan.reading_on_plan import Measuring
from app.desk.widgets.look import Theme
from app.edit import edits
from app.file import job_file, samples
from geometry.job import Job
from geometry.units import Unit

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk

Key = QKeySequence.StandardKey
OVERLAYS = (
    ("&Points", "points"),
    ("&Error ellipses (95 %)", "ellipses"),
    ("&Labels", "labels"),
    ("&Seam's line", "seam"),
    ("&Opposite slant", "opposite slant"),
    ("Old &bridge", "old bridge"),
)


class Commands(QObject):
    """What the menus and the shortcuts do."""

    def __init__(self, desk: "Desk") -> None:
        super().__init__(desk)
        self.desk = desk
        self.measuring = Measuring(desk)
        self.measure = self.measuring.card
        self.actions = self._file() | self._edit() | self._view() | self._help()
        desk.header.unit.clicked.connect(self.next_unit)
        desk.header.name.clicked.connect(lambda: self.about())

    # the menus

    def _file(self) -> dict[str, QAction]:
        desk, doors = self.desk, self.desk.doors
        menu = desk.menu_bar().addMenu("&File")
        made = fill(menu, [Command("&New job", self.new, Key.New), Command("&Open…", doors.open, Key.Open)], desk)
        submenu(menu, "Open &recent", self._fill_recent)
        submenu(menu, "Sa&mple jobs", self._fill_samples)
        more = [
            LINE,
            Command("&Save", doors.save, Key.Save),
            Command("Save &as…", doors.save_as, Key.SaveAs),
            LINE,
            Command("&About the job…", self.about, "Ctrl+J"),
            LINE,
            Command("&Export files", self.export, "Ctrl+E"),
            Command("&Print…", self.print, Key.Print),
            LINE,
            Command("&Quit", desk.frame.close, Key.Quit if QKeySequence.keyBindings(Key.Quit) else "Ctrl+Q"),
        ]
        return {**made, **fill(menu, more, desk)}

    def _edit(self) -> dict[str, QAction]:
        stack, menu = self.desk.document.stack, self.desk.menu_bar().addMenu("&Edit")
        undo, redo = stack.createUndoAction(self.desk, "Undo"), stack.createRedoAction(self.desk, "Redo")
        undo.setShortcuts(shortcuts(Key.Undo))
        redo.setShortcuts(shortcuts((Key.Redo, "Ctrl+Y")))
        measure = self.measure
        commands = [
            undo,
            redo,
            LINE,
            Command("&Add a reading…", self.add_reading, "Ctrl+R"),
            Command("&Strike out or bring back", self._in_sight(measure.strike_or_bring_back), "Ctrl+K"),
            Command("&Remove the reading", self._in_sight(measure.remove), "Ctrl+Backspace"),
            Command("&Paste readings", self._in_sight(measure.paste)),
            LINE,
            Command("&How far from here to there?", self._ask_distance, "Ctrl+D"),
        ]
        return {"Undo": undo, "Redo": redo, **fill(menu, commands, self.desk)}

    def _view(self) -> dict[str, QAction]:
        desk, board = self.desk, self.desk.board
        menu = desk.menu_bar().addMenu("&View")
        steps = [Command(f"{name}", self._opener(name), f"Ctrl+{at}") for at, name in enumerate(STEPS, start=1)]
        looks = [
            LINE,
            Command("&Whole instrument", board.fit, "Ctrl+0"),
            Command("&Larger", lambda: board.zoom(1.25), (Key.ZoomIn, "Ctrl+=")),
            Command("S&maller", lambda: board.zoom(0.8), Key.ZoomOut),
            Command("&Turn by a quarter", board.turn, "Ctrl+T"),
            Command("From &inside (mirrored)", board.flip, "Ctrl+I", ticked=False),
            Command("As &printed, black on white", board.toggle_print, ticked=False),
            LINE,
            *(Command(name, self._overlay(key), ticked=key in board.wish.overlays) for name, key in OVERLAYS),
            LINE,
        ]
        made = fill(menu, [*steps, *looks], desk)
        submenu(menu, "&Colours", self._fill_colours)
        submenu(menu, "Te&xt size", self._fill_sizes)
        return {**made}

    def _help(self) -> dict[str, QAction]:
        menu = self.desk.menu_bar().addMenu("&Help")
        commands = [
            Command("&Worked example", self._example, Key.HelpContents),
            Command("&Keys", self._keys),
            Command("&Before a bridge is moved", self._cautions),
        ]
        return {**fill(menu, commands, self.desk)}

    def _fill_recent(self, menu: QMenu) -> None:
        menu.clear()
        recent = [Path(name) for name in self.desk.bench.kept.recent]
        named = [(path.name.replace("&", "&&"), path) for path in recent if path.exists()]
        fill(menu, [Command(name, self._path_opener(path)) for name, path in named], self.desk)
        if menu.isEmpty():
            menu.addAction("No job was opened yet").setEnabled(False)

    def _fill_samples(self, menu: QMenu) -> None:
        menu.clear()
        for path in samples.paths():
            name = job_file.name_of(path).replace("-", " ").capitalize()
            fill(menu, [Command(name, self._sample_opener(path))], self.desk)

    def _fill_colours(self, menu: QMenu) -> None:
        menu.clear()
        kept, names = self.desk.bench.kept.theme, {"system": "As the system", "light": "Light", "dark": "Dark"}
        themes: tuple[Theme, ...] = get_args(Theme)
        fill(menu, [Command(names[t], self._theme(t), ticked=t == kept) for t in themes], self.desk)

    def _fill_sizes(self, menu: QMenu) -> None:
        menu.clear()
        kept = self.desk.bench.kept.text
        choices = [("As the screen", 0.0), *((f"{size:.0%}".replace("%", " %"), size) for size in TEXT_SIZES)]
        fill(menu, [Command(name, self._text(size), ticked=size == kept) for name, size in choices], self.desk)

    def _in_sight(self, do: Callable[[], None]) -> Callable[[], None]:
        """What is done to readings is done while they can be seen; from another card the table is only shown first."""

        def act() -> None:
            if self.desk.card is self.measure:
                do()
            else:
                self.desk.open_card("Measure")

        return act

    def _opener(self, name: str) -> Callable[[], object]:
        return lambda: self.desk.open_card(name)

    def _overlay(self, key: str) -> Callable[[], object]:
        return lambda: self.desk.board.toggle(key)

    def _path_opener(self, path: Path) -> Callable[[], object]:
        return lambda: self.open_recent(str(path))

    def _sample_opener(self, path: Path) -> Callable[[], object]:
        return lambda: self.open_sample(str(path))

    def _theme(self, theme: Theme) -> Callable[[], object]:
        return lambda: self.desk.bench.set_theme(theme)

    def _text(self, size: float) -> Callable[[], object]:
        return lambda: self.desk.bench.set_text(size)

    # what they do

    def new(self) -> None:
        """Put the job away and ask the four questions of a new one."""
        if self.desk.doors.new(Job()):
            self.desk.open_card("Start")

    def begin(self, job: Job) -> None:
        """Begin the job that the start card made, at its first reading."""
        if self.desk.doors.new(job):
            self.desk.open_card("Measure")
            self.desk.board.fit()
            self.measure.start()

    def open_recent(self, name: str) -> None:
        if self.desk.doors.open_path(Path(name)):
            self._opened()

    def open_sample(self, name: str) -> None:
        if self.desk.doors.open_sample(Path(name)):
            self._opened()

    def _opened(self) -> None:
        self.desk.board.fit()
        self.desk.open_card("Measure")

    def next_unit(self) -> None:
        """Turn to the next unit; what was typed keeps its own."""
        document = self.desk.document
        turns: dict[Unit, Unit] = {"mm": "in", "in": "cm", "cm": "mm"}
        unit = turns[document.job.unit]
        document.edit(f"unit {unit}", edits.set_unit(document.job, unit))

    def about(self, where: str = "") -> None:
        """The job's name and note, its hand, its board; at the field that a finding is about."""
        from app.desk.frame.about_job import AboutJob

        about = AboutJob(self.desk)
        about.open()
        about.form.go_to(where)

    def export(self) -> None:
        """Write the files; from another card first show where they will go."""
        from app.desk.cards.sheets.sheets_card import SheetsCard
        from app.desk.document.output import export

        card = self.desk.card
        if isinstance(card, SheetsCard):
            export(self.desk, card.into.folder)
        else:
            self.desk.open_card("Sheets")

    def print(self) -> None:
        from app.desk.document.output import print_sheets

        print_sheets(self.desk)

    def print_check_sheet(self, printer: str) -> None:
        from app.desk.document.output import print_check_sheet

        print_check_sheet(self.desk, printer)

    def add_reading(self) -> None:
        """Open the Measure card and ask for a new reading."""
        self.desk.open_card("Measure")
        self.measure.add()

    def _ask_distance(self) -> None:
        self.desk.board.hand.ask_distance()

    def _example(self) -> None:
        from app.desk.frame.example import begin

        begin(self.desk)

    def _keys(self) -> None:
        from app.desk.frame.help import keys

        keys(self.desk)

    def _cautions(self) -> None:
        from app.desk.frame.help import cautions

        cautions(self.desk)
