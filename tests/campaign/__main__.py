"""How true the program's numbers are, tried on invented instruments whose truth is known.

python -m tests.campaign true --count 1000 --seed 7
python -m tests.campaign kinds --count 400 --seed 7
python -m tests.campaign one --case "misread fret" --seed 7 --index 12 --to slip.job.json
"""

import argparse
import sys
from pathlib import Path

from msgspec.structs import replace

from app.file import job_file
from tests.campaign.every_kind import COARSER, KINDS, coarsely_told, rewrite, section, told, try_kinds
from tests.campaign.invented.cases import CASES, cases_named
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import judge
from tests.campaign.page import write
from tests.campaign.running import campaign
from tests.campaign.table import TABLES, aligned, figure_line, rows


def main(words: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaign", description=__doc__, add_help=True)
    commands = parser.add_subparsers(dest="command", required=True)
    true = commands.add_parser("true", help="run the cases and print what came out")
    true.add_argument("--count", type=int, default=1000, help="trials a case")
    true.add_argument("--seed", type=int, default=7)
    true.add_argument("--case", action="append", default=[], help="only this case; may be repeated")
    true.add_argument("--zero", choices=("yes", "no"), default="yes", help="no: no zero errors common to a laying")
    true.add_argument("--jobs", type=int, default=1, help="processes, two at most")
    true.add_argument("--write", type=Path, help="write the page here, its pictures beside it")
    kinds = commands.add_parser("kinds", help="the same of the other kinds of bridges, saddles and strings")
    kinds.add_argument("--count", type=int, default=400, help="instruments of each way")
    kinds.add_argument("--seed", type=int, default=7)
    kinds.add_argument("--kind", action="append", choices=KINDS, help="only this kind; may be repeated")
    kinds.add_argument("--jobs", type=int, default=1, help="processes, two at most")
    kinds.add_argument("--write", type=Path, help="write all of them into this page")
    one = commands.add_parser("one", help="make one trial again, and show what came out")
    one.add_argument("--case", required=True)
    one.add_argument("--seed", type=int, default=7)
    one.add_argument("--index", type=int, required=True)
    one.add_argument("--to", type=Path, help="write its job file here")
    given = parser.parse_args(words)
    if given.command == "kinds" and given.kind and given.write:
        parser.error("--write tells of all kinds: leave out --kind, or print alone what that kind found")
    return {"true": _true, "kinds": _kinds, "one": _one}[given.command](given)


def _true(given: argparse.Namespace) -> int:
    cases = cases_named(given.case)
    if given.zero == "no":
        cases = [replace(case, manner=replace(case.manner, zero=False)) for case in cases]
    judged = campaign(cases, given.seed, given.count, given.jobs)
    out = sys.stdout.write
    for table in TABLES:
        out(aligned(rows(table, judged)) + "\n\n")
    for case, records in judged.items():
        for record in records:
            if record.wrong_figures:
                out(f"wrong figure: --case “{case}” --index {record.index}: {', '.join(record.wrong_figures)}\n")
    passed_over = [case.name for case in CASES if case not in cases_named([])]
    if passed_over:
        out(f"passed over, for a job cannot say it: {', '.join(passed_over)}\n")
    out(figure_line(judged) + "\n")
    if given.write is not None:
        write(given.write, judged, given.seed, zero=given.zero == "yes")
    return 0


def _kinds(given: argparse.Namespace) -> int:
    found = try_kinds(given.kind or tuple(KINDS), given.count, given.seed, given.jobs)
    sys.stdout.write(told(found))
    coarse = coarsely_told(try_kinds(given.kind or tuple(KINDS), given.count, given.seed, given.jobs, COARSER), COARSER)
    sys.stdout.write(coarse)
    if given.write is not None:
        rewrite(given.write, section(found, given.count, given.seed, coarse))
    return 0


def _one(given: argparse.Namespace) -> int:
    (case,) = cases_named([given.case])
    trial = trial_of(case, given.seed, given.index)
    record = judge(trial, mirror=case.mirrored)
    out = sys.stdout.write
    out(f"{trial.case}, {trial.list}: {record.verdict}; accused {record.accused}, truly wrong {record.wrong}\n")
    for name, figure in (record.figures | record.points).items():
        out(f"  {name:16} off {figure.off:8.3f} ± {figure.pm:.3f}{'' if figure.held else '  beyond'}\n")
    if given.to is not None:
        job_file.write(trial.job, given.to)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
