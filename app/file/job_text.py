"""The job file's text: JSON read strictly, and written so that a person can read it and two copies can be compared.

Read strictly means that what JSON leaves open is refused: a key that stands twice, NaN and Infinity, numbers beyond
any use. The **canonical text** has its keys in the order of the records and one reading, string or point a line.
"""

import json
import math
import re
from collections.abc import Iterator
from typing import Any

from app.file.place_in_file import Step, place

WIDTH = 150
"""A value that fits on a line this long is not broken up."""

DEPTH = 40
"""How deep a file may nest; a job needs six."""


LONGEST_WHOLE = 18
"""Digits of a whole number; no job needs as many."""

_ONE_LINE = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


class NotReadable(ValueError):
    """The text is no strict JSON; the message says why in one sentence, and where."""


class _NoNumber:
    """Where a number should stand: `fault` is what is said of it, with a gap for the place."""

    def __init__(self, fault: str) -> None:
        self.fault = fault


class _Repeated(dict[str, Any]):
    """An object in which a key stood twice."""

    key = ""


def parse(text: str) -> Any:
    """Read strict JSON. Raises `NotReadable`."""
    if not text.strip():
        raise NotReadable("the file is empty")
    try:
        tree = json.loads(
            text,
            object_pairs_hook=_object,
            parse_constant=_no_constant,
            parse_float=_number,
            parse_int=_whole,
        )
    except json.JSONDecodeError as error:
        raise NotReadable(_where_it_breaks(text, error)) from None
    except RecursionError:
        raise NotReadable("the file nests too deeply to be a job; look for a whole copy of it") from None
    for where, value in _walk(tree, ()):
        if isinstance(value, _NoNumber):
            raise NotReadable(value.fault.format(place(where) or "the top"))
        if isinstance(value, _Repeated):
            within = f" in {place(where)}" if where else ""
            raise NotReadable(f"the key “{value.key}” stands twice{within}; take one of them out")
        if isinstance(value, str) and re.search("[\ud800-\udfff]", value):
            raise NotReadable(f"the text at {place(where) or 'the top'} holds half a character; write it again")
    return tree


def canonical(tree: dict[str, Any]) -> str:
    """The canonical text of a tree of plain values."""
    return _laid_out(_plain(tree), 0) + "\n"


def _laid_out(value: Any, depth: int, used: int = 0) -> str:
    line = _ONE_LINE(value)
    if (depth and len(line) + depth + used <= WIDTH) or not value or not isinstance(value, (dict, list, tuple)):
        return line
    pad = " " * (depth + 1)
    if isinstance(value, dict):
        keys = [_ONE_LINE(str(key)) for key in value]
        rows = [
            f"{key}: {_laid_out(of, depth + 1, len(key) + 3)}" for key, of in zip(keys, value.values(), strict=True)
        ]
        opening, closing = "{", "}"
    else:
        rows = [_laid_out(of, depth + 1, 1) for of in value]
        opening, closing = "[", "]"
    return f"{opening}\n{pad}" + f",\n{pad}".join(rows) + f"\n{' ' * depth}{closing}"


def _plain(value: Any) -> Any:
    """The same value with whole floats as whole numbers: 643, not 643.0."""
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return int(value)
    if isinstance(value, dict):
        return {key: _plain(of) for key, of in value.items()}
    return [_plain(of) for of in value] if isinstance(value, (list, tuple)) else value


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) == len(pairs):
        return found
    seen: set[str] = set()
    marked = _Repeated(found)
    marked.key = next(key for key, _ in pairs if key in seen or seen.add(key))  # type: ignore[func-returns-value]
    return marked


def _no_constant(name: str) -> Any:
    return _NoNumber(f"{name.lstrip('-')} stands at {{}}, where a number belongs; write the number, or null for none")


def _number(text: str) -> Any:
    number = float(text)
    return number if math.isfinite(number) else _too_large(text)


def _whole(text: str) -> Any:
    return int(text) if len(text) <= LONGEST_WHOLE else _too_large(text)


def _too_large(text: str) -> _NoNumber:
    return _NoNumber(f"the number {_short(text)} at {{}} is too large for any use; write it again")


def _short(text: str) -> str:
    return text if len(text) <= 24 else text[:20] + "…"


def _walk(tree: Any, where: tuple[Step, ...]) -> Iterator[tuple[tuple[Step, ...], Any]]:
    if len(where) > DEPTH:
        raise NotReadable("the file nests too deeply to be a job; look for a whole copy of it")
    yield where, tree
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield where, key
            yield from _walk(value, (*where, key))
    elif isinstance(tree, list):
        for count, value in enumerate(tree, 1):
            yield from _walk(value, (*where, count))


def _where_it_breaks(text: str, error: json.JSONDecodeError) -> str:
    if error.pos >= len(text.rstrip()) or error.msg.startswith("Unterminated string"):
        return "the file breaks off before its end; look for a whole copy of it"
    if text.lstrip()[:1] not in ("{", "["):
        return "the file is not a job file (it is not JSON)"
    return f"the file is not proper JSON at line {error.lineno}, character {error.colno}; mend it there"
