"""What was told when it was last looked at, kept in files beside the tests, a line for each thing that is told.

These figures are the program's own: they show that something has changed, not that it is right. What is right is held
elsewhere, by expected values of the tests' own. Set OFFSQUARE_RECORD_GOLDEN=1 and run the tests with -n0 to keep them
anew; then read the differences, every line of which must be meant.
"""

import json
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from tests.export.golden_drawings import RECORD

FOLDER = Path(__file__).parent / "kept"
NEAR = 2e-6
"""How far a number may stand from the one that was kept, of its own size and as such: libraries round differently."""


def differences(name: str, found: Mapping[str, Any], near: float = NEAR) -> list[str]:
    """How what is told now differs from what was; keeps it instead when asked to."""
    if RECORD:
        write(name, found)
        return []
    return _differences(read(name), found, near)


def differences_of(name: str, one: str, found: Mapping[str, Any], near: float = NEAR) -> list[str]:
    """The same for one of several things that are kept in a file; its lines start with its own name."""
    lines = {f"{one} | {path}": what for path, what in found.items()}
    if RECORD:
        before = read(name) if _file(name).exists() else {}
        write(name, {path: what for path, what in before.items() if not _is_of(one, path)} | lines)
        read.cache_clear()
        return []
    return _differences({path: what for path, what in read(name).items() if _is_of(one, path)}, lines, near)


def names_in(name: str) -> list[str]:
    """Of which things something is kept in a file."""
    return list(dict.fromkeys(path.partition(" | ")[0] for path in read(name)))


def _is_of(one: str, path: str) -> bool:
    return path.startswith(f"{one} | ")


def _differences(wanted: Mapping[str, Any], found: Mapping[str, Any], near: float) -> list[str]:
    missing = [f"{path} is no longer told; it was {what}" for path, what in wanted.items() if path not in found]
    added = [f"{path} is new: {what}" for path, what in found.items() if path not in wanted]
    changed = [
        f"{path} is {what}, and was {wanted[path]}"
        for path, what in found.items()
        if path in wanted and not alike(what, wanted[path], near)
    ]
    return [*missing, *added, *changed]


def _file(name: str) -> Path:
    return FOLDER / f"{name}.txt"


def write(name: str, lines: Mapping[str, Any]) -> None:
    """Keep these lines under a name."""
    _file(name).parent.mkdir(exist_ok=True, parents=True)
    text = (f"{path}: {json.dumps(what, ensure_ascii=False)}\n" for path, what in lines.items())
    _file(name).write_text("".join(text), encoding="utf-8")


@lru_cache
def read(name: str) -> dict[str, Any]:
    """What was kept under a name, by its paths."""
    lines = _file(name).read_text(encoding="utf-8").splitlines()
    return {path: json.loads(what) for path, _, what in (line.partition(": ") for line in lines)}


def alike(one: Any, other: Any, near: float = NEAR) -> bool:
    """Whether two values are the same, numbers to within `near`."""
    match one:
        case bool() | str() | None:
            return bool(one == other)
        case float() | int():
            both = isinstance(other, float | int) and not isinstance(other, bool)
            return both and abs(one - other) <= near * max(1.0, abs(one))
        case dict():
            return isinstance(other, dict) and list(one) == list(other) and _all(one.values(), other.values(), near)
        case _:
            return isinstance(other, list) and len(one) == len(other) and _all(one, other, near)


def _all(ones: Any, others: Any, near: float) -> bool:
    return all(alike(one, other, near) for one, other in zip(ones, others, strict=True))
