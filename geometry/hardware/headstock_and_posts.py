"""The headstock: as it was found, the new posts on it, and all that is near each of them."""

import cmath
import math
from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise
from typing import get_args

import numpy as np
from msgspec.structs import replace

from geometry.frame import cross, dot, xy, xys
from geometry.hardware.head_sides import head_side
from geometry.hardware.near_posts import THIN, Seen, apart_from, edge_wood, nearest_old, slot_wood, to_side
from geometry.hardware.plug_sizes import plug_size
from geometry.hardware.post_rows import PostRow, fit
from geometry.hardware.posts import MiddleLine, hole_wide, middle_line, old_posts
from geometry.job import Job, OldHole, TunerPlate, Tuners
from geometry.job.neck.headstock import Keep
from geometry.job.sides import SIDES, Side
from geometry.layout import XY, Fitting, HeadstockPlan, Hole, PlacedPoint, Plug, Post, Ray, StringPlan
from geometry.neck.find_neck import find_neck
from geometry.old_work.holes.plugs import widest_told_alike
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm


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
    found = HeadstockPlan(
        outline=_ring(head.outline, points),
        slots=tuple(ring for slot in head.slots if (ring := _ring(slot, points))),
        middle=Ray(at=xy(middle.at[0]), direction=xy(-middle.away[0])),
        old_posts=_holes(head.posts, points, states),
        old_screws=_holes(head.screws, points, states),
    )
    tuners = job.hardware.tuners
    if tuners is None:
        return found
    old = old_posts(wider, frame, job, head, middle, tuners)
    holes = frame.see(wider, *(hole.name for hole in (*found.old_posts, *found.old_screws)))
    return _with_tuners(Seen(wider, frame, middle, old, found, holes), job, tuners, strings)


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


def _with_tuners(seen: Seen, job: Job, tuners: Tuners, strings: Sequence[StringPlan]) -> HeadstockPlan:
    """The headstock with its new posts, plates and screws, and the plugs that they need."""
    rows = fit(seen.middle, seen.old, tuners)
    posts = _posts(seen, job, tuners, strings, rows)
    plates: list[tuple[XY, ...]] = []
    screws: list[XY] = []
    head, slotted = job.hardware.headstock, tuners.roller is not None
    assert head is not None
    for row in rows if tuners.plate is not None and not slotted else ():
        more, holes = _plates(seen.middle, tuners, row)
        plates += more
        screws += holes
    return replace(
        seen.found,
        posts=tuple(posts),
        plates=tuple(plates),
        screws=tuple(screws),
        plugs=_plugs(job, seen.found, posts, tuners),
        askew=_askew(seen.middle, rows),
        fittings=tuple(_fitted(seen, replace(tuners, keep=keep), strings) for keep in get_args(Keep)),
        sides=tuple(side for row in rows if slotted and (side := head_side(seen, head, tuners, row)) is not None),
    )


def _posts(seen: Seen, job: Job, tuners: Tuners, strings: Sequence[StringPlan], rows: Sequence[PostRow]) -> list[Post]:
    """Both rows' posts, with all that is near each and the way of its string."""
    named, head, posts = _by_string(rows, strings), job.hardware.headstock, []
    assert head is not None
    for row in rows:
        places = zip(
            row.at[0].tolist(),
            _pm95s(seen, row),
            nearest_old(seen, tuners, row),
            edge_wood(seen, head, tuners, row),
            slot_wood(seen, head, tuners, row),
            row.again,
            named[row.side],
            strict=True,
        )
        posts += [
            Post(
                string=string,
                side=row.side,
                at=xy(at),
                pm95=pm95,
                diameter=mm(tuners.post),
                bushing=mm(tuners.bushing) if tuners.bushing is not None else None,
                again=again,
                nearest_old=name,
                wall=wall,
                edge=edge,
                slot=slot,
            )
            for at, pm95, (name, wall), edge, slot, again, string in places
        ]
    return _with_ways(tuners, posts, strings)


def _pm95s(seen: Seen, row: PostRow) -> list[XY]:
    """The ± of each post of a row, along and across the headstock."""
    away = seen.middle.away[:, None]
    along, across = (seen.states.pm95(part(away, row.at)).tolist() for part in (dot, cross))
    return list(zip(along, across, strict=True))


def _fitted(seen: Seen, tuners: Tuners, strings: Sequence[StringPlan]) -> Fitting:
    """What one way of fitting the posts comes to."""
    rows = fit(seen.middle, seen.old, tuners)
    named, by_name = _by_string(rows, strings), {string.name: string for string in strings}
    posts = [(row.side, *place) for row in rows for place in zip(row.at[0].tolist(), named[row.side], strict=True)]
    walls = [wall for row in rows for _, wall in nearest_old(seen, tuners, row) if wall is not None]
    again = {name for row in rows for name in row.again if name}
    turns = [abs(_turns(by_name[string], at)) for _, at, string in posts if string]
    return Fitting(
        keep=tuners.keep,
        again=sum(bool(name) for row in rows for name in row.again),
        loose=len(
            again
            & {name for old in seen.old.values() for name, loose in zip(old.names, old.loose, strict=True) if loose}
        ),
        plugs=sum(hole.name not in again for hole in (*seen.found.old_posts, *seen.found.old_screws)),
        wall=min(walls, default=None),
        turns=max(turns, default=None),
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


def _with_ways(tuners: Tuners, posts: Sequence[Post], strings: Sequence[StringPlan]) -> list[Post]:
    """Each string's way from its slot in the nut to its post: how it turns there, and what it passes. Rollers lie below
    it in their slots, so that it passes them freely.
    """
    by_name, places = {string.name: string for string in reversed(strings)}, np.array([complex(*p.at) for p in posts])
    found = []
    for number, post in enumerate(posts):
        string, at = by_name.get(post.string), complex(*post.at)
        if string is None:
            found.append(post)
            continue
        nut, passes, clear = np.array(complex(*string.nut_xy)), "", None
        if len(posts) > 1 and tuners.roller is None:
            off = to_side(places, nut, np.array(at))
            off[number] = np.inf
            nearest = int(off.argmin())
            passes = posts[nearest].string or f"post {nearest + 1}"
            clear = float(off[nearest]) - (mm(tuners.post) + (string.diameter or 0.0)) / 2
        found.append(replace(post, turns=_turns(string, at), passes=passes, clear=clear))
    return found


def _turns(string: StringPlan, post: complex) -> float:
    """The angle that a string makes sideways at the nut to its post, degrees, + to the left."""
    nut, bridge = complex(*string.nut_xy), complex(*string.break_point)
    return -math.degrees(cmath.phase((post - nut) / (nut - bridge)))


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


def _plugs(job: Job, found: HeadstockPlan, posts: Sequence[Post], tuners: Tuners) -> tuple[Plug, ...]:
    """A plug for every old hole that no post is drilled through; what cuts it, or comes near it, waits for it."""
    used = {post.again for post in posts}
    plugs = []
    holes = [hole for hole in (*found.old_posts, *found.old_screws) if hole.name not in used]
    widest = widest_told_alike((hole.diameter for hole in holes), job.unit)
    for hole in holes:
        near = [
            post.string or f"post {number}"
            for number, post in enumerate(posts, 1)
            if apart_from(found, tuners, post, hole) - hole_wide(tuners) / 2 - hole.diameter / 2 < THIN
        ]
        plugs.append(
            Plug(
                hole=hole.name,
                at=hole.at,
                diameter=hole.diameter,
                plug=plug_size(widest[hole.diameter]),
                before=tuple(near),
            )
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
