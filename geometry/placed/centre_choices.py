"""The choice that a board which turns at fret 12 leaves: which of its two parts the neck centre line follows, and what
each choice does to the outer strings' margins and to where the bridge lies.
"""

from typing import Literal, NamedTuple

from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frets import fret_lines
from geometry.job import Job
from geometry.job.neck.board import Centre
from geometry.layout import PLACES, Where
from geometry.neck.find_neck import LIES, centre_points
from geometry.neck.straightness import Size, Straightness, degrees, length
from geometry.placed import margins
from geometry.placed.place_everything import PlacedInstrument, place_everything
from geometry.survey.result import Surveyed
from geometry.units import said

CHOICES: tuple[Centre, ...] = ("bisector", "nut to fret 12")
BassOrTreble = Literal["bass", "treble"]
HANDS: tuple[BassOrTreble, ...] = ("bass", "treble")
KEYS: dict[Centre, str] = {
    "bisector": "whole",
    "nut to fret 12": "nut_to_12",
    "midpoints": "midpoints",
    "threads": "threads",
}
"""What the choices are called in a finding's values."""


class Choice(NamedTuple):
    """One choice: the margins (mm) by place and bass or treble, and where the saddle's middle comes to lie, seen in the
    survey's own frame, with the direction of the centre line there.
    """

    centre: Centre
    margins: dict[tuple[Where, BassOrTreble], float]
    saddle: complex
    way: complex


def turn_findings(job: Job, surveyed: Surveyed, placed: PlacedInstrument, seen: Straightness) -> tuple[Finding, ...]:
    """That the board turns, by how much, and the choice that it leaves, or the line that was chosen; nothing for one
    that does not.
    """
    if seen.turn is None or seen.off is None:
        return ()
    wanted = dict.fromkeys((*CHOICES, job.board.line)) if placed.states.has(*centre_points(job)) else CHOICES
    choices = [found for centre in wanted if (found := _choose(job, surveyed, placed, centre)) is not None]
    toward = job.bass_or_treble("left" if seen.turn.value > 0 else "right")
    chosen = job.board.centre is not None and placed.states.has(*centre_points(job))
    then = "Choose the neck centre line, or lay two threads."
    if chosen:
        then = f"The neck centre line {LIES[job.board.line]} is used, as chosen."
    text = (
        f"The board turns at fret 12 by {degrees(seen.turn)} toward {toward}, and lies {length(job, seen.off)} beside "
        f"the line from nut to board end there. {_told(job, choices)} {then}"
    )
    return (
        Finding(
            grade="good" if chosen else "look",
            code="board.turns",
            text=text,
            values=_values(seen.turn, seen.off, choices),
            where="field:board.centre",
        ),
    )


def _choose(job: Job, surveyed: Surveyed, placed: PlacedInstrument, centre: Centre) -> Choice | None:
    """What a choice leads to; None while the strings are not laid out."""
    if placed.saddle is None:
        return None
    if centre != job.board.line:
        job = replace(job, board=replace(job.board, centre=centre))
        placed = place_everything(job, surveyed)
    on, strings = placed.neck, placed.saddle
    if on is None or on.spaced is None or strings is None:
        return None
    twelfth = fret_lines.twelfth(job, on.paths, on.spaced)
    gaps = margins.find_gaps(on.frame, strings.strung, twelfth)
    hands = [(where, job.bass_or_treble(side)) for where, side in gaps.where]
    found: dict[tuple[Where, BassOrTreble], float] = dict(zip(hands, gaps.wide[0].tolist(), strict=True))
    origin, way = complex(on.frame.origin[0]), complex(on.frame.direction[0])
    middle = complex(strings.line.x(strings.line.outer)[0].mean(), strings.line.outer.mean())
    return Choice(centre, found, origin + way * middle, way)


def _apart(choices: list[Choice]) -> float:
    """How far the saddle's middle lies to the left by the second choice, seen from the first, mm."""
    one, other, *_ = choices
    return (one.way.conjugate() * (other.saddle - one.saddle)).imag


def _told(job: Job, choices: list[Choice]) -> str:
    if len(choices) < 2:
        return "What that does to the outer strings’ margins is said once the strings are known."
    parts = []
    for choice in choices:
        places = [where for where in PLACES if (where, "bass") in choice.margins]
        at = ["/".join(_bare(choice.margins[where, hand], job) for hand in HANDS) for where in places]
        parts.append(f"{LIES[choice.centre]} {', '.join(at)}")
    end = " and board end" if ("board end", "bass") in choices[0].margins else ""
    return (
        f"The outer strings’ margins, bass/treble, at nut, fret 12{end}: {'; '.join(parts)} {job.unit}. From the "
        f"first to the second the bridge moves sideways by {said(abs(_apart(choices)), job.unit)}."
    )


def _bare(value: float, job: Job) -> str:
    """A small length without its unit, in decimals."""
    return said(value, job.unit).removesuffix(job.unit).rstrip()


def _values(turn: Size, off: Size, choices: list[Choice]) -> dict[str, float]:
    found = {"degrees": turn.value, "degrees_pm95": turn.pm95, "off": off.value, "off_pm95": off.pm95}
    for choice in choices:
        for (where, hand), margin in choice.margins.items():
            found[f"{KEYS[choice.centre]}.{PLACES[where]}.{hand}"] = margin
    return found | ({"saddle_apart": _apart(choices)} if len(choices) > 1 else {})
