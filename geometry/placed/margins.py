"""Margins: how far the outer strings run inside the board's edges, at every fret and on both sides; with its ± at the
nut, at fret 12 and at the board's end, where a rule can check it.
"""

from typing import NamedTuple

import msgspec
import numpy as np

from geometry import words
from geometry.findings import Finding, look
from geometry.frame import Array, Points, crossing, unit, xys
from geometry.frets.fret_lines import FretLines
from geometry.job import Job, Reading
from geometry.job.measured.kinds import SHAPES
from geometry.job.sides import SIDES, Side
from geometry.layout import Margin, Margins, Where
from geometry.layout.measured import GROSS
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import edge_crossings
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.saddle_line import Strung
from geometry.units import said, said_pm, said_under

LEAST = 2.0
"""The least margin with which a string is not pulled over the edge, mm (common practice, no source)."""
OVER: dict[Where, int] = {"nut": 0, "fret 12": 12, "board end": 99}
"""Over which fret each place of a margin lies, or past them all."""
UNCHECKED = "The width is not checked: measure it again."
OUTWARD = np.array([1.0, -1.0])


class Gaps(NamedTuple):
    """From each outer string to the board's edge on its side, in all rows: both ends and how wide each gap is (mm), all
    (rows, places × 2), the places in turn and left before right.
    """

    where: tuple[tuple[Where, Side], ...]
    string: Points
    edge: Points
    wide: Array


def find_gaps(frame: NeckFrame, strung: Strung, twelfth: tuple[Points, Points]) -> Gaps:
    """The gaps at the nut, fret 12 and the board's end, left and right each. `twelfth` is fret 12's line, a point and
    its direction; where its two ends were read, they are the edge there.
    """
    corners: dict[Where, Points] = {"nut": frame.nut, "fret 12": _ends_of_twelfth(frame, twelfth)}
    if frame.ends is not None:
        corners["board end"] = frame.ends
    edge = np.stack([*corners.values()], axis=1)
    leftward = unit(edge[..., :1] - edge[..., 1:])
    outer = strung.outer([OVER[place] for place in corners])
    string = crossing(edge[..., 1:], leftward, strung.start[:, outer], strung.along[:, outer])
    wide = ((edge - string) * leftward.conj()).real * OUTWARD
    flat = len(edge), -1
    where = tuple((place, side) for place in corners for side in SIDES)
    return Gaps(where, string.reshape(flat), edge.reshape(flat), wide.reshape(flat))


def _ends_of_twelfth(frame: NeckFrame, twelfth: tuple[Points, Points]) -> Points:
    left, right = (at.get(f"fret12.{side}") for side, at in zip(SIDES, frame.on_edges, strict=True))
    return edge_crossings(frame, *twelfth) if left is None or right is None else np.array((left, right)).T


def find_margins(states: PerturbedStates, frame: NeckFrame, strung: Strung, lines: FretLines, gaps: Gaps) -> Margins:
    """From each outer string's centre to the board's edge along each fret, the nut first; `gaps` with their ±, mm."""
    at_nut, *outer = strung.outer(range(1 + len(lines.on)))
    start, along = strung.start[0][outer], strung.along[0][outer]
    apart = lines.edge - crossing(lines.on[:, None], lines.way[:, None], start, along)
    beside_nut = (frame.nut[0] - strung.start[0, at_nut]).imag
    along_frets = np.abs(apart) * np.sign(apart.imag)
    left, right = (np.concatenate((beside_nut[None], along_frets)) * OUTWARD).T.tolist()
    return Margins(left=tuple(left), right=tuple(right), at=_told(states, gaps))


def _told(states: PerturbedStates, gaps: Gaps) -> tuple[Margin, ...]:
    widths, pm95s = gaps.wide[0].tolist(), states.pm95(gaps.wide).tolist()
    checked = [states.checked(gaps.wide[:, at]) for at in range(len(widths))]
    ends = zip(xys(gaps.string[0]), xys(gaps.edge[0]), strict=True)
    return tuple(
        Margin(place=place, side=side, mm=mm, pm95=pm95, string_xy=string, edge_xy=edge, checked=sure)
        for (place, side), mm, pm95, (string, edge), sure in zip(gaps.where, widths, pm95s, ends, checked, strict=True)
    )


def findings(
    job: Job, states: PerturbedStates, frame: NeckFrame, strung: Strung, lines: FretLines, margins: Margins
) -> tuple[Finding, ...]:
    """The smallest margin, named with its fret and side, where it is small. One that lies beyond the edge by less than
    its ± is not claimed to, nor one that no other reading checks.
    """
    if min(*margins.left, *margins.right, *(told.mm for told in margins.at)) >= LEAST:
        return ()
    known = {(_fret(told.place), told.side): told for told in margins.at if told.place != "board end"}
    listed = {(fret, side): margin for side in SIDES for fret, margin in enumerate(getattr(margins, side))}
    listed |= {key: told.mm for key, told in known.items() if key in listed}
    least, fret, side = min((margin, fret, side) for (fret, side), margin in listed.items())
    if least >= LEAST:
        return ()
    told = known.get((fret, side))
    pm95, checked = (told.pm95, told.checked) if told else _known_at(states, frame, strung, lines, fret, side)
    beyond = least + pm95 < 0 and checked
    mend = "Make the spread smaller or shift the strings." if checked else UNCHECKED
    return (
        Finding(
            grade="stop" if beyond else "look",
            code="margin.small",
            text=f"At {f'fret {fret}' if fret else 'the nut'} the outer {job.bass_or_treble(side)} string "
            f"{_runs(job, least, pm95)}; {said(LEAST, job.unit)} inside it is usual. {mend}",
            values={"mm": least, "pm95": pm95, "fret": float(fret)},
            where=f"fret:{fret}",
        ),
    )


def unchecked(job: Job, states: PerturbedStates, gaps: Gaps) -> tuple[Finding, ...]:
    """That nothing checks the margins, and which readings taken once more would, or the board's width at fret 12 where
    its edges there were only looked at; while readings are accused these come first.
    """
    unseen = states.unseen(gaps.wide)
    taken = {reading.id: reading for reading in job.readings if reading.id in unseen}
    if not taken or states.surveyed.alternatives:
        return ()
    read = [name for name in unseen if name in taken and SHAPES[taken[name].kind].values]
    names = words.readings_called(job, read or unseen)
    if read:
        them = "it" if len(read) == 1 else "them"
        again = msgspec.structs.replace(taken[read[0]], id="again", value=None, times=1.0, laid=None, note="")
        why = (
            f"{words.several(names, 4)} could be out by {said(GROSS, job.unit)} or more, and nothing would show it. "
            f"Read {them} once more, as a second reading beside the first."
        )
    else:
        again = Reading(id="again", kind="distance", of=("fret12.left", "fret12.right"))
        why = f"nothing but {words.several(names, 4)} tells where they are. Read {words.reading_called(job, again)}."
    unchecked = "How far the outer strings run from the board’s edges is not checked"
    where = f"take:{msgspec.json.encode(again).decode()}"
    return (look("margin.unchecked", f"{unchecked}: {why}", where, briefly=f"{unchecked}."),)


def _runs(job: Job, least: float, pm95: float) -> str:
    if least > 0:
        return f"runs {said_under(least, LEAST, job.unit, pm95)} from the board’s edge"
    much = said_pm(pm95, job.unit, -least)
    if least + pm95 < 0:
        return f"would lie {much} beyond the board’s edge"
    return f"may lie beyond the board’s edge, by {much}: too little to be sure"


def _fret(place: str) -> int:
    return 12 if place == "fret 12" else 0


def _known_at(
    states: PerturbedStates, frame: NeckFrame, strung: Strung, lines: FretLines, fret: int, side: Side
) -> tuple[float, bool]:
    """The ± at a fret, and whether it is checked; where along the neck the fret lies is as good as known for this."""
    i = SIDES.index(side)
    string = strung.outer([fret])[0][i]
    on, way = lines.on[fret - 1 : fret], lines.way[fret - 1 : fret]
    edge = crossing(on, way, frame.edge[:, i], frame.edge_way[:, i])
    gap = edge - crossing(on, way, strung.start[:, string], strung.along[:, string])
    wide = (gap * way.conj()).real
    return float(states.pm95(wide)), states.checked(wide)
