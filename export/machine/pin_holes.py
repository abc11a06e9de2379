"""Pin holes in files for machines: drilled **undersize**, for they are reamed to the pins' taper by hand.

A shop drills what lies on the layer to drill and reads no table: a circle of the finished size there would spoil the
bridge. The finished size stays as a circle among the sizes, which nobody cuts, and a note names both.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, Protocol

import msgspec

from export.drawing.marks import Circle, Mark
from export.drills import for_pin

PinHoles = Literal["to ream", "finished"]
"""How pin holes are drilled: undersize, to be reamed, or at their finished size."""
LEAST = 0.05
"""What the drill is smaller by at least, mm, for both sizes to be drawn."""


class PinDrills(Protocol):
    """What is known of them: see `MachineSettings`."""

    @property
    def pin_holes(self) -> PinHoles: ...
    @property
    def small_end(self) -> float | None: ...
    @property
    def inch_drills(self) -> bool: ...


def drilled(marks: Sequence[Mark], asked: PinDrills) -> Iterator[Mark]:
    """The marks with each pin hole as wide as its drill, and its finished size as a circle among the sizes."""
    for mark in marks:
        hole = _pin_hole(mark)
        size = drill_size(2 * hole.radius, asked) if hole is not None else 0.0
        if hole is None or 2 * hole.radius - size < LEAST:
            yield mark
            continue
        yield msgspec.structs.replace(mark, shape=Circle(hole.centre, size / 2))
        yield msgspec.structs.replace(mark, purpose="dimension")


def drill_size(finished: float, asked: PinDrills) -> float:
    """What a pin hole of that finished size is drilled with, mm."""
    if asked.pin_holes == "finished":
        return finished
    metric, inch = for_pin(finished, asked.small_end)
    return (inch if asked.inch_drills else metric).diameter


def pin_hole_words(marks: Sequence[Mark], asked: PinDrills) -> tuple[str, ...]:
    """What the file says of its pin holes; `marks` before they are made as drilled."""
    holes = [hole for mark in marks if (hole := _pin_hole(mark)) is not None]
    sizes = sorted({round(2 * hole.radius, 4) for hole in holes})
    if not sizes:
        return ()
    if asked.pin_holes == "finished":
        return ("Pin holes are drawn at their finished size, not to be reamed.",)
    pairs = " and ".join(f"{drill_size(size, asked):.2f} mm for {size:.2f}" for size in sizes)
    return (f"Pin holes are drawn undersize, {pairs}: they are reamed by hand, drill them no larger.",)


def _pin_hole(mark: Mark) -> Circle | None:
    shape = mark.shape
    is_hole = mark.purpose == "drill" and mark.of.startswith("pin:")
    return shape if is_hole and isinstance(shape, Circle) else None
