"""Invented bridges, clamped rightly and wrongly on invented instruments: what the proof says of each.

The geometry is the campaign's own. The sheet is laid to the true board's end and between the true edges; where the
bridge then is follows from the fault. The hand, its rule and its errors are those that took the survey.
"""

import math
from cmath import rect
from typing import Literal, get_args
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.job import Job, Proof, Reading
from geometry.job.sides import SIDES
from geometry.layout import Layout
from geometry.placed.margins import LEAST
from geometry.proof import Proved, prove
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.work_out import lay_places
from tests.campaign.counting import Found, Share, by_name, share
from tests.campaign.invented.cases import LISTS
from tests.campaign.invented.crooked import Wish, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import Instrument, Neck, best_line, dot, meet, neck_of, outer_paths, through
from tests.campaign.invented.laying import laid, shown
from tests.campaign.invented.trials import job_of, list_for
from tests.campaign.judging import Figure

Fault = Literal["right", "slipped", "turned", "swapped", "small", "along", "across", "misread"]
FAULTS: tuple[Fault, ...] = get_args(Fault)
NAMED: dict[Fault, str] = {
    "right": "good",
    "slipped": "slipped",
    "turned": "slipped",
    "swapped": "swapped",
    "small": "scale",
    "along": "scale",
    "across": "scale",
    "misread": "reading",
}
"""What ought to be said of each."""
SHOWN: dict[Fault, str] = {
    "right": "a bridge where it belongs",
    "slipped": "one 1 to 4 mm off",
    "turned": "one turned by 0.5 to 2 degrees",
    "swapped": "a sheet turned over",
    "small": "a sheet 1 % small",
    "along": "a sheet stretched or shrunk along the neck alone, by 0.4 to 0.8 %",
    "across": "the same across it",
    "misread": "a distance misread by 5 to 20 mm",
}
"""What each is."""
TAPED, TAPED_TURN = 0.1, math.radians(0.03)
"""How nearly a careful hand lays a sheet, one standard deviation, mm and radians (common practice, no source)."""


class ProofTrial(msgspec.Struct, frozen=True, kw_only=True):
    """One trial: the job with its proof read, what is wrong, the reading that is misread, and how far the bridge truly
    stands from where its sheet should have had it: along, across (mm), turned (radians). `surveyed` and `wished` are
    what the job came to before its proof was read: the survey, and the distances to read. `margins` are what the outer
    strings truly keep to the board's edges at its end [left, right], mm, as the bridge stands.
    """

    fault: Fault
    index: int
    job: Job
    surveyed: Surveyed
    wished: tuple[Reading, ...]
    misread: str
    pose: tuple[float, float, float]
    margins: tuple[float, float]


def trial_of(fault: Fault, seed: int, index: int, manner: Manner = AS_STATED) -> ProofTrial | None:
    """One trial; the same fault, seed and index give the same. None where no bridge could be placed."""
    random = np.random.default_rng([seed, crc32(fault.encode()), index])
    instrument = drawn(random, Wish())
    errors = Errors(random, manner)
    asked = list_for(LISTS[index % len(LISTS)], instrument, inch=False)
    read = written(asked.readings, take(asked.readings, instrument, errors))
    job = job_of(instrument, asked, read, inch=False, declared=False)
    surveyed = survey(job)
    found = prove(job, "clamped", surveyed)
    if found is None:
        return None
    layout, wished = lay_places(job, surveyed).layout, tuple(row.reading for row in found.rows)
    stations = ("nut", "fret12", "end") if "fret12.left" in asked.points else ("nut", "end")
    places, pose = _places(random, fault, layout, instrument, stations)
    taken = [_read(reading, places, errors) for reading in wished]
    wrong = ""
    if fault == "misread":
        at = int(random.integers(len(taken)))
        by = float(random.uniform(5.0, 20.0)) * (1 if random.random() < 0.5 else -1)
        wrong = taken[at].id
        taken[at] = replace(taken[at], value=float(taken[at].value) + by)  # type: ignore[arg-type]  # read in mm
    return ProofTrial(
        fault=fault,
        index=index,
        job=replace(job, proof=(Proof(stage="clamped", readings=tuple(taken)),)),
        surveyed=surveyed,
        wished=wished,
        misread=wrong,
        pose=pose,
        margins=_margins(instrument, places, stations),
    )


def _margins(instrument: Instrument, places: dict[str, complex], stations: tuple[str, ...]) -> tuple[float, float]:
    """How far inside the board's end the outer strings run, from the nut to where they break on the bridge."""
    neck, points = neck_of(instrument.points, stations), instrument.points
    starts = [neck.put(start) for start, _ in outer_paths(instrument, neck)]
    left, right = points["end.left"], points["end.right"]
    across, found = (left - right) / abs(left - right), []
    for side, start, corner, sign in zip(SIDES, starts, (left, right), (1, -1), strict=True):
        crosses = meet(through(start, places[f"bridge.break.{side}"]), through(right, left))
        found.append(sign * dot(across, corner - crosses))
    return found[0], found[1]


def _read(reading: Reading, places: dict[str, complex], errors: Errors) -> Reading:
    """A distance as the hand reads it with its rule, to the nearest half millimetre or tenth."""
    fine = reading.with_ or ""
    far = abs(places[reading.of[1]] - places[reading.of[0]])
    value = far * (1 + errors.per_mm(fine)) + errors.own(fine) + errors.zero(fine, None)
    mark = 0.5 if fine.startswith("rule") else 0.1
    return replace(reading, value=round(round(value / mark) * mark, 6))


def _places(
    random: np.random.Generator, fault: Fault, layout: Layout, instrument: Instrument, stations: tuple[str, ...]
) -> tuple[dict[str, complex], tuple[float, float, float]]:
    """Every place that a proof may name, where it truly is in the body's frame, and how far the bridge is off."""
    sheet = _on_sheet(layout)
    if fault == "swapped":
        sheet = {name: sheet[_other(name, layout)].conjugate() for name in sheet}
    if fault == "small":
        sheet = {name: 0.99 * place for name, place in sheet.items()}
    if fault in ("along", "across"):
        by = 1 + float(random.uniform(0.004, 0.008)) * (1 if random.random() < 0.5 else -1)
        x, y = (by, 1.0) if fault == "along" else (1.0, by)
        sheet = {name: complex(x * place.real, y * place.imag) for name, place in sheet.items()}
    along, across = random.normal(0, TAPED, 2).tolist()
    turn = float(random.normal(0, TAPED_TURN))
    if fault == "slipped":
        off = rect(float(random.uniform(1.0, 4.0)), float(random.uniform(0, 2 * math.pi)))
        along, across, turn = along + off.real, across + off.imag, float(random.normal(0, math.radians(0.5)))
    if fault == "turned":
        turn = math.radians(float(random.uniform(0.5, 2.0))) * (1 if random.random() < 0.5 else -1)
    pivot = (sheet["bridge.slot.left"] + sheet["bridge.slot.right"]) / 2
    neck = neck_of(instrument.points, stations)
    start, way = laid(instrument, stations)
    new = {
        name: start + way * (pivot + complex(along, across) + (place - pivot) * rect(1, turn))
        for name, place in sheet.items()
    }
    return instrument.points | _fret_12(instrument, neck, stations) | new, (along, across, turn)


def _on_sheet(layout: Layout) -> dict[str, complex]:
    """The bridge's places as the sheet shows them."""
    assert layout.saddle is not None
    assert layout.bridge is not None
    bridge, slot = layout.bridge, layout.saddle.front
    places = {f"bridge.front.{side}": bridge.corners[i] for i, side in enumerate(("left", "right"))}
    places |= {f"bridge.slot.{side}": slot[i] for i, side in enumerate(("left", "right"))}
    places |= {f"bridge.pin.{pin.name}": pin.at for pin in bridge.pins}
    outer = sorted((string.break_point for string in layout.strings), key=lambda at: at[1])
    places |= {"bridge.break.left": outer[-1], "bridge.break.right": outer[0]}
    return dict(zip(places, shown(layout, *places.values()), strict=True))


def _fret_12(instrument: Instrument, neck: Neck, stations: tuple[str, ...]) -> dict[str, complex]:
    """Where fret 12 meets the edges; as points where they were read as such."""
    if "fret12.left" in instrument.points:
        return {}
    a, b = (start + way * instrument.fret(12, i) for i, (start, way) in enumerate(outer_paths(instrument, neck)))
    fret = through(neck.put(b), neck.put(a))
    edges = {s: best_line([instrument.points[f"{at}.{s}"] for at in stations]) for s in ("left", "right")}
    return {f"fret12.{side}": meet(fret, edge) for side, edge in edges.items()}


def _other(name: str, layout: Layout) -> str:
    if name.startswith("bridge.pin."):
        assert layout.bridge is not None
        pins = [pin.name for pin in layout.bridge.pins]
        return f"bridge.pin.{pins[-1 - pins.index(name.removeprefix('bridge.pin.'))]}"
    return name.replace("left", "*").replace("right", "left").replace("*", "right")


class Said(msgspec.Struct, frozen=True, kw_only=True):
    """What the program says of a trial: whether the fault is among those named, and whether others are named alone."""

    proved: Proved
    named: bool
    misled: bool


def said_of(trial: ProofTrial) -> Said:
    """What the program says of a trial."""
    found = prove(trial.job, "clamped", trial.surveyed, trial.wished)
    assert found is not None
    named = NAMED[trial.fault] in (found.cause, *found.also)
    if trial.misread:
        named = named and trial.misread in [row.reading.id for row in found.rows if row.blamed]
    return Said(proved=found, named=named, misled=not named and found.cause not in ("good", "unclear"))


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many bridges of each fault: where they are, as far as it is told, and whether the fault is named."""
    figures: list[dict[str, Figure]] = []
    said: dict[str, Share] = {}
    for fault in FAULTS:
        trials = [t for t in (trial_of(fault, seed, index, manner) for index in range(count)) if t is not None]
        every = [said_of(trial) for trial in trials]
        said[f"named, alone or with others: {SHOWN[fault]}"] = share(one.named for one in every)
        said[f"no wrong fault is named without it: {SHOWN[fault]}"] = share(not one.misled for one in every)
        if fault == "right":
            kept = [one for one in map(_margin, trials, (one.proved for one in every)) if one is not None]
            figures += [{"the least margin at the board’s end": figure} for figure, _, _ in kept]
            said["called good, and the string nearest an edge keeps 2 mm"] = share(
                keeps for _, keeps, sure in kept if sure
            )
        if fault in ("right", "slipped", "turned"):
            figures += [_pose(trial, one.proved) for trial, one in zip(trials, every, strict=True)]
    return Found(figures=by_name(figures), said=said)


def _margin(trial: ProofTrial, proved: Proved) -> tuple[Figure, bool, bool] | None:
    """The least margin against the true one, whether that is 2 mm, and whether it is said to be; where it is told."""
    left = proved.margin
    if left is None:
        return None
    true = trial.margins[SIDES.index(left.side)]
    return Figure(left.mm - true, left.pm95), true >= LEAST, not (left.short or left.may_be_short)


def _pose(trial: ProofTrial, proved: Proved) -> dict[str, Figure]:
    """How far the bridge is said to be off against how far it is; nothing where it is not told."""
    pose, (along, across, turn) = proved.pose, trial.pose
    if pose is None:
        return {}
    return {
        f"off along the neck, {SHOWN[trial.fault]}": Figure(pose.along - along, pose.along_pm95),
        f"off across, {SHOWN[trial.fault]}": Figure(pose.across - across, pose.across_pm95),
        f"turned, degrees, {SHOWN[trial.fault]}": Figure(pose.turn - math.degrees(turn), pose.turn_pm95),
    }
