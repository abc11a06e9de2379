"""How each kind of reading is taken: its name in a list, what is asked to add one, what the hand does, its picture.

The words in braces are those of `geometry.words`.
"""

import msgspec

from app.say.reading_strokes import (
    At,
    Corner,
    Dots,
    Edge,
    Hole,
    Ring,
    Rule,
    Says,
    Scene,
    Square,
    Stripe,
    Stroke,
    Value,
)
from geometry import words
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import KINDS, ByKind, Kind
from geometry.job.sides import SIDES
from geometry.units import Unit


class Taking(msgspec.Struct, frozen=True, kw_only=True):
    """How a kind is taken.

    `says`: the kind in words; `points`: what each of its points is, in the order a person names them, those of the
    straightedge first, the others as the reading has them or `backwards`; `side_is` asks for the side. `take`: what the
    hand does, in one or two sentences; `either_side`: the same while nothing is read, and the point may lie on the
    other side of a line along or across the neck, too; `open_side`: while it is not said on which side it lies; `ask`:
    while it is a question that nobody answered, which `question` says as short as a cell wants it and `yes` answers
    without typing.
    """

    says: str
    points: tuple[str, ...] = ()
    backwards: bool = False
    side_is: str = "On"
    take: str
    ask: str = ""
    either_side: str = ""
    open_side: str = ""
    question: str = ""
    yes: str = ""
    picture: tuple[Stroke, ...]


SEEN_INSIDE = "Seen from inside"
INSIDE = f"{SEEN_INSIDE}: bass and treble stay the instrument’s own."
"""What is said besides of a reading that is taken inside the body."""
ON_A_SHEET_INSIDE = "Hold squared paper inside, mark “{first}” and the others on it, and type its x ; y."
"""How a place is taken that is read off a sheet inside the body."""
OF_METAL = "Metal is read at its middle: a plate’s is where lines from corner to corner cross."
"""What is said besides of a reading of metal, which the job knows as a middle and what is kept clear round that."""
NUMBER_1 = "Which of the old holes is number 1 is yours to say; keep to it."
"""What is said besides of the first of the headstock’s old holes."""
ROUND_HEAD = "The headstock’s corners go in order round it; which is number 1 is yours to say: keep to it."
"""What is said besides of a reading of the headstock's outline."""
ON_TRIAL = "Read it from the nut’s front edge to the crest that the strings break over, not to the back of the saddle."
"""What is said besides of a reading of a trial saddle’s end."""
STRAIGHTEDGE = ("The straightedge starts at", "and runs through")
LAY = "Lay the straightedge along the {edge}"
OFF = "lay the straightedge along {} and read how far “{{first}}” stands from it, square to it"
A: At = (18, 52)
B: At = (110, 52)
FOOT: At = (86, 52)
P: At = (86, 24)

TAKING: ByKind[Taking] = {
    "distance": Taking(
        says="Distance between two points",
        points=("From", "To"),
        take="{how_spanned} from “{first}” to “{second}”, and read the straight distance.",
        picture=(Rule((22, 58), (110, 34)), Value((22, 58), (110, 34), -14), Dots(((22, 58), (110, 34)))),
    ),
    "along": Taking(
        says="Along a straightedge, to a point",
        points=(*STRAIGHTEDGE, "Read where it is square to"),
        take=f"{LAY}, its zero at {{start}}. Set a square to it at “{{first}}” and read where the square stands.",
        picture=(Edge(A, B), Square(FOOT, P), Value(A, FOOT, 16), Dots((A, B, P))),
    ),
    "off": Taking(
        says="Off a straightedge, to a point",
        points=(*STRAIGHTEDGE, "Read the square distance to"),
        side_is="It lies on",
        take=f"{{Beside}}: {OFF.format('it')}.",
        either_side=f"{{Beside}}: {OFF.format('it')}. If it lies on the {{other}} side, type “{{like}} {{other}}”.",
        open_side=f"Type the side too, “{{like}} {{one}}” or “{{like}} {{other}}”: {OFF.format('the {edge}')}.",
        picture=(Edge(A, B), Value(FOOT, P), Dots((A, B, P))),
    ),
    "across": Taking(
        says="A gap, square to a straightedge",
        points=(*STRAIGHTEDGE, "From the right one", "To the left one"),
        backwards=True,
        take=f"{LAY}. Read the gap from “{{second}}” to “{{first}}”, square to it.",
        picture=(Edge((18, 72), (114, 72)), Value((80, 50), (80, 20)), Dots(((80, 50), (80, 20)))),
    ),
    "meets": Taking(
        says="Along a straightedge, to a line across",
        points=(*STRAIGHTEDGE, "The line runs through", "and through"),
        take=f"{LAY}, its zero at {{start}}, and read where the line {{line}} crosses it.",
        picture=(
            Edge(A, B),
            Stripe((78, 12), (92, 78)),
            Value(A, (86.5, 52), 16),
            Dots((A, (78, 12), (92, 78))),
            Ring((86.5, 52)),
        ),
    ),
    "inline": Taking(
        says="A point that lies on a straightedge",
        points=(*STRAIGHTEDGE, "The point on it"),
        take=f"{LAY}: “{{first}}” lies on it. If it does not, type how far it lies off: {{off}} {{one}}.",
        ask=f"{LAY}. Does “{{first}}” lie on it? Answer yes, or how far it lies off, and to which side: {{off}} "
        "{one}.",
        question="in line?",
        yes="Yes, in line",
        picture=(Edge(A, (118, 52)), Dots((A, (62, 52), (108, 52)))),
    ),
    "rims": Taking(
        says="A hole, by its near and far rim",
        points=("From", "The hole"),
        take=(
            "{how_spanned} from “{first}” to the hole “{second}”. Read its near rim and its far rim, "
            "with a semicolon between."
        ),
        picture=(
            Rule((14, 60), (122, 60)),
            Hole((88, 46), 14),
            Value((16, 28), (74, 28)),
            Value((16, 14), (102, 14)),
        ),
    ),
    "fret": Taking(
        says="From the nut to a fret",
        side_is="Along the",
        take="Lay the rule along the {path}, its zero at the nut’s front edge. Read the top of fret {fret}.",
        picture=(Scene("board"), Value((16, 44), (96, 44))),
    ),
    "height": Taking(says="A height", take="{how_high}", picture=(Scene("from the side"),)),
    "same": Taking(
        says="Two distances that are the same",
        points=("From", "To", "Same as from", "to"),
        take="“{first}” to “{second}” measures the same as “{third}” to “{fourth}”. Strike this out if not.",
        ask="Measures “{first}” to “{second}” the same as “{third}” to “{fourth}”? Answer yes or no.",
        question="the same?",
        yes="Yes, the same",
        picture=(Value((20, 22), (112, 34)), Value((20, 66), (112, 54)), Says((66, 44), "=")),
    ),
    "square": Taking(
        says="Two lines square to each other",
        points=("First line from", "to", "Second line from", "to"),
        take=("Hold a square to them: the {line} stands square to the {other_line}. Strike this out if it does not."),
        ask="Hold a square to them. Does the {line} stand square to the {other_line}? Answer yes or no.",
        question="square?",
        yes="Yes, square",
        picture=(Stripe((30, 70), (112, 70)), Stripe((30, 70), (30, 16)), Corner((30, 70))),
    ),
    "angle": Taking(
        says="An angle, with a bevel gauge",
        points=("The stock lies along the line from", "to", "the blade along the line from", "to"),
        take=(
            "Set the gauge’s stock along the {edge} and its blade along the {line}. Read the degrees between them, "
            "as you look from “{start}” and from “{first}”."
        ),
        picture=(
            Edge((24, 66), (108, 66)),
            Stripe((24, 66), (92, 14)),
            Value((78, 62), (64, 38)),
            Dots(((24, 66), (108, 66), (92, 14))),
        ),
    ),
    "at": Taking(
        says="A place read off a sheet, x and y",
        points=("The point",),
        take="Trace “{first}” and the others onto one sheet of squared paper and type its x ; y. One that was placed "
        "on the plan is kept the same way.",
        picture=(Scene("sheet"), Value((24, 66), (78, 66)), Value((34, 76), (34, 34)), Dots(((78, 34),))),
    ),
}
_HEIGHTS = {
    "fret 1": "Read from the top of fret 1, not from the wood, up to the underside of the open string, on the {side} "
    "side.",
    "fret 12": "Read from the top of fret 12, not from the wood, up to the underside of the open string, on the {side} "
    "side.",
    "board end": "Stand the rule on the top against the board’s end, {side} side, and read the board’s upper face.",
    "bridge": "Stand the rule on the top in front of the bridge and read the string’s underside, {side} "
    "side. With the strings off read a straightedge on the frets over the top instead.",
    "saddle": "Lay the straightedge on the fret tops along the {side} edge, long enough to reach over the saddle’s "
    "place. Read the gap there from its lower edge down to the top, or to the bare wood of the old footprint.",
}

OFFERED: tuple[Kind, ...] = tuple(sorted(KINDS, key=tuple(TAKING).index))
"""The kinds in the order that a list offers them: that of the table."""

LIKE: dict[Unit, str] = {"mm": "0.8", "cm": "0.08", "in": "1/32"}
"""A length that a point may lie off a line, in each unit: an example."""


def picture(r: Reading, hand: Hand) -> tuple[Stroke, ...]:
    """What the little picture of a reading shows. Off a straightedge: on which side, or that either may be; the left
    one is above, as on the plan.
    """
    if r.kind != "off":
        return TAKING[r.kind].picture
    left, right = _sides_drawn(r, hand)
    above = r.side is not None and words.sighted(r.side, *r.from_) == "left"
    if r.side is None:
        edge, arrows = ((18, 40), (110, 40)), (Value((86, 40), (86, 12)), Value((86, 51), (86, 79)))
        return Edge(*edge), *arrows, Dots(edge), Says((52, 22), left), Says((52, 70), right)
    if above:
        return *TAKING["off"].picture, Says((52, 28), left)
    a, b, foot, p = (18, 36), (110, 36), (86, 36), (86, 64)
    return Edge(b, a), Value(foot, p), Dots((a, b, p)), Says((52, 60), right)


def _sides_drawn(r: Reading, hand: Hand) -> tuple[str, str]:
    """What the sides above and below the straightedge are called in the picture."""
    a, b = r.from_
    above, below = (words.side_typed(words.sighted(side, a, b), a, b, hand) for side in SIDES)
    return above, below


OFF_LIKE: dict[Unit, str] = {"mm": "35", "cm": "3.5", "in": "1 3/8"}
"""A length that old work may lie off an edge, in each unit: an example."""
NEXT_FRET = "Leave the rule lying for the next fret."


def take(r: Reading, hand: Hand, unit: Unit, then: Reading | None = None) -> str:
    """What the hand does for this reading; what it may type in the job's unit. `then`: the reading that comes next."""
    names, how = words.Names(r, hand), TAKING[r.kind]
    names["off"] = f"{LIKE[unit]} {unit}"
    names["how_spanned"] = _how_spanned(r.with_)
    names["one"] = one_side(r)
    if r.at is not None:
        names["how_high"] = _HEIGHTS[r.at].format_map(names)
    to_say = how.ask if r.asked else how.take
    names["like"] = OFF_LIKE[unit]
    if r.kind == "off" and r.side is None:
        to_say = how.open_side
        names["one"], names["other"] = words.sides_typed(r.from_[0], r.from_[1], hand)
    elif how.either_side and r.value is None and r.side is not None and _is_known(r):
        to_say = how.either_side
        names["other"] = words.side_typed(words.other_side(r.side), r.from_[0], r.from_[1], hand)
    elif r.kind == "at" and r.inside:
        to_say = ON_A_SHEET_INSIDE
    said = to_say.format_map(names)
    if _stays_laid(r, then):
        return f"{said} {NEXT_FRET}"
    besides = INSIDE if r.inside else "", OF_METAL if words.is_metal(r) else "", ON_TRIAL if _of_trial(r) else ""
    first = NUMBER_1 if r.kind == "rims" and r.of[1] in ("post.1", "screw.1") else ""
    first = ROUND_HEAD if any(name.startswith("head.") for name in r.of) else first
    return " ".join(filter(None, (said, first, *words.where_read(r), *besides)))


def _how_spanned(with_: str | None) -> str:
    """What the hand does with the tool that a distance is read with, or may be."""
    kind = (with_ or "").partition(" ")[0]
    spans = {"": "Lay the rule or open the caliper", "caliper": "Open the caliper", "tape": "Lay the tape"}
    return spans.get(kind, "Lay the rule")


def one_side(r: Reading) -> str:
    """A side that a point may lie off its line, as an example: “bass”; of a line across the neck “headstock”."""
    return "headstock" if r.from_ and words.across_neck(*r.from_) else "bass"


def _is_known(r: Reading) -> bool:
    """Whether it is known how its straightedge lies on the neck."""
    return words.along_neck(*r.from_) or words.across_neck(*r.from_)


def _of_trial(r: Reading) -> bool:
    return r.kind == "distance" and any(name.startswith("trial.") for name in r.of)


def _stays_laid(r: Reading, then: Reading | None) -> bool:
    """Whether the next fret is read in the same laying of the rule."""
    if r.kind != "fret" or r.laid is None or then is None or then.struck:
        return False
    return (then.kind, then.on, then.laid) == (r.kind, r.on, r.laid)
