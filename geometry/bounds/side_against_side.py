"""Bounds of the heights: the strings over the frets, and the board and the strings over the top, side against side."""

from collections.abc import Iterator

import numpy as np

from geometry.findings import Finding, look
from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.heights.read_heights import read_height
from geometry.strings.estimate_findings import UNPLAYABLE
from geometry.strings.played import PlayedStrings
from geometry.strings.string_heights import usual_action
from geometry.units import mm, said

BASS_HIGHER = (-0.4, 1.3)
"""mm by which the string over fret 12 is higher at the bass than at the treble (common practice, no source)."""
OVER_NUT = 1.2
"""mm. A string rarely lies higher over the frets' plane at the nut (common practice, no source)."""
TALL = 0.9
"""mm. The strings rarely lie so much higher over fret 12 than is usual for their material and scale; a fret's height is
1 mm (common practice, no source)."""
FULL = 650.0
"""mm. On a shorter scale strings are not always as much lower (common practice, no source)."""
UNLIKE = 3.0
"""mm. What is read over the top rarely differs more from side to side (common practice, no source)."""
OVER_TOP = {
    "board end": "the board over the top at its end",
    "bridge": "the string over the top at the bridge",
    "saddle": "the straightedge over the top at the saddle",
}


def findings(job: Job, states: PerturbedStates, ready: PlayedStrings) -> tuple[Finding, ...]:
    """Heights that no instrument has on its two sides, or at its nut."""
    return (*_over_frets(job, ready), *_tall(job, ready), *_over_the_top(job, states))


def _over_frets(job: Job, ready: PlayedStrings) -> Iterator[Finding]:
    """Nothing is said where any of these heights was assumed."""
    if ready.heights_assumed or len(ready.over_12) < 2:
        return
    higher, nut = float(ready.over_12[-1] - ready.over_12[0]), float(ready.low.max())
    if not BASS_HIGHER[0] <= higher <= BASS_HIGHER[1]:
        usual, side = (BASS_HIGHER[1], "bass") if higher > 0 else (-BASS_HIGHER[0], "treble")
        yield look(
            "heights.uneven",
            f"The strings lie {said(abs(higher), job.unit)} higher over fret 12 at the {side} than on the "
            f"other side; more than {said(usual, job.unit)} is unusual. Look at both heights, and whether the "
            "sides are exchanged.",
            "field:strings.action",
            mm=higher,
        )
    if nut > OVER_NUT:
        yield look(
            "heights.nut",
            f"By the heights over frets 1 and 12 a string lies {said(nut, job.unit)} over the frets at the "
            f"nut; more than {said(OVER_NUT, job.unit)} is unusual. Look at both heights, whether they were "
            "read from the frets’ tops, or cut the nut lower first.",
            "field:strings.action",
            mm=nut,
        )


def _tall(job: Job, ready: PlayedStrings) -> Iterator[Finding]:
    """Strings so high over fret 12 that the rule may have stood on the wood; what can hardly be played is a stop."""
    hard = {string.material in ("steel", "silk and steel") for string in ready.strings.list}
    if ready.heights_assumed or len(hard) > 1:  # what is usual depends on the material, and one of them is a slip
        return
    treble, bass = usual_action(ready.strings, False, np.maximum(ready.places.board, FULL)).fret12
    mean, most = float(ready.over_12.mean()), (mm(treble or 0.0) + mm(bass or 0.0)) / 2 + TALL
    if mean > most and ready.over_12.max() <= UNPLAYABLE:
        yield look(
            "heights.tall",
            f"Over fret 12 the strings lie {said(mean, job.unit)} high, the mean of bass and treble, and more than "
            f"{said(most, job.unit)} is unusual: look whether both heights were read from the fret’s top, not from "
            "the wood beside it.",
            "field:strings.action",
            mm=mean,
        )


def _over_the_top(job: Job, states: PerturbedStates) -> Iterator[Finding]:
    for place, what in OVER_TOP.items():
        left, right = (read_height(states, place, side) for side in SIDES)
        if left is None or right is None or abs(left.mm - right.mm) <= UNLIKE:
            continue
        own = next((read.id for read in job.readings if read.at == place and read.taken), "")
        yield look(
            "top.unlike",
            f"Read on both sides, {what} differs by {said(abs(left.mm - right.mm), job.unit)}: look at both "
            "heights, and whether the top has sunk.",
            f"reading:{own}" if own else "step:measure",
            mm=left.mm - right.mm,
        )
        return
