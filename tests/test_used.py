"""What the program defines it uses: nothing stands in it that only tests call."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
BY_OTHERS = {
    *("closeEvent", "contextMenuEvent", "dragEnterEvent", "dropEvent", "wheelEvent", "keyboardSearch"),
    *("columnCount", "headerData", "createEditor", "setEditorData", "setModelData", "updateEditorGeometry"),
    "stringWidth",
}
"""Called by Qt, and by reportlab."""


def defined(tree: ast.Module) -> Iterator[str]:
    """Functions, classes, methods and constants of a module; several that are numbered at once belong together."""
    bodies = [tree.body, *(node.body for node in tree.body if isinstance(node, ast.ClassDef))]
    for node in (node for body in bodies for node in body):
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Assign):
            yield from (at.id for at in node.targets if isinstance(at, ast.Name))
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            yield node.target.id


def used(tree: ast.Module) -> Iterator[str]:
    """Names that are read in a module, in whatever way; what is imported is read where it is used."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            yield node.id
        elif isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.keyword | ast.arg) and node.arg:
            yield node.arg
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.isidentifier():
            yield node.value
        elif isinstance(node, ast.MatchClass):
            yield from node.kwd_attrs


def unused(modules: dict[str, str]) -> list[str]:
    """What modules define and none of them reads, each as its module and its name."""
    trees = {name: ast.parse(text) for name, text in modules.items()}
    read = {name for tree in trees.values() for name in used(tree)}
    return [
        f"{module}: {name}"
        for module, tree in trees.items()
        for name in defined(tree)
        if name not in read and not (name.startswith("__") and name.endswith("__"))
    ]


def test_nothing_is_there_that_nothing_uses() -> None:
    rooms = (path for room in ("app", "geometry", "export") for path in sorted((ROOT / room).rglob("*.py")))
    found = unused({path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in rooms})
    assert [one for one in found if one.rpartition(" ")[2] not in BY_OTHERS] == []


@pytest.mark.parametrize("code", ["def f():\n    pass", "A = 1", "class B:\n    c = B", "A: int = 1"])
def test_what_nothing_uses_is_found(code: str) -> None:
    assert unused({"m.py": code, "n.py": "import math"})
