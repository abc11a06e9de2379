"""The places a bridge may be moved to, in words: how it is moved, its numbers side by side, and what each gives up."""

from typing import NamedTuple

from geometry.choice.choose import ChosenPlace
from geometry.choice.merits_of_poses import ROOM
from geometry.job import Job, Moved
from geometry.units import in_decimals, mm, said
from geometry.words import first_large, joined

HEADS = (
    "cents bass",
    "cents treble",
    "scar",
    "holes used again",
    "room at brace, plate, metal",
    "askew",
    "margins differ",
)
"""What each place's figures are called."""
MEANS = (
    "How far out of tune the outer strings stay at fret 12: + where the string is too long, and so plays flat.",
    "The same at the treble string.",
    "How much of the old footprint stays uncovered.",
    "How many of the old pin holes that were read the new ones use again.",
    "The least room of slot and pin holes at braces, plate and metal; beyond 3 mm more is of no use.",
    "The bridge’s angle to the seam, or to the neck centre line where no seam was read.",
    "By how much the margins of the outer strings differ at the board’s end.",
)
"""What each figure means, for who points at it."""
SQUARE_INCH = 25.4**2
NO_AREA = 0.5
"""What reads as no square millimetre at all."""
LITTLE = {"cents": 0.1, "scar": 5.0, "again": 1.0, "room": 0.1, "askew": 0.05, "uneven": 0.1}
"""Less than this is not worth giving up a word for (cents, mm², holes, mm, degrees, mm)."""


class PlaceRow(NamedTuple):
    """One place: what it is best at, how the bridge is moved there, its figures as in `HEADS`, what it gives up."""

    name: str
    moved: str
    figures: tuple[str, ...]
    gives_up: str


def rows(job: Job, places: tuple[ChosenPlace, ...]) -> tuple[PlaceRow, ...]:
    """A row for each place; what it gives up is told against the first, which is true to the strings."""
    return tuple(
        PlaceRow(
            name=first_large("; ".join(place.best_at)),
            moved=moved(job, place.moved),
            figures=_figures(job, place),
            gives_up=_gives_up(job, place, places[0]),
        )
        for place in places
    )


def moved(job: Job, to: Moved) -> str:
    """How a bridge is moved: “1.2 mm to the tail, its bass end turned 0.6° to the nut; the slot stays”. Across, the
    strings go with it at the saddle, and the slot along its own line with them.
    """
    along, across = mm(to.along), mm(to.across)
    parts = [f"{said(abs(along), job.unit)} to the {'tail' if along > 0 else 'nut'}"] * (abs(along) >= 0.05)
    side = job.bass_or_treble("left" if across > 0 else "right")
    parts += [f"{said(abs(across), job.unit)} to the {side} side"] * (abs(across) >= 0.05)
    end = job.bass_or_treble("left" if to.turn > 0 else "right")
    parts += [f"its {end} end turned {abs(to.turn):.1f}° to the nut"] * (abs(to.turn) >= 0.05)
    if not parts:
        return "where the strings want it"
    slot_is_cut = job.bridge is not None and job.bridge.slot_front is not None
    sideways = abs(across) >= 0.05
    goes = slot_is_cut or to.slot == "goes along" or (sideways and len(parts) == 1)
    if sideways:
        return f"{', '.join(parts)}; slot and strings go with it{'' if goes else ' to that side only'}"
    return ", ".join(parts) + ("" if slot_is_cut else "; the slot moves with it" if goes else "; the slot stays")


def area(square_mm: float, job: Job) -> str:
    """An area in the job's unit; what reads as none is none."""
    if square_mm < NO_AREA:
        return "none"
    return f"{square_mm / SQUARE_INCH:.2f} in²" if job.unit == "in" else f"{square_mm:.0f} mm²"


def _figures(job: Job, place: ChosenPlace) -> tuple[str, ...]:
    return (
        *(in_decimals(cents, sign=True) if abs(cents) >= 0.05 else "0" for cents in place.cents),
        "–" if place.scar is None else area(place.scar, job),
        "–" if place.again is None else str(place.again),
        _room(job, place.room),
        f"{abs(place.askew):.1f}°",
        said(place.uneven, job.unit),
    )


def _room(job: Job, room: float | None) -> str:
    """Room beyond which more is of no use is not told any finer."""
    if room is None:
        return "–"
    return "runs in" if room < 0 else f"{said(room, job.unit)}{' or more' if room >= ROOM else ''}"


def _gives_up(job: Job, place: ChosenPlace, first: ChosenPlace) -> str:
    """What the place is worse at than the first."""
    if place is first:
        return ""
    cents = max(map(abs, place.cents)) - max(map(abs, first.cents))
    askew, uneven = abs(place.askew) - abs(first.askew), place.uneven - first.uneven
    worse = {
        f"{cents:.1f} cents": cents / LITTLE["cents"],
        f"{said(uneven, job.unit)} of even margins": uneven / LITTLE["uneven"],
        f"{askew:.1f}° of standing square": askew / LITTLE["askew"],
    }
    if place.scar is not None and first.scar is not None:
        more = place.scar - first.scar
        worse[f"{area(more, job)} more scar"] = more / LITTLE["scar"]
    if place.again is not None and first.again is not None:
        fewer = first.again - place.again
        worse[f"{fewer} hole{'s' * (fewer > 1)}"] = fewer / LITTLE["again"]
    if place.room is not None and first.room is not None and first.room >= 0:
        worse[f"{said(first.room - place.room, job.unit)} of room"] = (first.room - place.room) / LITTLE["room"]
    given = [words for words, much in worse.items() if much >= 1]
    return f"gives up {joined(given)}" if given else "gives up nothing"
