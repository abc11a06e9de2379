"""The window: a frame that is on the screen at once, and the desk that is put into it as soon as it is loaded.

The first picture shows the bands and the paper alone. Everything else is imported behind it.
"""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QPoint, QRect, QTimer
from PySide6.QtGui import QCloseEvent, QGuiApplication, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from app.desk.document.preferences import Preferences
from app.desk.document.tidying import as_usual, hold_off, tidy_at_rest
from app.desk.widgets.look import Look, colour, load_typeface
from app.desk.widgets.style_sheet import apply_look
from app.file import settings

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk


class FirstPicture(QWidget):
    """The window before anything is in it; calls `seen` once, when it has been painted."""

    def __init__(self, look: Look, seen: Callable[[], None]) -> None:
        super().__init__()
        self.look, self._seen = look, seen
        self._told = False
        self.setAccessibleName("Loading")

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        p, wide = self.look.palette, self.look.card_width(self.width())
        painter.fillRect(self.rect(), colour(p.card))
        painter.fillRect(self.rect().adjusted(wide, 0, 0, 0), colour(p.paper))
        painter.end()
        if not self._told:
            self._told = True
            QTimer.singleShot(0, self._seen)


class Frame(QMainWindow):
    """The frame. `furnish` is called once the frame is on the screen; it makes the desk."""

    def __init__(self, preferences: Preferences, furnish: "Callable[[Frame], Desk]") -> None:
        super().__init__()
        self.preferences = preferences
        preferences.setParent(self)
        self.desk: Desk | None = None
        self._furnish = furnish
        self.setWindowTitle("Offsquare")
        self.setCentralWidget(FirstPicture(preferences.ground(), self.furnish))
        self._take_place()

    def furnish(self) -> None:
        """Put the desk in, if it is not there yet."""
        if self.desk is None:
            self._fit()
            self.desk = self._furnish(self)
            self.setCentralWidget(self.desk)
            inside = self.layout()
            if self.isVisible() and inside is not None:
                self.desk.show()
                inside.activate()  # laid out now, so that the plan is painted before the cards are filled in
            self.desk.start()

    def _take_place(self) -> None:
        """Where the window stood last, or a good part of the screen."""
        screen = QGuiApplication.primaryScreen()
        room = screen.availableGeometry() if screen else QRect(0, 0, 1280, 800)
        kept = self.preferences.settings.window
        if kept is not None and room.intersects(QRect(*kept)):
            self.setGeometry(QRect(*kept))
        else:
            self.resize(min(room.width(), 1600), min(room.height(), 1000))

    def _fit(self) -> None:
        """Bring the window, its title bar included, onto the screen it is on; how high that bar is shows only now."""
        room, around, own = self.screen().availableGeometry(), self.frameGeometry(), self.geometry()
        over = max(around.width() - room.width(), 0), max(around.height() - room.height(), 0)
        if any(over):
            self.resize(own.width() - over[0], own.height() - over[1])
        right, low = room.right() - around.width() + over[0] + 1, room.bottom() - around.height() + over[1] + 1
        at = QPoint(max(min(around.x(), right), room.x()), max(min(around.y(), low), room.y()))
        if at != around.topLeft():
            self.move(at)

    def closeEvent(self, event: QCloseEvent) -> None:
        if self.desk is not None and not self.desk.may_close():
            event.ignore()
            return
        place = self.normalGeometry().getRect()
        self.preferences.keep(msgspec.structs.replace(self.preferences.settings, window=place))
        event.accept()


def open_on(desk: "Desk", path: Path | None, unread: Sequence[str] = ()) -> "Desk":
    """The desk on a job file where one is named; work that a crash left behind is offered a little later, and what was
    `unread` of the settings is told.
    """
    if path is not None:
        desk.job_files.open_path(path)
    QTimer.singleShot(400, desk, lambda: _look_back(desk, [*unread]))
    return desk


def _look_back(desk: "Desk", unread: list[str]) -> None:
    from app.desk.document.recovery import left_behind
    from app.file import leftovers

    leftovers.begin(desk.preferences.settings)
    desk.left_behind.offer(left_behind(unread.append), unread)


def run(path: Path | None) -> int:
    """Open the window, on a job file where one is given. Returns the exit code."""
    hold_off()
    found = QApplication.instance()
    app = found if isinstance(found, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName("Offsquare")
    app.setStyle("Fusion")
    unread: list[str] = []
    preferences = Preferences(settings.load(unread.append))

    def furnish(frame: Frame) -> "Desk":
        preferences.follow_system()
        load_typeface()
        apply_look(preferences.look())
        from app.desk.frame.desk import Desk

        desk = open_on(Desk(frame, preferences), path, unread)
        QTimer.singleShot(400, desk, lambda: tidy_at_rest(desk.document.changed, desk))
        return desk

    frame = Frame(preferences, furnish)
    frame.show()
    from app.desk.document.crash_guard import CrashGuard

    with CrashGuard(lambda: frame.desk):
        done = app.exec()
    as_usual()
    return done


__all__ = ["Frame", "open_on", "run"]
