"""One mutant tried: put into a copy of the sources, tests run there until the first one fails, and taken out again.

The tests run in a child of this process, so that numpy and the like are imported once. A mutant is **killed** where a
test fails, or where the tests take many times as long as without it; else it **survives**.
"""

import compileall
import importlib
import math
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from py_compile import PycInvalidationMode
from typing import Literal

import pytest

from tests.mutants.recording import OURS, Recorded, Recorder, read, write
from tests.mutants.small_faults import Mutant

WARM = (
    "pytest",
    "hypothesis",
    "numpy",
    "scipy.optimize",
    "scipy.sparse.linalg",
    "shapely",
    "ezdxf",
    "reportlab.pdfgen",
    "PySide6.QtTest",
    "PySide6.QtWidgets",
)
WAITED = 10.0
"""How many times as long as it may work a child may take on a busy machine."""
LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__", "*.sqlite")


def warm_up() -> None:
    """Import what every child needs."""
    for name in WARM:
        importlib.import_module(name)


@contextmanager
def a_copy(of: Path) -> Iterator[Path]:
    """A copy of the sources for as long as it is needed. What Python compiles there is told apart by content, not by
    time: two mutants may be written within a second.
    """
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
        copy = Path(folder) / "sources"
        shutil.copytree(of, copy, ignore=LEFT_OUT)
        for name in OURS:
            compileall.compile_dir(copy / name, quiet=1, invalidation_mode=PycInvalidationMode.CHECKED_HASH)
        yield copy


def record(copy: Path, file: str) -> list[Recorded]:
    """What the tests of a file run; they must pass."""
    recorder = Recorder(copy)
    kept = copy.parent / "recorded"

    def run() -> int:
        code = _pytest([file], recorder)
        write(kept, recorder.tests())
        return code

    if _in_child(copy, run, 1800.0) != 0:
        raise SystemExit(f"{file} fails before any fault is put in:\n{(copy.parent / 'said').read_text()}")
    return read(kept)


Outcome = Literal["survives", "killed", "never ends"]


def tried(copy: Path, mutant: Mutant, tests: Sequence[str], limit: float) -> Outcome:
    """Whether one of these tests, run in this order, sees the fault within `limit` seconds."""
    file = copy / mutant.file
    source = file.read_text(encoding="utf-8")
    file.write_text(mutant.applied(source), encoding="utf-8")
    files = list(dict.fromkeys(name.partition("::")[0] for name in tests))
    try:
        code = _in_child(copy, lambda: _pytest(files, Only(tests)), limit)
        return "survives" if code == 0 else "killed" if code > 0 else "never ends"
    finally:
        file.write_text(source, encoding="utf-8")


class Only:
    """A pytest plugin: these tests, in this order, and no others."""

    def __init__(self, names: Sequence[str]) -> None:
        self.order = {name: at for at, name in enumerate(names)}

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((one for one in items if one.nodeid in self.order), key=lambda one: self.order[one.nodeid])


def _in_child(copy: Path, run: Callable[[], int], limit: float) -> int:
    """What `run` gives in a child that imports our own packages from the copy; less than 0 where it works for longer
    than `limit` seconds, or has not ended after `WAITED` times as long.
    """
    child = os.fork()
    if child == 0:
        _end_after(copy, run, limit)
    until = time.monotonic() + WAITED * limit
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return -signal.SIGKILL


def _end_after(copy: Path, run: Callable[[], int], limit: float) -> None:
    """Run, with what is said kept beside the copy, and end."""
    code = 1
    try:
        os.setpgid(0, 0)
        os.chdir(copy)
        quiet = os.open(copy.parent / "said", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        for name in [name for name in sys.modules if name.split(".")[0] in OURS]:
            del sys.modules[name]
        sys.path.insert(0, str(copy))
        os.environ["PYTHONPATH"] = str(copy)
        resource.setrlimit(resource.RLIMIT_CPU, (math.ceil(limit), math.ceil(limit) + 1))
        code = run()
    finally:
        sys.stdout.flush()
        os._exit(code)


def _pytest(files: list[str], plugin: object) -> int:
    from hypothesis import settings

    settings.register_profile("mutants", deadline=None, derandomize=True, database=None)
    settings.load_profile("mutants")
    words = ["-x", "-q", "-n0", "--assert=plain", "-p", "no:cacheprovider"]
    return int(pytest.main([*words, *files], plugins=[plugin]))
