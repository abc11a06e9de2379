"""What the program remembers of this bench rather than of one job: printers' corrections, recent jobs, the window.

A **correction** is what a printer's sheet must be stretched by along X and Y to come out true: meant over measured.
Settings are never worth losing work over: a damaged file is set aside and the bench starts afresh.
"""

import os
import sys
from pathlib import Path
from typing import Literal

import msgspec

from export import files

LEAST, MOST = 0.95, 1.05
"""A printer out by more than this was not printing at 100 % (common practice, no source)."""

RECENT = 8
Kind = Literal["pdf", "dxf", "svg"]
KINDS: tuple[Kind, ...] = ("pdf", "dxf", "svg")


class SettingsError(ValueError):
    """A setting that cannot be kept; the message is for the person and asks what to look at."""


class Correction(msgspec.Struct, frozen=True):
    """What a printer's sheets are stretched by along the paper's width (x) and height (y)."""

    x: float = 1.0
    y: float = 1.0

    def __post_init__(self) -> None:
        for axis, factor in (("across", self.x), ("along", self.y)):
            if not LEAST <= factor <= MOST:
                raise SettingsError(
                    f"A correction of {factor:.3f} {axis} the sheet is more than any printer needs: was the check "
                    "sheet printed at 100 %, with no fit to page, and the right square read?"
                )


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """`printers` by name; `recent` job files, newest first; `window` x, y, width, height, None before the first use.

    `files`: the kinds that an export from the window writes. `theme`: as the system has it, or light or dark. `text`:
    the factor on all text in the window, 0: by the screen.
    """

    printers: dict[str, Correction] = {}
    recent: tuple[str, ...] = ()
    window: tuple[int, int, int, int] | None = None
    theme: Literal["system", "light", "dark"] = "system"
    text: float = 0.0
    files: tuple[Kind, ...] = KINDS

    def correction(self, printer: str) -> Correction:
        """A printer's correction, 1 and 1 where none was measured."""
        return self.printers.get(printer, Correction())

    def with_printer(self, printer: str, x: float, y: float) -> "Settings":
        """The same with a printer's correction. Raises `SettingsError` outside 0.95 to 1.05."""
        return msgspec.structs.replace(self, printers={**self.printers, printer: Correction(x, y)})

    def with_recent(self, path: Path) -> "Settings":
        """The same with a job file at the head of the recent ones."""
        name = str(path.resolve())
        return msgspec.structs.replace(self, recent=(name, *(old for old in self.recent if old != name))[:RECENT])


def factor(meant: float, measured: float) -> float:
    """The correction for a length that was meant to be `meant` mm and measures `measured` mm on the check sheet.

    Raises `SettingsError` for what is no measurement.
    """
    if not measured > 0:
        raise SettingsError("What the rule says of the check square must be more than 0: read it once more?")
    return meant / measured


def where() -> Path:
    """The settings file: in the platform's folder for such files, or where OFFSQUARE_SETTINGS says."""
    if own := os.environ.get("OFFSQUARE_SETTINGS"):
        return Path(own)
    return _folder() / "offsquare" / "settings.json"


def load() -> Settings:
    """The settings; where there are none, or they are damaged, new ones. A damaged file is set aside, not lost."""
    path = where()
    try:
        return msgspec.json.decode(path.read_bytes(), type=Settings)
    except OSError:
        return Settings()
    except (msgspec.MsgspecError, ValueError):
        _set_aside(path)
        return Settings()


def save(settings: Settings) -> bool:
    """Write the settings; whether that went well. What cannot be remembered must not stop the work."""
    path = where()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        files.replace(path, msgspec.json.format(msgspec.json.encode(settings), indent=1) + b"\n")
    except OSError:
        return False
    return True


def _set_aside(path: Path) -> None:
    try:
        path.replace(path.with_name(path.name + ".damaged"))
    except OSError:
        return


def _folder() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("APPDATA") or home / "AppData" / "Roaming")
    if sys.platform == "darwin":
        return home / "Library" / "Application Support"
    given = Path(os.environ.get("XDG_CONFIG_HOME") or "")
    return given if given.is_absolute() else home / ".config"  # a relative one is to be ignored (XDG base directories)
