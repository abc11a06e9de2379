"""What the desk remembers of this bench: theme, text size, recent jobs; and the look that follows from it."""

import msgspec
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QFontInfo, QGuiApplication

from app.desk.widgets.look import DARK, LIGHT, Look, Theme
from app.file import settings
from app.file.settings import Settings

TEXT_SIZES = (1.0, 1.15, 1.3, 1.5, 1.75, 2.0)
USUAL_PIXELS = 15.0
"""The system font's size in whole pixels up to which our own sizes are taken as they are: 11 points at 96 dots an inch,
the largest that a system comes with (common practice, no source).
"""


class Preferences(QObject):
    """Signals: `look_changed` with the new look."""

    look_changed = Signal(Look)

    def __init__(self, known: Settings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.settings = known

    def follow_system(self) -> None:
        """Change with the system from now on."""
        QGuiApplication.styleHints().colorSchemeChanged.connect(self.system_changed)
        app = QGuiApplication.instance()
        if isinstance(app, QGuiApplication):
            app.fontChanged.connect(self.system_changed)

    def keep(self, kept: Settings) -> None:
        """Remember from now on; what another window remembered meanwhile stays."""
        if kept != self.settings:
            before, self.settings = self.settings, kept
            if settings.save(kept, before):
                there = settings.load()
                self.settings = msgspec.structs.replace(kept, printers=there.printers, recent=there.recent)

    def freshen(self) -> None:
        """Know the corrections that another window measured meanwhile."""
        printers = {**self.settings.printers, **settings.load().printers}
        self.settings = msgspec.structs.replace(self.settings, printers=printers)

    @property
    def dark(self) -> bool:
        if self.settings.theme == "system":
            return QGuiApplication.styleHints().colorScheme().name == "Dark"
        return self.settings.theme == "dark"

    def ground(self) -> Look:
        """The look of the very first picture. The system's own window colour tells dark from light here, for the
        first use of Qt's colour scheme costs a quarter of a bare window's time.
        """
        system_dark = QGuiApplication.palette().window().color().lightness() < 128
        dark = system_dark if self.settings.theme == "system" else self.settings.theme == "dark"
        return Look(DARK if dark else LIGHT, self.settings.text or system_text_scale())

    def look(self) -> Look:
        """The look as it is now: theme and text size, by the system or as chosen."""
        return Look(DARK if self.dark else LIGHT, self.settings.text or system_text_scale())

    def set_theme(self, theme: Theme) -> None:
        self.keep(msgspec.structs.replace(self.settings, theme=theme))
        self.look_changed.emit(self.look())

    def set_text(self, scale: float) -> None:
        """A factor on all text; 0: by the screen and the system's own text size."""
        self.keep(msgspec.structs.replace(self.settings, text=scale))
        self.look_changed.emit(self.look())

    def system_changed(self) -> None:
        """Colours or text size of the system are others now."""
        if self.settings.theme == "system" or not self.settings.text:
            self.look_changed.emit(self.look())


def system_text_scale() -> float:
    """By the system's text size, and a little larger on a screen with room for it."""
    screen = QGuiApplication.primaryScreen()
    room = screen.availableSize().width() if screen else 1280
    by_screen = 1.25 if room >= 1560 else 1.0 + max(0, room - 1280) / 1120
    by_system = QFontInfo(QGuiApplication.font()).pixelSize() / USUAL_PIXELS
    return min(2.0, max(by_screen, by_system, 1.0))
