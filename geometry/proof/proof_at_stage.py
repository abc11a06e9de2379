"""The proof of a job at one stage: what to read, what is good of what was read, where the bridge is by it, and what is
left for filing the saddle.
"""

import math
from typing import Literal

import msgspec
import numpy as np

from geometry.frame import Array, Points
from geometry.job import Job, Proof, Reading
from geometry.job.measured.proof import Stage
from geometry.layout import TWO_SIDED_95, Record
from geometry.placed.place_everything import OnStrings, PlacedInstrument, place_everything
from geometry.proof import fitting
from geometry.proof.choosing_distances import as_reading, candidates, choose, weigh
from geometry.proof.filing import WALL
from geometry.proof.fitting import Cause, Fit
from geometry.proof.places import Places, find_places, spans
from geometry.saddle.in_pieces.pieces import ridge_line
from geometry.saddle.string_plans import begins
from geometry.spacing import CENTS
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.units import mm

Good = Literal["good", "not good", "to read", "struck", "no place"]


class Row(Record, frozen=True):
    """One distance: what a rule reads where the bridge belongs, and the `band` either way that is good, mm; what was
    read, and whether that is good. `off` is what was read less what should be.
    """

    reading: Reading
    wanted: float
    band: float
    good: Good = "to read"
    off: float = 0.0
    blamed: bool = False


class StringPlace(Record, frozen=True):
    """One string on the saddle as the bridge is: its ridge `off` mm too far from the nut (+) or too near, ± `pm95`, the
    same in `cents` at fret 12 (+ flat). `file` is how far the ridge is to be filed toward the tail (+) or the nut for
    it, as far as the saddle's thickness goes, and `left` what stays then, mm, `left_cents` in cents.
    """

    name: str
    off: float
    pm95: float
    cents: float
    cents95: float
    file: float
    left: float
    left_cents: float


class Pose(Record, frozen=True):
    """Where the bridge is, less where it belongs or where the old one was: along the neck (+ toward the tail) and
    across it (+ left), mm, and its turn in degrees (+ counter-clockwise), each with its ±.
    """

    along: float
    across: float
    turn: float
    along_pm95: float
    across_pm95: float
    turn_pm95: float


class Proved(Record, frozen=True):
    """A stage of the proof. `cause` is what the distances say as a whole, None while fewer than three are read; `also`
    what is nearly as likely. `size` is the error of the sheet's scale as a part of the whole.
    """

    stage: Stage
    when: str
    rows: tuple[Row, ...]
    cause: Cause | None = None
    also: Cause | None = None
    size: float = 0.0
    pose: Pose | None = None
    strings: tuple[StringPlace, ...] = ()


ENOUGH = 3
"""So many distances must be read before they say where a bridge is."""


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
    return tuple(as_reading(job, pairs[i], float(found.spans.length[i])) for i in choose(found))


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
    typed = {frozenset(reading.of): reading for reading in proof.readings}
    asks = chosen(job, placed) if wished is None else wished
    asked = [typed.pop(frozenset(reading.of), reading) for reading in asks]
    rows = _rows(places, (*asked, *typed.values()))
    read = [row for row in rows if row.good not in ("to read", "struck", "no place")]
    if len(read) < ENOUGH:
        return Proved(stage=stage, when=proof.when, rows=rows)
    found = _fitted(places, tuple(row.reading for row in read))
    blamed = read[found.row].reading.id if found.row is not None else ""
    noted = tuple(msgspec.structs.replace(row, blamed=row.reading.id == blamed) for row in rows)
    told = Proved(stage=stage, when=proof.when, rows=noted, cause=found.cause, also=found.also, size=found.size)
    if found.cause == "unclear":
        return told
    carried = _Carried(places, placed.saddle, found, tuple(row.reading for row in read))
    if job.separate is not None:
        return msgspec.structs.replace(told, pose=carried.pose())  # each saddle is set by itself afterwards
    return msgspec.structs.replace(told, pose=carried.pose(), strings=carried.strings(job))


def _rows(places: Places, readings: tuple[Reading, ...]) -> tuple[Row, ...]:
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
        off = 0.0 if reading.value is None else mm(reading.parts[0]) - wanted
        good: Good = "good" if abs(off) <= band else "not good"
        if reading.id not in done:
            good = "no place"
        elif reading.struck:
            good = "struck"
        elif reading.value is None:
            good = "to read"
        rows.append(Row(reading=reading, wanted=wanted, band=band, good=good, off=off))
    return tuple(rows)


def _each(places: Places, readings: tuple[Reading, ...], count: int) -> list[tuple[float, float]]:
    """What each should read, and how far off it may be."""
    whole = spans(places, _pairs(readings))
    noise = fitting.noise_of(whole, readings, fitting.shared_rules(places))
    cov = fitting.covariance(fitting.unknowns(places, whole, noise), whole, noise)
    band = np.sqrt(np.diag(cov + fitting.laying(whole))) * fitting.beyond(fitting.FALSELY / 2 / count)
    return list(zip(fitting.expected(places, whole, noise).tolist(), band.tolist(), strict=True))


def _pairs(readings: tuple[Reading, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((reading.of[0], reading.of[1]) for reading in readings)


def _fitted(places: Places, readings: tuple[Reading, ...]) -> Fit:
    whole = spans(places, _pairs(readings))
    noise = fitting.noise_of(whole, readings, fitting.shared_rules(places))
    cov = fitting.covariance(fitting.unknowns(places, whole, noise), whole, noise)
    value = np.array([mm(reading.parts[0]) for reading in readings])
    wanted = fitting.expected(places, whole, noise)
    over = value - wanted - (whole.swapped - whole.length)
    return fitting.fit(whole, value - wanted, over, cov)


class _Carried:
    """A fit's pose carried to the strings, with all that is uncertain about both: the readings, and the place that the
    bridge should have.
    """

    def __init__(self, places: Places, on: OnStrings, found: Fit, readings: tuple[Reading, ...]) -> None:
        self.places, self.on, self.found = places, on, found
        whole = spans(places, _pairs(readings))
        noise = fitting.noise_of(whole, readings, fitting.shared_rules(places))
        self.known = fitting.unknowns(places, whole, noise)
        self.alone = noise.own + np.diag(whole.extra)

    def pose(self) -> Pose:
        along, across, turn = self.found.pose.tolist()
        pms = TWO_SIDED_95 * np.sqrt(np.diag(self.found.gain @ self.found.cov @ self.found.gain.T))
        return Pose(
            along=along,
            across=across,
            turn=math.degrees(turn),
            along_pm95=float(pms[0]),
            across_pm95=float(pms[1]),
            turn_pm95=math.degrees(float(pms[2])),
        )

    def strings(self, job: Job) -> tuple[StringPlace, ...]:
        """Each string's ridge as the bridge is."""
        slot = self.on.slot
        wanted = self.on.strung.break_point
        line = ridge_line(self.on.pieces, wanted[0].imag)
        ridge = (self.on.peaks.at * slot.thickness).tolist()
        nominal = line + 1j * wanted[0].imag
        off, pms = self._off(nominal, wanted)
        found = []
        lengths = np.abs(wanted[0] - begins(self.on.strung, self.on.wanted.ready.places)).tolist()
        for i, string in enumerate(job.strings.list if job.strings else ()):
            want = slot.peak * slot.thickness + float(wanted[0, i].real - line[i]) - float(off[i])
            filed = min(max(want, min(WALL, ridge[i])), max(slot.thickness - WALL, ridge[i])) - ridge[i]
            per = CENTS / lengths[i]
            beyond = filed + ridge[i] - want
            found.append(
                StringPlace(
                    name=string.name,
                    off=float(off[i]),
                    pm95=float(pms[i]),
                    cents=per * float(off[i]),
                    cents95=per * float(pms[i]),
                    file=filed,
                    left=beyond,
                    left_cents=per * beyond,
                )
            )
        return tuple(found)

    def _off(self, nominal: Points, wanted: Points) -> tuple[Array, Array]:
        """How far the bridge has carried each string's ridge (n,) from where it belongs, mm, with its ±: that of the
        pose and of the sheet's size, and that of the place where it belongs, which all hang on the same survey. A
        bridge that was set by a wrong sheet stands where that sheet has it, and by the pose beside it.
        """
        places, way = self.places, complex(self.places.sheet.way[0])
        stands = np.array([self._by_sheet(complex(place)) for place in nominal])
        longer = ((nominal - complex(places.sheet.at[0])) * np.conj(way)).real
        turned = (1j * (nominal - places.pivot) * np.conj(way)).real
        moved = np.column_stack((np.ones(len(nominal)), np.zeros(len(nominal)), turned))
        carried = np.array([places.sheet.carried(complex(place)) for place in stands]).T
        belongs = places.states.gradient((wanted - carried).real)
        gain = moved @ self.found.gain + np.outer(longer, self.found.grows)
        slopes = self.known.slopes @ gain.T
        slopes[: len(belongs)] += belongs
        variance = (slopes * (self.known.spread @ slopes)).sum(axis=0) + ((gain @ self.alone) * gain).sum(axis=1)
        off = ((stands - nominal) * np.conj(way)).real + moved @ self.found.pose
        return off, TWO_SIDED_95 * np.sqrt(np.maximum(variance, 0.0))

    def _by_sheet(self, place: complex) -> complex:
        """Where the sheet as it was laid has a place of the slot."""
        if self.found.cause == "scale":
            return self.places.sheet.grown(place, self.found.size)
        return self.places.slot_turned_over(place) if self.found.cause == "swapped" else place
