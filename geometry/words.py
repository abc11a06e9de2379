"""What points, lines, sides and readings are called, as the trade says it: bass and treble by the job's hand.

The job's names of points are for files (`nut.left`); a person reads “nut, bass” in a table and “nut bass” in a
sentence. A name that a person made up stays as it is, and stands in quotes where it is part of a sentence. Every
sentence takes its names from here, where it is composed; no finished sentence is changed.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence

from geometry import units
from geometry.job import Job, Reading
from geometry.job.bridges.floating import TODAY
from geometry.job.job import Hand
from geometry.job.measured.kinds import PER_DEGREE, SHAPES
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS, usual
from geometry.job.sides import SIDES, Side
from geometry.layout import Check

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
    "slot": "slot",
    "opening": "opening",
    "hole": "old hole",
    "bare": "edge of the finish",
    "area": "area",
    "plate": "plate",
    "brace": "brace",
    "head": "headstock",
    "headslot": "headstock slot",
    "post": "old post hole",
    "screw": "old screw hole",
    "foot": "bridge foot",
    "mark": "foot mark",
    "soundhole": "sound hole",
    "tail": "tail",
}
_ALONG = ("nut", "fret12", "end")
"""The board's corners and fret 12, from the nut to the tail."""
_NUMBERED = re.compile(r"[0-9]+[a-z]?")
"""What strings are called by themselves: by their number, and of a pair also by a letter."""
_NUMBER_OR_LETTER = re.compile(r"[0-9]+|[a-z]")
"""What a part of a point's name is that needs no quotes in a sentence."""
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
_TOOL = {
    "rule 0.5": "½ mm",
    "rule 1": "1 mm",
    "rule 1/64": "64ths",
    "tape 1/32": "tape",
    "caliper 0.05": "caliper",
    "caliper 0.1": "caliper",
    "bevel gauge": "gauge",
}


def side(which: str, hand: Hand) -> str:
    """Left or right as bass or treble; anything else as it is."""
    if which not in SIDES:
        return "middle" if which == "centre" else which
    return "bass" if (which == "right") == (hand == "right") else "treble"


def point(name: str, hand: Hand) -> str:
    """A point's name in a table: `nut.left` is “nut, treble”, `seam.1` “seam 1”; a person's own name is itself."""
    return _point(name, hand, ", ", "{}")


def called(name: str, hand: Hand) -> str:
    """A point's name in a sentence: `nut.left` is “nut treble”; a person's own name stands in quotes."""
    return _point(name, hand, " ", "“{}”")


def _point(name: str, hand: Hand, before_side: str, own: str) -> str:
    first, *rest = name.split(".")
    if first == "edge" and len(rest) == 2 and rest[0] in SIDES:
        return f"{side(rest[0], hand)} edge {_part(rest[1], own)}"
    if is_own(name):
        return own.format(name)
    said = _PLACES[first]
    for at, part in enumerate(rest):
        plain = at > 0 and _NUMBER_OR_LETTER.fullmatch(part)  # the letters along a brace or round an area
        said += f"{before_side}{side(part, hand)}" if part in SIDES else f" {part if plain else _part(part, own)}"
    return said


def _part(part: str, own: str) -> str:
    """One part of a name: “middle”, a number, or what a person made up."""
    if part in ("centre", "middle"):
        return "middle"
    return part if part.isascii() and part.isdigit() else own.format(part)


def trial(name: str) -> str:
    """A trial saddle in a sentence: “trial saddle 1”; or the floating bridge that is its own trial."""
    return "the bridge as it stands today" if name == TODAY else f"{_PLACES['trial']} {_part(name, '“{}”')}"


def brace(name: str) -> str:
    """A brace in a sentence: “brace 1”, “the brace “long””."""
    return _of_several("brace", name)


def area(name: str) -> str:
    """A discoloured or damaged area in a sentence: “area 1”, “the area “burn””."""
    return _of_several("area", name)


def _of_several(what: str, name: str) -> str:
    return f"{what} {name}" if _NUMBER_OR_LETTER.fullmatch(name) else f"the {what} “{name}”"


def is_own(name: str) -> bool:
    """Whether a person made this name of a point up, so that it has no other words than itself."""
    first, *rest = name.split(".")
    if first == "edge":
        return len(rest) != 2 or rest[0] not in SIDES
    return first not in _PLACES or not rest


def line(a: str, b: str, hand: Hand) -> str:
    """The line through two points in a table: nut, treble edge, seam, “old footprint 1 to 4”."""
    return _known_line(a, b, hand) or _span(a, b, hand)


def line_called(a: str, b: str, hand: Hand) -> str:
    """The line through two points in a sentence: “the treble edge”, “the line from seam 1 to nut bass”."""
    known = _known_line(a, b, hand)
    return f"the {known}" if known else f"the line from {called(a, hand)} to {called(b, hand)}"


def beside(which: Side, a: str, b: str, hand: Hand) -> str:
    """On which side of the line from one point to another, in a sentence: “on the bass side of the treble edge”.

    `which` is the side as one sights from a to b; bass and treble tell it where that is known to run along the neck.
    """
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    if first in _ALONG and second in _ALONG and first != second and rest_a == rest_b:
        down = _ALONG.index(first) < _ALONG.index(second)
        return f"on the {side(which if down else other_side(which), hand)} side of {line_called(a, b, hand)}"
    return f"to the {which} of the line from {called(a, hand)} to {called(b, hand)}, as you sight along it"


def other_side(which: Side) -> Side:
    """Right for left, left for right."""
    return "right" if which == "left" else "left"


def _known_line(a: str, b: str, hand: Hand) -> str:
    """What the trade calls the line through two points; empty where it has no name."""
    heads, tails = (a.split(".")[0], b.split(".")[0]), (a.split(".")[-1], b.split(".")[-1])
    if heads[0] == heads[1] and heads[0] in ("nut", "end", "fret12") and tails[0] != tails[1]:
        return _PLACES[heads[0]]
    on = _edge_side(a), _edge_side(b)
    if on[0] and on[0] == on[1]:
        return f"{side(on[0], hand)} edge"
    if heads == ("seam", "seam"):
        return "seam"
    return ""


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


INSIDE = "from inside"
"""What is said of a reading that was read inside the body."""


def reading(r: Reading, hand: Hand) -> str:
    """One reading in a table: “Nut, edge to edge”, “Seam 1, off bass edge”."""
    head, how = reading_parts(r, hand)
    return f"{head}, {how}" if how else head


def reading_inside(r: Reading, hand: Hand) -> str:
    """One reading as the table has it, but for the large letter: to stand inside a heading or quotes."""
    return ", ".join(filter(None, _parts(r, hand)))


def reading_called(job: Job, r: Reading) -> str:
    """One reading in a sentence, in quotes: “nut, edge to edge”; of those called alike also which one it is."""
    said = reading_inside(r, job.hand)
    alike = [x.id for x in job.readings if x.of == r.of and x.kind == r.kind and reading_inside(x, job.hand) == said]
    which = f" ({alike.index(r.id) + 1} of {len(alike)})" if len(alike) > 1 and r.id in alike else ""
    return f"“{said}”{which}"


def readings_called(job: Job, ids: Iterable[str]) -> list[str]:
    """The readings with these ids in a sentence, in the order of the ids."""
    by_id = {r.id: r for r in job.readings}
    return [reading_called(job, by_id[name]) for name in ids if name in by_id]


def reading_parts(r: Reading, hand: Hand) -> tuple[str, str]:
    """One reading in a table, in two parts: what is read, and how it is read where that is not plain."""
    head, how = _parts(r, hand)
    return (head if any(is_own(name) and head.startswith(name) for name in r.of) else first_large(head)), how


def _parts(r: Reading, hand: Hand) -> tuple[str, str]:
    shape, names = SHAPES[r.kind], Names(r, hand)
    how = [shape.how.format_map(names), INSIDE if r.inside else ""]
    return shape.named.format_map(names), ", ".join(filter(None, how))


class Names(dict[str, str]):
    """What the words in braces stand for, where a kind of reading is named or told of: made as they are asked for."""

    def __init__(self, r: Reading, hand: Hand) -> None:
        super().__init__()
        self.r, self.hand = r, hand

    def __missing__(self, word: str) -> str:
        return NAMES[word](self.r, self.hand)


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


def _on(r: Reading, hand: Hand) -> str:
    return side(r.side or r.on or "", hand)


NAMES: Mapping[str, Callable[[Reading, Hand], str]] = {
    "first": lambda r, hand: point(r.of[0], hand),
    "second": lambda r, hand: point(r.of[1], hand),
    "third": lambda r, hand: point(r.of[2], hand),
    "fourth": lambda r, hand: point(r.of[3], hand),
    "gap": lambda r, hand: _distance(r.of[0], r.of[1], hand),
    "other_gap": lambda r, hand: _distance(r.of[2], r.of[3], hand),
    "line": lambda r, hand: line(r.of[0], r.of[1], hand),
    "other_line": lambda r, hand: line(r.of[2], r.of[3], hand),
    "crossed": lambda r, hand: _crossed(r.of[0], r.of[1], hand),
    "start": lambda r, hand: point(r.from_[0], hand),
    "edge": lambda r, hand: line(r.from_[0], r.from_[1], hand),
    "side": _on,
    "beside": lambda r, hand: beside(r.side or "left", r.from_[0], r.from_[1], hand),
    "fret": lambda r, _hand: str(r.fret),
    "lane": lambda r, hand: "centre line" if r.on == "centre" else f"{_on(r, hand)} string",
    "path": lambda r, hand: "centre line" if r.on == "centre" else f"path of the {_on(r, hand)} outer string",
    "height": lambda r, _hand: first_small(_HEIGHTS[r.at or "bridge"][0]),
    "height_at": lambda r, _hand: _HEIGHTS[r.at or "bridge"][1],
}
"""The words in braces: a reading's points, lines and distances, its straightedge, its side, and where it is read."""


def fineness(r: Reading) -> str:
    """How finely a reading was read, in few words: “rule ½ mm”, “± 0.5 mm”; with its unit, whatever the job's own."""
    coarser = f", {r.times:.1f} × as coarse" if r.times > 1 else ""
    degrees = SHAPES[r.kind].degrees
    if r.within is not None:
        return f"± {_with_unit(r.within, degrees)}{coarser}"
    if r.sigma is not None:
        return f"σ {_with_unit(r.sigma, degrees)}{coarser}"
    with_ = r.with_ or usual(degrees)
    return _SHORT.get(with_, with_) + coarser


def tool(r: Reading) -> str:
    """What a reading was read with, in a word, for a narrow column; what is a question is read with nothing."""
    if r.within is not None or r.sigma is not None or r.times > 1:
        return fineness(r).replace("± ", "±")
    with_ = r.with_ or usual(SHAPES[r.kind].degrees)
    return "" if r.with_ is None and not SHAPES[r.kind].values else _TOOL.get(with_, with_)


def _with_unit(length: units.Length, degrees: bool) -> str:
    return units.show_degrees(length) if degrees and not isinstance(length, str) else units.with_unit(length)


def instrument(name: str) -> str:
    """An instrument in words, for a choice."""
    return first_large(GAUGES[name].says if name in GAUGES else INSTRUMENTS[name].says)


def instrument_short(name: str) -> str:
    """The same where there is little room: “Rule ½ mm”."""
    return first_large(_SHORT.get(name, name))


def value(r: Reading, unit: units.Unit) -> str:
    """A reading's value as it was typed; two values are parted by a semicolon."""
    return " ; ".join(_typed(r, part, unit) for part in r.parts)


def _typed(r: Reading, part: units.Length, unit: units.Unit) -> str:
    if SHAPES[r.kind].degrees and not isinstance(part, str):
        return units.show_degrees(part)
    return units.typed(part, unit)


def much(r: Reading, arc: float) -> str:
    """How much of an angle an arc (mm) of its row is, without a sign: “0.8°”; empty for what is no angle."""
    return f"{abs(arc) / PER_DEGREE:.1f}°" if SHAPES[r.kind].degrees else ""


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


def string(name: str) -> str:
    """A string in a sentence: “string 3”; a name that a person made up stands in quotes."""
    return strings((name,))


def strings(names: Sequence[str]) -> str:
    """Strings in a sentence: “string 3”, “strings 3, 4 and 6”."""
    said = [name if _NUMBERED.fullmatch(name) else f"“{name}”" for name in names]
    return f"string{'s' if len(names) > 1 else ''} {joined(said)}"


def first_large(text: str) -> str:
    """With a large first letter, as at the beginning of a sentence or a field's name."""
    return text[:1].upper() + text[1:]


def first_small(text: str) -> str:
    """With a small first letter, as in the middle of a sentence."""
    return text[:1].lower() + text[1:]


def check(distance: Check) -> str:
    """From where to where a check distance runs, naming an edge that both share only once."""
    start, end = distance.from_.rpartition(", "), distance.to.rpartition(", ")
    return f"{start[0]} to {distance.to}" if start[2] == end[2] else f"{distance.from_} to {distance.to}"
