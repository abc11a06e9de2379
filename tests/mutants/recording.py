"""Which lines of our modules each test runs, and how long it takes: recorded once for each test file, and kept outside
the sources until one of these, or the test file, changes.

Recorded is what functions run. What one runs while a test file is collected, or in a fixture that several of its tests
share, counts for all tests of the file, and what it runs as our modules are imported for none; what it keeps between
calls is forgotten before each file and each test. Lines of a module are the bits of one number.
"""

import functools
import gc
import hashlib
import importlib
import inspect
import json
import os
import sys
import tempfile
import time
from collections.abc import Generator, Iterable
from pathlib import Path
from types import CodeType, FrameType
from typing import TYPE_CHECKING, NamedTuple

import pytest

if TYPE_CHECKING:
    from _typeshed import TraceFunction

OURS = ("app", "export", "geometry", "tests")
RECORDED = ("geometry", "export")
"""Whose lines are recorded."""


class Recorded(NamedTuple):
    """A test of which is known for how many seconds it runs, and which lines of which module."""

    name: str
    seconds: float
    lines: dict[str, int]

    @property
    def file(self) -> str:
        """The test file it stands in."""
        return self.name.partition("::")[0]

    def runs(self, file: str, lines: int) -> bool:
        """Whether it runs one of these lines."""
        return bool(self.lines.get(file, 0) & lines)


def lines_as_bits(lines: Iterable[int]) -> int:
    """The lines of a module as the bits of one number."""
    return functools.reduce(lambda bits, line: bits | 1 << line, lines, 0)


Ran = dict[str, set[int]]
"""The lines that were run of each module."""


class Recorder:
    """A pytest plugin that records. `root` is the folder with our packages."""

    def __init__(self, root: Path) -> None:
        self.root, self.short = root, dict[str, str | None]()
        self.seconds = dict[str, float]()
        self.ran, self.shared, self.at_import = dict[str, Ran](), dict[str, Ran](), Ran()
        self.file, self.into, self.whole = "", self.at_import, set[int]()
        self.all_of = dict[int, tuple[CodeType, frozenset[int]]]()
        self.kept: dict[int, functools._lru_cache_wrapper[object]] = {}
        self.rests = False

    def rest(self) -> None:
        """Record nothing from now on in this process, in which tests then run many times as fast. What was kept between
        calls is forgotten once.
        """
        self._forget()
        self.rests = True

    def tests(self) -> list[Recorded]:
        """What was recorded of tests."""
        return [
            Recorded(name, seconds, _bits(self.ran[name], self.shared.get(name.partition("::")[0], {})))
            for name, seconds in self.seconds.items()
        ]

    def imported(self, file: str) -> int:
        """The lines of a module that are run as our modules are imported."""
        return _bits(self.at_import).get(file, 0)

    def collected(self, file: str) -> int:
        """The lines of a module that ran before the first test did."""
        return _bits(self.at_import, *self.shared.values()).get(file, 0)

    @pytest.hookimpl(wrapper=True)
    def pytest_collection(self) -> Generator[None, object, object]:
        self._to(self.at_import)
        sys.settrace(self._called)
        try:
            for folder in RECORDED:
                for path in sorted((self.root / folder).rglob("*.py")):
                    name = ".".join(path.relative_to(self.root).with_suffix("").parts)
                    importlib.import_module(name.removesuffix(".__init__"))
            return (yield)
        finally:
            sys.settrace(None)

    @pytest.hookimpl(wrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Generator[None, object, object]:
        before = self.into
        if isinstance(collector, pytest.Module):
            self._forget()
            self._to(self.shared.setdefault(collector.nodeid, {}))
        try:
            return (yield)
        finally:
            self._to(before)

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, object, object]:
        if self.rests:
            return (yield)
        self._forget()
        self.file = item.nodeid.partition("::")[0]
        self._to(self.ran.setdefault(item.nodeid, {}))
        begun = _seconds()
        sys.settrace(self._called)
        try:
            return (yield)
        finally:
            sys.settrace(None)
            self.seconds[item.nodeid] = _seconds() - begun

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: pytest.FixtureDef[object]) -> Generator[None, object, object]:
        before = self.into
        if fixturedef.scope != "function":
            self._to(self.shared.setdefault(self.file, {}))
        try:
            return (yield)
        finally:
            self._to(before)

    def _forget(self) -> None:
        """Empty what our functions keep between calls: else only the first test to call them would seem to run them.
        What a campaign keeps stays, for it takes long to try anew. What was there after collection is frozen by the
        tests' conftest, and so is gone through once.
        """
        if not self.kept:
            gc.unfreeze()
        for kept in gc.get_objects():
            if isinstance(kept, functools._lru_cache_wrapper) and _is_forgotten(kept.__module__):
                self.kept[id(kept)] = kept
        gc.freeze()
        for kept in self.kept.values():
            kept.cache_clear()

    def _to(self, into: Ran) -> None:
        self.into, self.whole = into, set()

    def _called(self, frame: FrameType, event: str, arg: object) -> "TraceFunction | None":
        del event, arg
        code = frame.f_code
        if code.co_filename not in self.short:
            self.short[code.co_filename] = self._short(code.co_filename)
        ours = self.short[code.co_filename] is not None and code.co_flags & inspect.CO_OPTIMIZED
        return self._line if ours and id(code) not in self.whole else None

    def _short(self, name: str) -> str | None:
        """A module's path from the root, if it is one of ours."""
        path = Path(name)
        inside = path.is_relative_to(self.root) and path.relative_to(self.root).parts[0] in RECORDED
        return str(path.relative_to(self.root)) if inside else None

    def _line(self, frame: FrameType, event: str, arg: object) -> "TraceFunction | None":
        del arg
        code = frame.f_code
        lines = self.into.setdefault(self.short[code.co_filename] or "", set())
        if event == "line":
            lines.add(frame.f_lineno)
        elif event == "return" and lines.issuperset(self._all_of(code)):
            self.whole.add(id(code))  # nothing is left to be seen of it, and tracing takes time
        return self._line

    def _all_of(self, code: CodeType) -> frozenset[int]:
        """The lines of a function's body; by its id, for a code's hash is slow."""
        if id(code) not in self.all_of:
            lines = frozenset(line for _, _, line in code.co_lines() if line and line != code.co_firstlineno)
            self.all_of[id(code)] = code, lines
        return self.all_of[id(code)][1]


def _bits(*ran: Ran) -> dict[str, int]:
    """The lines of each module that were run in one of these."""
    return {file: lines_as_bits(set[int]().union(*(one.get(file, ()) for one in ran))) for one in ran for file in one}


def _seconds() -> float:
    """What this process and those it started have worked, however busy the machine is."""
    return time.process_time() + sum(os.times()[2:4])


def _is_forgotten(module: str) -> bool:
    return module.partition(".")[0] in OURS and not module.startswith("tests.campaign.")


def kept_at(root: Path, file: str) -> Path:
    """Where the record of a test file is kept: a name of its own for each state of the sources, and of the file and of
    what is held beside it.
    """
    whole = hashlib.sha256(_state(root) + file.encode())
    for path in (root / file, *sorted((root / file).parent.glob("*.txt"))):
        whole.update(path.read_bytes())
    return Path(tempfile.gettempdir()) / "recorded-tests" / f"{whole.hexdigest()}.json"


@functools.cache
def _state(root: Path) -> bytes:
    """What tells this state of the sources, and of what tests share, from all others."""
    sources = [path for name in OURS for path in (root / name).rglob("*.py") if not path.name.startswith("test_")]
    sources += (root / "sample_jobs").glob("*")
    whole = hashlib.sha256()
    for path in sorted(sources):
        if "mutants" not in path.parts:
            whole.update(str(path.relative_to(root)).encode() + path.read_bytes())
    return whole.digest()


def write(path: Path, tests: list[Recorded]) -> None:
    """Keep what was recorded."""
    path.parent.mkdir(exist_ok=True)
    hexed = [(name, seconds, {file: hex(bits) for file, bits in lines.items()}) for name, seconds, lines in tests]
    path.write_text(json.dumps(hexed), encoding="utf-8")


def read(path: Path) -> list[Recorded]:
    """What was kept."""
    return [
        Recorded(name, seconds, {file: int(bits, 16) for file, bits in lines.items()})
        for name, seconds, lines in json.loads(path.read_text(encoding="utf-8"))
    ]
