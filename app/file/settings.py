"""What the program remembers of this bench rather than of one job: printers' corrections, recent jobs, the window.

Of a printer it keeps what a rule read on its check sheet; the correction follows from that (`export.correction`).
Settings are never worth losing work over: what of a file is understood is kept, what is not is said and left where it
stands. Several windows may remember at once: each puts only what it changed into the file as it is then.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import msgspec

from export import USUAL_KINDS, FileKind, files
from export.correction import OUTER, CheckSheet, Correction
from export.errors import ExportError

LARGEST_TEXT = 2.0
"""The largest factor on all text with which the cards still leave the plan room."""
FARTHEST = 32_767
"""Pixels: how far from the main screen's corner a window may stand, and how large it may be (16 bits, as window systems
count them; from memory).
"""

RECENT = 8


class SettingsError(ValueError):
    """A setting that cannot be kept; the message is for the person and asks what to look at."""


class ToolsAtHand(msgspec.Struct, frozen=True, kw_only=True):
    """What a bench reads with: the unit, what lengths are read with, and what small ones are; "" for no caliper."""

    unit: Literal["mm", "cm", "in"] = "mm"
    rule: str = "rule 0.5"
    caliper: str = "caliper 0.1"


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """`printers` by name; `recent` job files, newest first; `window` x, y, width, height, None before the first use.

    `files`: the kinds that an export from the window writes. `theme`: as the system has it, or light or dark. `text`:
    the factor on all text in the window, 0: by the screen. `tools`: what this bench reads with, for the next job.
    `printer`: the one whose correction sheets and files carry. `paper`: chosen last, for the next job; "" for none yet.
    `records`: the written pages chosen last, for the next job; which other templates are wanted each job says itself.
    """

    printers: dict[str, CheckSheet] = {}
    printer: str = ""
    recent: tuple[str, ...] = ()
    window: tuple[int, int, int, int] | None = None
    theme: Literal["system", "light", "dark"] = "system"
    text: float = 0.0
    files: tuple[FileKind, ...] = USUAL_KINDS
    tools: ToolsAtHand = ToolsAtHand()
    paper: str = ""
    records: tuple[str, ...] = ()

    def correction(self, printer: str) -> Correction:
        """A printer's correction, none where its check sheet was not read."""
        return self.printers.get(printer, CheckSheet()).correction()

    def with_printer(self, printer: str, read: CheckSheet) -> "Settings":
        """The same with what was read on a printer's check sheet. Raises `SettingsError` for what no printer does, for
        readings that do not go together, and for half a character in the name.
        """
        if not _whole(printer):
            raise SettingsError("The printer’s name holds half a character; type that one again")
        try:
            read.correction()
        except ExportError as error:
            raise SettingsError(str(error)) from None
        return msgspec.structs.replace(self, printers={**self.printers, printer: read})

    def without_printer(self, printer: str) -> "Settings":
        """The same with nothing read of a printer: its sheets carry no correction."""
        return msgspec.structs.replace(self, printers={n: of for n, of in self.printers.items() if n != printer})

    def with_chosen(self, printer: str) -> "Settings":
        """The same with the printer that sheets and files are made for; a name that no text can hold is not taken."""
        return msgspec.structs.replace(self, printer=printer) if _whole(printer) else self

    def with_recent(self, path: Path) -> "Settings":
        """The same with a job file at the head of the recent ones; a name that no text can hold is not remembered."""
        name = str(path.resolve())
        if not _whole(name):
            return self
        return msgspec.structs.replace(self, recent=(name, *(old for old in self.recent if old != name))[:RECENT])


def _whole(text: str) -> bool:
    """Whether all of its characters are whole, as a file's name need not be."""
    return text.encode(errors="replace").decode() == text


def where() -> Path:
    """The settings file: in the platform's folder for such files, or where OFFSQUARE_SETTINGS says."""
    if own := os.environ.get("OFFSQUARE_SETTINGS"):
        return Path(own)
    return _folder() / "offsquare" / "settings.json"


def load(tell: Callable[[str], None] = lambda _: None) -> Settings:
    """The settings; where there are none, new ones. A file that is no settings at all is set aside, not lost; `tell`
    hears in a sentence of each thing that is not understood, and of that file.
    """
    tree = _tree(tell)
    kept = Settings()
    for key, value in tree.items():
        if key in _TYPES:
            kept = msgspec.structs.replace(kept, **{key: _understood(key, value, tell)})
    return kept


def save(settings: Settings, before: Settings | None = None) -> bool:
    """Remember what is other than `before` (else all of it); whether that went well. Everything else in the file stays
    as it is now. What cannot be remembered must not stop the work.
    """
    path = where()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with files.locked(path):
            tree = _tree()
            _put(tree, settings, before if before is not None else Settings())
            files.replace(path, msgspec.json.format(msgspec.json.encode(tree), indent=1) + b"\n")
    except OSError:
        return False
    return True


_TYPES: dict[str, Any] = {field.name: field.type for field in msgspec.structs.fields(Settings)}


def _tree(tell: Callable[[str], None] = lambda _: None) -> dict[str, Any]:
    """What stands in the file, understood or not."""
    path = where()
    try:
        tree = msgspec.json.decode(path.read_bytes())
    except OSError:
        return {}
    except (msgspec.MsgspecError, ValueError, RecursionError):
        tree = None
    if isinstance(tree, dict):
        return tree
    aside = _set_aside(path)
    tell(f"The settings could not be read, printers’ corrections among them: {aside} holds what was there.")
    return {}


def _understood(key: str, value: Any, tell: Callable[[str], None]) -> Any:
    """A setting as it is used; as it was before the first use where it is not understood."""
    if key == "printers" and isinstance(value, dict):
        return _printers(value, tell)
    try:
        found = msgspec.convert(value, _TYPES[key], strict=True)
    except msgspec.ValidationError:
        tell(f"The setting “{key}” is not understood; the usual one is used until you choose another.")
        return getattr(Settings(), key)
    if key == "text":
        return min(max(found, 1.0), LARGEST_TEXT) if found > 0 else 0.0
    if key == "files":
        return found or USUAL_KINDS
    if key == "window" and found is not None and not _can_stand(found):
        return None
    return found


def _printers(value: dict[str, Any], tell: Callable[[str], None]) -> dict[str, CheckSheet]:
    kept = {}
    for name, of in value.items():
        try:
            kept[name] = msgspec.convert(_as_read(of), CheckSheet)
            kept[name].correction()
        except (msgspec.ValidationError, ExportError):
            kept.pop(name, None)
            tell(f"The correction of the printer “{name}” is not understood: print its check sheet and read it again.")
    return kept


def _as_read(of: Any) -> Any:
    """What is kept of a printer; an older file has factors for a page that stands upright."""
    match of:
        case {"x": float() | int() as x, "y": float() | int() as y} if x > 0 and y > 0:
            return {"across": round(OUTER / x, 2), "up": round(OUTER / y, 2)}
        case _:
            return of


def _can_stand(window: tuple[int, int, int, int]) -> bool:
    x, y, wide, high = window
    return abs(x) <= FARTHEST and abs(y) <= FARTHEST and 0 < wide <= FARTHEST and 0 < high <= FARTHEST


def _put(tree: dict[str, Any], settings: Settings, before: Settings) -> None:
    """Put what is other than before into the tree: a printer by itself, a job at the head of the recent ones."""
    for key in _TYPES:
        new, old = getattr(settings, key), getattr(before, key)
        if new == old:
            continue
        there = tree.get(key)
        if key == "printers":
            changed = {name: of for name, of in new.items() if old.get(name) != of}
            here = there if isinstance(there, dict) else {}
            stay = {name: of for name, of in here.items() if name in new or name not in old}
            tree[key] = {**stay, **msgspec.to_builtins(changed)}
        elif key == "recent":
            others = [name for name in there if isinstance(name, str)] if isinstance(there, list) else []
            tree[key] = list(dict.fromkeys((*new[:1], *others, *new)))[:RECENT]
        else:
            tree[key] = msgspec.to_builtins(new)


def _set_aside(path: Path) -> Path:
    aside = path.with_name(path.name + ".damaged")
    try:
        return path.replace(aside)
    except OSError:
        return path


def _folder() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("APPDATA") or home / "AppData" / "Roaming")
    if sys.platform == "darwin":
        return home / "Library" / "Application Support"
    given = Path(os.environ.get("XDG_CONFIG_HOME") or "")
    return given if given.is_absolute() else home / ".config"  # a relative one is to be ignored (XDG base directories)
