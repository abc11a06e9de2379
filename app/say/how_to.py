"""How to take a reading, in one or two sentences for the person at the bench."""

from geometry import words
from geometry.job import Reading
from geometry.job.job import Hand

_HEIGHTS = {
    "fret 1": "Read how high the string stands over the top of fret 1, on the {side} side, with the string open.",
    "fret 12": "Read how high the string stands over the top of fret 12, on the {side} side, with the string open.",
    "board end": "Stand the rule on the top against the board's end, {side} side, and read the board's upper face.",
    "bridge": "Stand the rule on the top in front of the bridge and read the string's underside, {side} "
    "side. With the strings off read a straightedge on the frets over the top instead.",
    "saddle": "Lay the straightedge on the fret tops along the {side} edge, long enough to reach over the saddle's "
    "place. Read the gap there from its lower edge down to the top, or to the bare wood of the old footprint.",
}


def take(r: Reading, hand: Hand) -> str:
    """What the hand does for this reading."""
    return _along_straightedge(r, hand) if r.from_ else _without(r, hand)


def _along_straightedge(r: Reading, hand: Hand) -> str:
    named = [f"“{words.point(name, hand)}”" for name in r.of]
    along, start = words.line(r.from_[0], r.from_[1], hand), words.point(r.from_[0], hand)
    lay = f"Lay the straightedge along the {along}"
    match r.kind:
        case "off":
            side = words.side(r.side or "", hand)
            return f"{lay}. Read how far {named[0]} stands from it, square to it, to the {side} side."
        case "across":
            return f"{lay}. Read the gap from {named[1]} to {named[0]}, square to it."
        case "meets":
            crossed = words.line(r.of[0], r.of[1], hand)
            return f"{lay}, its zero at {start}, and read where the line {crossed} crosses it."
        case "inline":
            if not r.asked:
                return f"{lay}: {named[0]} lies on it. If it does not, type how far it lies off: 0.8 mm bass."
            return (
                f"{lay}. Does {named[0]} lie on it? Answer yes, or how far it lies off, and to which side: 0.8 mm bass."
            )
        case _:
            return f"{lay}, its zero at {start}. Set a square to it at {named[0]} and read where the square stands."


def _without(r: Reading, hand: Hand) -> str:
    named = [f"“{words.point(name, hand)}”" for name in r.of]
    match r.kind:
        case "same":
            if r.asked:
                return f"Measures {named[0]} to {named[1]} the same as {named[2]} to {named[3]}? Answer yes or no."
            return f"{named[0]} to {named[1]} measures the same as {named[2]} to {named[3]}. Strike this out if not."
        case "square":
            one, other = words.line(r.of[0], r.of[1], hand), words.line(r.of[2], r.of[3], hand)
            if r.asked:
                return f"Hold a square to them. Does the {one} stand square to the {other}? Answer yes or no."
            return f"Hold a square to them: the {one} stands square to the {other}. Strike this out if it does not."
        case "rims":
            return (
                f"Lay the rule from {named[0]} over the hole {named[1]}. Read its near rim and its far rim, "
                "with a semicolon between."
            )
        case "fret":
            lane = "centre line" if r.on == "centre" else f"path of the {words.side(r.on or '', hand)} outer string"
            return (
                f"Lay the rule along the {lane}, its zero at the nut's front edge. Read the top of fret {r.fret}. "
                "Leave the rule lying for the next fret."
            )
        case "height":
            return _HEIGHTS[r.at or "bridge"].format(side=words.side(r.on or "", hand))
        case "at":
            return f"{named[0]} was placed on the plan or read off a sheet in x and y, parted by a semicolon."
        case _:
            return f"Lay the rule or open the caliper from {named[0]} to {named[1]}, and read the straight distance."
