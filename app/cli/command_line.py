"""The command line: `offsquare [JOB]` opens the window, and five commands do without it.

Each command's own imports stand inside it, so that a mistyped option costs no waiting. Bad input ends in one sentence
on the error stream and exit code 2, with nothing written.
"""

import os
import sys
from collections.abc import Sequence
from pathlib import Path

from app.cli.asked import OK, REFUSED, CommandRefused, Parser, is_there
from app.cli.commands import begin_job, keep_printer, print_choice, print_layout, write_files
from app.file import job_file, place_in_file
from app.say import terminal
from geometry.job import NotAJob

SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
"""One of these is set where a window can open; without, Qt would end the program in its own words."""


def run(argv: Sequence[str]) -> int:
    """Do what the command line says. Returns the exit code."""
    _print_what_the_terminal_can()
    try:
        return _dispatch(list(argv))
    except (CommandRefused, job_file.JobFileError, NotAJob) as error:
        said = terminal.shortened(terminal.one_line(str(error)))
        print(f"offsquare: {said}{'' if said[-1:] in '.?!' else '.'}", file=sys.stderr)
        return REFUSED


def _dispatch(argv: list[str]) -> int:
    if argv and argv[0] in COMMANDS:
        return COMMANDS[argv[0]](argv[1:])
    parser = Parser(
        prog="offsquare",
        description="From rule readings on a fretted instrument that is not square to a full-size template.",
        epilog=f"Commands: {', '.join(COMMANDS)}. `offsquare COMMAND --help` tells more of each.",
    )
    parser.add_argument("job", nargs="*", metavar="JOB", help="the job file to open in the window")
    parser.add_argument("--version", action="store_true", help="print the version and stop")
    asked = parser.parse_args(argv)
    if asked.version:
        print(f"offsquare {version()}")
        return OK
    if len(asked.job) > 1:
        raise CommandRefused(f"there is no command “{asked.job[0]}”; {place_in_file.nearest(asked.job[0], COMMANDS)}")
    path = Path(asked.job[0]) if asked.job else None
    if path is not None and not is_there(path, "read"):
        hint = place_in_file.nearest(str(path), COMMANDS)
        raise CommandRefused(
            f"there is no file {path}" + (f"; if a command was meant: {hint}" if "did" in hint else "")
        )
    return _open_window(path)


def _open_window(path: Path | None) -> int:
    if path is not None:
        job_file.read(path)  # a file that is no job is told of here, where it was asked for
    if sys.platform == "linux" and not any(os.environ.get(name) for name in SCREENS):
        raise CommandRefused("there is no screen to open the window on; work-out, export and new do without one")
    try:
        from app.desk.frame import window
    except ImportError as error:
        raise CommandRefused(f"the window cannot open here ({error}); the README names the packages it needs") from None
    return window.run(path)


COMMANDS = {
    "work-out": print_layout.run,
    "export": write_files.run,
    "new": begin_job.run,
    "printer": keep_printer.run,
    "choose": print_choice.run,
}


def version() -> str:
    """The installed version."""
    from importlib import metadata

    try:
        return metadata.version("offsquare")
    except metadata.PackageNotFoundError:
        return "(not installed)"


def _print_what_the_terminal_can() -> None:
    """A terminal that lacks ± or − shows a ? there instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
