"""The cases of the campaign: what is wrong, or is not, in each, and one trial of a case after the other.

A **trial** is a true instrument, the job that a hand made of it, and what in it is truly wrong.
"""

import inspect
import math
from collections.abc import Sequence
from typing import Any, Literal, get_args
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.job import Bridge, Frets, Job, Old, OldPin, Pins, Reading, Saddle, Spread, String, Strings
from geometry.measuring_lists import FRETS, MeasuringList, Name, measuring_list

from .hands import SKIPS, Errors, Manner, Values, take, true_values, written
from .instruments import Instrument, Truth, Wish, drawn, truth_of

LISTS: tuple[Name, ...] = get_args(Name)
Slip = Literal["", "any", "fret", "swap"]
SLIPS = (1.0, 5.0)
"""A misread value is out by so much, mm."""
APART = (2.0, 60.0)
"""Two values that are exchanged differ by so much, mm."""
SEEN = 2.0
"""mm. An exchange that leaves a board's six lengths at one to less than this cannot be found out by anybody: it is some
four standard deviations of what their own errors leave (derived: 0.25 mm in each of six, 0.6 mm together)."""
INCHES = 0.25
"""The share of hands that read in inches."""


class Case(msgspec.Struct, frozen=True, kw_only=True):
    """One case: its name, what is tried, and how its instruments and hands differ from the usual ones.

    `slip` is what the hand gets wrong, `few` leaves it one to three frets a side, `declared` says in the job that the
    frets are slanted, `mirrored` works out the mirrored instrument of the other hand as well.
    """

    name: str
    says: str
    lists: tuple[Name, ...] = LISTS
    wish: Wish = Wish()
    manner: Manner = Manner()
    slip: Slip = ""
    few: bool = False
    declared: bool = False
    mirrored: bool = False


UNIFORM, NORMAL = Wish(shift=("uniform", 1.5)), Wish(shift=("normal", 0.5))
CASES = (
    Case(name="as given", says="Read as finely as stated."),
    Case(
        name="sloppy",
        says="Of what is not the board three in ten are left out; errors as large but more often far out.",
        manner=Manner(tailed=True, skips=SKIPS),
    ),
    Case(
        name="marks on top",
        says="Rounded to the nearest mark on top of the stated error, not as a part of it.",
        manner=Manner(marks="on top"),
    ),
    Case(name="coarse 1.5", says="All errors 1.5 times the stated ones.", manner=Manner(times=1.5)),
    Case(name="coarse 2.5", says="All errors 2.5 times the stated ones.", manner=Manner(times=2.5)),
    Case(name="misread", says="One reading, any but a height, is out by 1 to 5 mm.", slip="any"),
    Case(name="misread fret", says="One fret's reading is out by 1 to 5 mm.", slip="fret"),
    Case(
        name="misread fret, bridge only",
        says="The same, with the shortest list.",
        lists=("bridge only",),
        slip="fret",
    ),
    Case(
        name="swapped",
        says="Two values of a kind, 2 to 60 mm apart, are exchanged, where anything read can tell.",
        slip="swap",
    ),
    Case(name="moved nut", says="The nut stands up to 1.5 mm out of place.", wish=UNIFORM),
    Case(name="moved nut, normal", says="The nut stands out of place by 0.5 mm (one standard deviation).", wish=NORMAL),
    Case(
        name="moved nut, few frets",
        says="The nut stands up to 1.5 mm out of place, and only 1 to 3 frets a side are read.",
        wish=UNIFORM,
        few=True,
    ),
    Case(
        name="moved nut, few frets, normal",
        says="The nut stands out of place by 0.5 mm (one standard deviation), and only 1 to 3 frets a side are read.",
        wish=NORMAL,
        few=True,
    ),
    Case(name="slanted", says="The nominal places differ by 2 to 8 mm.", wish=Wish(slanted=True)),
    Case(
        name="slanted, declared",
        says="The same, and the job says that the frets are slanted.",
        wish=Wish(slanted=True),
        declared=True,
    ),
    Case(
        name="cranked board",
        says="The board turns by 0.3 to 2 degrees at fret 12.",
        wish=Wish(cranked=True),
    ),
    Case(name="mirrored hand", says="As given, and mirrored for the other hand beside it.", mirrored=True),
)
DECLARABLE = "slanted" in Frets.__struct_fields__
"""Whether a job can say that its frets are slanted; without that, the case is passed over."""


class Trial(msgspec.Struct, frozen=True, kw_only=True):
    """One trial: the instrument, the job, the truth, and the readings that are truly wrong (ids)."""

    case: str
    index: int
    list: Name
    instrument: Instrument
    job: Job
    truth: Truth
    wrong: tuple[str, ...]


def cases_named(names: Sequence[str]) -> list[Case]:
    """The cases of these names, or all; those that this program's jobs cannot say are left out."""
    unknown = set(names) - {case.name for case in CASES}
    if unknown:
        raise SystemExit(f"no case {', '.join(sorted(unknown))}; there are: {', '.join(case.name for case in CASES)}")
    return [case for case in CASES if (not names or case.name in names) and (DECLARABLE or not case.declared)]


def trial_of(case: Case, seed: int, index: int) -> Trial:
    """One trial of a case; the same case, seed and index give the same trial, whatever else is run."""
    random = np.random.default_rng([seed, crc32(case.name.encode()), index])
    instrument = drawn(random, case.wish)
    inch = bool(random.random() < INCHES)
    chosen = case.lists[index % len(case.lists)]
    asked = list_for(chosen, instrument, inch=inch)
    taken = take(asked.readings, instrument, Errors(random, case.manner))
    if case.few:
        taken = _few_frets(random, asked.readings, taken)
    taken, wrong = _slipped(random, case.slip, asked.readings, taken)
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


def _few_frets(
    random: np.random.Generator, readings: tuple[Reading, ...], taken: dict[str, Values]
) -> dict[str, Values]:
    """What is left where one to three frets a side are read, at random."""
    left_out = set()
    for side in ("left", "right"):
        ids = [reading.id for reading in readings if reading.kind == "fret" and reading.on == side]
        count = int(random.integers(1, min(3, len(ids), len(FRETS)) + 1))
        left_out |= set(ids) - set(random.permutation(ids)[:count].tolist())
    return {name: values for name, values in taken.items() if name not in left_out}


def _slipped(
    random: np.random.Generator, slip: Slip, readings: tuple[Reading, ...], taken: dict[str, Values]
) -> tuple[dict[str, Values], tuple[str, ...]]:
    """The values with the hand's slip, and which readings it made wrong."""
    measured = [reading for reading in readings if reading.id in taken and reading.kind not in ("inline", "height")]
    if slip == "swap":
        return _exchanged(random, measured, taken)
    if not slip:
        return taken, ()
    able = [reading for reading in measured if slip == "any" or reading.kind == "fret"]
    wrong = able[int(random.integers(len(able)))].id
    by = float(random.uniform(*SLIPS) * random.choice([-1, 1]))
    values = taken[wrong]
    # of a hole one rim is misread, and the far one stays beyond the near one
    slipped = (values[0] + by,) if len(values) == 1 else (values[0] + min(by, 0), values[1] + max(by, 0))
    return taken | {wrong: slipped}, (wrong,)


def _exchanged(
    random: np.random.Generator, measured: list[Reading], taken: dict[str, Values]
) -> tuple[dict[str, Values], tuple[str, ...]]:
    """Two values of one kind exchanged, where anything that was read can tell."""
    able = [
        (one, two)
        for i, one in enumerate(measured)
        for two in measured[i + 1 :]
        if one.kind == two.kind != "rims" and APART[0] < abs(taken[one.id][0] - taken[two.id][0]) < APART[1]
    ]
    for place in random.permutation(len(able)).tolist():
        one, two = able[place]
        exchanged = taken | {one.id: taken[two.id], two.id: taken[one.id]}
        if not _mirrors(one, two) and _contradicts(measured, exchanged):
            return exchanged, (one.id, two.id)
    return taken, ()


def _mirrors(one: Reading, two: Reading) -> bool:
    """Whether two readings mirror each other: exchanged they make the mirrored instrument, which fits as well."""
    pairs = ((one.of, two.of), (one.from_, two.from_))
    return all({_other(name) for name in here} == set(there) for here, there in pairs)


def _contradicts(measured: list[Reading], taken: dict[str, Values]) -> bool:
    """Whether the values contradict each other, as far as a board's four sides and two diagonals alone can. With more
    than these something always does.

    Six lengths between four points have one condition: the sixth follows from the other five.
    """
    lengths = {frozenset(reading.of): taken[reading.id][0] for reading in measured if reading.kind == "distance"}
    if len(lengths) != 6:
        return True
    nut, end, left, right, one, other = (
        lengths[frozenset(f"{a}.{b}" for a, b in pair)]
        for pair in (
            (("nut", "left"), ("nut", "right")),
            (("end", "left"), ("end", "right")),
            (("nut", "left"), ("end", "left")),
            (("nut", "right"), ("end", "right")),
            (("nut", "left"), ("end", "right")),
            (("nut", "right"), ("end", "left")),
        )
    )
    # nut.left at 0, end.left on the x axis, and the two right corners from both
    here, there = _apex(left, nut, other), _apex(left, one, end)
    return here is None or there is None or abs(abs(here - there) - right) > SEEN


def _apex(base: float, from_start: float, from_stop: float) -> complex | None:
    """Where two lengths from the ends of a base meet beside it; None where they do not."""
    along = (base**2 + from_start**2 - from_stop**2) / (2 * base)
    across = from_start**2 - along**2
    return complex(along, math.sqrt(across)) if across > 0 else None


MIRROR = {"left": "right", "right": "left"}


def mirrored(job: Job) -> Job:
    """The job of the mirrored instrument, of the other hand: every left a right, the readings in their order."""
    if job.strings is None or not isinstance(job.strings.shift, float):
        raise AssertionError("a trial's strings have a shift in mm")
    points = {
        _other(name): replace(point, near=None if point.near is None else (point.near[0], _turned(point.near[1])))
        for name, point in job.points.items()
    }
    readings = tuple(
        replace(
            reading,
            of=tuple(_other(name) for name in reading.of),
            from_=tuple(_other(name) for name in reading.from_),
            side=None if reading.side is None else MIRROR[reading.side],
            on=None if reading.on is None else MIRROR[reading.on],
            laid=None if reading.laid is None else " ".join(MIRROR.get(word, word) for word in reading.laid.split()),
        )
        for reading in job.readings
    )
    return replace(
        job,
        hand=MIRROR[job.hand],
        points=points,
        readings=readings,
        strings=replace(job.strings, shift=-job.strings.shift),
    )


def _other(name: str) -> str:
    return ".".join(MIRROR.get(part, part) for part in name.split("."))


def _turned(y: Any) -> float:
    return -float(y)
