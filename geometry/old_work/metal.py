"""Metal in the wood against the slot and the pin holes."""

import math

from geometry import words
from geometry.bridge.seat_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.frame import Points
from geometry.job import Bridge, Job
from geometry.layout import Metal, OldPlan
from geometry.units import mm, said


def findings(job: Job, plan: OldPlan, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> tuple[Finding, ...]:
    """What of the metal is in the way of slot and holes."""
    return tuple(_metal(job, metal, bridge, seated, pins) for metal in plan.metal)


def _metal(job: Job, metal: Metal, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> Finding:
    spot = complex(*metal.at)
    room = {"the slot": _from_slot(spot, seated)}
    if pins is not None and bridge.pins is not None:
        room["a pin hole"] = min(abs(pin - spot) for pin in pins[0].tolist()) - mm(bridge.pins.diameter) / 2
    what, least = min(room.items(), key=lambda item: item[1])
    where = f"metal:{metal.name}"
    if least < metal.keep_out or least <= 0:
        return Finding(
            grade="stop",
            code="metal.in_the_way",
            text=f"{_called(job, metal)} lies {said(max(least, 0), job.unit)} from {what}; "
            f"{said(metal.keep_out, job.unit)} is to be kept clear. A cutter that meets metal can break and "
            f"throw pieces: take the metal out, or move the cut.",
            values={"room": least, "keep_out": metal.keep_out},
            where=where,
        )
    within = seated.own(spot)
    under = 0 <= within.real <= mm(bridge.width) and abs(within.imag) <= mm(bridge.length) / 2
    return Finding(
        grade="good",
        code="metal.clear",
        text=f"{_called(job, metal)}{' lies under the bridge and' if under else ''} is clear of slot and pins by "
        f"{said(least, job.unit)}.",
        values={"room": least, "keep_out": metal.keep_out},
        where=where,
    )


def _called(job: Job, metal: Metal) -> str:
    """Metal at the beginning of a sentence: “Metal 1”."""
    called = words.called(metal.name, job.hand)
    return f"The metal {called}" if words.is_own(metal.name) else words.first_large(called)


def _from_slot(spot: complex, seated: SeatedBridge) -> float:
    """How far a spot lies from the slot's edge; 0 inside it."""
    slot = seated.slot
    off = (spot - complex(slot.middle[0])) * complex(slot.tailward[0]).conjugate()
    past, along = off.real, abs(off.imag)
    return math.hypot(max(-past, past - slot.thickness, 0.0), max(along - slot.length / 2, 0.0))
