"""`offsquare export`: a job's templates as files."""

import sys
from pathlib import Path

import msgspec

from app.cli import sheet_options
from app.cli.asked import OK, REFUSED, CommandRefused, Parser, layout_of
from app.cli.commands.keep_printer import correction_of
from app.file import job_file
from app.say import terminal
from export import FILE_KINDS, USUAL_KINDS


def run(argv: list[str]) -> int:
    """Write a job's full-size templates. Returns the exit code."""
    parser = Parser(prog="offsquare export", description="Write a job’s full-size templates.")
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    parser.add_argument("--to", type=Path, required=True, metavar="FOLDER", help="where the files go")
    parser.add_argument(
        "--only", default=",".join(USUAL_KINDS), metavar="KINDS", help=f"some of {','.join(FILE_KINDS)}"
    )
    parser.add_argument("--printer", metavar="NAME", help="carry the correction that is kept under this printer’s name")
    parser.add_argument("--despite-stops", action="store_true", help="write them although something is wrong")
    parser.add_argument(
        "--replace", action="store_true", help="write over files of the same names that are not this job’s own"
    )
    sheet_options.add_to(parser)
    asked = parser.parse_args(argv)
    only = _kinds(asked.only)
    job = job_file.read(asked.job)
    fingerprint = job_file.fingerprint(job)
    job = job_file.titled(sheet_options.put(job, asked), asked.job)
    from app.file import export_job

    layout = layout_of(job)
    left_out: list[str] = []
    try:
        stamp = export_job.stamp(job, fingerprint, asked.printer or "", correction_of(asked.printer))
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
    from export.templates.to_be_read_first import doubt_of

    doubt = doubt_of(job, layout)
    looks = (doubt, *(f.text for f in of_tools if f.grade == "look"), *(f"left out: {why}." for why in left_out))
    for said in filter(None, looks):
        print(f"offsquare: {terminal.one_line(said)}", file=sys.stderr)
    return REFUSED if left_out and sheet_options.ALL not in (asked.template or ()) else OK


def _kinds(text: str) -> tuple[str, ...]:
    asked = [kind.strip().lower() for kind in text.split(",") if kind.strip()]
    for kind in asked:
        if kind not in FILE_KINDS:
            raise CommandRefused(f"--only takes some of {', '.join(FILE_KINDS)}, not “{kind}”")
    if not asked:
        raise CommandRefused(f"--only names no kind of file; take some of {', '.join(FILE_KINDS)}")
    return tuple(kind for kind in FILE_KINDS if kind in asked)
