"""`offsquare new`: a job file with the readings to take, still without values."""

from pathlib import Path

from app.cli.asked import OK, CommandRefused, Parser, is_there
from app.file import job_file

RULES = {"0.5": "rule 0.5", "1": "rule 1", "1/64": "rule 1/64", "1/32": "tape 1/32"}
CALIPERS = {"0.1": "caliper 0.1", "0.05": "caliper 0.05", "none": ""}
"""How finely what is at hand reads, as it is asked for: mm, or parts of an inch."""


def run(argv: list[str]) -> int:
    """Begin a job. Returns the exit code."""
    parser = Parser(prog="offsquare new", description="Begin a job: a list of readings to take, still without values.")
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
        help="the bridge is off: ask for what a straightedge on the frets shows instead of the strings’ heights",
    )
    parser.add_argument("--unit", choices=("mm", "cm", "in"), default="mm", help="what a bare number is in")
    parser.add_argument("--rule", choices=RULES, help="what lengths are read with; in inches else a rule of 64ths")
    parser.add_argument("--caliper", choices=CALIPERS, help="what widths are read with; in inches else the rule")
    parser.add_argument(
        "--held",
        choices=("glue", "strings", "screws"),
        default="glue",
        help="how the bridge is held: glued, by the strings alone, or saddles on bases that are screwed down",
    )
    asked = parser.parse_args(argv)
    from app.edit import tools_at_hand
    from app.edit.edits import replace
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
    rule = tools_at_hand.usual_rule(job.unit) if asked.rule is None else RULES[asked.rule]
    caliper = tools_at_hand.usual_caliper(job.unit) if asked.caliper is None else CALIPERS[asked.caliper]
    job = replace(job, readings=tools_at_hand.read_with(job.readings, rule, caliper))
    job_file.write(job, path)
    print(path)
    return OK


def _named(file: Path) -> Path:
    """The file to make, with the usual ending."""
    if file.name in ("", ".."):
        raise CommandRefused("the new job needs a file’s name, such as parlour.job.json")
    path = job_file.named(file)
    if is_there(path, "written"):
        raise CommandRefused(f"{path} is there already; choose another name")
    return path
