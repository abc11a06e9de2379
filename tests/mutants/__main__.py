"""Which small faults no test sees: `python -m tests.mutants --count 200 --seed 1 geometry export/machine`."""

import argparse
import os
import random
import sys
import time
from itertools import islice
from pathlib import Path

from tests.mutants.choosing import may_see, within
from tests.mutants.recording import Recorded, kept_at, read, write
from tests.mutants.small_faults import Mutant, mutants
from tests.mutants.trying import Outcome, a_copy, record, tried, warm_up

ROOT = Path(__file__).parents[2]
TRIED = ("geometry", "export", "published", "app/cli", "app/edit", "app/file", "app/say", "test_docs.py")
"""Where the tests are that may see a mutant; those of the window are left out, which take longer than all others."""
SLOW = ("test_never_stops.py", "test_coverage.py", "test_less_is_read.py", "test_less_known.py", "test_mispointed.py")
"""Tests of the whole that take as long as all others together, left out too."""
FIRST = 4.0
"""For how many seconds the first tests run, before what runs on is collected."""
MANY_TIMES, AT_LEAST = 3.0, 15.0
"""How many times as long as without a fault the tests may take, and seconds on top."""


def main(given: list[str] | None = None) -> int:
    """Try as many mutants as asked for, tell of each, and show the survivors as differences; 1 where there are any."""
    asked = _parser().parse_args(given)
    os.environ |= {"QT_QPA_PLATFORM": "offscreen", "OPENBLAS_NUM_THREADS": "1"}
    warm_up()
    left, begun = [], time.monotonic()
    with a_copy(ROOT) as copy:
        tests = _recorded(copy)
        _say(f"{len(tests)} tests known after {time.monotonic() - begun:.0f} s")
        begun = time.monotonic()
        chosen = choose(copy, _modules(copy, asked.of), asked.count, asked.seed)
        for number, mutant in enumerate(chosen, 1):
            source = (copy / mutant.file).read_text(encoding="utf-8")
            seeing = may_see(copy, mutant.file, mutant.line(source), tests)
            outcome = _tried(copy, mutant, within(seeing, asked.budget))
            _say(f"{number}/{len(chosen)} {outcome} {mutant.file}:{mutant.line(source)}")
            if outcome == "survives":
                left.append(mutant)
                _say(f"{len(seeing)} tests run it\n{mutant.diff(source)}")
    took = (time.monotonic() - begun) / max(len(chosen), 1)
    _say(f"{len(chosen)} made, {len(chosen) - len(left)} killed, {len(left)} survive, {took:.1f} s each")
    return 1 if left else 0


def _recorded(copy: Path) -> list[Recorded]:
    """All tests that may see a mutant, recorded now where that was not done before."""
    found = []
    given = [copy / "tests" / name for name in TRIED]
    files = {
        path for of in given for path in ([of] if of.is_file() else of.rglob("test_*.py")) if path.name not in SLOW
    }
    for name in sorted(str(path.relative_to(copy)) for path in files):
        kept = kept_at(copy, name)
        if not kept.exists():
            write(kept, record(copy, name))
        found += read(kept)
    return found


def _tried(copy: Path, mutant: Mutant, tests: list[Recorded]) -> Outcome:
    """Whether one of the tests sees it: first the first few are run, then the others."""
    first = within(tests, FIRST)
    for some in (first, [test for test in tests if test not in first]):
        limit = MANY_TIMES * sum(test.seconds for test in some) + AT_LEAST
        outcome = tried(copy, mutant, [test.name for test in some], limit) if some else "survives"
        if outcome != "survives":
            return outcome
    return "survives"


def choose(root: Path, files: list[str], count: int, seed: int) -> list[Mutant]:
    """As many mutants of these files (all there are, if fewer), every place in them as likely as the next."""
    sources = {file: (root / file).read_text(encoding="utf-8") for file in files}
    made = [mutant for file, source in sources.items() for mutant in mutants(file, source)]
    random.Random(seed).shuffle(made)
    return list(islice((mutant for mutant in made if mutant.is_fault(sources[mutant.file])), count))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="tests.mutants", description=__doc__)
    parser.add_argument("of", nargs="+", help="packages or modules, such as geometry or export/machine/dxf.py")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--budget", type=float, default=60.0, help="for how many seconds tests may run for one mutant")
    return parser


def _modules(root: Path, of: list[str]) -> list[str]:
    """All modules in these folders, and these files, as paths from the root."""
    found = [file for name in of for file in ([root / name] if name.endswith(".py") else (root / name).rglob("*.py"))]
    return sorted(str(file.relative_to(root)) for file in found)


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
