"""What follows from each change to a job: a choice made otherwise, a size outside the usual, a block or a reading left
out, a reading that is misread. Each comes with the sentences that come and go and the numbers that change.
"""

from typing import Any

import pytest

from tests.export.golden_drawings import RECORD
from tests.pinned import changes, jobs, kept
from tests.pinned.changes import GONE

NEAR = 1e-7
"""How far a sum may stand from the one that was kept, of its own size."""

VALUES: dict[str, dict[str, tuple[Any, ...]]] = {
    "leaning-neck": {
        "hand": ("left",),
        "unit": ("in", "cm"),
        "board.edge": ("inside",),
        "board.centre": ("nut to fret 12", "midpoints", "threads"),
        "board.zero_fret": (True,),
        "board.end": ("rounded", "raised", "undercut", "flush"),
        "frets.count": (5, 12, 26, 36),
        "frets.spacing": ("eighteen", "measured"),
        "frets.nominal": ("best",),
        "frets.scale": (600, 648, 660),
        "frets.slanted": (True,),
        "strings": (GONE,),
        "strings.list": ([],),
        "strings.a4": (415, 500),
        "strings.nut": (GONE,),
        "strings.nut.spread": (20, 36, 44, 60),
        "strings.nut.spacing": ("centres", "gaps"),
        "strings.saddle": (GONE,),
        "strings.saddle.spread": (20, 70, 110),
        "strings.saddle.spacing": ("gaps",),
        "strings.shift": (-3, 5),
        "strings.height": ({"nut": 0.5, "saddle": 4}, {"nut": 4.5, "saddle": 25}),
        "strings.action": ({"fret1": [0.5, 0.4], "fret12": [9, 2]}, {"fret1": [None, 3], "fret12": [0.4, None]}),
        "strings.relief": (0.3, 1.5),
        "strings.press_behind": (6, 24),
        "strings.compensation": ([1, 2, 3, 1, 2, 4], [4, 3, 2, 2, 1, 1], [-5, 2, 2, 2, 2, 20]),
        "strings.nut_compensation": (0.5, "worked out", [0, 0.2, 0.4, 0.1, 0.3, 1.8], -2),
        "strings.weights": ({"1": 3, "7": 1}, {"12": 0}),
        "saddle": (GONE,),
        "saddle.thickness": (1, 2, 6, 9),
        "saddle.peak_at": (0, 0.2, 1),
        "saddle.slot_length": (GONE, 40, 54, 55.5, 58, 90, 150),
        "saddle.slot_depth": (1.5, 6, 9, 20),
        "saddle.straight": (True,),
        "bridge": (GONE,),
        "bridge.outline": ("straight", "reversed belly", "stepped wings", "tapered wings", "pyramid", "traced"),
        "bridge.length": (40, 60, 120, 240),
        "bridge.width": (7, 12, 20, 40, 70),
        "bridge.belly_depth": (0, 5, 25, 35, 60),
        "bridge.thickness": (5, 9, [10, 8], [None, 20]),
        "bridge.seat": ("with slot", "old footprint"),
        "bridge.slot_front": ({"left": 7, "right": 9}, {"left": 9, "right": 7}, {"left": 1, "right": 24}),
        "bridge.front_to_slot": (0, 6, 20, 30),
        "bridge.moved": (
            {"along": 2},
            {"across": -3},
            {"turn": 2, "slot": "goes along"},
            {"along": -20, "across": 12, "turn": -6},
            {"along": 1, "slot": "goes along"},
        ),
        "bridge.wing_length": (10, 40, 75, 80),
        "bridge.pins": (GONE,),
        "bridge.pins.behind_slot": (1, 3, 12, 30),
        "bridge.pins.row": ("bridge",),
        "bridge.pins.diameter": (2, 4, 9),
        "bridge.pins.small_end": (4.5, 6),
        "old": (GONE,),
    },
    "small-four": {
        "hand": ("left",),
        "strings.list.0.material": ("steel", "gut", "fluorocarbon", "silk and steel"),
        "strings.list.3.build": ("wound", "plain"),
        "strings.list.0.diameter": (GONE, 0.1, 0.3, 2.5, 4, "0.5 in", 12, 0.01),
        "strings.list.0.pitch": (GONE, "A3", "A6", "H4", "440 Hz"),
        "strings.list.0.course": (2,),
        "strings.list.1.stretch_ratio": (1, 4, 60, 900),
        "strings.list.2.kg_per_m": (0.0001, 0.0009, 0.05),
        "strings.list.3.core": (0.3, 2.9),
        "strings.list.1.name": ("1",),
        "frets.count": (12,),
        "bridge.moved": ({"along": 1.5, "across": 1.0, "turn": -1.0},),
    },
    "tie-bridge": {
        "strings.list.5.build": ("plain",),
        "strings.list.5.core": (0.2, 0.8),
        "strings.list.2.diameter": (0.7, 1.4),
        "strings.list.2.material": ("gut", "fluorocarbon", "steel"),
        "strings.action": ({"fret1": [0.7, 0.6], "fret12": [4.2, 3.4]}, {"fret1": [0.7, 0.6], "fret12": [3, 5]}),
        "saddle.straight": (True, False),
        "bridge.pins": ({"diameter": 3, "behind_slot": 4},),
        "unit": ("in",),
    },
    "turned-left-old-slot": {
        "bridge.seat": ("with slot",),
        "bridge.slot_front": (GONE, {"left": 10, "right": 6}, {"left": 7, "right": 7}),
        "bridge.moved": ({"along": 1.0, "turn": 0.7}, {"across": 2.0, "slot": "goes along"}),
        "saddle.thickness": (3.2, 5),
        "unit": ("mm",),
        "hand": ("right",),
    },
    "bolted-left": {
        "hand": ("right",),
        "unit": ("in",),
        "bridge.length": (120, 140, 170, 200),
        "bridge.width": (20, 24, 34),
        "bridge.outline": ("straight", "reversed belly", "stepped wings", "tapered wings", "pyramid"),
        "bridge.belly_depth": (2, 20),
        "bridge.seat": ("old footprint",),
        "bridge.moved": (
            {"along": -4},
            {"along": 5},
            {"across": 9},
            {"turn": 3},
            {"along": 2, "across": 2, "turn": -4},
        ),
        "bridge.pins": (GONE,),
        "bridge.pins.behind_slot": (3, 9, 20),
        "bridge.pins.diameter": (3, 7),
        "old.outline": (GONE, ["old.1", "old.2", "old.3"], ["old.1", "old.3", "old.2", "old.4"]),
        "old.pins": (GONE,),
        "old.pins.pin.1.diameter": (2, 9, 20),
        "old.row": (GONE, 2, 5, 12),
        "old.metal": (GONE,),
        "old.metal.metal.1.keep_out": (0, 3, 12, 25),
        "old.holes": (GONE,),
        "old.holes.hole.1.diameter": (1, 8, 30),
        "old.holes.hole.1.depth": (2, 20),
        "old.slot": ({"of": ["pin.1", "pin.6"]}, {"of": ["metal.1", "metal.2"], "width": 6}),
        "old.bare": (GONE,),
        "old.areas": (GONE,),
        "old.areas.1.what": ("damaged",),
        "old.plate": (GONE,),
        "old.braces": (GONE,),
        "old.braces.1.width": (3, 20, 45),
        "old.braces.2.width": (15,),
        "strings.saddle.spread": (40, 66),
        "saddle.slot_length": (60, 120),
        "bridge.thickness": (6, 12),
    },
    "slotted-neck-screw": {
        "hand": ("left",),
        "hardware.headstock": (GONE,),
        "hardware.tuners": (GONE,),
        "hardware.headstock.thickness": (GONE, 8, 30),
        "hardware.tuners.spacing": (20, 33, 37, 45),
        "hardware.tuners.roller": (GONE, 6, 14),
        "hardware.tuners.post": (3, 10, 14),
        "hardware.tuners.keep": ("first post", "middle post", "most old holes", "least wood"),
        "hardware.tuners.plate": (GONE, {"past": 40, "wide": 30}),
        "hardware.tuners.left": ([2], [1, 1, 1], []),
        "hardware.markers": (GONE, {"face": {}}, {"side": {"side": "treble"}}),
        "hardware.holes.0.diameter": (2, 9, 60),
        "hardware.holes.0.plug": (5, 8, 30),
    },
    "redrilled-left": {
        "hand": ("right",),
        "unit": ("in",),
        "hardware.headstock.middle": ("edges", "points"),
        "hardware.headstock.edges": ([["head.2", "head.3"], ["head.5", "head.4"]],),
        "hardware.headstock.outline": (GONE, ["head.1", "head.3", "head.4", "head.6"]),
        "hardware.headstock.posts": (GONE,),
        "hardware.headstock.screws": (GONE,),
        "hardware.headstock.thickness": (5, 40),
        "hardware.headstock.posts.post.1.diameter": (3, 6, 8.75, 9.3, 14),
        "hardware.headstock.posts.post.2.depth": (5,),
        "hardware.tuners.bushing": (GONE, 6, 9, 12),
        "hardware.tuners.post": (5, 9),
        "hardware.tuners.spacing": (24, 33, 38.4, 44),
        "hardware.tuners.keep": ("first post", "middle post", "most old holes", "least wood"),
        "hardware.tuners.from_middle": (10, 20, 28, 40),
        "hardware.tuners.left": ([4], [1, 1, 1], [2, 1], []),
        "hardware.tuners.right": ([2], []),
        "hardware.tuners.plate": ({"screws": [[-5, -6], [76, -6]]}, {"past": 30, "wide": 20, "inner": 12}),
        "hardware.markers": (
            GONE,
            {"face": {}},
            {"side": {"frets": [1, 2, 19], "twice": [19]}},
            {"side": {"side": "treble", "diameter": 5, "below": 2.6, "apart": 20}},
            {"face": {"frets": [12, 19], "twice": [12, 19], "apart": 40, "diameter": 12}},
        ),
    },
    "full": {
        "strings.heard": (GONE, [{"string": "3", "cents": 9, "trial": "1", "fret": 7, "against": "open"}]),
        "strings.replaces": (GONE, []),
        "strings.compensation": ([1, 2, 3, 1, 2, 4],),
        "bridge.moved": (GONE, {"turn": 1, "slot": "goes along"}),
        "bridge.front_to_slot": (5, 16),
        "saddle.slot_depth": (4, 8.5),
        "bridge.thickness": ([7, 7], [None, 9]),
        "strings.nut.pair": (3,),
        "choice.along": (0.5,),
        "frets.spacing": ("eighteen", "measured"),
        "strings.action": (GONE, {"fret1": [0.7, None], "fret12": [2.6, 7]}),
    },
}
"""What is put in place of what a job has, by job and by path."""

ONE_BY_ONE = [
    (name, path, value) for name, paths in VALUES.items() for path, values in paths.items() for value in values
]
STRUCK, MISREAD = ("small-four", "tie-bridge"), ("leaning-neck", "one-slip")
"""Jobs whose readings are each struck out, and each misread."""


def called(path: str, value: Any) -> str:
    """What a change is called in the file."""
    return f"{path} {value}".replace(": ", " ")


@pytest.mark.parametrize(
    ("name", "path", "value"), ONE_BY_ONE, ids=[f"{name}, {called(path, value)}" for name, path, value in ONE_BY_ONE]
)
def test_a_change(name: str, path: str, value: Any) -> None:
    found = changes.follows(name, (jobs.path_of(path), value))
    assert kept.differences_of(f"changes/{name}", called(path, value), found, NEAR) == []


READINGS = [(name, at) for name in (*STRUCK, *MISREAD) for _, at in changes.each_reading(name)]


@pytest.mark.parametrize(("name", "at"), READINGS)
def test_a_reading(name: str, at: int) -> None:
    """Struck out in some jobs, misread in others."""
    struck: tuple[jobs.Path, Any] = ("readings", at, "struck"), True
    changed = struck if name in STRUCK else changes.misread(jobs.plain(name), at)
    found = changes.follows(name, changed)
    assert kept.differences_of(f"readings/{name}", f"r{at + 1} {changed[0][-1]}", found, NEAR) == []


@pytest.mark.skipif(RECORD, reason="recording")
@pytest.mark.parametrize("name", VALUES)
def test_nothing_is_kept_of_changes_that_are_not_made(name: str) -> None:
    made = {called(path, value) for of, path, value in ONE_BY_ONE if of == name}
    assert set(kept.names_in(f"changes/{name}")) <= made


@pytest.mark.skipif(RECORD, reason="recording")
def test_a_number_that_moves_by_a_hundredth_is_seen() -> None:
    found = changes.follows("tie-bridge", (("strings", "list", 5, "core"), 0.2))
    count, weighted = found["strings"]
    changed = found | {"strings": [count, weighted + 0.01]}
    assert len(kept.differences_of("changes/tie-bridge", "strings.list.5.core 0.2", changed, NEAR)) == 1
