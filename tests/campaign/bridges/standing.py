"""Invented instruments with a floating bridge and a tailpiece: whether the ± of its feet, of the window it may be slid
in, of how far it is to go from where it stands, and of the tail hold the truth.

The geometry and the statics are the campaign's own: the balanced tail is found by halving, with the strings as vectors
in space.
"""

import math
from cmath import rect
from collections.abc import Iterator

import msgspec
import numpy as np

from geometry.frame import Array
from geometry.job import Floating, Frets, Job, Point, Reading, Saddle, Spread, String, Strings, Tail
from geometry.layout import Layout
from geometry.strings.string_make import make
from geometry.strings.tension import tensions
from geometry.tail.with_tail import BEHIND_SD, NOTCH_SD, UNDER_SD
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.crooked import BY_HAND, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, true_values, written
from tests.campaign.invented.instruments import (
    Instrument,
    Line,
    Neck,
    break_points,
    neck_of,
    outer_paths,
    through,
    truth_of,
)
from tests.campaign.invented.laying import lies
from tests.campaign.invented.mirroring import MIRROR
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

FRETS = (1, 3, 5, 7, 9, 12)
PITCHES = ("D4", "B3", "G3", "D3", "C3", "A2")
GAUGES = (0.254, 0.28, 0.33, 0.46, 0.56, 0.66)
"""Plain steel, mm, so that every pull is known to its mass."""
BODY = {"body.1": "left", "body.2": "right"}
"""Points of the body's end, and the side they lie on."""


class Setting(msgspec.Struct, frozen=True):
    """What a trial draws beside the board: the bridge, where its crown's line truly lies, how it stands today, and
    where the tail is, in the neck's frame.
    """

    floating: Floating
    saddle: Saddle
    crown: complex
    way: complex
    today: complex
    today_way: complex
    tail: complex
    spread: float
    under: float
    end: tuple[complex, complex]


def trial(seed: int, index: int, manner: Manner = AS_STATED) -> tuple[Job, Instrument, Neck, Setting]:
    """One trial: the job that a hand made of a true instrument."""
    random = np.random.default_rng([seed, 2711, index])
    board = drawn(random, BY_HAND)
    neck = neck_of(board.points, ("nut", "end"))
    truth, paths = truth_of(board, ("nut", "end")), outer_paths(board, neck)
    places = _outer(board)
    ends = [complex(far + paths[i][0].real, places[i]) for i, far in enumerate(truth.saddle)]
    way = (ends[0] - ends[1]) / abs(ends[0] - ends[1])
    floating = Floating(length=round(random.uniform(60, 120), 1), width=round(random.uniform(8, 14), 1))
    off = complex(*random.normal(0, 2.5, 2))
    crown = (ends[0] + ends[1]) / 2
    far = crown.real + random.uniform(60, 140)
    setting = Setting(
        floating=floating,
        saddle=Saddle(thickness=6.0),
        crown=crown,
        way=way,
        today=crown + off,
        today_way=way * rect(1, math.radians(random.normal(0, 1.2))),
        tail=complex(far, random.normal(0, 2.0)),
        spread=round(random.uniform(25, 50), 1),
        under=round(random.uniform(5, 14), 1),
        end=(complex(far + random.uniform(20, 60), random.uniform(15, 45)), complex(far + 40, -random.uniform(15, 45))),
    )
    instrument = msgspec.structs.replace(board, points=board.points | _marked(neck, setting))
    asked = tuple(_on_its_side(reading, instrument) for reading in _readings())
    readings = written(asked, take(asked, instrument, Errors(random, manner)))
    names = dict.fromkeys(name for reading in asked for name in (*reading.of, *reading.from_))
    strung = board.strung
    job = Job(
        hand=board.hand,
        points={name: Point() for name in names},
        readings=readings,
        frets=Frets(),
        strings=Strings(
            list=tuple(String(name=str(i + 1), pitch=PITCHES[i], diameter=GAUGES[i]) for i in range(strung.count)),
            nut=Spread(spread=strung.nut_spread),
            saddle=Spread(spread=strung.saddle_spread),
            shift=strung.shift,
            compensation=strung.compensation,
        ),
        saddle=setting.saddle,
        floating=floating,
        tail=Tail(spread=setting.spread, under=setting.under, pin=True),
    )
    return job, instrument, neck, setting


def _outer(board: Instrument) -> tuple[float, float]:
    """The outer strings' y at the saddle, left and right."""
    half, shift = board.strung.saddle_spread / 2, board.strung.shift
    return half + shift, -half + shift


def _marked(neck: Neck, setting: Setting) -> dict[str, complex]:
    """The feet's front corners as they stand today, and where the outer strings and the body end, in the body's
    frame.
    """
    length, width = float(setting.floating.length), float(setting.floating.width)
    front = setting.today + 1j * setting.today_way * width / 2
    found = {"foot.left": front + setting.today_way * length / 2, "foot.right": front - setting.today_way * length / 2}
    found |= {"body.1": setting.end[0], "body.2": setting.end[1]}
    found |= {"tail.left": setting.tail + 0.5j * setting.spread, "tail.right": setting.tail - 0.5j * setting.spread}
    return {name: neck.put(at) for name, at in found.items()}


def _readings() -> Iterator[Reading]:
    board = ("nut.left", "nut.right", "end.left", "end.right")
    count = 0

    def read(**what: object) -> Reading:
        nonlocal count
        count += 1
        return Reading(id=f"r{count}", **what)  # type: ignore[arg-type]

    for a, b, fine in (
        (0, 1, "caliper 0.1"),
        (2, 3, "caliper 0.1"),
        (0, 2, "rule 0.5"),
        (1, 3, "rule 0.5"),
        (0, 3, "rule 0.5"),
        (1, 2, "rule 0.5"),
    ):
        yield read(kind="distance", of=(board[a], board[b]), with_=fine)
    for side in ("left", "right"):
        for fret in FRETS:
            yield read(kind="fret", fret=fret, on=side, with_="rule 0.5", laid=f"frets {side}")
    for name in ("foot.left", "foot.right", "tail.left", "tail.right", "body.1", "body.2"):
        side = BODY.get(name) or name.split(".")[1]
        edge = (f"nut.{side}", f"end.{side}")
        yield read(kind="along", of=(name,), from_=edge, with_="rule 0.5", laid=f"edge {side}")
        yield read(kind="off", of=(name,), from_=edge, side=side, with_="rule 0.5")


def _on_its_side(reading: Reading, instrument: Instrument) -> Reading:
    """An offset on the side where the hand sees it."""
    if reading.kind != "off" or true_values(reading, instrument)[0] >= 0:
        return reading
    return msgspec.structs.replace(reading, side=MIRROR[reading.side or ""])


def judged(seed: int, index: int, manner: Manner = AS_STATED) -> dict[str, Figure]:
    """Every figure of a trial; none where the layout has no bridge."""
    job, instrument, neck, setting = trial(seed, index, manner)
    layout = places_of(job)
    if layout.bridge is None or layout.floating is None or layout.floating.today is None or layout.tail is None:
        return {}
    length, width = float(setting.floating.length), float(setting.floating.width)
    front = setting.crown + 1j * setting.way * width / 2
    true = [front + setting.way * length / 2, front - setting.way * length / 2]
    stands = [neck.see(instrument.points[f"foot.{side}"]) for side in ("left", "right")]
    plan, today = layout.floating, layout.floating.today
    turned = math.degrees(np.angle(setting.way / setting.today_way))
    found = {}
    for at, side in enumerate(("left", "right")):
        (foot,) = lies(layout, instrument, ("nut", "end"), layout.bridge.corners[at])
        along, _ = layout.bridge.corners_pm95[at]
        found[f"where its {side} foot belongs"] = Figure(foot.real - true[at].real, along)
        found[f"how far its {side} foot is to go"] = Figure(
            today.along[at] - (true[at] - stands[at]).real, today.along_pm95[at]
        )
    found["its turn, degrees"] = Figure(math.degrees(layout.bridge.turn - np.angle(setting.way / 1j)), plan.turn_pm95)
    found["how far it is to turn, degrees"] = Figure(today.turn - turned, today.turn_pm95)
    gone = ((true[0] + true[1]) / 2 - (stands[0] + stands[1]) / 2) * setting.way.conjugate()
    found["how far it is to go across"] = Figure(today.across - gone.real, today.across_pm95)
    notched = _notched(seed, index, job, instrument, setting, layout)
    first = break_points(instrument, neck, _nominal(instrument, neck))[0]
    return found | _of_tail(seed, index, job, setting, layout, notched, first) | _of_pin(setting, layout)


class Notched(msgspec.Struct, frozen=True):
    """The strings as a hand has cut their notches, with the masses they have (n,): their pulls, where they lie at nut
    and saddle, the x at which they break, and how far they truly end under the strings carried on, mm.
    """

    pull: Array
    nut: Array
    saddle: Array
    x: Array
    across: Array
    under: float

    def push(self, tail: complex, spread: float) -> float:
        """What they push the bridge with to the left, N, where the tail's middle is."""
        forth = np.column_stack((self.x, self.saddle - self.nut, np.zeros(len(self.x))))
        back = np.column_stack(
            (tail.real - self.x, tail.imag + self.across * spread - self.saddle, np.full(len(self.x), -self.under))
        )
        ways = [one / np.linalg.norm(one, axis=1)[:, None] for one in (forth, back)]
        return float((self.pull * (ways[1] - ways[0])[:, 1]).sum())

    def balance(self, far: float, spread: float) -> float:
        """Where the tail's middle balances them, found by halving."""
        low, high = -60.0, 60.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if self.push(complex(far, middle), spread) < 0 else (low, middle)
        return (low + high) / 2


def _notched(seed: int, index: int, job: Job, instrument: Instrument, setting: Setting, layout: Layout) -> Notched:
    random = np.random.default_rng([seed, 5003, index])
    assert job.strings is not None
    strings, strung = job.strings.list, instrument.strung
    way = 1.0 if instrument.hand == "right" else -1.0
    across = np.array([way * (0.5 - i / (strung.count - 1)) for i in range(strung.count)])
    makes = [make(string) for string in strings]
    off = 1 + random.normal(0, 1, strung.count) * np.array([made.mass_sd if made else 0.0 for made in makes])
    nut, saddle = (
        across * spread + strung.shift + random.normal(0, NOTCH_SD, strung.count)
        for spread in (strung.nut_spread, strung.saddle_spread)
    )
    return Notched(
        pull=tensions(strings, 440.0, np.array([string.nominal for string in layout.strings])) * off,
        nut=nut,
        saddle=saddle,
        x=np.array([string.break_point[0] for string in layout.strings]),
        across=across,
        under=max(setting.under + float(random.normal(0, UNDER_SD)), 0.5),
    )


def _nominal(instrument: Instrument, neck: Neck) -> Line:
    """The line of nominal places, in the neck's frame."""
    paths = outer_paths(instrument, neck)
    ends = [start + way * far for (start, way), far in zip(paths, instrument.nominal, strict=True)]
    return through(ends[1], ends[0])


def _of_tail(
    seed: int, index: int, job: Job, setting: Setting, layout: Layout, notched: Notched, first: complex
) -> dict[str, Figure]:
    """The tail as it was read, and one that is still to come, of which its distance behind the saddle is typed; `first`
    is where the treble string truly breaks.
    """
    tail = layout.tail
    assert tail is not None
    assert tail.off is not None
    assert tail.push is not None
    balance = notched.balance(setting.tail.real, setting.spread)
    treble = tail.strings[0]
    behind = setting.tail.real - setting.crown.real
    steep = math.degrees(math.atan2(notched.under, setting.tail.real - first.real))
    assert treble.breaks is not None
    found = {
        "how far the tail stands aside": Figure(tail.off - (setting.tail.imag - balance), tail.off_pm95),
        "what it pushes the bridge aside with, N": Figure(
            tail.push - notched.push(setting.tail, setting.spread), tail.push_pm95
        ),
        "how steeply a string breaks over it, degrees": Figure(treble.breaks - steep, treble.breaks_pm95),
    }
    typed = behind + float(np.random.default_rng([seed, 5011, index]).normal(0, BEHIND_SD))
    kept = tuple(one for one in job.readings if not any(name.startswith("tail.") for name in one.of))
    points = {name: point for name, point in job.points.items() if not name.startswith("tail.")}
    other = Tail(behind=typed, spread=setting.spread, under=setting.under)
    still = places_of(msgspec.structs.replace(job, readings=kept, points=points, tail=other)).tail
    assert still is not None
    found["where a tail’s middle belongs that is not there yet"] = Figure(still.middle[1] - balance, still.across_pm95)
    return found


def _of_pin(setting: Setting, layout: Layout) -> dict[str, Figure]:
    """How far the strap pin lies from the nearer point of the body's end; none where it has no place."""
    if layout.tail is None or layout.tail.pin is None:
        return {}
    one, other = setting.end
    at = one + (other - one) * (one.imag / (one.imag - other.imag))
    names = ("body.1", "body.2")
    told = [abs(complex(*layout.tail.pin.at) - complex(layout.points[n].x, layout.points[n].y)) for n in names]
    near = min((0, 1), key=lambda end: told[end])
    return {
        "how far the strap pin lies from the body’s nearer point": Figure(
            told[near] - abs(at - setting.end[near]), layout.tail.pin_pm95
        )
    }


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many floating bridges with their tails."""
    return Found(figures=by_name(judged(seed, index, manner) for index in range(count)))
