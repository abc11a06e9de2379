"""Heights that were read and cannot be used yet, because another one is missing.

Each height of a string over a fret counts by itself, with what is usual for those that are missing (`heights.assumed`),
and the heights over the top at the saddle's place tell the saddle's height by themselves. What waits is the top's fall:
it takes the board over the top at its end, and behind it the string, or the straightedge on the frets, over the top;
from the string it follows only where the action was read or typed as well.
"""

from geometry.findings import Finding
from geometry.job import Job
from geometry.job.measured.readings import Place
from geometry.job.sides import SIDES, Side
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.strings.played import PlayedStrings
from geometry.strings.string_heights import over_frets

FALL = "how the top falls away is known, and the distances allow for it"


def findings(job: Job, states: PerturbedStates, ready: PlayedStrings, frame: NeckFrame) -> tuple[Finding, ...]:
    """The heights that wait, what for, and what to read: one sentence, or nothing where all of them are used."""
    at_end, at_saddle, at_bridge = (_read(states, place) for place in ("board end", "saddle", "bridge"))
    if not at_end:
        return ()
    heights = "The height at the board’s end waits" if len(at_end) == 1 else "The heights at the board’s end wait"
    if frame.ends is None:
        text = f"{heights} for its corners: measure them, and {FALL}."
        return (_waits(text, "step:measure"),)
    if at_saddle:
        return ()
    if not at_bridge:
        text = (
            f"{heights}: read the string over the top at the bridge too, or with the strings off the straightedge over "
            f"the top at the saddle, and {FALL}."
        )
        return (_waits(text, _reading(job, "bridge") or _reading(job, "saddle") or "step:measure"),)
    if not ready.heights_assumed:
        return ()
    lacking = over_frets(ready.missing, ready.bass)
    fret, side = ready.missing[0]
    text = f"The heights at the board’s end and at the bridge wait: read the string over {lacking}, and {FALL}."
    return (_waits(text, _reading(job, fret, side) or "field:strings.action"),)


def _read(states: PerturbedStates, place: Place) -> list[Side]:
    """The sides on which a height was read."""
    return [side for side in SIDES if states.unknown(f"height.{place}.{side}") is not None]


def _reading(job: Job, place: Place, side: Side | None = None) -> str:
    """Where a height that is listed and not taken yet is read; empty where none is listed."""
    listed = (r for r in job.readings if r.kind == "height" and r.at == place and not (r.taken or r.struck))
    found = next((r.id for r in listed if side is None or r.on == side), None)
    return f"reading:{found}" if found is not None else ""


def _waits(text: str, where: str) -> Finding:
    return Finding(grade="look", code="heights.wait", text=text, where=where)
