"""Invented instruments with a string at each side that starts at a fret: whether the ± of where they break holds.

The geometry is the campaign's own. One string is read from its neighbour, the other from the board's edge, both along
the fret that they start at; their compensation is typed. Each has a piece of the saddle of its own, whose ± is told.
"""

import numpy as np
from msgspec.structs import replace

from geometry.job import Job, Spread, String
from geometry.layout import Layout
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.hands import AS_STATED, Manner
from tests.campaign.invented.instruments import Instrument, best_line, meet, neck_of, outer_paths, through
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

STARTS = (2, 9)
"""The frets they start between."""
BESIDE, FROM_EDGE, WANTS = (6.0, 10.0), (-2.0, 3.0), (0.5, 3.0)
"""How far they start outside the neighbour, and inside the board's edge where that leaves room, and what compensation
they want, mm (common practice, no source)."""
ROOM = 0.6
"""The job asks for at least 0.5 mm from the edge (geometry/job/stringing.py)."""
NAMES = ("from its neighbour", "from the board’s edge")


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many instruments; of each both strings."""
    return Found(figures=by_name(judged(seed, index, manner) for index in range(count)))


def judged(seed: int, index: int, manner: Manner = AS_STATED) -> dict[str, Figure]:
    """One trial: where the treble's short string breaks, given from its neighbour, and the bass's, from the edge."""
    trial = trial_of(replace(CASES[0], manner=manner), seed, index)
    random = np.random.default_rng([seed, 6007, index])
    stations = ("nut", "fret12", "end") if "fret12.left" in trial.job.points else ("nut", "end")
    starts = tuple(int(fret) for fret in random.integers(STARTS[0], STARTS[1] + 1, 2))
    wants = tuple(float(round(random.uniform(*WANTS), 2)) for _ in starts)
    said = float(round(random.uniform(*BESIDE), 1)), float(round(max(random.uniform(*FROM_EDGE), ROOM), 1))
    layout = places_of(_with_short(trial.job, trial.instrument, starts, wants, said))
    if layout.saddle is None or layout.neck is None:
        return {}
    true = _true(trial.instrument, stations, starts, wants, said)
    piece = layout.saddle.pieces[0], layout.saddle.pieces[-1]
    told = [one.at_strings[0][0] - _nut_at(layout, string) for one, string in zip(piece, (0, -1), strict=True)]
    return {
        f"where the string breaks that is given {name}": Figure(told[at] - true[at], piece[at].pm95[0])
        for at, name in enumerate(NAMES)
    }


def _with_short(
    job: Job,
    instrument: Instrument,
    starts: tuple[int, ...],
    wants: tuple[float, ...],
    said: tuple[float, float],
) -> Job:
    """The job with a short string at the treble and one at the bass; the others lie as they lay."""
    strung = instrument.strung
    if job.strings is None or job.saddle is None or job.bridge is None:
        raise AssertionError("a trial’s job has strings, saddle and bridge")
    step = strung.saddle_spread / (strung.count - 1)
    treble = String(name="treble", starts_at=starts[0], from_neighbour=said[0])
    bass = String(name="bass", starts_at=starts[1], from_edge=said[1])
    return replace(
        job,
        strings=replace(
            job.strings,
            list=(treble, *job.strings.list, bass),
            saddle=Spread(spread=strung.saddle_spread + 2 * step),
            compensation=(wants[0], *strung.compensation, wants[1]),
        ),
        saddle=replace(job.saddle, made="each", thickness=12.0, peak_at=0.5),
        bridge=replace(job.bridge, seat="square", width=60.0, front_to_slot=20.0),
    )


def _true(
    instrument: Instrument,
    stations: tuple[str, ...],
    starts: tuple[int, ...],
    wants: tuple[float, ...],
    said: tuple[float, float],
) -> list[float]:
    """From the nut's front, where each one's line carried back meets it, along the neck to where it breaks, mm."""
    strung, way = instrument.strung, 1 if instrument.hand == "right" else -1
    neck = neck_of(instrument.points, stations)
    paths = outer_paths(instrument, neck)
    ends = [start + along * far for (start, along), far in zip(paths, instrument.nominal, strict=True)]
    nominal = through(ends[1], ends[0])
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    found = []
    for at, side in enumerate((way, -way)):
        path = 0 if side > 0 else 1
        left, right = (start + along * instrument.fret(starts[at], i) for i, (start, along) in enumerate(paths))
        outward = side * (left - right) / abs(left - right)
        if at == 0:
            begins = (left, right)[path] + outward * said[0]
        else:
            name = "left" if path == 0 else "right"
            edge = best_line([neck.see(instrument.points[f"{station}.{name}"]) for station in stations])
            begins = meet(through(right, left), edge) - outward * said[1]
        y = side * (strung.saddle_spread / 2 + strung.saddle_spread / (strung.count - 1)) + strung.shift
        breaks = complex(meet(nominal, (1j, y)).real, y)
        for _ in range(6):
            line = through(begins, breaks)
            breaks = complex(meet(nominal, line).real + wants[at], y)
        found.append(breaks.real - meet(nut, through(begins, breaks)).real)
    return found


def _nut_at(layout: Layout, string: int) -> float:
    """The x of the nut's front where a string's line carried back meets it, as the layout has both."""
    plan = layout.strings[string]
    assert layout.neck is not None
    left, right = (complex(*at) for at in layout.neck.nut)
    return meet(through(right, left), through(complex(*plan.nut_xy), complex(*plan.break_point))).real
