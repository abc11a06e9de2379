"""The measurement networks with known results, and how they become jobs.

`data/survey_constructed.json`: an invented instrument; expected values by a separate program that shares no code with
this one. `data/survey_networks.json`: worked examples from surveying books, their sources beside them.
"""

import json
from pathlib import Path
from typing import Any, Literal

from geometry.job import Job, Point, Reading, SideHint
from geometry.survey import Network, Row, network_of

DATA = Path(__file__).parent / "data"
NAMES = {
    "NL": "nut.left",
    "NR": "nut.right",
    "EL": "end.left",
    "ER": "end.right",
    "F12L": "fret12.left",
    "F12R": "fret12.right",
}
Case = dict[str, Any]


def cases(file: str) -> dict[str, Case]:
    """The cases of a file by their id."""
    return {case["id"]: case for case in json.loads((DATA / file).read_text(encoding="utf-8"))["cases"]}


CONSTRUCTED = cases("survey_constructed.json")
NETWORKS = cases("survey_networks.json")


def named(point: str) -> str:
    """A case's point under its name in a job."""
    return NAMES.get(point, point)


def reading(observation: list[Any]) -> Reading:
    """A case's observation as a reading."""
    key, kind, points, value, sigma = observation
    a, b, *rest = (named(point) for point in points.split())
    match kind:
        case "distance":
            return Reading(id=key, kind="distance", of=(a, b), value=value, sigma=sigma)
        case "offset":
            side: Literal["left", "right"] = "left" if value >= 0 else "right"
            return Reading(id=key, kind="off", of=(rest[0],), from_=(a, b), side=side, value=abs(value), sigma=sigma)
        case "station":
            return Reading(id=key, kind="along", of=(rest[0],), from_=(a, b), value=value, sigma=sigma)
        case "width":
            return Reading(id=key, kind="across", of=(rest[0], rest[1]), from_=(a, b), value=value, sigma=sigma)
        case "collinear":
            return Reading(id=key, kind="inline", of=(rest[0],), from_=(a, b), sigma=sigma)
        case _:
            return Reading(id=key, kind="same", of=(a, b, rest[0], rest[1]), sigma=sigma)


def job(case: Case, sketch: bool = False, hints: bool = True) -> Job:
    """A constructed case as a job, with or without the rough places and the side hints that it gives."""
    points = {}
    for name, near in case["sketch"].items():
        sides = [
            SideHint(of=(named(of.split()[0]), named(of.split()[1])), is_=side)
            for point, side, of in case["hints"]
            if point == name and hints
        ]
        points[named(name)] = Point(near=(near[0], near[1]) if sketch and near else None, side=tuple(sides))
    return Job(points=points, readings=tuple(reading(observation) for observation in case["observations"]))


def turned_about(case: Case) -> dict[str, int]:
    """−1 for observations whose sign a reading gives as a side: their residual changes sign with it."""
    return {key: -1 if kind == "offset" and value < 0 else 1 for key, kind, _, value, _ in case["observations"]}


def network(case: Case) -> Network:
    """A book's network of distances, in its own unit."""
    return network_of([Row(key, "distance", (a, b), value, sigma) for key, a, b, value, sigma in case["observations"]])
