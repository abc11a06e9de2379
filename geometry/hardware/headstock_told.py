"""What is to be said of the headstock and its new posts."""

import math
from collections.abc import Iterator
from itertools import pairwise

from geometry import words
from geometry.findings import Finding, Grade
from geometry.hardware.head_sides import depth_below
from geometry.hardware.on_old_holes_told import near_old
from geometry.hardware.posts import hole_wide
from geometry.job import Job
from geometry.layout import XY, HeadstockPlan, Post
from geometry.units import mm, said, said_pm, said_under, told_alike

EDGE = 4.0
"""Wood from a post's hole to the headstock's edge below which it may break out, mm (common practice, no source)."""
OVER = 2.0
"""Wood over or under a hole in a slotted headstock's side below which it may break out, mm (common practice, no
source)."""
ASKEW = 1.0
"""Degrees that two posts across from each other may stand out of square unseen (common practice, no source)."""
TURNS = 20.0
"""Degrees sideways at the nut beyond which a string binds in its slot (common practice, no source)."""


def findings(job: Job, plan: HeadstockPlan | None) -> tuple[Finding, ...]:
    """What stops the drill, what is to be looked at, and that all is clear."""
    head, tuners = job.hardware.headstock, job.hardware.tuners
    if head is None:
        return _no_headstock() if tuners is not None else ()
    if plan is None:
        return (
            _finding(
                "look",
                "headstock.missing",
                "The headstock has no place yet: read the nut’s corners, and the points that its middle line needs.",
                "step:measure",
            ),
        )
    if tuners is None:
        return ()
    found = [*_unplaced(job, plan), *_count(job), *_no_roller(job), *_slots(job, plan), *_depth(job, plan)]
    for number, post in enumerate(plan.posts, 1):
        found += _of_post(job, plan, post, number)
    found += [*_over_bushings(job, plan), *_askew(plan)]
    known = _known(plan)
    if known and not any(one.grade != "good" for one in found):
        found.append(_finding("good", "posts.clear", f"The new posts are clear of {words.joined(known)}.", "headstock"))
    return tuple(found)


def _known(plan: HeadstockPlan) -> list[str]:
    """What the posts were held against: of what is not read nothing is said."""
    near = {
        "old holes": any(post.wall is not None or post.again for post in plan.posts),
        "edges": any(post.edge is not None for post in plan.posts),
        "slots": any(post.slot is not None for post in plan.posts),
    }
    return [what for what, read in near.items() if read]


def _count(job: Job) -> Iterator[Finding]:
    """More posts than strings, or fewer."""
    tuners = job.hardware.tuners
    if tuners is None or job.strings is None:
        return
    posts, strings = sum(tuners.left) + sum(tuners.right), sum(not string.first for string in job.strings.list)
    if posts != strings:
        many = f"{strings} string{'s' if strings != 1 else ''}"
        yield _finding(
            "look",
            "posts.count",
            f"{posts} post{'s' if posts != 1 else ''} for {many}: say how many stand on each side.",
            "field:hardware.tuners.left",
            posts=posts,
            strings=strings,
        )


def called(post: Post, number: int) -> str:
    """A post in a sentence: “the post of string 3”."""
    return f"the post of {words.string(post.string)}" if post.string else f"post {number}"


def _no_headstock() -> tuple[Finding, ...]:
    return (
        _finding(
            "look",
            "headstock.missing",
            "Tuners are chosen, but the headstock is not begun: name its outline and old posts on the Headstock card.",
            "field:hardware.headstock",
        ),
    )


def _finding(grade: Grade, code: str, text: str, where: str, **values: float) -> Finding:
    return Finding(grade=grade, code=code, text=text, where=where, values=values)


def _unplaced(job: Job, plan: HeadstockPlan) -> Iterator[Finding]:
    """A side whose posts have nowhere to go."""
    tuners = job.hardware.tuners
    assert tuners is not None
    for side, wanted in (("left", tuners.left), ("right", tuners.right)):
        if sum(wanted) and not any(post.side == side for post in plan.posts):
            yield _finding(
                "look",
                "posts.unplaced",
                f"The {job.bass_or_treble(side)} side’s posts have no place: read an old post there, or say how far "
                "from the middle line they stand.",
                "field:hardware.tuners.from_middle",
            )


def _no_roller(job: Job) -> Iterator[Finding]:
    """What only a slotted headstock has, beside tuners without a roller: they are drilled as into a solid one."""
    head, tuners = job.hardware.headstock, job.hardware.tuners
    if head is None or tuners is None or tuners.roller is not None or not (head.slots or tuners.below is not None):
        return
    has = "The headstock has slots" if head.slots else "The posts’ depth below the face is given"
    what = "the slots" if head.slots else "that depth"
    yield _finding(
        "look",
        "headstock.no_roller",
        f"{has}, and the new tuners have no roller: their posts are drilled from the face, as on a solid headstock. "
        f"Type the roller if they turn in the slots, or take {what} out.",
        "field:hardware.tuners.roller",
    )


def _slots(job: Job, plan: HeadstockPlan) -> Iterator[Finding]:
    """A slot that is narrower than the roller that is to turn in it."""
    tuners = job.hardware.tuners
    if tuners is None or tuners.roller is None:
        return
    for number, slot in enumerate(plan.slots, 1):
        narrow = min(_width(slot, a, b) for a, b in pairwise((*range(len(slot)), 0)))
        if narrow < mm(tuners.roller):
            yield _finding(
                "stop",
                "headstock.slot_narrow",
                f"Slot {number} of the headstock is {said_under(narrow, mm(tuners.roller), job.unit)} wide, but a "
                f"roller of {said(mm(tuners.roller), job.unit)} is to turn in it: widen the slot, or take other "
                "tuners.",
                "field:hardware.tuners.roller",
                wide=narrow,
            )


def _depth(job: Job, plan: HeadstockPlan) -> Iterator[Finding]:
    """Posts of a slotted headstock too near its face or its back, or nobody knows how near."""
    tuners, head = job.hardware.tuners, job.hardware.headstock
    if tuners is None or tuners.roller is None or head is None or not plan.posts:
        return
    below, radius = depth_below(job), hole_wide(tuners) / 2
    if below is None:
        yield _finding(
            "look",
            "posts.depth",
            "How far below the headstock’s face the posts lie is not known: type its thickness, or their depth.",
            "field:hardware.headstock.thickness",
        )
        return
    over, under = below - radius, mm(head.thickness) - below - radius if head.thickness is not None else math.inf
    wood = min(over, under)
    if wood >= OVER:
        return
    where = "face" if over <= under else "back"
    says = (
        f"break through the headstock’s {where}"
        if wood <= 0
        else f"leave {said_under(wood, OVER, job.unit)} of wood to the headstock’s {where}; "
        f"{said(OVER, job.unit)} is usual"
    )
    yield _finding(
        "stop" if wood <= 0 else "look",
        "posts.breaks_out",
        f"The posts’ holes {says}. Say how deep they lie, or take narrower ones.",
        "field:hardware.tuners.below",
        wood=wood,
    )


def _width(ring: tuple[XY, ...], a: int, b: int) -> float:
    """How far an outline reaches square to one of its sides, mm."""
    way = complex(*ring[b]) - complex(*ring[a])
    away = [(complex(*at) * way.conjugate()).imag / abs(way) for at in ring]
    return max(away) - min(away)


def _of_post(job: Job, plan: HeadstockPlan, post: Post, number: int) -> Iterator[Finding]:
    who, where = words.first_large(called(post, number)), f"post:{number}"
    if post.edge is not None and post.edge[0] - post.edge[1] < EDGE:
        short = post.edge[0] < EDGE and not told_alike(post.edge[0], EDGE, job.unit)
        usual = said(EDGE, job.unit)
        grade: Grade = "stop" if post.edge[0] <= 0 else "look"
        says = (
            f"lies outside the headstock or breaks through its edge by {said(max(-post.edge[0], 0.0), job.unit)}"
            if post.edge[0] <= 0
            else f"leaves {said_pm(post.edge[1], job.unit, post.edge[0])} of wood to the headstock’s edge"
            f"{f'; {usual} is usual' if short else f', too little to be sure of the usual {usual}'}"
        )
        yield _finding(grade, "post.edge", f"{who} {says}. Move the posts, or look at the outline’s readings.", where)
    yield from _to_slot(job, post, who, where)
    yield from near_old(job, plan, post, who, where)
    if post.turns is not None and round(abs(post.turns)) > TURNS:
        yield _finding(
            "look",
            "post.turns",
            f"{words.first_large(words.string(post.string))} turns {abs(post.turns):.0f}° sideways at the nut to its "
            f"post: beyond {TURNS:.0f}° a string binds in its slot. Move the posts outward less, or farther along.",
            where,
            degrees=post.turns,
        )
    if post.clear is not None and post.clear <= 0:
        other = post.passes if post.passes.startswith("post ") else f"the post of {words.string(post.passes)}"
        yield _finding(
            "look",
            "post.in_the_way",
            f"{words.first_large(words.string(post.string))} touches {other} on its way: set the posts farther apart, "
            "or farther from the middle.",
            where,
            clear=post.clear,
        )


def _over_bushings(job: Job, plan: HeadstockPlan) -> Iterator[Finding]:
    """Strings that clear the other posts but go over a bushing, which stands up round its hole: all in one."""
    over = {
        post.string: post.clear
        for post in plan.posts
        if post.clear is not None and post.bushing is not None and 0 < post.clear <= (post.bushing - post.diameter) / 2
    }
    if over:
        one, least = len(over) == 1, min(over.values())
        yield _finding(
            "look",
            "posts.over_bushings",
            f"{words.first_large(words.strings(tuple(over)))} {'goes' if one else 'go'} over another string’s bushing "
            f"and {'misses its post by' if one else 'miss its post, the nearest by'} {said(least, job.unit)}: look "
            f"whether {'it touches' if one else 'they touch'} the bushing.",
            "headstock",
            clear=least,
        )


def _to_slot(job: Job, post: Post, who: str, where: str) -> Iterator[Finding]:
    """A roller that does not fit its slot, a hole that runs into one; or may."""
    if post.slot is None or post.slot[0] - post.slot[1] > 0:
        return
    room, pm95 = post.slot
    roller = job.hardware.tuners is not None and job.hardware.tuners.roller is not None
    if room <= 0:
        says = "does not fit its slot" if roller else "runs into a slot"
        yield _finding(
            "stop", "post.slot", f"{who} {says}, by {said_pm(pm95, job.unit, -room)}. Move the posts along.", where
        )
        return
    says = "may not fit its slot" if roller else "may run into a slot"
    text = f"{who} {says}: {said_pm(pm95, job.unit, room)} lies between. Move the posts along, or read the slot again."
    yield _finding("look", "post.slot", text, where)


def _askew(plan: HeadstockPlan) -> Iterator[Finding]:
    if plan.askew is not None and plan.askew > ASKEW:
        yield _finding(
            "look",
            "posts.askew",
            f"The posts of the two sides stand {plan.askew:.1f}° out of square to the headstock’s middle line. Keep "
            "another post on one side, if that is not as it was.",
            "headstock",
            degrees=plan.askew,
        )
