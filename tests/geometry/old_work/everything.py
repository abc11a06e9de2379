"""An invented top with all sorts of old work on it and under it, for tests of what a new bridge does to it."""

from typing import Any

from geometry.job import Area, Brace, Job, Old, OldHole, OldMetal, OldPin, OldSlot
from geometry.layout import Consequences, Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

PLACES: dict[str, XY] = BOARD | {
    "old.1": (626.0, 74.0),
    "old.2": (627.0, -75.0),
    "old.3": (652.0, -75.0),
    "old.4": (651.0, 74.0),
    "pin.1": (648.0, -27.0),
    "pin.6": (650.0, 26.0),
    "screw": (700.0, 12.0),
    "slot.1": (634.0, 36.0),
    "slot.2": (637.0, -36.0),
    "metal.1": (655.0, -60.0),
    "stain.1": (660.0, 40.0),
    "stain.2": (660.0, -40.0),
    "stain.3": (690.0, 0.0),
    "plate.1": (615.0, 70.0),
    "plate.2": (615.0, -70.0),
    "plate.3": (675.0, -70.0),
    "plate.4": (675.0, 70.0),
    "x.1": (560.0, 90.0),
    "x.2": (720.0, 60.0),
    "seam.1": (520.0, 2.0),
    "seam.2": (760.0, 5.0),
    "body.1": (470.0, 110.0),
    "body.2": (560.0, 135.0),
    "body.3": (660.0, 195.0),
    "body.4": (780.0, 120.0),
    "body.5": (780.0, -118.0),
    "body.6": (660.0, -196.0),
    "body.7": (560.0, -134.0),
    "body.8": (470.0, -112.0),
}
OLD = Old(
    outline=("old.1", "old.2", "old.3", "old.4"),
    pins={"pin.1": OldPin(diameter=5.2), "pin.6": OldPin(diameter=5.2)},
    row=6,
    metal={"metal.1": OldMetal()},
    holes={"screw": OldHole(diameter=4.0)},
    slot=OldSlot(of=("slot.1", "slot.2")),
    areas={"stain": Area(of=("stain.1", "stain.2", "stain.3"))},
    plate=("plate.1", "plate.2", "plate.3", "plate.4"),
    braces={"x": Brace(of=("x.1", "x.2"))},
)


def made(places: dict[str, XY] = PLACES, old: Old = OLD, hand: str = "right", **changes: Any) -> Job:
    """A job with this old work under a bridge with these changes."""
    return job(places, hand=hand, strings=six(bass=3.0, treble=3.0), bridge=bridge(**changes), old=old)


def laid(
    places: dict[str, XY] = PLACES, old: Old = OLD, hand: str = "right", sd: float = 0.1, **changes: Any
) -> Layout:
    """Its layout, with every point known independently to `sd`."""
    return lay_out(made(places, old, hand, **changes), surveyed(places, scales(640.0, 640.0), sd))


def told(layout: Layout) -> Consequences:
    """What follows for the old work, which must be there."""
    assert layout.consequences is not None
    return layout.consequences
