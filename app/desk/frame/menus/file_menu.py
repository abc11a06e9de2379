"""The File menu."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from app.desk.document.open_and_save import JobFiles
from app.desk.document.preferences import Preferences
from app.desk.frame.job_commands import JobCommands
from app.desk.frame.menus.menu_lines import LINE, Command, fill, submenu
from app.desk.widgets.marked_menu import add_menu
from app.file import job_file, samples

Key = QKeySequence.StandardKey


def file_menu(
    bar: QMenuBar,
    owner: QWidget,
    commands: JobCommands,
    job_files: JobFiles,
    preferences: Preferences,
    print_sheets: Callable[[], None],
) -> dict[str, QAction]:
    """Add the menu; its actions by name."""
    menu = add_menu(bar, "&File")
    first = [Command("&New job", commands.new, Key.New), Command("&Open…", job_files.open, Key.Open)]
    made = fill(menu, first, owner)
    submenu(menu, "Open &recent", lambda recent: _fill_recent(recent, commands, preferences))
    submenu(menu, "Sa&mple jobs", lambda there: _fill_samples(there, commands))
    more = [
        LINE,
        Command("&Save", job_files.save, Key.Save),
        Command("Save &as…", job_files.save_as, Key.SaveAs),
        LINE,
        Command("&About the job…", commands.about, "Ctrl+J"),
        LINE,
        Command("&Export files", commands.export, "Ctrl+E"),
        Command("&Print…", print_sheets, Key.Print),
        LINE,
        Command("&Quit", owner.window().close, (*_quit_keys(), Key.Close)),  # one window: its end is the program's
    ]
    return {**made, **fill(menu, more, owner)}


def _quit_keys() -> tuple[QKeySequence.StandardKey | str, ...]:
    """The platform's own key, or the usual one where it has none."""
    return (Key.Quit,) if QKeySequence.keyBindings(Key.Quit) else ("Ctrl+Q",)


def _fill_recent(menu: QMenu, commands: JobCommands, preferences: Preferences) -> None:
    menu.clear()
    recent = [Path(name) for name in preferences.settings.recent]
    there = [path for path in recent if path.exists()]
    fill(menu, [Command(_shown(path.name), _with(commands.open_recent, path)) for path in there], menu)
    if menu.isEmpty():
        menu.addAction("No job was opened yet").setEnabled(False)


def _fill_samples(menu: QMenu, commands: JobCommands) -> None:
    menu.clear()
    for path in samples.paths():
        name = job_file.name_of(path).replace("-", " ").capitalize()
        fill(menu, [Command(name, _with(commands.open_sample, path))], menu)


def _shown(name: str) -> str:
    return name.replace("&", "&&")


def _with(do: Callable[[str], None], path: Path) -> Callable[[], None]:
    return lambda: do(str(path))
