"""`offsquare choose`: places of the bridge that are each best at something."""

from pathlib import Path

from app.cli.asked import OK, Parser
from app.file import job_file


def run(argv: list[str]) -> int:
    """Print the places within the job's own range. Returns the exit code."""
    parser = Parser(
        prog="offsquare choose",
        description="Places of the bridge that are each best at something, over the job’s own range.",
    )
    parser.add_argument("job", type=Path, metavar="JOB", help="the job file")
    asked = parser.parse_args(argv)
    job = job_file.read(asked.job)
    from app.cli import chosen_page

    print(chosen_page.page(job), end="")
    return OK
