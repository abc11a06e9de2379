"""One mutant tried: put into a copy of the sources, tests run there until the first one fails, and taken out again.

The tests run in a child of this process, so that numpy and the like are imported once. A mutant is **killed** where a
test fails, or where the tests take many times as long as without it; else it **survives**.
"""

import compileall
import importlib
import os
import re
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from py_compile import PycInvalidationMode

from tests.mutants.mutations import Mutant

OURS = ("app", "export", "geometry", "tests")
SLOW = (
    "test_never_stops.py",
    "test_coverage.py",
    "test_less_is_read.py",
    "test_less_known.py",
    "test_mispointed.py",
    "test_straightness.py",
    "test_how_far.py",
)
"""Tests that take longer than all others together, run for the modules that they mirror only."""
WARM = (
    "pytest",
    "hypothesis",
    "numpy",
    "scipy.optimize",
    "scipy.sparse.linalg",
    "shapely",
    "ezdxf",
    "reportlab.pdfgen",
)
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


def files_for(module: str, root: Path) -> list[str]:
    """The test files for a module (`geometry/survey/rows.py`): those that mirror it, those that name it, then the rest
    of those that mirror its package.
    """
    path = Path(module)
    package, stem = ".".join(path.parts[:-1]), path.stem if path.stem != "__init__" else path.parent.name
    named = re.compile(rf"from {package}\.{stem} import|from {package} import [^\n]*\b{stem}\b")
    files = sorted((root / "tests").rglob("test_*.py"))
    near = [file for file in files if root / "tests" / path.parts[0] in file.parents or file.parent.name == "published"]
    mirror = [file for file in near if re.fullmatch(rf"test_{stem}(_.*)?\.py", file.name)]
    naming = [file for file in near if named.search(file.read_text(encoding="utf-8"))]
    return [
        str(file.relative_to(root))
        for file in dict.fromkeys((*mirror, *(one for one in (*naming, *near) if one.name not in SLOW)))
    ]


def passes(copy: Path, files: list[str], limit: float) -> bool:
    """Whether these tests pass in the copy within `limit` seconds."""
    child = os.fork()
    if child == 0:
        _run(copy, files)
    until = time.monotonic() + limit
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status) == 0
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return False


def _run(copy: Path, files: list[str]) -> None:
    """In the child: our own packages are imported from the copy, and nothing is said."""
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
        import pytest
        from hypothesis import settings

        settings.register_profile("mutants", deadline=None, derandomize=True, database=None)
        settings.load_profile("mutants")
        code = int(pytest.main(["-x", "-q", "--assert=plain", "-p", "no:cacheprovider", *files]))
    finally:
        sys.stdout.flush()
        os._exit(code)


def survives(copy: Path, mutant: Mutant, files: list[str], limit: float) -> bool:
    """Whether no test sees the fault."""
    file = copy / mutant.file
    source = file.read_text(encoding="utf-8")
    file.write_text(mutant.applied(source), encoding="utf-8")
    try:
        return passes(copy, files, limit)
    finally:
        file.write_text(source, encoding="utf-8")
