"""The proof of a job at one stage: what to read, what is good of what was read, where the bridge is by it, and what is
left for filing the saddle.
"""

from collections.abc import Sequence
from typing import Literal

import msgspec
import numpy as np

from geometry.job import Job, Proof, Reading
from geometry.job.measured.proof import Stage
from geometry.layout import Record
from geometry.placed.place_everything import PlacedInstrument, place_everything
from geometry.proof import fitting
from geometry.proof.choosing_distances import candidates, choose, weigh
from geometry.proof.faults import Cause
from geometry.proof.fitting import Fit
from geometry.proof.margin_left import MarginLeft, margin_left
from geometry.proof.proof_places import Places, find_places, spans
from geometry.proof.too_near import copied
from geometry.proof.where_it_stands import Carried, Pose, StringPlace
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.units import Length, Unit, as_shown, good_within, mm, unit_typed

Good = Literal["good", "not good", "to read", "struck", "no place"]
Blame = Literal["", "may be", "likeliest"]
"""Whether a distance is misread: one of the faults that there may be, or the only one."""


class Row(Record, frozen=True):
    """One distance: what a rule reads where the bridge belongs, and the `band` either way that is good, mm, both before
    they are rounded; what was read, and whether that is good by the figures that are shown. `off` is what was read less
    what is shown; in other units than those shown, less what is `wanted`.
    """

    reading: Reading
    wanted: float
    band: float
    good: Good = "to read"
    off: float = 0.0
    blamed: Blame = ""


class Proved(Record, frozen=True):
    """A stage of the proof. `cause` is what the distances say as a whole, None while fewer than three are read; `also`
    what else may be to blame, each once, the likeliest first. `size` is the sheet's error along the neck and across it
    as parts of the whole ± `size_pm`, if that may be to blame. `long` is what is placed from end to end, mm. No
    `strings` are told where it hangs on the fault how far theirs are off. `margin` is what the string nearest an edge
    of the board keeps where nothing is to blame. `copied`: each distance is typed just as it is shown, so that nothing
    was read of where strings are. `changed`: how far (mm) the layout has moved a distance at most since they were
    typed, where they are not good now and were then.
    """

    stage: Stage
    when: str
    rows: tuple[Row, ...]
    cause: Cause | None = None
    also: tuple[Cause, ...] = ()
    size: tuple[float, float] = (0.0, 0.0)
    size_pm: tuple[float, float] = (0.0, 0.0)
    long: float = 0.0
    pose: Pose | None = None
    strings: tuple[StringPlace, ...] = ()
    margin: MarginLeft | None = None
    copied: bool = False
    changed: float = 0.0

    @property
    def wrong(self) -> bool:
        """Whether the bridge is not where it belongs, or a string is left too little margin."""
        return self.cause not in (None, "good") or (self.margin is not None and self.margin.short)


ENOUGH = 3
"""So many distances must be read before they say where a bridge is."""
TINY = 1e-6
"""What the arithmetic of lengths leaves, mm: a distance that is shown at the end of its band is within it."""


def latest(job: Job, stage: Stage) -> Proof:
    """What was read last at a stage."""
    return next((one for one in reversed(job.proof) if one.stage == stage), Proof(stage=stage))


def chosen(job: Job, placed: PlacedInstrument) -> tuple[Reading, ...]:
    """The distances that are worth reading, their values null; none where the bridge has no place."""
    places = find_places(job, placed)
    if places is None:
        return ()
    pairs = candidates(job, places)
    if not pairs:
        return ()
    found = weigh(job, places, pairs)
    return tuple(found.readings[i] for i in choose(found))


def wished(job: Job) -> tuple[Reading, ...]:
    """The same for a job that is not placed yet."""
    return chosen(job, place_everything(job, survey(job)))


def prove(
    job: Job, stage: Stage, surveyed: Surveyed | None = None, wished: tuple[Reading, ...] | None = None
) -> Proved | None:
    """What the proof says at a stage; None where the bridge has no place. `surveyed` spares solving the job again, and
    `wished` choosing its distances again.
    """
    proof = latest(job, stage)
    also = tuple(name for reading in proof.readings for name in reading.of)
    placed = place_everything(job, survey(job) if surveyed is None else surveyed, also=also)
    places = find_places(job, placed)
    if places is None or placed.saddle is None:
        return None
    rows = _rows(job, places, _all(chosen(job, placed) if wished is None else wished, proof.readings))
    read = [row for row in rows if row.good not in ("to read", "struck", "no place")]
    changed = _changed(job, proof, read)
    if len(read) < ENOUGH:
        return Proved(stage=stage, when=proof.when, rows=rows, changed=changed)
    taken = tuple(row.reading for row in read)
    found = _fitted(places, taken, each_good=all(row.good == "good" for row in read))
    causes = tuple(dict.fromkeys(way.cause for way in found.ways))
    scale = next((way for way in found.ways if way.cause == "scale"), None)
    told = Proved(
        stage=stage,
        when=proof.when,
        rows=_blamed(rows, {taken[way.row].id for way in found.ways if way.row is not None}, len(found.ways)),
        cause=causes[0] if causes else "unclear",
        also=causes[1:],
        size=(float(scale.size[0]), float(scale.size[1])) if scale else (0.0, 0.0),
        size_pm=(float(scale.size_pm[0]), float(scale.size_pm[1])) if scale else (0.0, 0.0),
        long=places.long(),
        changed=changed,
    )
    if not causes:
        return told
    carried = Carried(places, placed.saddle, found, taken)
    pose = carried.pose()
    margin = margin_left(job, placed, pose) if told.cause == "good" else None
    unread = copied(told, job.unit)
    # each saddle on a base is set by itself afterwards
    strings = () if job.separate is not None or unread or changed else carried.strings(job)
    return msgspec.structs.replace(told, pose=pose, strings=strings, margin=margin, copied=unread)


def _all(asked: tuple[Reading, ...], typed: tuple[Reading, ...]) -> tuple[Reading, ...]:
    """The distances asked for as they were typed, and what else was typed; one that was read twice stands twice."""
    left = list(typed)
    found = []
    for reading in asked:
        at = next((i for i, one in enumerate(left) if set(one.of) == set(reading.of)), None)
        found.append(reading if at is None else left.pop(at))
    return (*found, *left)


def _blamed(rows: tuple[Row, ...], ids: set[str], faults: int) -> tuple[Row, ...]:
    """The rows with those marked that may be misread, beside so many faults in all."""
    how: Blame = "likeliest" if faults == 1 else "may be"
    return tuple(msgspec.structs.replace(row, blamed=how) if row.reading.id in ids else row for row in rows)


def _rows(job: Job, places: Places, readings: tuple[Reading, ...]) -> tuple[Row, ...]:
    """Each distance by itself, against the band of one among as many as there are."""
    placed = tuple(reading for reading in readings if places.has(*reading.of))
    count = sum(not reading.struck for reading in placed)
    done = (
        dict(zip((reading.id for reading in placed), _each(places, placed, max(count, 1)), strict=True))
        if placed
        else {}
    )
    nowhere = (0.0, 0.0)
    rows = []
    for reading in readings:
        wanted, band = done.get(reading.id, nowhere)
        off, within = (0.0, 0.0) if reading.value is None else _off(reading.parts[0], wanted, band, job.unit)
        good: Good = "good" if abs(off) <= within + TINY else "not good"
        if reading.id not in done:
            good = "no place"
        elif reading.struck:
            good = "struck"
        elif reading.value is None:
            good = "to read"
        rows.append(Row(reading=reading, wanted=wanted, band=band, good=good, off=off))
    return tuple(rows)


def _off(typed: Length, wanted: float, band: float, unit: Unit) -> tuple[float, float]:
    """How far from its place a distance was read, and how far is good, mm: by the figures that are told, or, where it
    was read with a rule of other units than theirs, as it was worked out.
    """
    if (unit_typed(typed) == "in") == (unit == "in"):
        return mm(typed) - as_shown(wanted, unit), good_within(band, unit)
    return mm(typed) - wanted, max(band, good_within(band, unit))


def _changed(job: Job, proof: Proof, read: Sequence[Row]) -> float:
    """How far the layout has moved a distance at most since they were typed, where what they were to be then makes all
    of them good, and what they are to be now does not.
    """
    now_good = all(row.good == "good" for row in read)
    if now_good or not all(row.reading.id in proof.wanted for row in read):
        return 0.0
    then = [proof.wanted[row.reading.id] for row in read]
    offs = [_off(row.reading.parts[0], far, row.band, job.unit) for row, far in zip(read, then, strict=True)]
    was_good = all(abs(off) <= within + TINY for off, within in offs)
    return max(abs(row.wanted - far) for row, far in zip(read, then, strict=True)) if was_good else 0.0


def _each(places: Places, readings: tuple[Reading, ...], count: int) -> list[tuple[float, float]]:
    """What each should read, and how far off it may be."""
    whole = spans(places, _pairs(readings))
    noise = fitting.noise_of(whole, readings, fitting.hand_of(places))
    cov = fitting.covariance(fitting.unknowns(places, whole, noise), whole, noise)
    band = fitting.bands(whole, cov, count)
    return list(zip(fitting.expected(places, whole, noise).tolist(), band.tolist(), strict=True))


def _pairs(readings: tuple[Reading, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((reading.of[0], reading.of[1]) for reading in readings)


def _fitted(places: Places, readings: tuple[Reading, ...], *, each_good: bool) -> Fit:
    whole = spans(places, _pairs(readings))
    noise = fitting.noise_of(whole, readings, fitting.hand_of(places))
    cov = fitting.covariance(fitting.unknowns(places, whole, noise), whole, noise)
    value = np.array([mm(reading.parts[0]) for reading in readings])
    wanted = fitting.expected(places, whole, noise)
    over = value - wanted - (whole.swapped - whole.length)
    return fitting.fit(whole, value - wanted, over, cov, each_good=each_good)
