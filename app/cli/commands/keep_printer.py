"""`offsquare printer`: what is kept of printers, and what an export carries of it."""

import sys

from app.cli.asked import OK, CommandRefused, Parser
from app.file import settings
from app.say import terminal
from export.correction import SIDES_LONG, Correction
from geometry import units


def run(argv: list[str]) -> int:
    """List, keep or forget what a rule reads on a check sheet. Returns the exit code."""
    parser = Parser(
        prog="offsquare printer",
        description="List what is kept of printers, or keep what a rule reads on a printer’s check sheet.",
    )
    parser.add_argument("name", nargs="?", metavar="NAME", help="the printer; without it all are listed")
    parser.add_argument("--across", metavar="LENGTH", help="a square’s side along the paper’s short side")
    parser.add_argument("--up", metavar="LENGTH", help="its side along the paper’s long side")
    parser.add_argument("--rising", metavar="LENGTH", help="the diagonal to the upper right")
    parser.add_argument("--falling", metavar="LENGTH", help="the diagonal to the lower right")
    parser.add_argument("--forget", action="store_true", help="keep nothing of this printer")
    asked = parser.parse_args(argv)
    from app.cli import printers

    typed = {key: getattr(asked, key) for key in SIDES_LONG}
    kept = before = settings.load(lambda said: print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr))
    told = [f"--{key}" for key, text in typed.items() if text is not None] + ["--forget"] * asked.forget
    if asked.name is None:
        if told:
            raise CommandRefused(f"{told[0]} needs a printer’s name before it")
        print(terminal.plain(printers.page(kept)), end="")
        return OK
    if not told and asked.name not in kept.printers:
        raise CommandRefused(_not_kept(asked.name, kept))
    try:
        if asked.forget:
            kept = kept.without_printer(asked.name)
        if any(text is not None for text in typed.values()):
            kept = printers.put(kept, asked.name, typed)
    except (units.NotALength, settings.SettingsError) as error:
        raise CommandRefused(str(error)) from None
    if told and not settings.save(kept, before):
        raise CommandRefused(f"the settings cannot be written ({settings.where()}); is the disk full or protected?")
    print(terminal.plain(printers.about(asked.name, kept)), end="")
    return OK


def correction_of(printer: str | None) -> Correction:
    """The correction kept of a printer, none where none is named. Raises `CommandRefused` where nothing is kept."""
    unread: list[str] = []
    kept = settings.load(unread.append)
    if printer is not None:
        for said in unread:
            print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr)
    if printer is not None and printer not in kept.printers:
        raise CommandRefused(_not_kept(printer, kept))
    return kept.correction(printer or "")


def _not_kept(printer: str, kept: settings.Settings) -> str:
    known = ", ".join(f"“{name}”" for name in kept.printers) or "none yet"
    return f"no correction is kept for the printer “{printer}”; kept are: {known}"
