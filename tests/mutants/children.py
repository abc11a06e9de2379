"""Children of this process in which tests run: numpy and the like are imported once, and what one child does to our
modules, no other one sees.
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
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from py_compile import PycInvalidationMode

import pytest

from tests.mutants.recording import OURS

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


def in_child(run: Callable[[], int], limit: float, said: Path) -> int:
    """What `run` gives in a child that says what it has to say in a file; less than 0 where it works for longer than
    `limit` seconds, or has not ended after `WAITED` times as long.
    """
    child = os.fork()
    if child == 0:
        _end_after(run, limit, said)
    until = time.monotonic() + WAITED * limit
    try:
        while time.monotonic() < until:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.005)
    except BaseException:
        os.killpg(child, signal.SIGKILL)
        raise
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return -signal.SIGKILL


def _end_after(run: Callable[[], int], limit: float, said: Path) -> None:
    """Run, and end."""
    code = 1
    try:
        os.setpgid(0, 0)
        quiet = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        resource.setrlimit(resource.RLIMIT_CPU, (math.ceil(limit), math.ceil(limit) + 1))
        code = run()
    finally:
        sys.stdout.flush()
        os._exit(code)


def run_anew(copy: Path, files: list[str], *plugins: object) -> int:
    """Run the tests of these files with our own packages imported anew, from the copy; 0 where all pass."""
    from hypothesis import settings

    os.chdir(copy)
    for name in [name for name in sys.modules if name.split(".")[0] in OURS]:
        del sys.modules[name]
    sys.path.insert(0, str(copy))
    os.environ["PYTHONPATH"] = str(copy)
    settings.register_profile("mutants", deadline=None, derandomize=True, database=None)
    settings.load_profile("mutants")
    words = ["-x", "-q", "-n0", "--assert=plain", "-p", "no:cacheprovider", f"--basetemp={copy.parent / 'temporary'}"]
    return int(pytest.main([*words, *files], plugins=plugins))
