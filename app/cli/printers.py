"""What is kept of printers, for the command line: what a rule read on each check sheet, and what follows from it."""

from collections.abc import Mapping

from app.edit.check_sheet_entries import typed
from app.file.settings import Settings
from export.correction import SIDES_LONG, CheckSheet
from geometry import units

EXAMPLE = "  offsquare printer NAME --across LENGTH --up LENGTH --rising LENGTH --falling LENGTH\n"


def put(kept: Settings, name: str, texts: Mapping[str, str | None]) -> Settings:
    """The settings with what was typed of a printer: lengths as a rule reads them.

    Raises `units.NotALength`, and `SettingsError` for what no printer does.
    """
    read = {key: typed(key, text) for key, text in texts.items() if text is not None}
    old = kept.printers.get(name, CheckSheet())
    return kept.with_printer(name, CheckSheet(**{key: read.get(key, getattr(old, key)) for key in SIDES_LONG}))


def page(kept: Settings) -> str:
    """All printers, a paragraph each."""
    if not kept.printers:
        return "No printer is kept yet: print its check sheet, read it, and type\n" + EXAMPLE
    return "\n".join(about(name, kept) for name in sorted(kept.printers))


def about(name: str, kept: Settings) -> str:
    """One printer: what was read, and the correction."""
    read = kept.printers.get(name, CheckSheet())
    said = [f"{key} {units.show_number(value)} mm" for key in SIDES_LONG if (value := getattr(read, key)) is not None]
    return f"{name}\n  read: {', '.join(said) or 'nothing'}\n  correction: {read.correction().says() or 'none'}\n"
