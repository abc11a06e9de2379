"""What of the old work could be placed: the footprint, holes, metal, and what lies inside under the top."""

from geometry.job import Job, Old, OldMetal, OldSlot
from geometry.layout import XY, BraceLine, Hole, Metal, OldArea, OldPlan, PlacedPoint
from geometry.old_work.holes.assumed_holes import assumed_name
from geometry.units import Unit, as_shown, mm

NOTHING, KEEP_OUT = Old(), OldMetal()
"""What is known of old work where nothing was said, and of metal that was only measured."""
OLD = ("pin.", "metal.")
"""What points of the old work are called that need no word in the old block."""


def find_old(job: Job, points: dict[str, PlacedPoint], measured: dict[str, float]) -> OldPlan:
    """What of the old work could be placed, without the scar.

    `points` are all that are placed; hole sizes come from `measured`, else from the job. Metal that was measured but
    has no keep-out of its own is kept clear of by the usual one. An outline is there when all its points are.
    """
    old = job.old or NOTHING
    named = set(old.points)
    at = {name: (point.x, point.y) for name, point in points.items() if name.startswith(OLD) or name in named}
    metal = dict.fromkeys((name for name in at if name.startswith("metal.")), KEEP_OUT) | old.metal
    sizes = {name: mm(pin.diameter) for name, pin in old.pins.items()}
    sizes |= {name: size for name, size in measured.items() if name not in old.holes}
    pins = tuple(Hole(name=name, at=at[name], diameter=size) for name, size in sizes.items() if name in at)
    others = {name: measured.get(name, mm(hole.diameter)) for name, hole in old.holes.items()}
    return OldPlan(
        outline=_all_of(old.outline, at),
        pins=in_row(pins, old.row, job.unit),
        metal=tuple(
            Metal(name=name, at=at[name], keep_out=mm(found.keep_out)) for name, found in metal.items() if name in at
        ),
        holes=tuple(Hole(name=name, at=at[name], diameter=size) for name, size in others.items() if name in at),
        slot=_slot(old.slot, at),
        bare=_all_of(old.bare, at),
        areas=tuple(
            OldArea(name=name, outline=outline, what=area.what)
            for name, area in old.areas.items()
            if (outline := _all_of(area.of, at))
        ),
        plate=_all_of(old.plate, at),
        braces=tuple(
            BraceLine(name=name, line=line, width=mm(brace.width))
            for name, brace in old.braces.items()
            if (line := _all_of(brace.of, at))
        ),
    )


def in_row(pins: tuple[Hole, ...], row: int | None, unit: Unit) -> tuple[Hole, ...]:
    """The holes, and between two that were read those of a row of `row` that were not, evenly spaced and `assumed`;
    these are as wide as it is told in the unit.
    """
    if row is None or len(pins) != 2 or row <= 2:
        return pins
    first, last = pins
    between = tuple(
        Hole(
            name=assumed_name(first.name, step),
            at=(_between(first.at[0], last.at[0], share), _between(first.at[1], last.at[1], share)),
            diameter=as_shown(_between(first.diameter, last.diameter, share), unit),
            assumed=True,
        )
        for step in range(1, row - 1)
        for share in (step / (row - 1),)
    )
    return first, *between, last


def _between(one: float, other: float, share: float) -> float:
    return one + (other - one) * share


def _all_of(names: tuple[str, ...], at: dict[str, XY]) -> tuple[XY, ...]:
    return tuple(at[name] for name in names) if all(name in at for name in names) else ()


def _slot(slot: OldSlot | None, at: dict[str, XY]) -> tuple[XY, ...]:
    """Its four corners in order round; none where an end is not placed or both lie in one place."""
    if slot is None or any(name not in at for name in slot.of):
        return ()
    one, other = (complex(*at[name]) for name in slot.of)
    if one == other:
        return ()
    half = 1j * (other - one) / abs(other - one) * mm(slot.width) / 2
    return tuple((z.real, z.imag) for z in (one + half, one - half, other - half, other + half))
