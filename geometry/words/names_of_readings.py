"""What readings are called, what they were read with, and their values as typed."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from geometry import units
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import PER_DEGREE, SHAPES
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS, usual
from geometry.words.joined_words import first_large, first_small, quoted
from geometry.words.names_of_places import (
    PLACES,
    beside,
    edge_side,
    is_own,
    line,
    point,
    side,
    side_typed,
    span,
    toward_nut,
)

_HEIGHTS = {
    "fret 1": ("String over fret 1", ""),
    "fret 12": ("String over fret 12", ""),
    "board end": ("Board over the top", "at the board’s end"),
    "bridge": ("String over the top", "at the bridge"),
    "saddle": ("Straightedge over the top", "on the frets, at the saddle’s place"),
}
_SHORT = {
    "rule 0.5": "rule ½ mm",
    "rule 1": "rule 1 mm",
    "rule 1/64": "rule 1/64 in",
    "tape 1/32": "tape 1/32 in",
    "caliper 0.05": "caliper 0.05 mm",
    "caliper 0.1": "caliper 0.1 mm",
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
INSIDE = "from inside"
"""What is said of a reading that was read inside the body."""
TIMES = ("first", "second", "third", "fourth", "fifth", "sixth")
MIDDLE = "its middle"
"""What of metal is read: it is kept clear of all round its middle."""


def reading(r: Reading, hand: Hand) -> str:
    """One reading in a table: “Nut, edge to edge”, “Seam 1, off bass edge”."""
    head, how = reading_parts(r, hand)
    return f"{head}, {how}" if how else head


def reading_inside(r: Reading, hand: Hand) -> str:
    """One reading as the table has it, but for the large letter: to stand inside a heading or quotes."""
    return ", ".join(filter(None, _parts(r, hand)))


def reading_called(job: Job, r: Reading) -> str:
    """One reading in a sentence, in quotes: “nut, edge to edge”; of those called alike also which one it is."""
    which = _which_time(job, r)
    return f"{quoted(reading_inside(r, job.hand))}{f' ({which})' if which else ''}"


def reading_headed(job: Job, r: Reading) -> str:
    """One reading inside a heading, as its line in the table: of those called alike also which one it is."""
    return ", ".join(filter(None, (reading_inside(r, job.hand), _which_time(job, r))))


def _which_time(job: Job, r: Reading) -> str:
    """Which one it is of readings that are called alike; empty where none is."""
    said = reading_inside(r, job.hand)
    alike = [x.id for x in job.readings if x.of == r.of and x.kind == r.kind and reading_inside(x, job.hand) == said]
    return time_read(alike.index(r.id) + 1) if len(alike) > 1 and r.id in alike else ""


def time_read(number: int) -> str:
    """Which one it is of readings that are called alike: “second time”."""
    return f"{TIMES[number - 1]} time" if number <= len(TIMES) else f"time {number}"


def readings_called(job: Job, ids: Iterable[str]) -> list[str]:
    """The readings with these ids in a sentence, in the order of the ids."""
    by_id = {r.id: r for r in job.readings}
    return [reading_called(job, by_id[name]) for name in ids if name in by_id]


def laying_called(job: Job, ids: Sequence[str]) -> str:
    """The readings of one laying of the rule in a sentence: all 6 readings of one laying, “fret 1 …” to “fret 12 …”."""
    names = readings_called(job, ids)
    return f"all {len(ids)} readings of one laying, {' to '.join(dict.fromkeys((names[0], names[-1])))}"


def by_layings(job: Job, ids: Iterable[str]) -> list[str]:
    """The readings with these ids in a sentence; where three or more are all that one laying has, as that laying."""
    told = dict.fromkeys(ids)
    layings: dict[str, list[str]] = {}
    for r in job.readings:
        if r.laid and r.taken:
            layings.setdefault(r.laid, []).append(r.id)
    whole = [mine for mine in layings.values() if len(mine) > 2 and told.keys() >= set(mine)]
    single = [name for name in told if not any(name in mine for mine in whole)]
    return [*(laying_called(job, mine) for mine in whole), *readings_called(job, single)]


def reading_parts(r: Reading, hand: Hand) -> tuple[str, str]:
    """One reading in a table, in two parts: what is read, and how it is read where that is not plain."""
    head, how = _parts(r, hand)
    return (head if any(is_own(name) and head.startswith(name) for name in r.of) else first_large(head)), how


def _parts(r: Reading, hand: Hand) -> tuple[str, str]:
    shape, names = SHAPES[r.kind], Names(r, hand)
    how = [shape.how.format_map(names), INSIDE if r.inside else ""]
    middle = MIDDLE if shape.named == "{first}" and is_metal(r) else ""
    return ", ".join(filter(None, (shape.named.format_map(names), middle))), ", ".join(filter(None, how))


def is_metal(r: Reading) -> bool:
    """Whether a reading is of metal in the wood."""
    return any(name.startswith("metal.") for name in r.of)


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
        return f"{PLACES[first]}, edge to edge"
    known = first in PLACES and second in PLACES and len(rest_a) == len(rest_b) == 1
    on = edge_side(a), edge_side(b)
    if known and on[0] and on[0] == on[1]:
        return f"{PLACES[first]} to {PLACES[second]}, {side(on[0], hand)} edge"
    if known and on[0] and on[1]:
        return f"{PLACES[first]} {side(on[0], hand)} to {PLACES[second]} {side(on[1], hand)}"
    return span(a, b, hand)


def _crossed(a: str, b: str, hand: Hand) -> str:
    heads = a.split(".")[0], b.split(".")[0]
    return PLACES[heads[0]] if heads[0] == heads[1] and heads[0] in PLACES else line(a, b, hand)


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
    "whence": lambda r, _hand: f" from {PLACES[r.from_[0].split('.')[0]]}" if toward_nut(*r.from_) else "",
    "side": _on,
    "beside": lambda r, hand: beside(r.side or "left", r.from_[0], r.from_[1], hand),
    "Beside": lambda r, hand: first_large(beside(r.side or "left", r.from_[0], r.from_[1], hand)),
    "fret": lambda r, _hand: str(r.fret),
    "lane": lambda r, hand: "centre line" if r.on == "centre" else f"{_on(r, hand)} string",
    "path": lambda r, hand: "centre line" if r.on == "centre" else f"path of the {_on(r, hand)} outer string",
    "height": lambda r, _hand: first_small(_HEIGHTS[r.at or "bridge"][0]),
    "height_at": lambda r, _hand: _HEIGHTS[r.at or "bridge"][1],
}
"""The words in braces: a reading's points, lines and distances, its straightedge, its side, and where it is read."""


def fineness(r: Reading) -> str:
    """How finely a reading was read, in few words: “rule ½ mm”, “± 0.5 mm”; with its unit, whatever
    the job's own. What is no value and was read with nothing was seen “by eye”.
    """
    coarser = f", {r.times:.1f} × as coarse" if r.times > 1 else ""
    degrees = SHAPES[r.kind].degrees
    if r.within is not None:
        return f"± {_with_unit(r.within, degrees)}{coarser}"
    if r.sigma is not None:
        return f"σ {_with_unit(r.sigma, degrees)}{coarser}"
    if r.with_ is None and not SHAPES[r.kind].values:
        return f"by eye{coarser}"
    with_ = r.with_ or usual(degrees)
    return _SHORT.get(with_, with_) + coarser


def tool(r: Reading, unit: units.Unit | None = None) -> str:
    """What a reading was read with, in a word, for a narrow column; what is a question is read with nothing. `unit`: of
    the values beside it, a ± in which is told as they are, without its name.
    """
    if r.within is not None and unit is not None and r.times == 1 and not SHAPES[r.kind].degrees:
        return f"±{units.typed(r.within, unit)}"
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
    """A reading's value as it was typed, without its side; two values are parted by a semicolon."""
    return " ; ".join(_typed(r, part, unit) for part in r.parts)


def value_and_side(r: Reading, unit: units.Unit, hand: Hand) -> str:
    """A reading's value as it would be typed, with the side of the straightedge that it was read on: “35 treble”."""
    return " ".join(filter(None, (value(r, unit), side_read(r, hand))))


def side_read(r: Reading, hand: Hand) -> str:
    """On which side of its straightedge a reading was taken, as it is typed; empty where it has no value or no side."""
    return side_typed(r.side, r.from_[0], r.from_[1], hand) if r.parts and r.side else ""


def _typed(r: Reading, part: units.Length, unit: units.Unit) -> str:
    if SHAPES[r.kind].degrees and not isinstance(part, str):
        return units.show_degrees(part)
    return units.typed(part, unit)


def much(r: Reading, arc: float) -> str:
    """How much of an angle an arc (mm) of its row is, without a sign: “0.8°”; empty for what is no angle."""
    return f"{abs(arc) / PER_DEGREE:.1f}°" if SHAPES[r.kind].degrees else ""
