"""Which small faults no test sees: `python -m tests.mutants --count 200 --seed 1 geometry export/machine.py`."""

import argparse
import os
import random
import sys
import time
from itertools import islice
from pathlib import Path

from tests.mutants.mutations import Mutant, mutants
from tests.mutants.trying import a_copy, files_for, passes, survives, warm_up

ROOT = Path(__file__).parents[2]
MANY_TIMES, AT_LEAST = 3.0, 20.0
"""How many times as long as without a fault the tests may take, and seconds on top."""


def main(given: list[str] | None = None) -> int:
    """Try as many mutants as asked for, tell of each, and show the survivors as differences; 1 where there are any."""
    asked = _parser().parse_args(given)
    files = _modules(asked.of)
    chosen = choose(files, asked.count, asked.seed)
    os.environ |= {"QT_QPA_PLATFORM": "offscreen", "OPENBLAS_NUM_THREADS": "1"}
    warm_up()
    left = []
    with a_copy(ROOT) as copy:
        limits = {part: _limit(copy, file) for part, file in {Path(one).parts[0]: one for one in files}.items()}
        for number, mutant in enumerate(chosen, 1):
            begun = time.monotonic()
            alive = survives(copy, mutant, files_for(mutant.file, copy), limits[Path(mutant.file).parts[0]])
            took = time.monotonic() - begun
            _say(f"{number}/{len(chosen)} {'SURVIVES' if alive else 'killed'} {mutant.file} {took:.1f} s")
            if alive:
                left.append(mutant)
                _say(mutant.diff((ROOT / mutant.file).read_text(encoding="utf-8")))
    _say(f"{len(chosen)} made, {len(chosen) - len(left)} killed, {len(left)} survive")
    return 1 if left else 0


def choose(files: list[str], count: int, seed: int) -> list[Mutant]:
    """As many mutants of these files (all there are, if fewer), every place in them as likely as the next."""
    sources = {file: (ROOT / file).read_text(encoding="utf-8") for file in files}
    made = [mutant for file, source in sources.items() for mutant in mutants(file, source)]
    random.Random(seed).shuffle(made)
    return list(islice((mutant for mutant in made if mutant.is_fault(sources[mutant.file])), count))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="tests.mutants", description=__doc__)
    parser.add_argument("of", nargs="+", help="packages or modules, such as geometry or export/machine.py")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    return parser


def _modules(of: list[str]) -> list[str]:
    """All modules in these folders, and these files, as paths from the root."""
    found = [file for name in of for file in ([ROOT / name] if name.endswith(".py") else (ROOT / name).rglob("*.py"))]
    return sorted(str(file.relative_to(ROOT)) for file in found)


def _limit(copy: Path, file: str) -> float:
    """How long the tests of a package may take; they must pass without a fault."""
    begun = time.monotonic()
    if not passes(copy, files_for(file, copy), 1800):
        raise SystemExit(f"The tests of {file} fail before any fault is put in:\n{(copy.parent / 'said').read_text()}")
    took = time.monotonic() - begun
    _say(f"the tests of {Path(file).parts[0]} take {took:.0f} s")
    return MANY_TIMES * took + AT_LEAST


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
