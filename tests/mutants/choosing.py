"""Which tests may see a mutant: those that run its line, or, where it stands outside all functions, that run a line
where something is named that it makes, or name it themselves. The near and the fast ones come first.

A **place** is what runs together with a line: the lines of its statement, or, for the head of a function, those of its
body, and what is named there for others if it runs at import.
"""

import ast
import functools
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from tests.mutants.recording import RECORDED, Recorded, lines_as_bits

NEARER = 4.0
"""How many times as early as by its time a test is tried that mirrors the module, or holds sums of all there is."""


class Place(NamedTuple):
    """Lines of a module that run together, and the names bound there at import."""

    lines: range
    names: tuple[str, ...] = ()
    at_import: bool = False


def may_see(root: Path, file: str, line: int, tests: Iterable[Recorded], at_import: int = 0) -> list[Recorded]:
    """The tests that may see a fault in this line, the first to be tried first; all of them if it is one of the lines
    that run as the module is imported.
    """
    wanted = dict[str, int]()
    for module, lines in _run_with(root, file, line):
        wanted[module] = wanted.get(module, 0) | lines_as_bits(lines)
    mirrors = re.compile(rf".*/(held.*/.*|test_{Path(file).stem}(_.*)?)\.py")
    made = place(_tree(root / file), line).names
    seeing = [
        test
        for test in tests
        if at_import >> line & 1
        or any(test.runs(module, lines) for module, lines in wanted.items())
        or _names(root, test, made)
    ]
    return sorted(seeing, key=lambda test: test.seconds / (NEARER if mirrors.fullmatch(test.file) else 1.0))


def within(tests: list[Recorded], seconds: float) -> list[Recorded]:
    """As many of these, from the first, as take no longer than this together; too slow ones are left out."""
    chosen, left = [], seconds
    for test in tests:
        if test.seconds <= left:
            chosen.append(test)
            left -= test.seconds
    return chosen


def _run_with(root: Path, file: str, line: int) -> Iterator[tuple[str, range]]:
    """Modules with the lines in them that run a line, or use what it makes at import."""
    todo, known = [(file, place(_tree(root / file), line))], set[tuple[str, Place]]()
    while todo:
        at = todo.pop()
        if at in known:
            continue
        known.add(at)
        module, here = at
        yield module, here.lines
        if here.names:
            todo += _naming(root, here.names)
        elif here.at_import:
            yield module, range(1, _span(_tree(root / module).body[-1]).stop)


def _names(root: Path, test: Recorded, names: tuple[str, ...]) -> bool:
    """Whether a test, or a function beside it that it calls by name, speaks of one of these."""
    path = root / test.file
    uses = _by_function(path) if names and path.exists() else {}
    said = uses.get(test.name.partition("::")[2].partition("[")[0], frozenset[str]())
    return any(name in said or any(name in uses.get(called, ()) for called in said) for name in names)


@functools.cache
def _by_function(path: Path) -> dict[str, frozenset[str]]:
    """What each function of a module, and each name that is bound outside them, speaks of."""
    found = dict[str, frozenset[str]]()
    for node in _tree(path).body:
        said = frozenset(
            part.id if isinstance(part, ast.Name) else part.attr
            for part in ast.walk(node)
            if isinstance(part, ast.Name | ast.Attribute)
        )
        for name in [node.name] if isinstance(node, ast.FunctionDef) else _bound(node):
            found[name] = said
    return found


def _naming(root: Path, names: tuple[str, ...]) -> list[tuple[str, Place]]:
    """The places where one of these names is used."""
    return [
        (str(path.relative_to(root)), place(_tree(path), number))
        for folder in RECORDED
        for path in sorted((root / folder).rglob("*.py"))
        for number in sorted(set[int]().union(*(_uses(path).get(name, ()) for name in names)))
    ]


@functools.cache
def _uses(path: Path) -> dict[str, set[int]]:
    """In which lines a module uses a name: alone, after a dot, or as that of an argument."""
    found = dict[str, set[int]]()
    for node in ast.walk(_tree(path)):
        match node:
            case ast.Name(id=name) | ast.Attribute(attr=name) | ast.keyword(arg=str(name)):
                found.setdefault(name, set()).add(node.lineno)
    return found


def place(tree: ast.Module, line: int) -> Place:
    """What runs together with a line."""
    around = _around(tree).get(line, [])
    for node in around:
        if isinstance(node, ast.FunctionDef) and line < node.body[0].lineno:
            return Place(range(node.body[0].lineno, _span(node).stop))
    head = _head(around[0], line) if around else range(line, line + 1)
    if any(isinstance(node, ast.FunctionDef) for node in around):
        return Place(head)
    return Place(head, tuple(name for node in around for name in _bound(node)), at_import=True)


@functools.cache
def _around(tree: ast.Module) -> dict[int, list[ast.stmt]]:
    """The statements that each line stands in, the innermost first."""
    found = dict[int, list[ast.stmt]]()
    for node in sorted((one for one in ast.walk(tree) if isinstance(one, ast.stmt)), key=lambda one: len(_span(one))):
        for line in _span(node):
            found.setdefault(line, []).append(node)
    return found


def _span(node: ast.stmt) -> range:
    return range(node.lineno, (node.end_lineno or node.lineno) + 1)


def _head(node: ast.stmt, line: int) -> range:
    """The lines of a statement before what stands inside it."""
    if isinstance(node, ast.Match):
        return range(line, line + 1)
    body = getattr(node, "body", None)
    return range(node.lineno, max(body[0].lineno, node.lineno + 1)) if body else _span(node)


def _bound(node: ast.stmt) -> Iterator[str]:
    """The names that a statement binds."""
    if isinstance(node, ast.ClassDef):
        yield node.name
    targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
    yield from (part.id for target in targets for part in ast.walk(target) if isinstance(part, ast.Name))


@functools.cache
def _tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))
