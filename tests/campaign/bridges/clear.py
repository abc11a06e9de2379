"""Whether what is said to be clear is clear: gaps between the new bridge and the old work of invented instruments.

The bridge and its pin holes truly lie where a sheet laid to the true board puts them, the slot where it belongs; the
gaps are a general library's. A gap counts as said **clear and not** where it is said so much too wide that, had the
truth been no gap at all, it would have been said clear beyond its ±.
"""

from collections.abc import Iterator
from functools import partial

import msgspec
from msgspec.structs import replace
from shapely import Point, Polygon

from geometry.job import Old, Pins
from geometry.layout import Amount, Layout
from geometry.units import mm
from geometry.work_out import work_out
from tests.campaign.bridges.glued import placed
from tests.campaign.counting import Found, by_name, share
from tests.campaign.invented.cases import CASES, Case
from tests.campaign.invented.hands import AS_STATED, Manner
from tests.campaign.invented.instruments import best_line, dot, neck_of
from tests.campaign.invented.laying import lies
from tests.campaign.invented.trials import Trial, trial_of
from tests.campaign.judging import Figure

Gaps = dict[str, Figure]
AIM = 0.05
"""Said clear and not: at most this share (our own aim, no source)."""
SORTS = {
    "cover": "how far the bridge covers the scar",
    "inside": "how far an old hole lies inside the bridge",
    "to a pin hole": "an old hole to a new pin hole",
    "to the slot": "an old hole to the slot",
    "offset": "how far the bridge’s middle stands beside the seam",
}
"""What each sort of gap is."""


def with_old_work(manner: Manner = AS_STATED) -> Case:
    """The campaign's first case, measured by the list that reads the old work."""
    return replace(CASES[0], manner=manner, lists=("whole top with old work",))


def said_of(layout: Layout) -> Iterator[tuple[str, Amount]]:
    """The gaps of a layout by name: less is nearer, or shows more."""
    found = layout.consequences
    if found is None:
        return
    if found.cover is not None:
        yield "cover", found.cover
    for hole in found.holes:
        yield f"inside {hole.hole}", hole.inside
        for gap in hole.walls:
            yield f"{hole.hole} to {gap.new}", Amount(value=gap.mm, pm95=gap.pm95)
    for seen in found.seen:
        if seen.against == "seam":
            yield "offset", seen.offset


class OnWood(msgspec.Struct, frozen=True, kw_only=True):
    """The new work on the true instrument, and the old, in the neck's frame: the bridge and its pin holes where the
    sheet puts them, the slot where it belongs, the old footprint's corners, the old holes with their radii.
    """

    bridge: Polygon
    middle: complex
    pins: dict[str, complex]
    slot: Polygon
    corners: list[complex]
    holes: dict[str, tuple[complex, float]]
    seam: list[complex]


def on_wood(trial: Trial, layout: Layout) -> OnWood:
    """The layout's sheet laid on the trial's instrument."""
    instrument, neck = trial.instrument, neck_of(trial.instrument.points, trial.stations)
    assert layout.bridge is not None
    assert layout.saddle is not None
    put = partial(lies, layout, instrument, trial.stations)
    ring = put(*((x, y) for x, y, _ in layout.bridge.outline))
    corners = put(*layout.bridge.corners)
    middle, square = placed(instrument, neck).slot
    half = 1j * square * abs(complex(*layout.saddle.front[0]) - complex(*layout.saddle.front[1])) / 2
    back = square * instrument.seat.thickness
    names = [hole.name for hole in layout.bridge.pins]
    holes = {hole.name: hole.diameter / 2 for hole in layout.old.pins}
    points = {name: neck.see(at) for name, at in instrument.points.items()}
    return OnWood(
        bridge=polygon(ring),
        middle=sum(corners) / 4,
        pins=dict(zip(names, put(*(hole.at for hole in layout.bridge.pins)), strict=True)),
        slot=polygon([middle + half, middle - half, middle - half + back, middle + half + back]),
        corners=[points[name] for name in (trial.job.old or Old()).outline],
        holes={name: (points[name], radius) for name, radius in holes.items()},
        seam=[at for name, at in points.items() if name.startswith("seam.")],
    )


def polygon(ring: list[complex]) -> Polygon:
    """A closed outline as a shape of a general library."""
    return Polygon([(at.real, at.imag) for at in ring])


def depth(at: complex, ring: Polygon) -> float:
    """How far a place lies inside an outline; less than nothing outside."""
    point = Point(at.real, at.imag)
    far = float(ring.exterior.distance(point))
    return far if ring.contains(point) else -far


def true_gaps(wood: OnWood) -> Iterator[tuple[str, float]]:
    """The same gaps on the wood."""
    if wood.corners:
        yield "cover", min(depth(corner, wood.bridge) for corner in wood.corners)
    for name, (at, radius) in wood.holes.items():
        yield f"inside {name}", depth(at, wood.bridge) - radius
        for new, middle in wood.pins.items():
            yield f"{name} to pin:{new}", abs(middle - at) - radius - mm(Pins().diameter) / 2
        yield f"{name} to slot", -depth(at, wood.slot) - radius
    if len(wood.seam) > 1:
        normal, reach = best_line(wood.seam)
        yield "offset", dot(normal, wood.middle) - reach


def gaps_of(case: Case, seed: int, index: int) -> Gaps:
    """How far each gap is said too wide, and its ±. The corner that is least sure to be covered may be another."""
    trial = trial_of(case, seed, index)
    layout = work_out(trial.job)
    said, true = dict(said_of(layout)), dict(true_gaps(on_wood(trial, layout)))
    return {name: Figure(said[name].value - true[name], said[name].pm95) for name in said if name in true}


def kind_of(name: str) -> str:
    """What sort of gap it is."""
    return "to a pin hole" if " to pin:" in name else "to the slot" if name.endswith("to slot") else name.split(" ")[0]


def gaps_by_sort(found: list[Gaps]) -> dict[str, list[Figure]]:
    """One gap of each sort a job: those of one job hang together."""
    firsts = []
    for gaps in found:
        first: Gaps = {}
        for name, gap in gaps.items():
            first.setdefault(kind_of(name), gap)
        firsts.append(first)
    return by_name(firsts)


def said_clear(gap: Figure) -> bool:
    """Whether a gap is said so much too wide that, were there none, it would be said clear beyond its ±."""
    return gap.off > gap.pm


def found(count: int, seed: int, manner: Manner = AS_STATED) -> Found:
    """The gaps of so many instruments, and that none is said to be clear that is not."""
    every = gaps_by_sort([gaps_of(with_old_work(manner), seed, index) for index in range(count)])
    return Found(
        figures={SORTS[sort]: gaps for sort, gaps in every.items()},
        said={
            f"not called clear where it is not: {SORTS[sort]}": share(not said_clear(gap) for gap in gaps)
            for sort, gaps in every.items()
        },
    )
