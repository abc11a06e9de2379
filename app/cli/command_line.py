"""The command line: `offsquare [JOB]` opens the window, and five commands do without it.

Each command's own imports stand inside it, so that a mistyped option costs no waiting. Bad input ends in one sentence
on the error stream and exit code 2, with nothing written.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

import msgspec

from app.cli import sheet_options
from app.file import job_file, place_in_file, settings
from app.say import terminal
from export import FILE_KINDS, USUAL_KINDS, files
from export.correction import Correction
from geometry import units
from geometry.job import Job, NotAJob
from geometry.layout import Layout

OK, REFUSED = 0, 2
SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
"""One of these is set where a window can open; without, Qt would end the program in its own words."""


class CommandRefused(Exception):
    """What was asked for cannot be done; the message is for the person."""


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
    parser = _Parser(
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
    if path is not None and not _is_there(path, "read"):
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


def _work_out(argv: list[str]) -> int:
    parser = _Parser(prog="offsquare work-out", description="Work out a job and print what came of it.")
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    parser.add_argument("--json", action="store_true", help="print all of it as JSON, for other programs")
    asked = parser.parse_args(argv)
    job = job_file.read(asked.job)
    layout = _with_tools(job, _layout(job))
    if asked.json:
        from app.cli import layout_json

        print(layout_json.as_json(job, layout), end="")
    else:
        from app.cli import bench_page

        print(bench_page.page(job, layout), end="")
    return OK


def _export(argv: list[str]) -> int:
    parser = _Parser(prog="offsquare export", description="Write a job's full-size templates.")
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    parser.add_argument("--to", type=Path, required=True, metavar="FOLDER", help="where the files go")
    parser.add_argument(
        "--only", default=",".join(USUAL_KINDS), metavar="KINDS", help=f"some of {','.join(FILE_KINDS)}"
    )
    parser.add_argument("--printer", metavar="NAME", help="carry the correction that is kept under this printer's name")
    parser.add_argument("--despite-stops", action="store_true", help="write them although something is wrong")
    parser.add_argument(
        "--replace", action="store_true", help="write over files of the same names that are not this job's own"
    )
    sheet_options.add_to(parser)
    asked = parser.parse_args(argv)
    only = _kinds(asked.only)
    job = job_file.read(asked.job)
    fingerprint = job_file.fingerprint(job)
    job = job_file.titled(sheet_options.put(job, asked), asked.job)
    from app.file import export_job

    layout = _layout(job)
    left_out: list[str] = []
    try:
        stamp = export_job.stamp(job, fingerprint, asked.printer or "", _correction(asked.printer))
        stamp = msgspec.structs.replace(stamp, only=sheet_options.names(asked.sheets))
        of_tools = export_job.tool_findings(job, layout, stamp, only)
        if not asked.despite_stops:
            export_job.refuse_stops((*layout.findings, *of_tools))
        written = export_job.export(
            job,
            layout,
            stamp,
            asked.to,
            only,
            left_out=left_out.append,
            replace="all" if asked.replace else "own",
            owner=export_job.owner_of(job, asked.job),
        )
    except export_job.AlreadyThere as error:
        whose = "not as Offsquare wrote it for this job"
        raise CommandRefused(
            f"nothing was written, for {error}, {whose}; add --replace, or choose another folder"
        ) from None
    except export_job.NotExported as error:
        raise CommandRefused(str(error)) from None
    for path in written:
        print(path)
    from export.templates import doubt_of

    doubt = doubt_of(job, layout)
    looks = (doubt, *(f.text for f in of_tools if f.grade == "look"), *(f"left out: {why}." for why in left_out))
    for said in filter(None, looks):
        print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr)
    return REFUSED if left_out and sheet_options.ALL not in (asked.template or ()) else OK


def _choose(argv: list[str]) -> int:
    parser = _Parser(
        prog="offsquare choose",
        description="Places of the bridge that are each best at something, over the job's own range.",
    )
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    asked = parser.parse_args(argv)
    job = job_file.read(asked.job)
    from app.cli import chosen_page

    print(chosen_page.page(job), end="")
    return OK


def _correction(printer: str | None) -> Correction:
    unread: list[str] = []
    kept = settings.load(unread.append)
    if printer is not None:
        for said in unread:
            print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr)
    if printer is not None and printer not in kept.printers:
        raise CommandRefused(_not_kept(printer, kept))
    return kept.correction(printer or "")


def _printer(argv: list[str]) -> int:
    parser = _Parser(
        prog="offsquare printer",
        description="List what is kept of printers, or keep what a rule reads on a printer's check sheet.",
    )
    parser.add_argument("name", nargs="?", metavar="NAME", help="the printer; without it all are listed")
    parser.add_argument("--across", metavar="LENGTH", help="a square's side along the paper's short side")
    parser.add_argument("--up", metavar="LENGTH", help="its side along the paper's long side")
    parser.add_argument("--rising", metavar="LENGTH", help="the diagonal to the upper right")
    parser.add_argument("--falling", metavar="LENGTH", help="the diagonal to the lower right")
    parser.add_argument("--forget", action="store_true", help="keep nothing of this printer")
    asked = parser.parse_args(argv)
    from app.cli import printers

    typed = {key: getattr(asked, key) for key in printers.READ}
    kept = before = settings.load(lambda said: print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr))
    told = [f"--{key}" for key, text in typed.items() if text is not None] + ["--forget"] * asked.forget
    if asked.name is None:
        if told:
            raise CommandRefused(f"{told[0]} needs a printer's name before it")
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


def _not_kept(printer: str, kept: settings.Settings) -> str:
    known = ", ".join(f"“{name}”" for name in kept.printers) or "none yet"
    return f"no correction is kept for the printer “{printer}”; kept are: {known}"


def _new(argv: list[str]) -> int:
    parser = _Parser(prog="offsquare new", description="Begin a job: a list of readings to take, still without values.")
    parser.add_argument("file", type=Path, metavar="FILE", help="the job file to make")
    parser.add_argument("--hand", choices=("right", "left"), default="right")
    parser.add_argument("--strings", type=int, default=6, metavar="COUNT", help="how many strings, 1 to 12")
    parser.add_argument(
        "--set", metavar="NAME", help="a usual set of strings, such as “steel 12-54”, with their gauges"
    )
    parser.add_argument("--list", metavar="NAME", help="the measuring list to start from; else “neck and bridge”")
    parser.add_argument(
        "--strings-off",
        action="store_true",
        help="the bridge is off: ask for what a straightedge on the frets shows instead of the strings' heights",
    )
    parser.add_argument("--unit", choices=("mm", "cm", "in"), default="mm", help="what a bare number is in")
    parser.add_argument(
        "--held",
        choices=("glue", "strings", "screws"),
        default="glue",
        help="how the bridge is held: glued, by the strings alone, or saddles on bases that are screwed down",
    )
    asked = parser.parse_args(argv)
    from app.edit.start import new_job

    path = _named(asked.file)
    try:
        job = new_job.begin(
            hand=asked.hand,
            strings=asked.strings,
            string_set=asked.set,
            measuring=new_job.USUAL_LIST if asked.list is None else asked.list,
            unit=asked.unit,
            strings_on=not asked.strings_off,
            held=asked.held,
        )
    except new_job.NotBegun as error:
        raise CommandRefused(str(error)) from None
    job_file.write(job, path)
    print(path)
    return OK


def _named(file: Path) -> Path:
    """The file to make, with the usual ending."""
    if file.name in ("", ".."):
        raise CommandRefused("the new job needs a file's name, such as parlour.job.json")
    path = job_file.named(file)
    if _is_there(path, "written"):
        raise CommandRefused(f"{path} is there already; choose another name")
    return path


def _is_there(path: Path, done: str) -> bool:
    try:
        return path.exists()
    except OSError as error:
        raise CommandRefused(f"{path} cannot be {done}: {files.why(error)}") from None


COMMANDS = {"work-out": _work_out, "export": _export, "new": _new, "printer": _printer, "choose": _choose}


def version() -> str:
    """The installed version."""
    from importlib import metadata

    try:
        return metadata.version("offsquare")
    except metadata.PackageNotFoundError:
        return "(not installed)"


def _layout(job: Job) -> Layout:
    """The layout; what works it out is loaded only now."""
    from geometry.work_out import work_out

    return work_out(job)


def _with_tools(job: Job, layout: Layout) -> Layout:
    """The layout and what there is to say of the job's cutter or kerf, where it names one."""
    if not job.sheets.names_tool:
        return layout
    from app.file import export_job

    found = export_job.tool_findings(job, layout, export_job.stamp(job, ""))
    return msgspec.structs.replace(layout, findings=(*layout.findings, *found))


def _kinds(text: str) -> tuple[str, ...]:
    asked = [kind.strip().lower() for kind in text.split(",") if kind.strip()]
    for kind in asked:
        if kind not in FILE_KINDS:
            raise CommandRefused(f"--only takes some of {', '.join(FILE_KINDS)}, not “{kind}”")
    if not asked:
        raise CommandRefused(f"--only names no kind of file; take some of {', '.join(FILE_KINDS)}")
    return tuple(kind for kind in FILE_KINDS if kind in asked)


class _Parser(argparse.ArgumentParser):
    """An argument parser whose complaint is one sentence."""

    def error(self, message: str) -> NoReturn:
        raise CommandRefused(f"{message}; `{self.prog} --help` tells more")


def _print_what_the_terminal_can() -> None:
    """A terminal that lacks ± or − shows a ? there instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
