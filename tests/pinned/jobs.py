"""The jobs whose results are pinned: the sample jobs, and a **full** one in which nearly every field says something.

A job is kept here as what its file holds, so that a **change** is a path into it and the value that is put there.
"""

import copy
import json
from functools import lru_cache
from typing import Any

import msgspec

from app.edit import placements
from app.file import samples
from geometry.job import Job
from geometry.layout import Layout
from geometry.survey import survey
from geometry.units import mm
from geometry.work_out import lay_out, surveyed_alike, work_out

Plain = dict[str, Any]
Path = tuple[str | int, ...]
NAMES = tuple(path.name.removesuffix(".job.json") for path in samples.paths())
FULL = "full"
GONE = "gone"
"""Stands where a change takes something out."""


@lru_cache
def plain(name: str) -> Plain:
    """What a job's file holds."""
    return _full() if name == FULL else _sample(name)


def _sample(name: str) -> Plain:
    path = samples.find(name)
    assert path is not None
    found: Plain = json.loads(path.read_text(encoding="utf-8"))
    return found


def made(what: Plain) -> Job:
    """A job of what a file holds; raises what the file would be refused with."""
    return msgspec.convert(what, Job, str_keys=True)


@lru_cache
def job(name: str) -> Job:
    return made(plain(name))


@lru_cache
def layout(name: str) -> Layout:
    return work_out(job(name))


@lru_cache(maxsize=8)
def _surveyed(name: str) -> Any:
    return survey(job(name))


def laid_out(name: str, changed: Job) -> Layout:
    """The layout of a changed job; where the readings are as before they are not solved for again."""
    alike = surveyed_alike(job(name), changed)
    return lay_out(changed, _surveyed(name) if alike else survey(changed))


def change(what: Plain, *changes: tuple[Path, Any]) -> Plain:
    """A copy with other values at these paths; blocks that are not there are begun, and `GONE` takes one out."""
    found = copy.deepcopy(what)
    for path, value in changes:
        at: Any = found
        for step in path[:-1]:
            at = at.setdefault(step, {}) if isinstance(at, dict) else at[step]
        if value == GONE:
            at.pop(path[-1], None)
        else:
            at[path[-1]] = value
    return found


POINTS_OF = ("pins", "metal", "holes", "posts", "screws")
"""Blocks whose parts go by the names of points, in which there is a dot."""


def path_of(dotted: str) -> Path:
    """A path by what it is called: `old.pins.pin.1.diameter`."""
    found: list[str | int] = []
    steps = iter(dotted.split("."))
    for step in steps:
        before = found[-1] if found else ""
        if before in POINTS_OF and step in ("pin", "metal", "hole", "post", "screw"):
            found.append(f"{step}.{next(steps)}")
        else:
            found.append(int(step) if step.isdigit() and before not in ("areas", "braces") else step)
    return tuple(found)


def in_mm(length: object) -> float:
    """A length in mm, however it is typed."""
    assert isinstance(length, int | float | str)
    return mm(length)


HEAD = ("head.", "post.", "screw.")


def _full() -> Plain:
    """The left-handed top with bolts, brace and plate; the headstock of another; and all that may be said of either.

    All figures are made up, near what is usual (common practice, no source).
    """
    found, other = copy.deepcopy(_sample("bolted-left")), _sample("redrilled-left")
    found["points"] |= {name: at for name, at in other["points"].items() if name.startswith(HEAD)}
    found["points"] |= {f"trial.1.{side}": {} for side in ("left", "right")} | {"strap": {"near": [-20, 0]}}
    found["readings"] += [
        reading | {"id": f"h{reading['id']}"}
        for reading in other["readings"]
        if any(name.startswith(HEAD) for name in reading.get("of", ()))
    ]
    found["readings"] += [
        {"id": "t1", "kind": "along", "of": ["trial.1.left"], "from": ["nut.left", "end.left"], "value": 645},
        {
            "id": "t2",
            "kind": "off",
            "of": ["trial.1.left"],
            "from": ["nut.left", "end.left"],
            "side": "left",
            "value": 7,
        },
        {"id": "t3", "kind": "along", "of": ["trial.1.right"], "from": ["nut.right", "end.right"], "value": 644},
        {
            "id": "t4",
            "kind": "off",
            "of": ["trial.1.right"],
            "from": ["nut.right", "end.right"],
            "side": "right",
            "value": 7,
        },
    ]
    found["readings"][0]["value"] = 44.1  # the other headstock's nut
    found["board"] = {"edge": "inside", "centre": "bisector", "end": "rounded"}
    found["frets"] = {"count": 20}
    found["strings"] |= {
        "action": {"fret1": [0.7, 0.5], "fret12": [2.6, 2.0]},
        "relief": 0.2,
        "press_behind": 8.0,
        "shift": 0.4,
        "weights": {"1": 1.0, "12": 2.0},
        "heard": [
            {"string": "1", "cents": 2.0, "trial": "1"},
            {"string": "6", "cents": -3.0, "trial": "1", "fret": 12, "against": "open"},
        ],
        "replaces": copy.deepcopy(found["strings"]["list"]),
    }
    for string in found["strings"]["replaces"]:
        string["diameter"] = f"{float(string['diameter'].split()[0]) - 0.001:g} in"
    found["saddle"] |= {"thickness": 3.0, "peak_at": 0.5, "slot_depth": 6.0}
    found["bridge"] |= {
        "thickness": [9.0, 8.8],
        "front_to_slot": 9.0,
        "moved": {"along": 0.4, "across": -0.3, "turn": 0.2},
    }
    found["bridge"]["pins"] |= {"small_end": 4.6}
    found["old"] |= {"slot": {"of": ["pin.1", "pin.6"], "width": 3.2}}
    found["choice"] = {"along": 2.0, "across": 1.5, "turn": 0.8, "weights": {"scar": 2.0}}
    found["hardware"] = copy.deepcopy(other["hardware"])
    found["hardware"]["markers"] = {"side": {"frets": [3, 5, 7, 9, 12, 15]}, "face": {"frets": [3, 5, 7, 12]}}
    found["hardware"]["holes"] = [
        {"where": "heel, strap pin", "diameter": 6.5, "depth": 20, "holds": "a screw", "plug": 8, "grain": "end"},
        {"where": "rim", "point": "hole.1", "diameter": 4.0, "reach": True, "note": "a wire runs under it"},
    ]
    found["sheets"] = {"paper": "A3", "kerf": 0.1, "cutter": 3.0, "stock": [400, 220], "turning": True}
    found["sheets"]["templates"] = ["placement", "bridge", "plate", "nut-slots"]
    found["kept"] = [msgspec.to_builtins(_kept(made(found)), str_keys=True)]
    found["bridge"]["moved"]["along"] = 0.9
    return found


def _kept(job: Job) -> Any:
    """The placement as it lies, kept for comparison."""
    return placements.keep(job, work_out(job), "2026-11-28").kept[0]
