"""What the program's own source says, read once for all tests that look through it."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent
SOURCES = sorted(path for room in ("app", "export", "geometry") for path in (ROOT / room).rglob("*.py"))


def sentences(source: str) -> Iterator[str]:
    """The texts of a module, each part of one with values in it by itself; docstrings are left out."""
    nodes = list(ast.walk(ast.parse(source)))
    told = {id(node.value) for node in nodes if isinstance(node, ast.Expr)}
    for node in nodes:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value


@cache
def said_by_the_program() -> tuple[tuple[str, str], ...]:
    """Every such text of the program with the name of its file."""
    return tuple((path.name, said) for path in SOURCES for said in sentences(path.read_text(encoding="utf-8")))
