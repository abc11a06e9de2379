"""Golden drawings: what other software reads in our files, held against what it read when they were last looked at.

Set OFFSQUARE_RECORD_GOLDEN=1 and run the tests to record again; then look at every page before committing.
"""

import json
import os
from pathlib import Path as File

from geometry.layout import XY
from tests.export.readers import Item

FOLDER = File(__file__).parent / "golden"
NEAR = 0.002
"""How far a point may have moved, mm: the files hold four decimals, the readers singles."""
RECORD = os.environ.get("OFFSQUARE_RECORD_GOLDEN") == "1"

Plain = list[list[object]]


def plain(items: list[Item]) -> Plain:
    """Items as they are kept: where, closed, line width, points to a thousandth."""
    return [
        [item.where, item.closed, round(item.width, 2), [[round(x, 3), round(y, 3)] for x, y in item.points]]
        for item in items
    ]


def differences(name: str, items: list[Item]) -> list[str]:
    """How the items differ from the golden ones of that name; records them instead when asked to."""
    file = FOLDER / f"{name}.json"
    found = plain(items)
    if RECORD:
        FOLDER.mkdir(exist_ok=True)
        file.write_text("[\n" + ",\n".join(json.dumps(item) for item in found) + "\n]\n", encoding="utf-8")
        return []
    wanted: Plain = json.loads(file.read_text(encoding="utf-8"))
    if len(found) != len(wanted):
        return [f"{len(found)} items, {len(wanted)} before"]
    return [f"item {k}: {a} was {b}" for k, (a, b) in enumerate(zip(found, wanted, strict=True)) if not _alike(a, b)]


def _alike(a: list[object], b: list[object]) -> bool:
    points, others = _points(a), _points(b)
    return (
        a[:3] == b[:3]
        and len(points) == len(others)
        and all(abs(p[i] - q[i]) <= NEAR for p, q in zip(points, others, strict=True) for i in (0, 1))
    )


def _points(item: list[object]) -> list[XY]:
    points = item[3]
    assert isinstance(points, list)
    return [(float(x), float(y)) for x, y in points]
