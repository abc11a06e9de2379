"""The **limits** of what is typed: where, as one number of a job grows, what is told changes in more than its numbers.

`python -m tests.pinned.limits` looks for them: it goes through each number of a few jobs in steps, and where the
sentences change it halves the step until the limit is found. One that lies on a round number is that number.
"""

import sys
from collections.abc import Iterator
from itertools import pairwise
from typing import Any, NamedTuple

import msgspec

from geometry.job import NotAJob
from tests.pinned import changes, jobs, kept
from tests.pinned.jobs import Path

FILE = "limits"
STEPS = (
    0.02,
    0.05,
    0.1,
    0.2,
    0.35,
    0.5,
    0.65,
    0.8,
    0.9,
    0.95,
    1.0,
    1.05,
    1.1,
    1.2,
    1.4,
    1.7,
    2.2,
    3.0,
    5.0,
    8.0,
    15.0,
    40.0,
)
"""Times of what a number is, at which it is looked for changes."""
OTHERWISE = (-70.0, -20.0, -6.0, -2.0, -1.0, -0.5, -0.1, 0.0, 0.1, 0.5, 1.0, 2.0, 6.0, 20.0, 70.0)
"""And where it is nothing now."""
FINE = 1e-9
ASIDE = 1e-4
"""How far on either side of a limit the sentences are held, of its size."""
REFUSED = "refused"
MOST = 8
"""So many limits of a number are kept, from the first."""
NUMBERS: dict[str, tuple[str, ...]] = {
    "leaning-neck": (
        "frets.scale 648",
        "strings.a4 440",
        "strings.nut.spread",
        "strings.saddle.spread",
        "strings.shift",
        "strings.relief",
        "strings.press_behind",
        "strings.nut_compensation",
        "saddle.thickness 3",
        "saddle.peak_at 0.5",
        "saddle.slot_length",
        "saddle.slot_depth 6",
        "bridge.length",
        "bridge.width",
        "bridge.belly_depth",
        "bridge.thickness 9",
        "bridge.front_to_slot 9",
        "bridge.pins.behind_slot",
        "bridge.pins.diameter 5",
        "bridge.pins.small_end 4.6",
        "bridge.moved.along 0",
        "bridge.moved.across 0",
        "bridge.moved.turn 0",
        "bridge.slot_front.left 8 bridge.slot_front.right 8",
        "strings.height.nut 1 strings.height.saddle 4",
        "strings.height.saddle 4 strings.height.nut 1",
        "strings.list.5.core 0.4",
        "strings.list.0.diameter",
        "bridge.wing_length 30 bridge.outline tapered+wings",
        "bridge.belly_depth 8 bridge.outline reversed+belly",
        "frets.count 20",
        "choice.along 3",
        "choice.across 2",
        "choice.turn 1",
        "choice.cents 2",
        "choice.within 1",
        "choice.weights.scar 1",
        "sheets.margin 8",
        "sheets.ledge 0.8",
        "sheets.kerf 0.1",
        "sheets.cutter 3",
        "sheets.edge 8",
        "sheets.pilot 1",
    ),
    "tie-bridge": ("bridge.length", "bridge.width", "saddle.slot_length", "strings.saddle.spread"),
    "small-four": (
        "strings.list.0.diameter",
        "strings.list.1.stretch_ratio 20",
        "strings.list.2.kg_per_m 0.001",
        "strings.list.3.core 0.4",
    ),
    "bolted-left": (
        "old.pins.pin.1.diameter",
        "old.metal.metal.1.keep_out 6",
        "old.holes.hole.1.diameter",
        "old.holes.hole.1.depth 3",
        "old.braces.1.width",
        "bridge.moved.along 0",
        "bridge.moved.across 0",
        "bridge.pins.behind_slot",
        "bridge.width",
    ),
    "redrilled-left": (
        "hardware.headstock.thickness",
        "hardware.headstock.posts.post.1.diameter",
        "hardware.tuners.bushing",
        "hardware.tuners.post 6.35",
        "hardware.tuners.spacing 35",
        "hardware.tuners.from_middle 24",
        "hardware.markers.side.below 3",
        "hardware.markers.side.diameter 2",
        "hardware.markers.side.apart 6",
        "hardware.markers.face.diameter 6",
        "hardware.markers.face.apart 22",
        "hardware.markers.side.deep 3",
        "hardware.markers.face.deep 1.5",
        "hardware.tuners.bushing_deep 6",
        "hardware.tuners.plate.past 9",
        "hardware.tuners.plate.wide 14",
        "hardware.tuners.plate.inner 5",
        "hardware.tuners.plate.screw_hole 1.5",
        "hardware.headstock.screws.screw.1.diameter",
        "hardware.headstock.screws.screw.1.depth",
    ),
    "slotted-neck-screw": (
        "hardware.headstock.thickness",
        "hardware.tuners.roller",
        "hardware.tuners.spacing 35",
        "hardware.holes.0.diameter",
        "hardware.holes.0.plug",
        "hardware.holes.0.depth 20",
    ),
    "full": ("bridge.front_to_slot", "saddle.slot_depth", "strings.heard.0.cents", "bridge.moved.turn"),
}
"""The numbers by job; one that a job does not have is put there, and what it needs beside it stands behind it."""
HEIGHTS = ("leaning-neck", "small-askew")
"""Jobs whose readings of heights are gone through as well."""
READ = ("r1", "r2", "r3", "r5", "r7", "r12", "r19", "r25", "r27", "r35", "r37", "r44", "r46", "r48")
"""Readings of the first job that are too: widths, lengths, frets, the seam, the old footprint."""
NEARBY = (0.9, 0.97, 0.99, 0.996, 1.0, 1.004, 1.01, 1.03, 1.1)
"""Times of what these are."""


class Limit(NamedTuple):
    """Where, and what is told only below it and only above; `at` says what is told on the limit itself, where it is
    round: `below` or `above`, or `alone` where that is neither.
    """

    value: float
    at: str
    below: list[str]
    above: list[str]


def told(name: str, path: Path, beside: tuple[tuple[Path, Any], ...], value: float) -> list[str]:
    """The sentences for a number as forms; the refusal, where there can be no such job."""
    try:
        job = jobs.made(jobs.change(jobs.plain(name), *beside, (path, value)))
    except (msgspec.ValidationError, NotAJob) as refused:
        return [REFUSED, changes.without_digits(str(refused))]
    return sorted({changes.without_digits(one) for one in changes.sentences(job, jobs.laid_out(name, job))})


def differ(below: list[str], above: list[str]) -> tuple[list[str], list[str]]:
    """What is told only below, and only above; of a job that is refused on one side only the refusal."""
    if REFUSED in (below[0], above[0]):
        return _refusal(below), _refusal(above)
    return [one for one in below if one not in above], [one for one in above if one not in below]


def _refusal(side: list[str]) -> list[str]:
    return side[1:] if side[0] == REFUSED else []


def at_limit(here: list[str], below: list[str], above: list[str]) -> str:
    return "below" if here == below else "above" if here == above else "alone"


def aside(value: float) -> float:
    return ASIDE * max(abs(value), 0.1)


def rounded(value: float) -> float | None:
    """The round number that a limit lies on, if it does."""
    for places in range(5):
        if abs(round(value, places) - value) < 10 * FINE * max(1.0, abs(value)):
            return round(value, places)
    return None


def find(name: str, path: Path, beside: tuple[tuple[Path, Any], ...], values: list[float]) -> Iterator[Limit]:
    """The limits between these values."""
    known = {value: told(name, path, beside, value) for value in values}
    for low, high in pairwise(values):
        if known[low] != known[high]:
            yield _between(name, path, beside, (low, known[low]), high)


def _between(
    name: str, path: Path, beside: tuple[tuple[Path, Any], ...], low: tuple[float, list[str]], high: float
) -> Limit:
    """One limit between two values, the first to be met by halving."""
    bottom, before = low
    while high - bottom > FINE * max(1.0, abs(high)):
        middle = (bottom + high) / 2
        if told(name, path, beside, middle) == before:
            bottom = middle
        else:
            high = middle
    round_ = rounded(high)
    value = round_ if round_ is not None else float(f"{high:.9g}")
    below, above = (told(name, path, beside, value + off) for off in (-aside(value), aside(value)))
    at = at_limit(told(name, path, beside, value), below, above) if round_ is not None else ""
    return Limit(value, at, *differ(below, above))


def numbers() -> Iterator[tuple[str, str, Path, tuple[tuple[Path, Any], ...], list[float]]]:
    """Each number that is gone through: of which job, its name and path, what stands beside it, and its steps."""
    for name, paths in NUMBERS.items():
        for called in paths:
            first, *rest = called.split()
            path = jobs.path_of(first)
            given = [float(rest[0])] if rest else []
            beside = tuple((jobs.path_of(a), _value(b)) for a, b in zip(rest[1::2], rest[2::2], strict=True))
            yield name, called, path, beside, _steps(_now(jobs.plain(name), path, given))
    for name in HEIGHTS:
        for at, reading in enumerate(jobs.plain(name)["readings"]):
            if reading["kind"] == "height":
                path = ("readings", at, "value")
                yield name, f"{reading['at']}, {reading['on']}", path, (), _steps(float(reading["value"]))
    for at, reading in enumerate(jobs.plain(HEIGHTS[0])["readings"]):
        if reading["id"] in READ:
            yield HEIGHTS[0], reading["id"], ("readings", at, "value"), (), [reading["value"] * by for by in NEARBY]


def _value(text: str) -> float | str:
    return float(text) if text[0].isdigit() else text.replace("+", " ")


def _now(what: Any, path: Path, given: list[float]) -> float:
    if given:
        return given[0]
    for step in path:
        what = what.get(step, 0.0) if isinstance(what, dict) else what[step]
    return jobs.in_mm(what)


def _steps(now: float) -> list[float]:
    return [now * step for step in STEPS] if now else list(OTHERWISE)


def main() -> None:
    """Look for all limits, and keep them."""
    found = dict[str, Any]()
    for name, called, path, beside, values in numbers():
        for at, limit in enumerate(list(find(name, path, beside, values))[:MOST], 1):
            if limit.below or limit.above:
                found[f"{name}, {called} | {at}"] = list(limit)
        sys.stdout.write(f"{name}, {called}: {sum(one.startswith(f'{name}, {called} |') for one in found)}\n")
        sys.stdout.flush()
    kept.write(FILE, found)


if __name__ == "__main__":
    main()
