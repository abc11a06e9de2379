"""Job files spoilt with a knowledge of what stands in them, and texts that nobody would type."""

import copy
import json
import random
from typing import Any

from app.file import samples

Tree = Any
TEXTS = (
    "",
    " ",
    "0",
    "-1",
    "1/0 in",
    "25 11/32 in",
    "64,4 cm",
    "1e400",
    "NaN",
    "٣٫٥",
    "‮abc",
    "bell \x07 escape \x1b[31m null \x00",
    "no sign \ufffe",
    "<b>&amp;</b>",
    "a\nb\tc",
    "山本 🎸 e\u0301",
    "x" * 5000,
    "many words " * 400,
    "nut.left",
    "old.1",
    "__proto__",
    "../../etc",
)
NUMBERS = (0, 1, -1, 12, 0.5, 1e-9, 1e-300, 643.5, 1e6, 1e15, 1e308, -1e308, 2**31, 2**53, 10**17, True, False, None)


def tree(chance: random.Random) -> Tree:
    """One of the sample jobs, as plain values."""
    return json.loads(chance.choice(samples.paths()).read_bytes())


def spoilt(chance: random.Random) -> bytes:
    """A job file with one to five things wrong, or with slips of the pen alone, or a spoilt text."""
    made = tree(chance)
    if chance.random() < 0.5:
        for node, key in chance.sample(_places(made), chance.choice((1, 1, 2, 4))):
            if not isinstance(node[key], dict | list):
                node[key] = _near(node[key], chance)
        return json.dumps(made).encode()
    for _ in range(chance.choice((1, 1, 1, 2, 3, 5))):
        _spoil(made, chance)
    data = json.dumps(made, ensure_ascii=chance.random() < 0.5).encode(errors="surrogatepass")
    return _spoil_bytes(data, chance) if chance.random() < 0.1 else data


def _places(node: Tree) -> list[tuple[Any, Any]]:
    """Every place in a tree: its container and its key."""
    keys: list[Any] = list(node) if isinstance(node, dict) else list(range(len(node))) if isinstance(node, list) else []
    found = [(node, key) for key in keys]
    for key in keys:
        found += _places(node[key])
    return found


def _spoil(made: Tree, chance: random.Random) -> None:
    places = _places(made)
    if not places:
        return
    node, key = chance.choice(places)
    match chance.randrange(9):
        case 0:
            del node[key]
        case 1:
            node[key] = chance.choice(TEXTS)
        case 2:
            node[key] = chance.choice(NUMBERS)
        case 3:
            other, place = chance.choice(places)  # a value from elsewhere, most often of another kind
            node[key] = copy.deepcopy(other[place]) if _has(other, place) else None
        case 4 if isinstance(node, list):
            node.insert(chance.randrange(len(node) + 1), copy.deepcopy(node[key]))
        case 5 if isinstance(node, list):
            chance.shuffle(node)
        case 6 if isinstance(node, dict):
            node[chance.choice((*TEXTS, f"{key}s", str(key)[:-1]))] = node.pop(key)
        case 7:
            _alike(places, chance)
        case _:
            node[key] = _near(node[key], chance)


def _has(node: Any, key: Any) -> bool:
    return key in node if isinstance(node, dict) else key < len(node)


def _alike(places: list[tuple[Any, Any]], chance: random.Random) -> None:
    """Let a value change places with another of the same key: two readings' points, two strings' diameters."""
    node, key = chance.choice(places)
    others = [(other, place) for other, place in places if place == key and isinstance(place, str) and place in other]
    if others and isinstance(node, dict) and key in node:
        other, place = chance.choice(others)
        node[key], other[place] = other[place], node[key]


def _near(value: Any, chance: random.Random) -> Any:
    """A value a little or very much beside this one, or a slip of the pen."""
    if isinstance(value, bool) or value is None:
        return not value
    if isinstance(value, int | float):
        return chance.choice((-value, value * 10, value / 10, value + chance.gauss(0, 3), value * 25.4, value * 1e4))
    if isinstance(value, str) and value:
        at = chance.randrange(len(value))
        return value[:at] + chance.choice(("", " ", "9", "/", "in", ".", value[at] * 2)) + value[at + 1 :]
    return [value, value]


def _spoil_bytes(data: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(data))
    match chance.randrange(5):
        case 0:
            return data[:at]
        case 1:
            return data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
        case 2:
            return data[:at] + data[at // 2 : at] + data[at:]
        case 3:
            return data.decode("latin-1").encode("utf-16")
        case _:
            return data[:at] + b'"\\ud800"' + data[at:]
