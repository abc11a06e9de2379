"""New tuner posts on an old headstock, on the campaign's own instruments: three old post holes a side, read from the
nut's corners and from hole to hole, and new posts in a row through their middles, halfway along them.

A post is right where the same row through the true holes has it, along the headstock's middle line and across it; the
line stands square on the nut's middle.
"""

from collections.abc import Iterator
from zlib import crc32

import numpy as np
from msgspec.structs import replace

from geometry.job import Headstock, OldPost, Point, Reading, Tuners
from geometry.job.neck.hardware import Hardware
from geometry.job.sides import SIDES
from geometry.layout import Layout
from geometry.units import mm
from tests.campaign.counting import Found, by_name
from tests.campaign.invented.cases import LISTS
from tests.campaign.invented.crooked import BY_HAND, drawn
from tests.campaign.invented.hands import AS_STATED, Errors, Manner, take, written
from tests.campaign.invented.instruments import Instrument, Neck, best_line, dot, neck_of
from tests.campaign.invented.trials import job_of, list_for
from tests.campaign.judging import Figure
from tests.campaign.placing import places_of

HOLE = 8.5
"""The old post holes' diameter, mm (common practice, no source)."""
FIRST, APART, OUT = (35.0, 55.0), (34.0, 42.0), (0.55, 0.75)
"""The first old post from the nut and the next from it, mm; how far out they stand, in widths of the nut (common
practice, no source)."""
CROOKED = 0.5
"""How far each hole stands aside from a straight row, one standard deviation, mm (common practice, no source)."""
TUNERS = Tuners(keep="middle post", bushing=HOLE)
CALIPER = "caliper 0.1"
PER_SIDE = 3


def try_one(seed: int, index: int, manner: Manner = AS_STATED) -> dict[str, Figure]:
    """One instrument, its board read with each measuring list in turn; the same seed and index give the same."""
    random = np.random.default_rng([seed, crc32(b"posted"), index])
    bare = drawn(random, BY_HAND)
    holes = _drilled(random, bare)
    instrument = replace(
        bare,
        points=bare.points | {name: _neck(bare).put(at) for name, at in holes.items()},
        holes=bare.holes | dict.fromkeys(holes, HOLE),
    )
    near = {name: Point(near=(round(at.real, -1), round(at.imag, -1))) for name, at in holes.items()}
    asked = list_for(LISTS[index % len(LISTS)], instrument, inch=False)
    asked = replace(asked, points=asked.points | near)
    readings = (*asked.readings, *_readings())
    read = written(readings, take(readings, instrument, Errors(random, manner)))
    job = job_of(instrument, asked, read, inch=False, declared=False)
    head = Headstock(posts={name: OldPost(diameter=HOLE) for name in holes})
    job = replace(job, hardware=Hardware(headstock=head, tuners=TUNERS))
    return dict(_figures(places_of(job), instrument, holes))


def _neck(instrument: Instrument) -> Neck:
    """The neck's frame, of which no more is wanted here than where the nut is and which way the board runs."""
    return neck_of(instrument.points, ("nut", "end"))


def _drilled(random: np.random.Generator, instrument: Instrument) -> dict[str, complex]:
    """Three old holes a side, from the nut on, in the neck's frame, in rows that are nowhere quite straight."""
    corners = [_neck(instrument).see(instrument.points[f"nut.{side}"]) for side in SIDES]
    wide = abs(corners[0] - corners[1])
    found = {}
    for side, sign in zip(SIDES, (1, -1), strict=True):
        first, apart, out = (float(random.uniform(*between)) for between in (FIRST, APART, OUT))
        for at in range(PER_SIDE):
            aside = complex(*random.normal(0, CROOKED, 2))
            found[_named(side, at)] = complex(-first - at * apart, sign * out * wide) + aside
    return found


def _named(side: str, at: int) -> str:
    return f"post.{1 + at + PER_SIDE * SIDES.index(side)}"


def _readings() -> Iterator[Reading]:
    """Each hole's rims from both corners of the nut, and the holes from one another along and across the headstock."""
    for side in SIDES:
        for at in range(PER_SIDE):
            for corner in SIDES:
                of = (f"nut.{corner}", _named(side, at))
                yield Reading(id=f"{_named(side, at)} {corner}", kind="rims", of=of, with_=CALIPER)
    pairs = [(_named(side, at), _named(side, at + 1)) for side in SIDES for at in range(PER_SIDE - 1)]
    pairs += [(_named("left", at), _named("right", at)) for at in range(PER_SIDE)]
    for a, b in pairs:
        yield Reading(id=f"{a} {b}", kind="distance", of=(a, b), with_=CALIPER)


def _figures(layout: Layout, instrument: Instrument, holes: dict[str, complex]) -> Iterator[tuple[str, Figure]]:
    """The post nearest the nut at the left and the one farthest from it at the right, along and across."""
    head = layout.hardware.headstock
    assert head is not None
    said = -complex(*head.middle.direction)
    nut = [_neck(instrument).see(instrument.points[f"nut.{side}"]) for side in SIDES]
    true = 1j * (nut[0] - nut[1]) / abs(nut[0] - nut[1])
    step = mm(TUNERS.spacing)
    for side, at, name in (("left", 0, "nearest the nut"), ("right", PER_SIDE - 1, "farthest from the nut")):
        old = [holes[_named(side, n)] for n in range(PER_SIDE)]
        normal, reach = best_line(old)
        way = normal / 1j
        middle = (dot(way, old[0]) + dot(way, old[-1])) / 2 + (at - (PER_SIDE - 1) / 2) * step
        post = normal * reach + way * middle
        (told, *_) = [one for one in head.posts if one.side == side][at:]
        here = complex(*told.at)
        yield f"the new post {name}, along", Figure(dot(said, here) - dot(true, post), told.pm95[0])
        yield f"the new post {name}, across", Figure(dot(said * 1j, here) - dot(true * 1j, post), told.pm95[1])


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """So many instruments; of each the two posts."""
    return Found(figures=by_name(try_one(seed, index, manner) for index in range(count)))
