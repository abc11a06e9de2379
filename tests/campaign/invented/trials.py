"""One **trial** of a case: a true instrument, the job that a hand made of it, and what in it is truly wrong."""

import inspect
from typing import Any
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.advice.measuring_lists import MeasuringList, Name, measuring_list
from geometry.job import Bridge, Frets, Job, Old, OldPin, Pins, Reading, Saddle, Spread, String, Strings
from tests.campaign.invented.cases import DECLARABLE, Case
from tests.campaign.invented.crooked import drawn
from tests.campaign.invented.hand_slips import few_frets, slipped
from tests.campaign.invented.hands import Errors, take, true_values, written
from tests.campaign.invented.instruments import Instrument, Truth, truth_of
from tests.campaign.invented.mirroring import MIRROR

INCHES = 0.25
"""The share of hands that read in inches."""


class Trial(msgspec.Struct, frozen=True, kw_only=True):
    """One trial: the instrument, the job, the truth, the readings that are truly wrong (ids), and
    the `stations` along the board at which its edges are read."""

    case: str
    index: int
    list: Name
    instrument: Instrument
    job: Job
    truth: Truth
    wrong: tuple[str, ...]
    stations: tuple[str, ...]


def trial_of(case: Case, seed: int, index: int) -> Trial:
    """One trial of a case; the same case, seed and index give the same trial, whatever else is run."""
    random = np.random.default_rng([seed, crc32(case.name.encode()), index])
    instrument = drawn(random, case.wish)
    inch = bool(random.random() < INCHES)
    chosen = case.lists[index % len(case.lists)]
    asked = list_for(chosen, instrument, inch=inch)
    taken = take(asked.readings, instrument, Errors(random, case.manner))
    if case.few:
        taken = few_frets(random, asked.readings, taken)
    taken, wrong = slipped(random, case.slip, asked.readings, taken)
    readings = written(asked.readings, taken, exact=case.manner.exact, inch=inch)
    stations = ("nut", "fret12", "end") if "fret12.left" in asked.points else ("nut", "end")
    return Trial(
        case=case.name,
        index=index,
        list=chosen,
        instrument=instrument,
        job=job_of(instrument, asked, readings, inch=inch, declared=case.declared and DECLARABLE),
        truth=truth_of(instrument, stations),
        wrong=wrong,
        stations=stations,
    )


def exact_job(trial: Trial) -> Job:
    """The trial's job with each reading that was taken as an exact hand takes it."""
    read, true = [], {}
    for reading in trial.job.readings:
        values = true_values(reading, trial.instrument) if reading.parts else ()
        # a point that was found a little off its line may truly lie a little off on the other side
        if reading.kind == "off" and values and values[0] < 0:
            reading, values = replace(reading, side=MIRROR[reading.side or ""]), (-values[0],)
        if values:
            read.append(reading)
            true[reading.id] = values
    right = {reading.id: reading for reading in written(tuple(read), true, exact=True)}
    return replace(trial.job, readings=tuple(right.get(reading.id, reading) for reading in trial.job.readings))


def list_for(name: Name, instrument: Instrument, *, inch: bool) -> MeasuringList:
    """The measuring list as a new job has it, with what is known of the instrument beforehand where the list asks."""
    about = round(sum(instrument.scale) / 2, -1)
    known = inspect.signature(measuring_list).parameters
    more: dict[str, Any] = {"scale": about} if "scale" in known else {}
    return measuring_list(name, instrument.hand, instrument.strung.count, "in" if inch else "mm", **more)


def job_of(
    instrument: Instrument, asked: MeasuringList, readings: tuple[Reading, ...], *, inch: bool, declared: bool
) -> Job:
    """The job: the list with its values, the strings with their compensation typed, saddle, bridge and old work."""
    strung, seat = instrument.strung, instrument.seat
    told: dict[str, Any] = {"slanted": True} if declared else {}
    corners = tuple(f"old.{i}" for i in range(1, 5))
    return Job(
        unit="in" if inch else "mm",
        hand=instrument.hand,
        points=asked.points,
        readings=readings,
        frets=Frets(**told),
        strings=Strings(
            list=tuple(String(name=str(i + 1)) for i in range(strung.count)),
            nut=Spread(spread=strung.nut_spread),
            saddle=Spread(spread=strung.saddle_spread),
            shift=strung.shift,
            compensation=strung.compensation,
        ),
        saddle=Saddle(thickness=seat.thickness, peak_at=seat.peak_at),
        bridge=Bridge(
            outline="straight",
            length=seat.length,
            width=seat.width,
            seat="square" if seat.square else "with slot",
            pins=Pins(),
        ),
        old=Old(outline=corners, pins={name: OldPin(diameter=5.0) for name in instrument.holes})
        if corners[0] in asked.points
        else None,
    )
