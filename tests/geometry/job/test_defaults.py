"""What a job takes where nothing is said: each number that a record begins with (common practice, no source; A4 is
440 Hz by ISO 16:1975). It shows a number that slipped, not that it is the best one.
"""

from collections.abc import Iterator
from typing import Any

import msgspec
from msgspec import inspect

from geometry.job import Job

DEFAULTS: dict[str, object] = {
    "Arch.within": 0.1,
    "Brace.width": 8.0,
    "Bridge.length": 152.0,
    "Bridge.width": 26.0,
    "Choosing.across": 2.0,
    "Choosing.along": 3.0,
    "Choosing.cents": 2.0,
    "Choosing.turn": 1.0,
    "Choosing.within": 1.0,
    "FaceMarkers.apart": 22.0,
    "FaceMarkers.deep": 1.5,
    "FaceMarkers.diameter": 6.0,
    "Floating.length": 120.0,
    "Floating.width": 12.0,
    "Frets.count": 20,
    "Heard.fret": 12,
    "Heights.nut": 1.0,
    "Heights.saddle": 4.0,
    "Job.offsquare": 1,
    "Moved.across": 0.0,
    "Moved.along": 0.0,
    "Moved.turn": 0.0,
    "Nut.back_angle": 8.0,
    "Nut.below_fret": 0.5,
    "Nut.clearance": 0.1,
    "Nut.thickness": 5.0,
    "OldMetal.keep_out": 6.0,
    "OldSlot.width": 3.0,
    "Pins.behind_slot": 5.5,
    "Pins.diameter": 5.0,
    "Pins.second_row": 8.0,
    "Reading.times": 1.0,
    "Saddle.least_piece": 6.0,
    "Saddle.least_step": 3.0,
    "Saddle.peak_at": 0.5,
    "Saddle.thickness": 3.0,
    "Saddle.wall": 2.0,
    "Separate.foremost": 8.0,
    "Separate.length": 44.0,
    "Separate.screw": 2.5,
    "Separate.travel": 12.0,
    "Separate.width": 80.0,
    "Sheets.edge": 8.0,
    "Sheets.kerf": 0.0,
    "Sheets.ledge": 0.8,
    "Sheets.margin": 8.0,
    "Sheets.pilot": 1.0,
    "SideMarkers.apart": 6.0,
    "SideMarkers.below": 3.0,
    "SideMarkers.deep": 3.0,
    "Strings.a4": 440,
    "Strings.nut_compensation": 0.0,
    "Strings.press_behind": 0.0,
    "Strings.relief": 0.0,
    "Strings.shift": 0.0,
    "Tail.pin_hole": 6.0,
    "Tail.screw": 2.5,
    "Through.behind": 28.0,
    "Through.diameter": 3.5,
    "Through.ferrule": 8.0,
    "Through.ferrule_deep": 12.0,
    "TieBlock.behind_slot": 8.0,
    "TieBlock.below": 0.0,
    "TieBlock.depth": 9.0,
    "TieBlock.diameter": 1.8,
    "TieBlock.height": 8.5,
    "TieBlock.hole": 4.5,
    "TieBlock.holes": 1,
    "TieBlock.spacing": 4.0,
    "TunerPlate.inner": 5.0,
    "TunerPlate.past": 9.0,
    "TunerPlate.screw_hole": 1.5,
    "TunerPlate.wide": 14.0,
    "Tuners.bushing_deep": 6.0,
    "Tuners.spacing": 35.0,
    "Weights.clearance": 2.0,
    "Weights.holes": 0.5,
    "Weights.looks": 0.5,
    "Weights.margins": 1.0,
    "Weights.scar": 1.0,
    "Weights.tune": 1.0,
}


def records(of: inspect.Type) -> Iterator[inspect.StructType]:
    """All records that a type holds, itself first."""
    if isinstance(of, inspect.StructType):
        yield of
        parts: list[inspect.Type] = [field.type for field in of.fields]
    else:
        kinds: Any = of
        parts = [*getattr(kinds, "types", ()), *getattr(kinds, "item_types", ())]
        parts += [getattr(kinds, name) for name in ("item_type", "value_type") if hasattr(kinds, name)]
    for part in parts:
        yield from records(part)


def defaults() -> dict[str, object]:
    found = dict[str, object]()
    for record in records(inspect.type_info(Job)):
        for field in record.fields:
            value = field.default
            if value is not msgspec.NODEFAULT and isinstance(value, int | float) and not isinstance(value, bool):
                found[f"{record.cls.__name__}.{field.name}"] = value
    return found


def test_what_a_job_takes_where_nothing_is_said() -> None:
    assert defaults() == DEFAULTS
