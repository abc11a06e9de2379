"""Plain words for points, lines and readings, as the trade says them: bass and treble by the job's hand.

Names of points are the job's own (`nut.left`); a person reads “nut, bass”.
"""

from collections.abc import Sequence
from typing import NamedTuple

from geometry import units
from geometry.job import Job, Reading
from geometry.job.instruments import INSTRUMENTS
from geometry.job.job import Hand
from geometry.layout import Layout, Margin

_PLACES = {
    "nut": "nut",
    "end": "board end",
    "fret12": "fret 12",
    "seam": "seam",
    "old": "old footprint",
    "pin": "old pin hole",
    "metal": "metal",
    "body": "body outline",
    "thread": "thread",
    "trial": "trial saddle",
}
_HEIGHTS = {
    "fret 1": ("String over fret 1", ""),
    "fret 12": ("String over fret 12", ""),
    "board end": ("Board over the top", "at the board's end"),
    "bridge": ("String over the top", "at the bridge"),
    "saddle": ("Straightedge over the top", "on the frets, at the saddle's place"),
}
_SHORT = {
    "rule 0.5": "rule ½ mm",
    "rule 1": "rule 1 mm",
    "rule 1/64": "rule 1/64 in",
    "tape 1/32": "tape 1/32 in",
    "caliper 0.05": "caliper 0.05",
    "caliper 0.1": "caliper 0.1",
    "pencil": "pencil mark",
}


def side(which: str, hand: Hand) -> str:
    """Left or right as bass or treble; anything else as it is."""
    if which not in ("left", "right"):
        return "middle" if which == "centre" else which
    return "bass" if (which == "right") == (hand == "right") else "treble"


def point(name: str, hand: Hand) -> str:
    """A point's name in words: `nut.left` is “nut, treble”, `seam.1` “seam 1”."""
    first, *rest = name.split(".")
    if first == "edge" and len(rest) == 2:
        return f"{side(rest[0], hand)} edge {rest[1]}"
    said = _PLACES.get(first, first.replace("_", " "))
    for part in rest:
        word = side(part, hand)
        said += f", {word}" if word in ("bass", "treble") else f" {word}"
    return said


def line(a: str, b: str, hand: Hand) -> str:
    """The line through two points in words: the nut, an edge, the seam, the old footprint's sides."""
    heads, tails = (a.split(".")[0], b.split(".")[0]), (a.split(".")[-1], b.split(".")[-1])
    if heads[0] == heads[1] and heads[0] in ("nut", "end", "fret12") and tails[0] != tails[1]:
        return _PLACES[heads[0]]
    on = _edge_side(a), _edge_side(b)
    if on[0] and on[0] == on[1]:
        return f"{side(on[0], hand)} edge"
    if heads == ("seam", "seam"):
        return "seam"
    return _span(a, b, hand)


def _span(a: str, b: str, hand: Hand) -> str:
    """From point to point; of two of a kind the second goes by its number: “old footprint 1 to 4”."""
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    numbers = len(rest_a) == len(rest_b) == 1 and rest_a[0].isdigit() and rest_b[0].isdigit()
    return f"{point(a, hand)} to {rest_b[0] if first == second and numbers else point(b, hand)}"


def _edge_side(name: str) -> str:
    parts = name.split(".")
    if parts[0] == "edge" and len(parts) == 3:
        return parts[1]
    return parts[1] if parts[0] in ("nut", "end", "fret12") and len(parts) == 2 else ""


def reading(r: Reading, hand: Hand) -> str:
    """One reading in words: “Nut, edge to edge”, “Seam 1, off bass edge”."""
    head, how = reading_parts(r, hand)
    return f"{head}, {how}" if how else head


def reading_parts(r: Reading, hand: Hand) -> tuple[str, str]:
    """One reading in words, in two parts for a table: what is read, and how it is read where that is not plain."""
    said = [point(name, hand) for name in r.of]
    if r.from_:
        head, how = _laid(r, said, line(r.from_[0], r.from_[1], hand), hand)
        return first_large(head), how
    how = {"rims": "both rims", "height": _HEIGHTS[r.at or "bridge"][1]}.get(r.kind, "")
    return first_large(_plain(r, said, hand)), how


def _laid(r: Reading, said: list[str], along: str, hand: Hand) -> tuple[str, str]:
    """A reading along a straightedge."""
    match r.kind:
        case "off":
            return said[0], f"off {along}"
        case "across":
            return f"{said[1]} to {said[0]}", f"square to {along}"
        case "meets":
            return _crossed(r.of[0], r.of[1], hand), f"along {along}"
        case "inline":
            return said[0], f"in line with {along}"
        case _:
            return said[0], f"along {along}"


def _plain(r: Reading, said: list[str], hand: Hand) -> str:
    """A reading without a straightedge."""
    match r.kind:
        case "same":
            return f"{_distance(r.of[0], r.of[1], hand)}, same as {_distance(r.of[2], r.of[3], hand)}"
        case "square":
            return f"{line(r.of[0], r.of[1], hand)} square to {line(r.of[2], r.of[3], hand)}"
        case "rims":
            return f"{said[0]} to {said[1]}"
        case "fret":
            lane = "centre line" if r.on == "centre" else f"{side(r.on or '', hand)} string"
            return f"nut to fret {r.fret}, {lane}"
        case "height":
            return f"{_HEIGHTS[r.at or 'bridge'][0]}, {side(r.on or '', hand)}"
        case "at":
            return f"{said[0]}, placed"
        case _:
            return _distance(r.of[0], r.of[1], hand)


def _distance(a: str, b: str, hand: Hand) -> str:
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    if first == second and first in ("nut", "end", "fret12"):
        return f"{_PLACES[first]}, edge to edge"
    known = first in _PLACES and second in _PLACES and len(rest_a) == len(rest_b) == 1
    on = _edge_side(a), _edge_side(b)
    if known and on[0] and on[0] == on[1]:
        return f"{_PLACES[first]} to {_PLACES[second]}, {side(on[0], hand)} edge"
    if known and on[0] and on[1]:
        return f"{_PLACES[first]} {side(on[0], hand)} to {_PLACES[second]} {side(on[1], hand)}"
    return _span(a, b, hand)


def _crossed(a: str, b: str, hand: Hand) -> str:
    heads = a.split(".")[0], b.split(".")[0]
    return _PLACES[heads[0]] if heads[0] == heads[1] and heads[0] in _PLACES else line(a, b, hand)


def fineness(r: Reading) -> str:
    """How finely a reading was read, in few words: “rule ½ mm”, “± 0.5 mm”; with its unit, whatever the job's own."""
    coarser = f", {r.times:.1f} × as coarse" if r.times > 1 else ""
    if r.within is not None:
        return f"± {_with_unit(r.within)}{coarser}"
    if r.sigma is not None:
        return f"σ {_with_unit(r.sigma)}{coarser}"
    return _SHORT[r.with_ or "rule 0.5"] + coarser


def _with_unit(length: units.Length) -> str:
    return length if isinstance(length, str) else f"{units.show_number(length)} mm"


def instrument(name: str) -> str:
    """An instrument in words, for a choice."""
    return first_large(INSTRUMENTS[name].says)


def value(r: Reading, unit: units.Unit) -> str:
    """A reading's value as it was typed; two values are parted by a semicolon."""
    return " ; ".join(units.typed(part, unit) for part in r.parts)


def job_line(job: Job) -> str:
    """The job in one line: “right-handed · 6 strings”."""
    count = len(job.strings.list) if job.strings else 0
    strings = f"{count} string{'s' if count != 1 else ''}" if count else "no strings yet"
    return f"{job.hand}-handed · {strings}"


def joined(names: Sequence[str]) -> str:
    """Names in a sentence: “a”, “a and b”, “a, b and c”."""
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def several(names: Sequence[str], most: int = 6) -> str:
    """Names in a sentence: “a, b and c”; of many, the first and how many more."""
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return joined(names)


def strings(names: Sequence[str]) -> str:
    """Strings by their names: “string 3”, “strings 3, 4 and 6”."""
    return f"string{'s' if len(names) > 1 else ''} {joined(names)}"


def first_large(text: str) -> str:
    """With a large first letter, as at the beginning of a sentence or a field's name."""
    return text[:1].upper() + text[1:]


class MarginRow(NamedTuple):
    """The outer strings' margins at one place, `at` in words, at bass and treble."""

    at: str
    bass: Margin
    treble: Margin

    @property
    def checked(self) -> bool:
        """Whether a gross error in a reading that holds either would show."""
        return self.bass.checked and self.treble.checked


def margin_rows(job: Job, layout: Layout) -> list[MarginRow]:
    """The outer strings' margins, one row a place."""
    found = {(m.place, job.bass_or_treble(m.side)): m for m in (layout.margins.at if layout.margins else ())}
    return [
        MarginRow(
            "at fret 12" if place == "fret 12" else f"at the {place}", found[place, "bass"], found[place, "treble"]
        )
        for place in dict.fromkeys(place for place, _ in found)
    ]
