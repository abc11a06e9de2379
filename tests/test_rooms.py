"""The rooms: none has more than one can take in, what is in it has a name of its own, and no class does everything."""

import ast
from collections import Counter
from pathlib import Path

from tests.slow import HERE, SLOW

ROOT = Path(__file__).parent.parent
MODULES = [path for room in ("app", "geometry", "export") for path in sorted((ROOT / room).rglob("*.py"))]
NAMED = [path for path in MODULES if path.name != "__init__.py"]
LIKE_WHAT_THEY_SHOW = (ROOT / "export" / "templates", ROOT / "app" / "desk" / "cards")
"""Templates and cards go by the name of what they show."""
ROOMY, METHODS, LINES = 15, 25, 250


def test_no_room_has_more_modules_than_one_can_take_in() -> None:
    counted = Counter(path.parent.relative_to(ROOT).as_posix() for path in NAMED)
    assert {room: count for room, count in counted.items() if count > ROOMY} == {}


def test_a_name_of_a_module_is_told_once() -> None:
    counted = Counter(path.stem for path in NAMED if not any(path.is_relative_to(room) for room in LIKE_WHAT_THEY_SHOW))
    assert [name for name, count in counted.items() if count > 1] == []


def test_no_class_does_everything() -> None:
    found = {}
    for path in MODULES:
        text = path.read_text(encoding="utf-8")
        if "\nclass " not in text or text.count("\n") <= METHODS:
            continue
        for node in ast.parse(text).body:
            if isinstance(node, ast.ClassDef):
                methods = sum(isinstance(part, ast.FunctionDef) for part in node.body)
                lines = (node.end_lineno or 0) - node.lineno + 1
                if methods > METHODS or lines > LINES:
                    found[f"{path.stem}.{node.name}"] = methods, lines
    assert found == {}


def test_what_is_called_slow_is_there() -> None:
    assert [slow for slow in SLOW if not (HERE / slow).exists()] == []
