"""The headstock: as it was found, the new posts on it, and all that is near each of them."""

import math
from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple, get_args

import numpy as np
from msgspec.structs import replace

from geometry.frame import Array, Points, cross, dot, xy, xys
from geometry.hardware.plug_sizes import plug_size
from geometry.hardware.posts import MiddleLine, OldPosts, PostRow, fit, hole_wide, middle_line, old_posts
from geometry.job import Job, OldHole, TunerPlate, Tuners
from geometry.job.headstock import Keep
from geometry.job.sides import SIDES, Side
from geometry.layout import XY, Fitting, HeadstockPlan, Hole, PlacedPoint, Plug, Post, Ray, StringPlan
from geometry.neck.find_neck import NeckFrame, find_neck
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm

THIN = 1.5
"""Wood between a new hole and an old one under which the old one is plugged first, mm (common practice, no source)."""


def place(
    states: PerturbedStates, job: Job, points: dict[str, PlacedPoint], strings: Sequence[StringPlan]
) -> HeadstockPlan | None:
    """The headstock with what is to go on it; None while none is begun or its middle line is not known."""
    head = job.hardware.headstock
    if head is None:
        return None
    solved = [name for name in head.named if name in states.surveyed.point_at]
    wider = states.with_points(solved).states
    frame = find_neck(wider, job)
    middle = middle_line(wider, frame, head) if frame is not None else None
    if frame is None or middle is None:
        return None
    old = old_posts(wider, frame, head, middle)
    found = HeadstockPlan(
        outline=_ring(head.outline, points),
        slots=tuple(ring for slot in head.slots if (ring := _ring(slot, points))),
        middle=Ray(at=xy(middle.at[0]), direction=xy(-middle.away[0])),
        old_posts=_holes(head.posts, points, states),
        old_screws=_holes(head.screws, points, states),
    )
    tuners = job.hardware.tuners
    return found if tuners is None else _with_tuners(_Seen(wider, frame, middle, old, found), job, tuners, strings)


def _ring(names: tuple[str, ...], points: dict[str, PlacedPoint]) -> tuple[XY, ...]:
    if len(names) < 3 or any(name not in points for name in names):
        return ()
    return tuple((points[name].x, points[name].y) for name in names)


def _holes(of: Mapping[str, OldHole], points: dict[str, PlacedPoint], states: PerturbedStates) -> tuple[Hole, ...]:
    read = states.surveyed.report.diameters
    return tuple(
        Hole(name=name, at=(points[name].x, points[name].y), diameter=read.get(name, mm(hole.diameter)))
        for name, hole in of.items()
        if name in points
    )


class _Seen(NamedTuple):
    """What the new posts are held against, in all rows of states in which the headstock's points are moved too."""

    states: PerturbedStates
    frame: NeckFrame
    middle: MiddleLine
    old: dict[Side, OldPosts]
    found: HeadstockPlan

    def ring(self, names: tuple[str, ...]) -> Points | None:
        """A closed outline in all rows, (rows, n); None while a point of it is not placed."""
        return self.frame.see(self.states, *names) if len(names) > 2 and self.states.has(*names) else None


def _with_tuners(seen: _Seen, job: Job, tuners: Tuners, strings: Sequence[StringPlan]) -> HeadstockPlan:
    """The headstock with its new posts, plates and screws, and the plugs that they need."""
    rows = fit(seen.middle, seen.old, tuners)
    posts = _posts(seen, job, tuners, strings, rows)
    plates: list[tuple[XY, ...]] = []
    screws: list[XY] = []
    for row in rows if tuners.plate is not None else ():
        more, holes = _plates(seen.middle, tuners, row)
        plates += more
        screws += holes
    return replace(
        seen.found,
        posts=tuple(posts),
        plates=tuple(plates),
        screws=tuple(screws),
        plugs=_plugs(seen.found, posts, tuners),
        askew=_askew(seen.middle, rows),
        fittings=tuple(_fitted(seen, job, replace(tuners, keep=keep), strings) for keep in get_args(Keep)),
    )


def _posts(seen: _Seen, job: Job, tuners: Tuners, strings: Sequence[StringPlan], rows: Sequence[PostRow]) -> list[Post]:
    """Both rows' posts, with all that is near each and the way of its string."""
    named = _by_string(rows, strings)
    posts = [_post(seen, job, tuners, row, at, named[row.side][at]) for row in rows for at in range(row.at.shape[1])]
    return _with_ways(tuners, posts, strings)


def _fitted(seen: _Seen, job: Job, tuners: Tuners, strings: Sequence[StringPlan]) -> Fitting:
    """What one way of fitting the posts comes to."""
    posts = _posts(seen, job, tuners, strings, fit(seen.middle, seen.old, tuners))
    walls = [post.wall for post in posts if post.wall is not None]
    return Fitting(
        keep=tuners.keep,
        again=sum(bool(post.again) for post in posts),
        plugs=len(_plugs(seen.found, posts, tuners)),
        wall=min(walls, default=None),
        turns=max((abs(post.turns) for post in posts if post.turns is not None), default=None),
    )


def _by_string(rows: Sequence[PostRow], strings: Sequence[StringPlan]) -> dict[Side, tuple[str, ...]]:
    """Which string goes to which post: on each side the outermost string to the post nearest the nut, and so inward,
    until each string has one. A string that starts at a fret has its peg there.
    """
    at_nut = [string for string in strings if not string.starts_at]
    left_to_right = [string.name for string in sorted(at_nut, key=lambda string: -string.nut_xy[1])]
    named: dict[Side, list[str]] = {row.side: [] for row in rows}
    for at in range(max((row.at.shape[1] for row in rows), default=0)):
        for row in rows:
            if at < row.at.shape[1]:
                taken = left_to_right.pop(0 if row.side == "left" else -1) if left_to_right else ""
                named[row.side].append(taken)
    return {side: tuple(names) for side, names in named.items()}


def _post(seen: _Seen, job: Job, tuners: Tuners, row: PostRow, at: int, string: str) -> Post:
    """One post with the wood round it."""
    head, here, radius = job.hardware.headstock, row.at[:, at], hole_wide(tuners) / 2
    assert head is not None
    along, across = dot(seen.middle.away, here), cross(seen.middle.away, here)
    pm95 = seen.states.pm95(np.array((along, across)).T).tolist()
    name, wall = _nearest_old(seen, here, radius, row.again[at])
    outline, slots = seen.ring(head.outline), [ring for slot in head.slots if (ring := seen.ring(slot)) is not None]
    return Post(
        string=string,
        side=row.side,
        at=xy(here[0]),
        pm95=(pm95[0], pm95[1]),
        diameter=mm(tuners.post),
        bushing=mm(tuners.bushing) if tuners.bushing is not None else None,
        again=row.again[at],
        nearest_old=name,
        wall=wall,
        edge=_wood(seen.states, here, [outline], radius, within=True) if outline is not None else None,
        slot=_to_slot(seen, tuners, here, slots) if slots else None,
    )


def _nearest_old(seen: _Seen, here: Points, radius: float, again: str) -> tuple[str, XY | None]:
    """The old hole that a new one comes nearest to running into, by wood and ±, but for that it is drilled through."""
    least: tuple[float, str, XY] | None = None
    for hole in (*seen.found.old_posts, *seen.found.old_screws):
        if hole.name == again:
            continue
        gap = np.abs(seen.frame.see(seen.states, hole.name)[:, 0] - here) - radius - hole.diameter / 2
        wall = float(gap[0]), float(seen.states.pm95(gap))
        spare = wall[0] - max(THIN, wall[1])
        if least is None or spare < least[0]:
            least = spare, hole.name, wall
    return least[1:] if least is not None else ("", None)


def _to_slot(seen: _Seen, tuners: Tuners, here: Points, slots: Sequence[Points]) -> XY:
    """A roller's room within its slot, or the wood from a post's hole to the nearest slot."""
    if tuners.roller is None:
        return _wood(seen.states, here, slots, hole_wide(tuners) / 2, within=False)
    nearest = min(slots, key=lambda slot: float(np.abs(slot[0].mean() - here[0])))
    return _wood(seen.states, here, [nearest], mm(tuners.roller) / 2, within=True)


def _wood(states: PerturbedStates, here: Points, rings: Sequence[Points], radius: float, *, within: bool) -> XY:
    """The least wood from a hole to the sides of outlines, with its ±; less than 0 where it runs out of the wood, which
    is `within` the outlines or outside them.
    """
    sides = [(ring, k, (k + 1) % ring.shape[1]) for ring in rings for k in range(ring.shape[1])]
    gaps = np.array([_to_side(here, ring[:, k], ring[:, after]) for ring, k, after in sides])
    least = gaps[int(gaps[:, 0].argmin())]
    inside = any(_inside(complex(here[0]), ring[0]) for ring in rings)
    least = (least if inside == within else -least) - radius
    return float(least[0]), float(states.pm95(least))


def _inside(at: complex, ring: Points) -> bool:
    """Whether a place lies within a closed outline: a ray to the left crosses its sides an odd number of times."""
    start, stop = ring - at, np.roll(ring, -1) - at
    crosses = (start.imag > 0) != (stop.imag > 0)
    way = stop - start
    where = start.real - start.imag * way.real / np.where(way.imag == 0, 1.0, way.imag)
    return bool((crosses & (where > 0)).sum() % 2)


def _to_side(here: Points, start: Points, stop: Points) -> Array:
    """How far points lie from a straight piece (rows,)."""
    way = stop - start
    share = np.clip(dot(way, here - start) / np.maximum(np.abs(way) ** 2, 1e-12), 0.0, 1.0)
    return np.asarray(np.abs(here - start - share * way))


def _with_ways(tuners: Tuners, posts: Sequence[Post], strings: Sequence[StringPlan]) -> list[Post]:
    """Each string's way from its slot in the nut to its post: how it turns there, and what it passes. Rollers lie below
    it in their slots, so that it passes them freely.
    """
    found = []
    for post in posts:
        string = next((one for one in strings if one.name == post.string), None)
        if string is None:
            found.append(post)
            continue
        nut, at, bridge = complex(*string.nut_xy), complex(*post.at), complex(*string.break_point)
        straight = nut - bridge
        others = [complex(*other.at) for other in posts if other is not post]
        way = np.array([at - nut])
        clear = [
            float(_to_side(np.array([other]), np.array([nut]), nut + way)[0])
            - (hole_wide(tuners) + (string.diameter or 0.0)) / 2
            for other in others
        ]
        turns = -math.degrees(float(np.angle((at - nut) / straight)))
        found.append(replace(post, turns=turns, clear=None if tuners.roller is not None else min(clear, default=None)))
    return found


def _plates(middle: MiddleLine, tuners: Tuners, row: PostRow) -> tuple[list[tuple[XY, ...]], list[XY]]:
    """The plates of a row, each closed, and the holes of their screws, in the first row of states."""
    plate = tuners.plate
    assert plate is not None
    counts = tuners.left if row.side == "left" else tuners.right
    inward = (1j if row.side == "left" else -1j) * complex(middle.away[0])
    rings: list[tuple[XY, ...]] = []
    screws: list[XY] = []
    for first, stop in pairwise(accumulate(counts, initial=0)):
        posts = row.at[0, first:stop].tolist()
        away = complex(posts[-1] - posts[0])
        away = away / abs(away) if abs(away) > 0 else complex(middle.away[0])
        rings.append(_plate(plate, posts, away, inward))
        screws += [xy(posts[0] + away * mm(along) + inward * mm(across)) for along, across in plate.screws]
    return rings, screws


def _plate(plate: TunerPlate, posts: Sequence[complex], away: complex, inward: complex) -> tuple[XY, ...]:
    start, stop = posts[0] - away * mm(plate.past), posts[-1] + away * mm(plate.past)
    near, far = inward * mm(plate.inner), inward * (mm(plate.inner) - mm(plate.wide))
    return xys(np.array([start + near, stop + near, stop + far, start + far]))


def _plugs(found: HeadstockPlan, posts: Sequence[Post], tuners: Tuners) -> tuple[Plug, ...]:
    """A plug for every old hole that no post is drilled through; what cuts it, or comes near it, waits for it."""
    used = {post.again for post in posts}
    radius = hole_wide(tuners) / 2
    plugs = []
    for hole in (*found.old_posts, *found.old_screws):
        if hole.name in used:
            continue
        near = [
            post.string or f"post {number}"
            for number, post in enumerate(posts, 1)
            if math.dist(post.at, hole.at) - radius - hole.diameter / 2 < THIN
        ]
        plugs.append(
            Plug(hole=hole.name, at=hole.at, diameter=hole.diameter, plug=plug_size(hole.diameter), before=tuple(near))
        )
    return tuple(plugs)


def _askew(middle: MiddleLine, rows: Sequence[PostRow]) -> float | None:
    """How far the lines from post to post across stand out of square to the middle line, at worst, in degrees."""
    if len(rows) != len(SIDES):
        return None
    count = min(row.at.shape[1] for row in rows)
    across = rows[0].at[0, :count] - rows[1].at[0, :count]
    off = np.angle(across / (-1j * middle.away[0]))
    return math.degrees(float(np.abs(off).max())) if count else None
