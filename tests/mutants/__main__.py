"""Which small faults no test sees: `python -m tests.mutants --count 200 --seed 1 geometry export/machine`."""

import argparse
import os
import random
import sys
import time
from itertools import islice
from pathlib import Path
from typing import TextIO

from tests.mutants.children import a_copy, warm_up
from tests.mutants.choosing import may_see, within
from tests.mutants.collected import Collected
from tests.mutants.recording import Recorded, kept_at, read, write
from tests.mutants.small_faults import Mutant, mutants
from tests.mutants.trying import collect, record, tried

ROOT = Path(__file__).parents[2]
TRIED = ("geometry", "export", "published", "app/cli", "app/edit", "app/file", "app/say", "test_docs.py")
"""Where the tests are that may see a mutant; those of the window are left out, which take longer than all others."""
SLOW = ("test_never_stops.py", "test_coverage.py", "test_less_is_read.py", "test_less_known.py", "test_mispointed.py")
"""Tests of the whole that take as long as all others together, left out too."""


def main(given: list[str] | None = None) -> int:
    """Try as many mutants as asked for, tell of each, and show the survivors as differences; 1 where there are any."""
    asked = _parser().parse_args(given)
    os.environ |= {"QT_QPA_PLATFORM": "offscreen", "OPENBLAS_NUM_THREADS": "1"}
    warm_up()
    told = os.fdopen(os.dup(sys.stdout.fileno()), "w", buffering=1)
    with a_copy(ROOT) as copy:
        collect(copy, _test_files(copy), lambda tests: _try_all(tests, asked, told))
        return 1 if (copy.parent / LEFT).exists() else 0


LEFT = "left"
"""What is there, beside the copy, once a mutant has survived."""


def _try_all(tests: Collected, asked: argparse.Namespace, told: TextIO) -> None:
    begun = time.monotonic()
    known = _recorded(tests)
    told.write(f"{len(known)} tests known after {time.monotonic() - begun:.0f} s\n")
    begun, left, root = time.monotonic(), 0, tests.root
    chosen = choose(root, _modules(root, asked.of), asked.count, asked.seed)
    for number, mutant in enumerate(chosen, 1):
        source = (root / mutant.file).read_text(encoding="utf-8")
        line = mutant.line(source)
        seeing = may_see(root, mutant.file, line, known, tests.recorder.imported(mutant.file))
        outcome = tried(tests, mutant, within(seeing, asked.budget))
        told.write(f"{number}/{len(chosen)} {outcome} {mutant.file}:{line}\n")
        if outcome == "survives":
            left += 1
            (root.parent / LEFT).touch()
            told.write(f"{len(seeing)} tests run it\n{mutant.diff(source)}\n")
    took = (time.monotonic() - begun) / max(len(chosen), 1)
    told.write(f"{len(chosen)} made, {len(chosen) - left} killed, {left} survive, {took:.1f} s each\n")


def _test_files(copy: Path) -> list[str]:
    """All test files that may see a mutant."""
    given = [copy / "tests" / name for name in TRIED]
    paths = {path for of in given for path in ([of] if of.is_file() else of.rglob("test_*.py"))}
    return sorted(str(path.relative_to(copy)) for path in paths if path.name not in SLOW)


def _recorded(tests: Collected) -> list[Recorded]:
    """What all tests run, recorded now where that was not done before."""
    found = []
    for file in dict.fromkeys(name.partition("::")[0] for name in tests.items):
        kept = kept_at(tests.root, file)
        if not kept.exists():
            write(kept, record(tests, file))
        found += read(kept)
    return found


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


if __name__ == "__main__":
    sys.exit(main())
