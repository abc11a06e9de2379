"""What is measured and drilled round a glued bridge, on the campaign's own instruments: the distances to check before
the glue, the pin holes, the outer strings' margins to the board's edge, the scale, and how far the nut stands out.

A distance is right as the rule would read it on a bridge where it belongs. Those from the board's end are left out, for
they run over a top that falls away.
"""

from cmath import rect
from collections.abc import Callable
from functools import partial
from math import atan
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.job import Pins
from geometry.job.sides import SIDES
from geometry.layout import XY, Layout
from geometry.units import mm
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.cases import LISTS
from tests.campaign.invented.crooked import BY_HAND, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import (
    SHARE,
    Instrument,
    Line,
    Neck,
    break_points,
    meet,
    neck_of,
    outer_paths,
    through,
)
from tests.campaign.invented.laying import lies
from tests.campaign.invented.trials import job_of, list_for
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """Where it all belongs, in the neck's frame: the paths of the strings from treble to bass, the slot's front and the
    bridge's as their middle and the way tailward, mm.
    """

    paths: tuple[Line, ...]
    slot: tuple[complex, complex]
    front: tuple[complex, complex]


def placed(instrument: Instrument, neck: Neck) -> Placed:
    """Where strings, slot and bridge belong on this instrument."""
    paths = outer_paths(instrument, neck)
    ends = [start + way * far for (start, way), far in zip(paths, instrument.nominal, strict=True)]
    broken = break_points(instrument, neck, through(ends[1], ends[0]))
    y = [point.imag for point in broken]
    lean, reach = np.polyfit(y, [point.real for point in broken], 1).tolist()
    middle, square, seat = (max(y) + min(y)) / 2, rect(1, -atan(lean)), instrument.seat
    slot = complex(reach + lean * middle, middle) - square * seat.peak_at * seat.thickness
    back = 1 + 0j if seat.square else square
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    strung, way = instrument.strung, 1 if instrument.hand == "right" else -1
    across = [way * (0.5 - i / (strung.count - 1)) * strung.nut_spread + strung.shift for i in range(strung.count)]
    return Placed(
        paths=tuple(through(meet(nut, (1j, y)), stop) for y, stop in zip(across, broken, strict=True)),
        slot=(slot, square),
        front=(slot - back * SHARE * seat.width, back),
    )


def try_one(seed: int, index: int, manner: Manner = AS_STATED) -> dict[str, Figure]:
    """One instrument, read with each measuring list in turn; the same seed and index give the same."""
    random = np.random.default_rng([seed, crc32(b"glued"), index])
    instrument = drawn(random, BY_HAND)
    asked = list_for(LISTS[index % len(LISTS)], instrument, inch=False)
    read = written(asked.readings, take(asked.readings, instrument, Errors(random, manner)))
    job = job_of(instrument, asked, read, inch=False, declared=False)
    assert job.bridge is not None
    job = replace(job, bridge=replace(job.bridge, pins=Pins()))
    stations = ("nut", "fret12", "end") if "fret12.left" in asked.points else ("nut", "end")
    neck = neck_of(instrument.points, stations)
    layout, true = places_of(job), placed(instrument, neck)
    if layout.frets is None or layout.bridge is None:
        return {}
    found = {
        "the scale": Figure(layout.frets.scale - instrument.scale[0], layout.frets.scale_pm95),
        "the nut’s shift": Figure(layout.frets.nut_shift - instrument.shift, layout.frets.nut_shift_pm95),
    }
    corners = {at: [neck.see(instrument.points[f"{at}.{side}"]) for side in SIDES] for at in ("nut", "end")}
    found |= _checks(layout, instrument, neck, true, corners)
    on_wood = partial(lies, layout, instrument, stations)
    return found | _pins(layout, true, instrument.seat.thickness, on_wood) | _margins(layout, instrument, true, corners)


def _checks(
    layout: Layout, instrument: Instrument, neck: Neck, true: Placed, corners: dict[str, list[complex]]
) -> dict[str, Figure]:
    """From fret 12 along both edge lines, and from the nut's corners crosswise to the bridge's front corners."""
    stated = {check.code: check for check in layout.checks}
    frets = [start + way * instrument.fret(12, i) for i, (start, way) in enumerate(outer_paths(instrument, neck))]
    hands = ("bass", "treble") if instrument.hand == "left" else ("treble", "bass")
    (front, back), long = true.front, instrument.seat.length
    ends = [front + 1j * back * long / 2, front - 1j * back * long / 2]
    found = {}
    for side, hand in enumerate(hands):
        edge = _edge_line(instrument, neck, SIDES[side])
        start = meet(through(*frets), edge)
        for target, (at, way) in (("slot", true.slot), ("bridge", true.front)):
            check = stated[f"fret12.{target}.{hand}"]
            truly = abs(meet(through(at, at + 1j * way), edge) - start)
            found[f"from fret 12 to the {target}’s front, {hand} edge"] = Figure(check.distance - truly, check.pm95)
        check = stated[f"nut.corner.{hand}"]
        truly = abs(ends[1 - side] - corners["nut"][side])
        found[f"from the nut’s {hand} corner to the bridge’s other one"] = Figure(check.distance - truly, check.pm95)
    return found


def _edge_line(instrument: Instrument, neck: Neck, side: str) -> Line:
    """The edge line of the board on a side: straight here through all its points."""
    nut, end = (neck.see(instrument.points[f"{at}.{side}"]) for at in ("nut", "end"))
    return through(nut, end)


def _pins(layout: Layout, true: Placed, thickness: float, on_wood: Callable[[XY], list[complex]]) -> dict[str, Figure]:
    """The outer pin holes along the neck, where the sheet puts them; the slot is so thick."""
    assert layout.bridge is not None
    at, square = true.slot
    found = {}
    for name, string in (("treble", 0), ("bass", -1)):
        row = at + square * (thickness + mm(Pins().behind_slot))
        truly = meet(true.paths[string], through(row, row + 1j * square))
        hole, pm95 = layout.bridge.pins[string], layout.bridge.pins_pm95[string]
        (drilled,) = on_wood(hole.at)
        found[f"the {name} string’s pin hole"] = Figure(drilled.real - truly.real, pm95[0])
    return found


def _margins(
    layout: Layout, instrument: Instrument, true: Placed, corners: dict[str, list[complex]]
) -> dict[str, Figure]:
    """The outer strings' margins at the nut and at the board's end, on the bass side."""
    assert layout.margins is not None
    side = 0 if instrument.hand == "left" else 1
    found = {}
    for margin in layout.margins.at:
        where = {"nut": "nut", "board end": "end"}.get(margin.place)
        if where is not None and SIDES.index(margin.side) == side:
            left, right = corners[where]
            edge, across = (left, right)[side], (left - right) / abs(left - right)
            string = meet(true.paths[-1], through(right, left))
            truly = ((edge - string) * across.conjugate()).real * (1 if side == 0 else -1)
            found[f"the bass string’s margin at the {margin.place}"] = Figure(margin.mm - truly, margin.pm95)
    return found


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many instruments; one figure of each sort a job."""
    return Found(figures=by_name(try_one(seed, index, manner) for index in range(count)))
