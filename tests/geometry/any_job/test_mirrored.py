"""A mirrored instrument of the other hand is laid out as the mirror image, whatever is asked of it."""

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Action, Bridge, Frets, Job, Nut, Point, Scales, SlotFront, Strings
from geometry.layout import XY, Layout
from geometry.work_out import lay_out
from tests.geometry.any_job.odd_jobs import PLACES, drawn_blocks
from tests.geometry.any_job.test_never_stops import EXTRAS
from tests.geometry.made import surveyed

MIRROR = {"left": "right", "right": "left"}


def swapped(name: str) -> str:
    return ".".join(MIRROR.get(part, part) for part in name.split("."))


def mirrored_strings(strings: Strings | None) -> Strings | None:
    if strings is None or strings.action is None:
        return None if strings is None else replace(strings, shift=-strings.shift)  # type: ignore[operator]  # a number
    (a, b), (c, d) = strings.action.fret1, strings.action.fret12
    return replace(strings, shift=-strings.shift, action=Action(fret1=(b, a), fret12=(d, c)))  # type: ignore[operator]


def mirrored_bridge(bridge: Bridge | None) -> Bridge | None:
    if bridge is None or bridge.slot_front is None:
        return bridge
    return replace(bridge, slot_front=SlotFront(left=bridge.slot_front.right, right=bridge.slot_front.left))


def mirrored_frets(frets: Frets) -> Frets:
    scales = None if frets.scales is None else Scales(left=frets.scales.right, right=frets.scales.left)
    return replace(frets, scales=scales)


def mirrored_nut(nut: Nut | None) -> Nut | None:
    if nut is None:
        return None
    bed = nut.bed[::-1] if isinstance(nut.bed, tuple) else nut.bed
    margins = nut.margins[::-1] if nut.margins is not None else None
    return replace(nut, over_fret1=nut.over_fret1[::-1], bed=bed, margins=margins)


def mirrored(job: Job) -> Job:
    return replace(
        job,
        hand=MIRROR[job.hand],
        nut=mirrored_nut(job.nut),
        strings=mirrored_strings(job.strings),
        bridge=mirrored_bridge(job.bridge),
        frets=mirrored_frets(job.frets),
        points={swapped(name): Point() for name in job.points},
    )


def seen(layout: Layout) -> dict[str, Any]:
    """What can be compared of a layout: places by name, the right way round."""
    found: dict[str, Any] = {"codes": sorted((f.code, f.grade) for f in layout.findings)}
    found |= {name: (point.x, point.y, point.sx, point.sy) for name, point in layout.points.items()}
    for string in layout.strings:
        found[f"string {string.name}"] = (*string.nut_xy, *string.break_point, *string.end, string.peak)
        found[f"cents {string.name}"] = (*string.cents.values(), string.compensation, string.compensation_pm95)
    if layout.saddle is not None:
        saddle = layout.saddle
        for side, at in (("left", 0), ("right", 1)):
            found[f"saddle.{side}"] = (
                *saddle.at_strings[at],
                *saddle.front[at],
                *saddle.line[at],
                *saddle.opposite[at],
            )
            found[f"saddle ±.{side}"] = (saddle.pm95[at], saddle.left_over[at])
        found["longer"] = saddle.longer
        for piece in saddle.pieces:
            for side, at in (("left", 0), ("right", 1)):
                name = f"piece {piece.strings}.{side}"
                found[name] = (*piece.at_strings[at], *piece.front[at], *piece.line[at], piece.pm95[at])
            found[f"slant {piece.strings}"] = (piece.slant,)
        found |= {f"step {step.strings}": (step.peak, step.width) for step in saddle.steps}
    if layout.bridge is not None:
        for side, corners in (("left", (0, 3)), ("right", (1, 2))):
            found[f"bridge.{side}"] = tuple(value for at in corners for value in layout.bridge.corners[at])
        for side, corners in (("left", (0, 3)), ("right", (1, 2))):
            found[f"bridge ±.{side}"] = tuple(pm for at in corners for pm in layout.bridge.corners_pm95[at])
        found |= {f"pin ± {i}": pm95 for i, pm95 in enumerate(layout.bridge.pins_pm95)}
        found["wood"] = tuple(layout.bridge.wood.values())
        if layout.bridge.tie is not None:
            tie = layout.bridge.tie
            found["tie"] = (*tie.wood.values(), *(one.degrees for one in tie.breaks.values()), *tie.pm95)
            for hole in tie.holes:
                found[f"tie hole {hole.string} {hole.leaves}"] = (*hole.front, *hole.back, hole.up)
                found[f"tie across {hole.string} {hole.leaves}"] = (0.0, hole.across)
    if layout.margins is not None:
        found |= {"margins.left": layout.margins.left, "margins.right": layout.margins.right}
        found |= {f"margin {m.place}.{m.side}": (m.mm, m.pm95) for m in layout.margins.at}
        found |= {f"ends {m.place}.{m.side}": (*m.string_xy, *m.edge_xy) for m in layout.margins.at}
    found |= {check.code: (check.distance, check.pm95) for check in layout.checks}
    return found | seen_solids(layout)


def seen_solids(layout: Layout) -> dict[str, Any]:
    """Saddle and nut as solids: what is told from the bass end is alike for both hands, and the profile runs back."""
    found: dict[str, Any] = {}
    if (saddle := layout.saddle_blank) is not None:
        found["blank"] = (saddle.length, *saddle.crown, *(saddle.radius or ()))
        for one in saddle.strings:
            known = [value for value in (one.over_top, one.over_bridge, one.whole, one.degrees) if value is not None]
            found[f"blank {one.string}"] = (one.along, *(number for value in known for number in value))
    if (nut := layout.nut_blank) is not None:
        found["nut"] = (*nut.length, abs(nut.turn))
        for slot in nut.slots:
            known = [value for value in (slot.over_board, slot.over_bed, slot.deep) if value is not None]
            found[f"nut {slot.string}"] = (*slot.along, slot.behind, *(number for value in known for number in value))
    return found


def flipped(value: tuple[float, ...], pairs: int) -> tuple[float, ...]:
    """Places (x, y, x, y, …) on the other side, and what follows them."""
    return tuple(-v if i % 2 and i < 2 * pairs else v for i, v in enumerate(value))


@st.composite
def asked(draw: Any) -> Job:
    blocks = drawn_blocks(draw)
    return Job(points={name: Point() for name in PLACES}, **blocks)


PAIRS = {
    "string": 3,
    "ends": 2,
    "piece": 3,
    "tie hole": 2,
    "tie across": 1,
    "saddle.left": 4,
    "saddle.right": 4,
    "bridge.left": 2,
    "bridge.right": 2,
} | dict.fromkeys(PLACES, 1)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(asked())
def test_the_mirror_image_for_the_other_hand(job: Job) -> None:
    here = seen(lay_out(job, surveyed(PLACES, EXTRAS)))
    points: dict[str, XY] = {swapped(name): (x, -y) for name, (x, y) in PLACES.items()}
    extras = {swapped(name): value for name, value in EXTRAS.items()}
    there = seen(lay_out(mirrored(job), surveyed(points, extras)))
    for name, value in here.items():
        other = there[swapped(name)]
        if isinstance(value, tuple):
            pairs = PAIRS.get(name, PAIRS.get(" ".join(name.split(" ")[:2]), PAIRS.get(name.split(" ")[0], 0)))
            assert other == pytest.approx(flipped(value, pairs), rel=1e-6, abs=1e-6), name
        else:
            assert other == value, name
