"""One mutant tried: tests are run with it until the first one fails.

It is put into our modules as they are loaded where that does the same (`collected.py`), else into a copy of the sources
that is imported anew. A mutant is **killed** where a test fails, or where the tests take many times as long as without
it; else it **survives**.
"""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Literal

import pytest

from tests.mutants.children import in_child, run_anew
from tests.mutants.choosing import within
from tests.mutants.collected import Collected
from tests.mutants.recording import Recorded, Recorder, read, write
from tests.mutants.small_faults import Mutant

MANY_TIMES, AT_LEAST, EACH = 3.0, 15.0, 4.0
"""How many times as long as without a fault the tests may take, and seconds on top: for all, and for each alone."""
FOREVER = 24 * 3600.0
"""For how long all that begins with what was collected may take."""
RECORDING = 1800.0
"""For how long the tests of one file may be recorded."""
ELSE = 9
"""What a child gives where a mutant cannot be put into it."""


def collect(copy: Path, files: list[str], use: Callable[[Collected], None]) -> None:
    """Collect the tests of these files in a child, and there do with them what `use` does."""
    recorder = Recorder(copy)
    said = copy.parent / "said"
    if in_child(lambda: run_anew(copy, files, recorder, Collected(copy, recorder, use)), FOREVER, said) != 0:
        raise SystemExit(f"The tests cannot be tried:\n{said.read_text()}")


def record(tests: Collected, file: str) -> list[Recorded]:
    """What the tests of a file run; they must pass."""
    kept, said = tests.root.parent / "recorded", tests.root.parent / "said of these"
    names = {name: RECORDING for name in tests.items if name.partition("::")[0] == file}

    def run() -> int:
        code = tests.run(names)
        write(kept, tests.recorder.tests())
        return code

    if in_child(run, RECORDING, said) != 0:
        pytest.exit(f"{file} fails before any fault is put in:\n{said.read_text()}", 1)
    return read(kept)


Outcome = Literal["survives", "killed", "never ends"]


def tried(tests: Collected, mutant: Mutant, seeing: list[Recorded]) -> Outcome:
    """Whether one of these tests, run in this order, sees the fault."""
    source = (tests.root / mutant.file).read_text(encoding="utf-8")
    limits = {test.name: _limit([test], EACH) for test in seeing}

    def run() -> int:
        tests.recorder.rest()
        return tests.run(limits) if tests.put_in(mutant.file, source, mutant.applied(source)) else ELSE

    code = in_child(run, _limit(seeing, AT_LEAST), tests.root.parent / "said of these")
    return tried_anew(tests.root, mutant, seeing) if code == ELSE else _outcome(code)


FIRST = 4.0
"""For how many seconds the first tests run, before what runs on is collected anew."""


def tried_anew(copy: Path, mutant: Mutant, seeing: list[Recorded]) -> Outcome:
    """The same with all modules imported anew: first the first few tests are run, then the others."""
    file = copy / mutant.file
    source = file.read_text(encoding="utf-8")
    first = within(seeing, FIRST)
    file.write_text(mutant.applied(source), encoding="utf-8")
    try:
        for some in (first, [test for test in seeing if test not in first]):
            code = _anew(copy, some) if some else 0
            if code != 0:
                return _outcome(code)
        return "survives"
    finally:
        file.write_text(source, encoding="utf-8")


def _anew(copy: Path, tests: list[Recorded]) -> int:
    files = list(dict.fromkeys(test.file for test in tests))
    only = Only([test.name for test in tests])
    return in_child(lambda: run_anew(copy, files, only), _limit(tests, AT_LEAST), copy.parent / "said of these")


def _limit(tests: list[Recorded], more: float) -> float:
    return MANY_TIMES * sum(test.seconds for test in tests) + more


def _outcome(code: int) -> Outcome:
    return "survives" if code == 0 else "killed" if code > 0 else "never ends"


class Only:
    """A pytest plugin: these tests, in this order, and no others."""

    def __init__(self, names: Sequence[str]) -> None:
        self.order = {name: at for at, name in enumerate(names)}

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((one for one in items if one.nodeid in self.order), key=lambda one: self.order[one.nodeid])
