"""Saddles of several pieces on invented instruments: how well each piece's place is known, and what it leaves in cents.

The instruments, the hand and the truth are the campaign's own. Strings ask for jagged compensation, as no one line
gives it. Which strings make a piece is the program's choice, not a truth; where the piece then belongs is: on the line
of least squares through its strings' true break points, or, where the saddle is too thin for them, on that of least
squares of what stays outside it, found by a search that knows no slopes.
"""

from typing import Literal, get_args
from zlib import crc32

import msgspec
import numpy as np
from msgspec.structs import replace
from scipy.optimize import minimize

from geometry.frame import Array, Points
from geometry.job import Job
from geometry.job.seating import Made
from geometry.layout import Layout
from geometry.saddle.best_line import TIE
from geometry.saddle.choice_of_saddle import saddle_choices
from geometry.spacing import CENTS
from tests.campaign.counting import Found, share
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.hands import AS_STATED, Manner
from tests.campaign.invented.instruments import (
    Instrument,
    break_points,
    meet,
    neck_of,
    outer_paths,
    through,
)
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

Ways = Literal["one", "two", "three", "each"]
WAYS: tuple[Ways, ...] = get_args(Ways)
MADE: dict[Ways, str] = {"one": "in one", "two": "in two", "three": "in three", "each": "one a string"}
JAGGED, THICK, THIN = 3.0, 12.0, 0.8
"""By how much strings beside each other may ask for other places, and the thickness with room for all and that without,
mm (common practice, no source)."""
TOLD = 0.02
"""Cents: how nearly a thin saddle's worst string is told. derived: the places of strings beside each other are read
from one survey, and what differs between them hangs on it by far less than this."""


class Parted(msgspec.Struct, frozen=True, kw_only=True):
    """One trial judged: how it was made; each piece's place at its outermost strings; and for a thin saddle made so the
    worst string's cents as told and in truth.
    """

    made: Ways
    places: tuple[Figure, ...]
    cents: tuple[float, float]


def judged(made: Ways, seed: int, index: int, manner: Manner = AS_STATED) -> Parted | None:
    """One trial; None where the readings placed no saddle."""
    trial = trial_of(replace(CASES[0], manner=manner), seed, index)
    random = np.random.default_rng([seed, crc32(made.encode()), index])
    asks = tuple(round(c + float(random.uniform(0, JAGGED)), 2) for c in trial.instrument.strung.compensation)
    instrument = replace(trial.instrument, strung=replace(trial.instrument.strung, compensation=asks))
    stations = ("nut", "fret12", "end") if "fret12.left" in trial.job.points else ("nut", "end")
    thick, thin = (_made(trial.job, made, asks, thickness) for thickness in (THICK, THIN))
    layout = places_of(thick)
    if layout.saddle is None:
        return None
    wanted, starts, nominal = true_places(instrument, stations)
    figures = []
    for piece in layout.saddle.pieces:
        run = [at for at, string in enumerate(layout.strings) if string.name in piece.strings]
        at, lean = line_of(wanted[run], THICK)
        for (x, y), pm, string in zip(piece.at_strings, piece.pm95, _outermost(run, wanted), strict=True):
            told = x - layout.strings[string].nut_xy[0]
            true = at + lean * wanted[string].imag - starts[string].real
            figures.append(Figure(told - true, pm))
            assert abs(y - layout.strings[string].break_point[1]) < 1e-6
    return Parted(made=made, places=tuple(figures), cents=_cents(thin, made, wanted, nominal))


def _made(job: Job, made: Made, asks: tuple[float, ...], thickness: float) -> Job:
    if job.saddle is None or job.strings is None or job.bridge is None:
        raise AssertionError("a trial’s job has saddle, strings and bridge")
    saddle = replace(job.saddle, made=made, thickness=thickness, peak_at=0.5)
    bridge = replace(job.bridge, seat="square", width=60.0, front_to_slot=20.0)
    return replace(job, saddle=saddle, bridge=bridge, strings=replace(job.strings, compensation=asks))


def true_places(instrument: Instrument, stations: tuple[str, ...]) -> tuple[Points, Points, Array]:
    """The true break points, where the strings leave the nut's front, and their open lengths to the nominal place."""
    neck = neck_of(instrument.points, stations)
    ends = [s + w * far for (s, w), far in zip(outer_paths(instrument, neck), instrument.nominal, strict=True)]
    line = through(ends[1], ends[0])
    wanted = break_points(instrument, neck, line)
    strung, way = instrument.strung, 1 if instrument.hand == "right" else -1
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    across = [way * (0.5 - i / (strung.count - 1)) for i in range(strung.count)]
    starts = [meet(nut, (1j, y * strung.nut_spread + strung.shift)) for y in across]
    lengths = [abs(meet(line, through(start, end)) - start) for start, end in zip(starts, wanted, strict=True)]
    return np.array(wanted), np.array(starts), np.array(lengths)


def _outermost(run: list[int], wanted: Points) -> tuple[int, int]:
    return max(run, key=lambda at: wanted[at].imag), min(run, key=lambda at: wanted[at].imag)


def line_of(wanted: Points, thick: float) -> tuple[float, float]:
    """The line x = at + lean y that leaves the least sum of squares outside half the thickness on either side, and,
    a thousandth as heavy, inside it.
    """
    x, y = wanted.real, wanted.imag
    if len(x) == 1:
        return float(x[0]), 0.0

    def cost(line: Array) -> float:
        off = x - line[0] - line[1] * y
        inside = np.clip(off, -thick / 2, thick / 2)
        return float(((off - inside) ** 2).sum() + TIE * (off**2).sum())

    lean, at = np.polyfit(y, x, 1)
    if np.abs(x - at - lean * y).max() <= thick / 2:
        return float(at), float(lean)
    found = minimize(cost, [at, lean], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-14, "maxiter": 4000})
    return float(found.x[0]), float(found.x[1])


def _cents(job: Job, made: Ways, wanted: Points, nominal: Array) -> tuple[float, float]:
    """The worst string's cents on a thin saddle made so, as told, and in truth of these pieces."""
    layout: Layout = places_of(job)
    (told,) = (one for one in saddle_choices(job, layout) if one.made == made)
    assert layout.saddle is not None
    worst = 0.0
    for piece in layout.saddle.pieces:
        run = [at for at, string in enumerate(layout.strings) if string.name in piece.strings]
        at, lean = line_of(wanted[run], THIN)
        off = wanted[run].real - at - lean * wanted[run].imag
        left = np.abs(off - np.clip(off, -THIN / 2, THIN / 2)) * CENTS / nominal[run]
        worst = max(worst, float(left.max()))
    return told.cents, worst


def tried(made: Ways, seed: int, count: int, manner: Manner = AS_STATED) -> list[Parted]:
    """So many trials of one way."""
    return [found for index in range(count) if (found := judged(made, seed, index, manner)) is not None]


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """A piece's place at its leftmost string, and what a thin saddle leaves; so many instruments of each way."""
    every = {made: tried(made, seed, count, manner) for made in WAYS}
    return Found(
        figures={f"where a piece belongs, {MADE[made]}": [one.places[0] for one in every[made]] for made in WAYS},
        said={
            f"the cents a thin saddle leaves, {MADE[made]}": share(
                abs(told - true) <= TOLD for told, true in (one.cents for one in every[made])
            )
            for made in WAYS
        },
    )
