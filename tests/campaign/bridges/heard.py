"""Strings that were heard on a trial saddle, on invented instruments: whether the saddle's ± holds, and whether a slot
that may be cut then lies within the cents that are left to an ear.

The instruments, the hand and the truth are the campaign's own. A string asks for the place where its note over fret 12
is an octave over the open one; what a tuner shows elsewhere follows from the lengths alone: 1200 log2 of how the ratio
of the open to the fretted length differs from that at its place. On that comes the player: 2 cents, one standard
deviation (R. M. Mottola, as in `geometry/strings/trial_saddles`), half of the players on all strings alike, which is
worse for the saddle, half on each by itself.
"""

import math
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.frame import Array, Points
from geometry.go_or_wait.verdicts import HEARD, verdicts
from geometry.job import Heard, Job, Point, Reading
from geometry.job.sides import SIDES
from geometry.spacing import CENTS
from geometry.units import mm
from geometry.work_out import work_out
from tests.campaign.bridges.parted import line_of, true_places
from tests.campaign.counting import Found, Share, share
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import Instrument, neck_of
from tests.campaign.invented.laying import lies
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import Figure

EAR = 2.0
"""Cents, one standard deviation between players fretting the same note: Mottola, see above."""
BESIDE = 3.0
"""How far from its place an end of the trial saddle is laid, a standard deviation, mm (common practice, no source)."""


class OnTrial(msgspec.Struct, frozen=True, kw_only=True):
    """One trial: where a sheet puts the saddle at the outer strings [left, right], with its ±; whether the slot may be
    cut, and by how many cents it would lie off at worst.
    """

    places: tuple[Figure, Figure]
    go: bool
    cents: float


def judged(seed: int, index: int, manner: Manner = AS_STATED) -> OnTrial | None:
    """One trial; None where the readings placed no saddle."""
    trial = trial_of(replace(CASES[0], manner=manner), seed, index)
    random = np.random.default_rng([seed, crc32(b"heard"), index])
    wanted, starts, lengths = true_places(trial.instrument, trial.stations)
    job = _heard(trial.job, trial.instrument, trial.stations, (wanted, starts, lengths), random, manner, index % 2 == 0)
    layout = work_out(job)
    if layout.saddle is None or job.saddle is None:
        return None
    at, lean = line_of(wanted, mm(job.saddle.thickness))
    along = [place.real for place in lies(layout, trial.instrument, trial.stations, *layout.saddle.at_strings)]
    outer = max(wanted, key=lambda place: place.imag), min(wanted, key=lambda place: place.imag)
    left, right = (
        Figure(there - at - lean * place.imag, pm)
        for there, place, pm in zip(along, outer, layout.saddle.by_sheet.pm95, strict=True)
    )
    slot = next((step for step in verdicts(job, layout) if step.what == "slot"), None)
    cents = max(abs(figure.off) for figure in (left, right)) * CENTS / float(lengths.min())
    return OnTrial(places=(left, right), go=slot is not None and slot.go, cents=cents)


def _heard(
    job: Job,
    instrument: Instrument,
    stations: tuple[str, ...],
    true: tuple[Points, Points, Array],
    random: np.random.Generator,
    manner: Manner,
    alike: bool,
) -> Job:
    """The job with nothing typed of what its strings ask for: a trial saddle was laid, its ends read from both corners
    of the nut, and each string heard on it.
    """
    wanted, starts, _ = true
    neck = neck_of(instrument.points, stations)
    outer = max(wanted, key=lambda place: place.imag), min(wanted, key=lambda place: place.imag)
    ends = [place + float(random.normal(0, BESIDE)) for place in outer]
    names = [f"trial.1.{side}" for side in SIDES]
    stands = replace(
        instrument, points=instrument.points | dict(zip(names, (neck.put(end) for end in ends), strict=True))
    )
    asked = tuple(
        Reading(id=f"{end}.{corner}", kind="distance", of=(f"nut.{corner}", end)) for end in names for corner in SIDES
    )
    read = written(asked, take(asked, stands, Errors(random, manner)), exact=manner.exact, inch=job.unit == "in")
    frets = _to_fret_12(instrument, true)
    bias = random.normal(0, EAR) if alike else random.normal(0, EAR, len(wanted))
    shown = _shown(wanted, starts, frets, ends) + bias
    assert job.strings is not None
    strings = replace(
        job.strings,
        compensation="worked out",
        heard=tuple(
            Heard(string=string.name, trial="1", cents=round(float(cents), 1), against="open")
            for string, cents in zip(job.strings.list, shown, strict=True)
        ),
    )
    near = {name: Point(near=(end.real, end.imag)) for name, end in zip(names, ends, strict=True)}
    return replace(job, points=job.points | near, readings=(*job.readings, *read), strings=strings)


def _to_fret_12(instrument: Instrument, true: tuple[Points, Points, Array]) -> Array:
    """How far fret 12 is from the nut on each string: half a scale before its nominal place."""
    wanted, _, lengths = true
    y, (left, right) = wanted.imag, instrument.scale
    part = (y - y.min()) / (y.max() - y.min())
    return np.asarray(lengths - (right + part * (left - right)) / 2)


def _shown(wanted: Points, starts: Points, frets: Array, ends: list[complex]) -> Array:
    """What a right tuner shows of each string on the trial saddle, cents sharp."""
    (lx, ly), (rx, ry) = ((end.real, end.imag) for end in ends)
    found = []
    for place, start, fret in zip(wanted, starts, frets, strict=True):
        way = (place - start) / abs(place - start)
        # the string runs on along its own line to where the trial saddle crosses it
        lean = (lx - rx) / (ly - ry)
        far = (rx + lean * (start.imag - ry) - start.real) / (way.real - lean * way.imag)
        home = abs(place - start)
        found.append(1200 * (math.log2(far / (far - fret)) - math.log2(home / (home - fret))))
    return np.array(found)


def tried(seed: int, count: int, manner: Manner = AS_STATED) -> list[OnTrial]:
    """So many trials."""
    return [found for index in range(count) if (found := judged(seed, index, manner)) is not None]


def ready(found: list[OnTrial]) -> Share:
    """Of the slots that may be cut how many lie within the cents that are left to an ear."""
    return share(one.cents <= HEARD for one in found if one.go)


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """The saddle's place at the outer strings, and the slots that may be cut."""
    every = tried(seed, count, manner)
    return Found(
        figures={
            "saddle heard on a trial saddle, left": [one.places[0] for one in every],
            "saddle heard on a trial saddle, right": [one.places[1] for one in every],
        },
        said={f"slots that may be cut, within {HEARD:g} cents": ready(every)},
    )
