"""What is drilled by measure besides a bridge's pin holes: markers along the neck, and the holes of a tie block, on the
campaign's own instruments. A marker truly belongs midway between two frets, on the board's edge or on its middle; a
tie block's hole where the string's path comes to the block's front face.
"""

from cmath import rect
from math import atan
from zlib import crc32

import numpy as np
from msgspec.structs import replace

from geometry.job import Job, TieBlock
from geometry.job.neck.hardware import FaceMarkers, Hardware, Markers, SideMarkers
from geometry.layout import Marker
from geometry.units import mm
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.cases import LISTS
from tests.campaign.invented.crooked import BY_HAND, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import (
    Instrument,
    Neck,
    break_points,
    meet,
    neck_of,
    outer_paths,
    through,
)
from tests.campaign.invented.trials import job_of, list_for
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

FRETS = (1, 5, 12)
"""Which frets have markers: at the first only half of the nut's shift moves them."""
MARKERS = Markers(side=SideMarkers(frets=FRETS, twice=()), face=FaceMarkers(frets=FRETS, twice=()))
BLOCK = TieBlock()


def try_one(seed: int, index: int, manner: Manner = AS_STATED) -> dict[str, Figure]:
    """One instrument with markers and a tie block, read with each measuring list in turn; the same seed and index give
    the same.
    """
    random = np.random.default_rng([seed, crc32(b"drilled"), index])
    instrument = drawn(random, BY_HAND)
    asked = list_for(LISTS[index % len(LISTS)], instrument, inch=False)
    read = written(asked.readings, take(asked.readings, instrument, Errors(random, manner)))
    job = job_of(instrument, asked, read, inch=False, declared=False)
    stations = ("nut", "fret12", "end") if "fret12.left" in asked.points else ("nut", "end")
    neck = neck_of(instrument.points, stations)
    found = _markers(job, instrument, neck)
    return found | _ties(job, instrument, neck)


def _markers(job: Job, instrument: Instrument, neck: Neck) -> dict[str, Figure]:
    placed = places_of(replace(job, hardware=Hardware(markers=MARKERS))).hardware
    sides = _fret_ends(instrument, neck)
    bass = 0 if instrument.hand == "left" else 1
    found = {}
    for at, fret in enumerate(FRETS):
        middles = [(ends[fret - 1] + ends[fret]) / 2 for ends in sides]
        along_edge = abs(middles[bass] - sides[bass][0])
        along_neck = (sum(middles) / 2).real
        for where, markers, true in (("edge", placed.side, along_edge), ("face", placed.face, along_neck)):
            if markers:
                found[f"a marker in the {where} before fret {fret}"] = _off(markers[at], true)
    return found


def _off(marker: Marker, true: float) -> Figure:
    return Figure(marker.along - true, marker.pm95)


def _fret_ends(instrument: Instrument, neck: Neck) -> list[list[complex]]:
    """Where the nut and the frets end on the board's edges [left, right], in the neck's frame."""
    paths = outer_paths(instrument, neck)
    found = []
    for side in ("left", "right"):
        nut, end = (neck.see(instrument.points[f"{at}.{side}"]) for at in ("nut", "end"))
        ends = [nut]
        for fret in range(1, max(FRETS) + 1):
            places = [start + way * instrument.fret(fret, i) for i, (start, way) in enumerate(paths)]
            ends.append(meet(through(places[0], places[1]), through(nut, end)))
        found.append(ends)
    return found


def _ties(job: Job, instrument: Instrument, neck: Neck) -> dict[str, Figure]:
    """The outer holes along the neck; stated is the widest ± of all. Across they lie by typed spreads."""
    assert job.bridge is not None
    plan = places_of(replace(job, bridge=replace(job.bridge, pins=None, tie=BLOCK))).bridge
    if plan is None or plan.tie is None:
        return {}
    true = _enters(instrument, neck)
    treble, bass = plan.tie.holes[0], plan.tie.holes[-1]
    along = plan.tie.pm95[0]
    return {
        "the treble string’s hole in a tie block": Figure(treble.front[0] - true[0].real, along),
        "the bass string’s hole in a tie block": Figure(bass.front[0] - true[-1].real, along),
    }


def _enters(instrument: Instrument, neck: Neck) -> list[complex]:
    """Where the strings truly come to the block's front face, treble to bass."""
    paths = outer_paths(instrument, neck)
    ends = [start + way * far for (start, way), far in zip(paths, instrument.nominal, strict=True)]
    broken = break_points(instrument, neck, through(ends[1], ends[0]))
    y = [point.imag for point in broken]
    lean, reach = np.polyfit(y, [point.real for point in broken], 1).tolist()
    middle = (max(y) + min(y)) / 2
    seat, square = instrument.seat, rect(1, -atan(lean))
    slot = complex(reach + lean * middle, middle) - square * seat.peak_at * seat.thickness
    back = 1 if seat.square else square
    face = slot + back * ((square / back).real * seat.thickness + mm(BLOCK.behind_slot))
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    strung, way = instrument.strung, 1 if instrument.hand == "right" else -1
    found = []
    for i, stop in enumerate(broken):
        across = way * (0.5 - i / (strung.count - 1))
        start = meet(nut, (1j, across * strung.nut_spread + strung.shift))
        found.append(meet(through(start, stop), through(face, face + 1j * back)))
    return found


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many instruments; one figure of each sort a job."""
    return Found(figures=by_name(try_one(seed, index, manner) for index in range(count)))
