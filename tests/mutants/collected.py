"""Tests that are collected once and run in many children: each child begins where the collection ended.

A fault can be put into the modules as they are loaded there, **in place**, if it changes nothing but what functions do
that had not run by then. No table made at import, no value that another module took over, nothing that is kept between
calls can then be other than if the modules had been imported with it.
"""

import gc
import signal
from collections.abc import Callable, Iterator, Mapping
from functools import reduce
from operator import or_
from pathlib import Path
from types import CodeType, FunctionType
from typing import NamedTuple

import pytest

from tests.mutants.recording import Recorder, lines_as_bits

FUNCTION = 1
"""The flag that tells the code of a function from that of a class or a module (`inspect.CO_OPTIMIZED`)."""


class Change(NamedTuple):
    """What a function does, and what it does with a fault. `lines` are those of the outermost function around it."""

    before: CodeType
    after: CodeType
    lines: int


class Collected:
    """A pytest plugin that gives `use` the tests by their names, as they were collected, instead of running them."""

    def __init__(self, root: Path, recorder: Recorder, use: "Callable[[Collected], None]") -> None:
        self.root, self.recorder, self.use = root, recorder, use
        self.items = dict[str, pytest.Item]()
        self.functions = dict[str, list[FunctionType]]()

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.items = {item.nodeid: item for item in session.items}
        gc.unfreeze()
        for function in gc.get_objects():
            if isinstance(function, FunctionType):
                self.functions.setdefault(function.__code__.co_filename, []).append(function)
        gc.freeze()
        self.use(self)
        return True

    def run(self, tests: Mapping[str, float]) -> int:
        """Run these tests in their order until one fails; 0 where none does. Each of them ends this process once it has
        worked for so many seconds. To be called in a child.
        """
        items = [self.items[name] for name in tests]
        for item, limit, following in zip(items, tests.values(), [*items[1:], None], strict=True):
            signal.setitimer(signal.ITIMER_PROF, limit)
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if item.session.testsfailed:
                return 1
        return 0

    def put_in(self, file: str, before: str, after: str) -> bool:
        """Put `after` in place of the source of a module; False, and nothing is done, where that would not be the same
        as to import it anew. To be called in a child.
        """
        ran, functions = self.recorder.collected(file), self.functions.get(str(self.root / file), [])
        changes = in_place(before, after)
        if not functions or not changes or any(change.lines & ran for change in changes):
            return False
        for function in functions:
            for change in changes:
                if function.__code__ == change.before:
                    function.__code__ = change.after
        return True


def in_place(before: str, after: str) -> list[Change]:
    """The functions that do something else, with those around them; none where something outside all functions does."""
    found = list(_changes(_compiled(before), _compiled(after)))
    return found if all(change.before.co_flags & FUNCTION for change in found) else []


def _compiled(source: str) -> CodeType:
    return compile(source, "", "exec", dont_inherit=True)


def _changes(before: CodeType, after: CodeType, lines: int = 0) -> Iterator[Change]:
    """Each code that is another or has another one in it, classes and the module only if they are others themselves."""
    is_function = bool(before.co_flags & FUNCTION)
    lines = lines or (_lines(before) if is_function else 0)
    inner, others = _codes(before), _codes(after)
    if _itself(before) != _itself(after):
        yield Change(before, after, lines)
        return
    found = [change for pair in zip(inner, others, strict=True) for change in _changes(*pair, lines)]
    if found and is_function:
        yield Change(before, after, lines)
    yield from found


def _itself(code: CodeType) -> tuple[object, ...]:
    """What a code does, without where it stands and what the functions in it do."""
    consts = tuple(repr(const) for const in code.co_consts if not isinstance(const, CodeType))
    names = (code.co_names, code.co_varnames, code.co_freevars, code.co_cellvars)
    return code.co_code, code.co_exceptiontable, consts, names, [one.co_qualname for one in _codes(code)]


def _codes(code: CodeType) -> list[CodeType]:
    return [const for const in code.co_consts if isinstance(const, CodeType)]


def _lines(code: CodeType) -> int:
    """The lines of a function and of those in it."""
    own = lines_as_bits({line for _, _, line in code.co_lines() if line})
    return reduce(or_, map(_lines, _codes(code)), own)
