"""The answer to 'how far from here to there', in the person's words."""

from geometry import units, words
from geometry.job import Job
from geometry.job.job import Hand
from geometry.layout import Layout
from geometry.placed.how_far import HowFar


def thing(name: str, hand: Hand) -> str:
    """A point or a line, as it is called in a sentence: `point:nut.left`, `edge:left`, `neck`, `seam`, `saddle`."""
    kind, _, rest = name.partition(":")
    if kind == "point":
        return words.called(rest, hand)
    if kind == "edge":
        return f"the {words.side(rest, hand)} edge line"
    return {"neck": "the neck centre line", "seam": "the seam", "saddle": "the saddle line"}[kind]


def short(found: HowFar, job: Job) -> str:
    """The number with its ±."""
    return f"{units.show(found.distance, job.unit)} ±{units.show_pm(found.pm95, job.unit)} {job.unit}"


def sentence(found: HowFar, a: str, b: str, job: Job) -> str:
    """All of it; `a` and `b` in the order in which they were pointed out."""
    told, hand = short(found, job), job.hand
    if found.kind == "square" and b.startswith("point:"):
        a, b = b, a
    one, two = words.first_large(thing(a, hand)), thing(b, hand)
    match found.kind:
        case "points":
            return f"From {thing(a, hand)} to {two}: {told}."
        case "square":
            return f"{one} stands {told} off {two}, {_side(found, b, hand)}."
        case "beside":
            where = f"{two} lies {told} off {thing(a, hand)}, {_side(found, a, hand)}, where the saddle is"
            return f"{words.first_large(where)}, turned by {units.said_angle(abs(found.angle), found.angle_pm95, 2)}."
        case "crossing":
            at = units.said_angle(abs(found.angle), found.angle_pm95)
            return f"{one} crosses {two} {told} from the nut’s front, at {at}."


def unknown(layout: Layout | None, a: str, b: str, hand: Hand) -> str:
    """Why there is no answer: a place that is only rough, or a line that is not known yet."""
    solved = layout.points if layout else {}
    for name in (a, b):
        if name.startswith("point:") and name.removeprefix("point:") not in solved:
            return f"{words.first_large(thing(name, hand))} is only roughly placed; no reading holds it yet."
    line = b if a.startswith("point:") else a
    return f"{words.first_large(thing(line, hand))} is not known well enough yet to measure from."


def _side(found: HowFar, line: str, hand: Hand) -> str:
    if line == "saddle":
        return "toward the nut" if found.side > 0 else "toward the tail"
    return f"on the {words.side('left' if found.side > 0 else 'right', hand)} side"
