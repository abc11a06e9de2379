"""A job in which nearly every field says something: the left-handed sample with bolts, brace and plate, the headstock
of another, a trial saddle, and what may be said of each. All figures are invented, near what is usual (common practice,
no source).
"""

import copy
import json
from typing import Any

from app.file import samples

HEAD = ("head.", "post.", "screw.")
TRIAL = (
    ("along", "left", None, 645),
    ("off", "left", "left", 7),
    ("along", "right", None, 644),
    ("off", "right", "right", 7),
)
"""How the ends of the trial saddle were read from the board's edges: kind, edge, side and mm."""


def fullest() -> dict[str, Any]:
    """What its file would hold."""
    found, other = _sample("bolted-left"), _sample("redrilled-left")
    found["points"] |= {name: at for name, at in other["points"].items() if name.startswith(HEAD)}
    found["points"] |= {f"trial.1.{side}": {} for side in ("left", "right")} | {"strap": {"near": [-20, 0]}}
    found["readings"] += [
        reading | {"id": f"h{reading['id']}"}
        for reading in other["readings"]
        if any(name.startswith(HEAD) for name in reading.get("of", ()))
    ]
    for number, (kind, edge, side, value) in enumerate(TRIAL):
        reading = {"id": f"t{number}", "kind": kind, "of": [f"trial.1.{edge}"], "value": value}
        reading["from"] = [f"nut.{edge}", f"end.{edge}"]
        found["readings"].append(reading | ({"side": side} if side else {}))
    found["readings"][0]["value"] = 44.1  # the other headstock's nut
    found["board"] = {"edge": "inside", "centre": "bisector", "end": "rounded", "radius": [300, 400]}
    found["nut"] = {"height": 8, "bed": [5, 4.8], "fret_height": 1.0, "over_fret1": [0.4, 0.6]}
    _full_strings(found["strings"])
    found["saddle"] |= {"thickness": 3.0, "peak_at": 0.5, "slot_depth": 6.0}
    found["bridge"] |= {"thickness": [9.0, 8.8], "front_to_slot": 9.0}
    found["bridge"] |= {"moved": {"along": 0.4, "across": -0.3, "turn": 0.2}}
    found["bridge"]["pins"] |= {"small_end": 4.6}
    found["old"] |= {"slot": {"of": ["pin.1", "pin.6"], "width": 3.2}}
    found["choice"] = {"along": 2.0, "across": 1.5, "turn": 0.8, "weights": {"scar": 2.0}}
    found["hardware"] = copy.deepcopy(other["hardware"])
    found["hardware"]["markers"] = {"side": {"frets": [3, 5, 7, 9, 12, 15]}, "face": {"frets": [3, 5, 7, 12]}}
    found["hardware"]["holes"] = [
        {"where": "heel, strap pin", "diameter": 6.5, "depth": 20, "holds": "a screw", "plug": 8, "grain": "end"},
        {"where": "rim", "point": "strap", "diameter": 4.0, "reach": True, "note": "a wire runs under it"},
    ]
    found["sheets"] = {"paper": "A3", "kerf": 0.1, "cutter": 3.0, "stock": [400, 220], "turning": True}
    return found


def _sample(name: str) -> dict[str, Any]:
    path = samples.find(name)
    assert path is not None
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def _full_strings(strings: dict[str, Any]) -> None:
    """What was wanted, asked for, heard and on the instrument before."""
    strings |= {
        "action": {"fret1": [0.7, 0.5], "fret12": [2.6, 2.0]},
        "relief": 0.2,
        "press_behind": 8.0,
        "shift": 0.4,
        "weights": {"1": 1.0, "12": 2.0},
        "heard": [
            {"string": "1", "cents": 2.0, "trial": "1"},
            {"string": "6", "cents": -3.0, "trial": "1", "fret": 12, "against": "open"},
        ],
        "replaces": copy.deepcopy(strings["list"]),
    }
    for string in strings["replaces"]:
        string["diameter"] = f"{float(string['diameter'].split()[0]) - 0.001:g} in"
