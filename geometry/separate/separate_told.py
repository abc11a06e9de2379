"""What the person should know of separate saddles: whether each reaches its place, how the base is set, its sizes."""

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

from geometry import words
from geometry.findings import Finding, Grade, look
from geometry.job import Job, Separate
from geometry.layout import XY, Layout, SaddleReach, SeparatePlan
from geometry.layout.separate_plan import Reached, worst_of
from geometry.saddle.heights.break_angle import SHALLOW, STEEP, said_degrees
from geometry.units import mm, said, said_pm

TOUCHING = 0.01
"""mm. Bases that overlap by less only touch: no base is made finer."""
TURNED = 1.0
"""mm. Where its ends differ by less a base that is set at a slant is not spoken of (common practice, no source)."""
BESIDE = 0.5
"""mm. A saddle so near to the base's side still stands on it (common practice, no source)."""
GAIN = 0.3
"""mm. A slant is proposed that leaves so much more reach (common practice, no source)."""


def findings(job: Job, separate: Separate, plan: SeparatePlan, layout: Layout) -> Iterator[Finding]:
    """Reach, how the base is set, saddles and sizes that cannot be, and how the strings break."""
    if mm(separate.travel) == 0:
        yield _no_travel(job, plan)
    else:
        yield from _reach(job, plan)
    yield from _count(separate, plan)
    yield from _turned(job, separate, plan)
    yield from _too_narrow(job, separate, plan)
    yield from _overlapping(job, plan)
    yield from _on_board(job, plan, layout)
    ahead = _hole_ahead(job, plan, layout)
    yield from (ahead,) if ahead is not None else _angles(plan)
    if not separate.screws:
        yield look(
            "separate.no_screws",
            "Where the base’s screw holes are is not told yet: measure each on the base, behind its front edge and "
            "across from its middle.",
            "field:separate.screws",
        )
    if separate.through is not None and separate.body is None:
        yield look(
            "separate.no_body",
            "The strings go through the body, and its thickness is not told: measure it before you drill through.",
            "field:separate.body",
        )


def _no_travel(job: Job, plan: SeparatePlan) -> Finding:
    """Saddles that stay where the base has them: one sentence."""
    worst = min(plan.saddles, key=lambda one: round(one.least, 6))
    off = max(one.least for one in plan.saddles) - worst.least
    stands = (
        f" and {words.string(worst.string)} will stand {said(-worst.least, job.unit)} off its place"
        f"{_cents(worst, -worst.least, 1)}"
        if off > 1e-9 or worst.least < -0.05
        else " and each must stand where it is wanted"
    )
    text = f"The saddles do not travel: no string can be set by its saddle,{stands}."
    return look("separate.no_travel", text, "field:separate.travel", mm=worst.least)


def _reach(job: Job, plan: SeparatePlan) -> Iterator[Finding]:
    """What cannot be reached, may not be, or just may be, the worst first and with what would mend it; or that all is
    well.
    """
    mend = _mend(job, plan)
    for reached, grade, says in SHORT:
        some = [one for one in plan.saddles if one.reached == reached]
        if not some:
            continue
        worst = worst_of(some)
        names = words.strings([one.string for one in some])
        who = (
            f"The saddle of {names} {says} its place"
            if len(some) == 1
            else f"The saddles of {names} {says} their places"
        )
        which = "it" if len(some) == 1 else f"that of {words.string(worst.string)}"
        how = f"{which} has only {_left(job, worst)}" if worst.least >= 0 else f"{which} lies {_lacking(job, worst)}"
        yield Finding(
            grade=grade,
            code=f"separate.{reached}",
            text=f"{who}: {how}.{mend}",
            values={"mm": worst.least, "pm95": worst.pm95, "travel": plan.travel},
            where="field:separate.travel",
            large=reached == "unsure",
        )
        mend = ""
    if all(one.reached == "reached" for one in plan.saddles):
        least = plan.least
        yield Finding(
            grade="good",
            code="separate.reach",
            text=f"Every saddle reaches its place with its ±. The least is left at {words.string(least.string)}: "
            f"{_left(job, least)}{_cents(least, least.least, 0)}.",
            values={"mm": least.least, "pm95": least.pm95},
            where="separate",
        )


SHORT: tuple[tuple[Reached, Grade, str], ...] = (
    ("out", "stop", "cannot reach"),
    ("unsure", "look", "may not reach"),
    ("thin", "look", "may just miss"),
)
"""What is said of saddles that fall short."""


def _mend(job: Job, plan: SeparatePlan) -> str:
    """The slant where that helps, and the travel that would do."""
    travel = f"Take saddles that travel {said_pm(plan.travel, job.unit)} or more"
    best = plan.best
    if best is None or best.left <= plan.left + GAIN:
        return f" {travel}, or narrow the ± by what is to be read next."
    slant = f"{abs(math.degrees(best.turn)):.1f}° out of square"
    if best.left >= 0:
        return f" Set the base at the slant that leaves the most reach, {slant}: there all are reached."
    more = f"which leaves {said(best.left - plan.left, job.unit)} more at both ends"
    return f" {travel}, or set the base at the slant that leaves the most reach, {slant}, {more}."


def _lacking(job: Job, one: SaddleReach) -> str:
    end = "ahead of the foremost break point" if one.ahead <= one.behind else "behind the rearmost break point"
    return f"{said_pm(one.pm95, job.unit, -one.least)} {end}"


def _left(job: Job, one: SaddleReach) -> str:
    return f"{said_pm(one.pm95, job.unit, one.least)} of travel {'ahead' if one.ahead <= one.behind else 'behind'}"


def _cents(one: SaddleReach, off: float, digits: int) -> str:
    cents = one.costs(off)
    return "" if cents is None else f", {cents:.{digits}f} cents at {one.octave}"


def _count(separate: Separate, plan: SeparatePlan) -> Iterator[Finding]:
    """Fewer or more saddles than strings, each of which has a reach of its own."""
    strings = len(plan.saddles)
    if separate.saddles is None or separate.saddles == strings:
        return
    fewer = separate.saddles < strings
    what = f"{separate.saddles} saddle{'' if separate.saddles == 1 else 's'} for {strings} strings"
    mend = "one string has no saddle of its own" if strings - separate.saddles == 1 else "some strings have none"
    yield Finding(
        grade="stop" if fewer else "look",
        code="separate.count",
        text=f"There {'is' if separate.saddles == 1 else 'are'} {what}: "
        f"{mend if fewer else 'which stay empty is not told here'}. Look at the list of strings and count the saddles.",
        values={"saddles": float(separate.saddles), "strings": float(strings)},
        where="field:separate.saddles",
    )


def _turned(job: Job, separate: Separate, plan: SeparatePlan) -> Iterator[Finding]:
    """How the one base stands out of square, as an eye sees it."""
    if len(plan.bases) != 1:
        return
    turn = plan.bases[0].turn
    off = -mm(separate.width) * math.sin(turn)
    if abs(off) < TURNED:
        return
    farther = "bass" if (off > 0) == (job.bass == "left") else "treble"
    yield Finding(
        grade="good",
        code="separate.turned",
        text=f"The base is set at a slant: its {farther} end lies {said(abs(off), job.unit)} farther from the nut than "
        f"the other, {abs(math.degrees(turn)):.1f}° out of square to the neck.",
        values={"mm": off, "degrees": math.degrees(turn)},
        where="separate",
    )


def _too_narrow(job: Job, separate: Separate, plan: SeparatePlan) -> Iterator[Finding]:
    """Saddles beyond the base's sides."""
    for base in plan.bases:
        front_left, front_right = (complex(*at) for at in base.corners[:2])
        middle, way = (front_left + front_right) / 2, (front_left - front_right) / abs(front_left - front_right)
        lanes = [one for one in plan.saddles if one.string in base.strings]
        out = max(abs(((complex(*one.wanted) - middle) * way.conjugate()).real) for one in lanes)
        past = out - mm(separate.width) / 2
        if past > -BESIDE:
            how = f"lies {said(past, job.unit)} past the base’s side" if past > 0 else "lies at the base’s very side"
            yield Finding(
                grade="stop" if past > 0 else "look",
                code="separate.narrow",
                text=f"An outer string {how}: look at the spread at the saddle and at the base’s width.",
                values={"mm": past},
                where="field:separate.width",
            )
            return


def _overlapping(job: Job, plan: SeparatePlan) -> Iterator[Finding]:
    """Bases that lie over each other."""
    pairs = [
        (deep, a.strings[0], b.strings[0])
        for a, b in combinations(plan.bases, 2)
        if (deep := _depth(a.corners, b.corners)) > TOUCHING
    ]
    if not pairs:
        return
    deep, one, other = max(pairs)
    whose = dict.fromkeys(name for base in plan.bases for name in base.strings if any(name in pair for pair in pairs))
    worst = "" if len(pairs) == 1 else f", those of {words.strings((one, other))} the most,"
    yield Finding(
        grade="stop",
        code="separate.overlap",
        text=f"The bases of {words.strings(list(whose))} overlap{worst} by {said(deep, job.unit)}: look at the base’s "
        "width and at the spread at the saddle.",
        values={"mm": deep},
        where="field:separate.width",
    )


def _depth(one: tuple[XY, ...], other: tuple[XY, ...]) -> float:
    """How far two rectangles lie over each other, mm: the shortest way, square to an edge of either, that parts them;
    less than 0 where they are apart (derived: convex outlines are apart where a line parts them).
    """
    a, b = ([complex(*at) for at in ring] for ring in (one, other))
    least = math.inf
    for ring in (a, b):
        for start, end in pairwise(ring[:3]):
            way = (end - start) / abs(end - start)
            own, its = ([(at * way.conjugate()).real for at in some] for some in (a, b))
            least = min(least, max(own) - min(its), max(its) - min(own))
    return least


def _on_board(job: Job, plan: SeparatePlan, layout: Layout) -> Iterator[Finding]:
    """A base whose front lies before the board's end."""
    ends = layout.neck.end if layout.neck is not None else None
    if ends is None:
        return
    (ax, ay), (bx, by) = ends
    lean = (ax - bx) / (ay - by) if abs(ay - by) > 1e-6 else 0.0
    room = min(x - (bx + lean * (y - by)) for base in plan.bases for x, y in base.corners[:2])
    if room < 0:
        yield Finding(
            grade="stop",
            code="separate.on_board",
            text=f"The base would lie on the board: its front lies {said(-room, job.unit)} before the board’s end. "
            "Look at the frets, at the board’s length, at the unit of each, and at the base’s own sizes.",
            values={"mm": room},
            where="field:separate.foremost",
        )


def _hole_ahead(job: Job, plan: SeparatePlan, layout: Layout) -> Finding | None:
    """Through holes that lie beneath their break points or ahead of them: no string goes down behind its saddle."""
    if not plan.through:
        return None
    behind = {}
    for one in layout.strings:
        broken, way = complex(*one.break_point), complex(*one.break_point) - complex(*one.nut_xy)
        behind[one.name] = ((complex(*one.end) - broken) * way.conjugate()).real / abs(way)
    ahead = {name: way for name, way in behind.items() if way <= 0}
    if not ahead:
        return None
    worst = min(ahead, key=ahead.__getitem__)
    who, far = words.strings(list(ahead)), said(-ahead[worst], job.unit)
    text = (
        f"The through hole of {who} lies {far} in front of where the string breaks over its saddle"
        if len(ahead) == 1
        else f"The through holes of {who} lie in front of where the strings break over their saddles, that of "
        f"{words.string(worst)} by {far}"
    )
    text += ": no string goes down there. Set the through holes farther behind; look at the base’s sizes."
    return Finding(
        grade="stop",
        code="separate.through",
        text=text,
        values={"mm": ahead[worst]},
        where="field:separate.through",
    )


def _angles(plan: SeparatePlan) -> Iterator[Finding]:
    """How steeply the strings break over their saddles on the way to the through holes."""
    told = [(side, one) for side, one in zip(("bass", "treble"), plan.degrees, strict=True) if one is not None]
    if not told:
        return
    each = " and ".join(f"{said_degrees(*one)} at the {side} side" for side, one in told)
    least, most = min(one[0] for _, one in told), max(one[0] for _, one in told)
    mend = ""
    if least < math.degrees(SHALLOW):
        mend = " That is little: a string may slip sideways or buzz. Set the through holes nearer to the saddles."
    elif most > math.degrees(STEEP):
        mend = " That is steep: a string may break there. Set the through holes farther behind."
    yield Finding(
        grade="look" if mend else "good",
        code="separate.angle",
        text=f"The strings break over their saddles by {each}.{mend}",
        values={"least": least, "most": most},
        where="field:separate.through" if mend else "separate",
    )
