"""`offsquare work-out`: a job's layout in words, or as JSON."""

from pathlib import Path

import msgspec

from app.cli.asked import OK, Parser, layout_of
from app.file import job_file
from geometry.job import Job
from geometry.layout import Layout


def run(argv: list[str]) -> int:
    """Work a job out and print what came of it. Returns the exit code."""
    parser = Parser(prog="offsquare work-out", description="Work out a job and print what came of it.")
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    parser.add_argument("--json", action="store_true", help="print all of it as JSON, for other programs")
    asked = parser.parse_args(argv)
    job = job_file.read(asked.job)
    layout = _with_tools(job, layout_of(job))
    if asked.json:
        from app.cli import layout_json

        print(layout_json.as_json(job, layout), end="")
    else:
        from app.cli import bench_page

        print(bench_page.page(job_file.titled(job, asked.job), layout), end="")
    return OK


def _with_tools(job: Job, layout: Layout) -> Layout:
    """The layout and what there is to say of the job's cutter or kerf, where it names one."""
    if not job.sheets.names_tool:
        return layout
    from app.file import export_job

    found = export_job.tool_findings(job, layout, export_job.stamp(job, ""))
    return msgspec.structs.replace(layout, findings=(*layout.findings, *found))
