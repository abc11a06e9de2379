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

from geometry.job import Floating, Frets, Job, Point, Reading, Saddle, Spread, String, Strings, Tail
from geometry.layout import Layout
from geometry.strings.string_make import make
from geometry.strings.tension import tensions
from geometry.tail.with_tail import NOTCH_SD
from geometry.work_out import work_out
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.crooked import Wish, drawn
from tests.campaign.invented.hands import Errors, Manner, take, true_values, written
from tests.campaign.invented.instruments import Instrument, Neck, neck_of, outer_paths, truth_of
from tests.campaign.invented.mirroring import MIRROR
from tests.campaign.judging import Figure

FRETS = (1, 3, 5, 7, 9, 12)
PITCHES = ("D4", "B3", "G3", "D3", "C3", "A2")
GAUGES = (0.254, 0.28, 0.33, 0.46, 0.56, 0.66)
"""Plain steel, mm, so that every pull is known to its mass."""


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


def trial(seed: int, index: int) -> tuple[Job, Instrument, Neck, Setting]:
    """One trial: the job that a hand made of a true instrument."""
    random = np.random.default_rng([seed, 2711, index])
    board = drawn(random, Wish())
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
    )
    instrument = msgspec.structs.replace(board, points=board.points | _marked(neck, setting))
    asked = tuple(_on_its_side(reading, instrument) for reading in _readings())
    readings = written(asked, take(asked, instrument, Errors(random, Manner())))
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
        tail=Tail(spread=setting.spread, under=setting.under),
    )
    return job, instrument, neck, setting


def _outer(board: Instrument) -> tuple[float, float]:
    """The outer strings' y at the saddle, left and right."""
    half, shift = board.strung.saddle_spread / 2, board.strung.shift
    return half + shift, -half + shift


def _marked(neck: Neck, setting: Setting) -> dict[str, complex]:
    """The feet's front corners as they stand today, and where the outer strings end, in the body's frame."""
    length, width = float(setting.floating.length), float(setting.floating.width)
    front = setting.today + 1j * setting.today_way * width / 2
    found = {"foot.left": front + setting.today_way * length / 2, "foot.right": front - setting.today_way * length / 2}
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
    for name in ("foot.left", "foot.right", "tail.left", "tail.right"):
        side = name.split(".")[1]
        edge = (f"nut.{side}", f"end.{side}")
        yield read(kind="along", of=(name,), from_=edge, with_="rule 0.5", laid=f"edge {side}")
        yield read(kind="off", of=(name,), from_=edge, side=side, with_="rule 0.5")


def _on_its_side(reading: Reading, instrument: Instrument) -> Reading:
    """An offset on the side where the hand sees it."""
    if reading.kind != "off" or true_values(reading, instrument)[0] >= 0:
        return reading
    return msgspec.structs.replace(reading, side=MIRROR[reading.side or ""])


def judged(seed: int, index: int) -> dict[str, Figure]:
    """Every figure of a trial; none where the layout has no bridge."""
    job, instrument, neck, setting = trial(seed, index)
    layout = work_out(job)
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
        (x, _), (along, _) = layout.bridge.corners[at], layout.bridge.corners_pm95[at]
        found[f"where its {side} foot belongs"] = Figure(x - true[at].real, along)
        found[f"how far its {side} foot is to go"] = Figure(
            today.along[at] - (true[at] - stands[at]).real, today.along_pm95[at]
        )
    found["its turn, degrees"] = Figure(math.degrees(layout.bridge.turn - np.angle(setting.way / 1j)), plan.turn_pm95)
    found["how far it is to turn, degrees"] = Figure(today.turn - turned, today.turn_pm95)
    gone = ((true[0] + true[1]) / 2 - (stands[0] + stands[1]) / 2) * setting.way.conjugate()
    found["how far it is to go across"] = Figure(today.across - gone.real, today.across_pm95)
    assert layout.tail.off is not None
    balance = _balance(seed, index, job, instrument, setting, layout)
    found["how far the tail stands aside"] = Figure(
        layout.tail.off - (setting.tail.imag - balance), layout.tail.off_pm95
    )
    return found


def _balance(seed: int, index: int, job: Job, instrument: Instrument, setting: Setting, layout: Layout) -> float:
    """Where the tail's middle truly balances the strings as a hand has cut their notches, with the masses they have."""
    random = np.random.default_rng([seed, 5003, index])
    strung, way = instrument.strung, 1.0 if instrument.hand == "right" else -1.0
    assert job.strings is not None
    across = np.array([way * (0.5 - i / (strung.count - 1)) for i in range(strung.count)])
    length = np.array([string.nominal for string in layout.strings])
    makes = [make(string) for string in job.strings.list]
    off = 1 + random.normal(0, 1, strung.count) * np.array([made.mass_sd if made else 0.0 for made in makes])
    pull = tensions(job.strings.list, 440.0, length) * off
    nut = across * strung.nut_spread + strung.shift + random.normal(0, NOTCH_SD, strung.count)
    saddle = across * strung.saddle_spread + strung.shift + random.normal(0, NOTCH_SD, strung.count)
    x = np.array([string.break_point[0] for string in layout.strings])
    forth = np.column_stack((x, saddle - nut, np.zeros(strung.count)))
    forth /= np.linalg.norm(forth, axis=1)[:, None]

    def push(middle: float) -> float:
        behind = setting.tail.real - x
        back = np.column_stack(
            (behind, middle + across * setting.spread - saddle, np.full(strung.count, -setting.under))
        )
        back /= np.linalg.norm(back, axis=1)[:, None]
        return float((pull * (back - forth)[:, 1]).sum())

    low, high = -60.0, 60.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if push(middle) < 0 else (low, middle)
    return (low + high) / 2


def found(count: int, seed: int) -> Found:
    """So many floating bridges with their tails."""
    return Found(figures=by_name(judged(seed, index) for index in range(count)))
