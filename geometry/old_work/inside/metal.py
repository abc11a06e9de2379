"""Metal in the wood against the slot and the pin holes."""

from collections.abc import Iterator

from geometry import words
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.job import Bridge, Job
from geometry.layout import Consequences, Gap, Metal, OldPlan
from geometry.units import mm, said, said_pm, said_under


def findings(
    job: Job, plan: OldPlan, bridge: Bridge, seated: SeatedBridge, found: Consequences | None
) -> Iterator[Finding]:
    """What of the metal is in the way of slot and holes."""
    for metal in plan.metal if found is not None else ():
        gaps = [gap for gap in found.gaps if gap.old == f"metal:{metal.name}"] if found is not None else []
        # what is in the way tells first, then what comes nearest within its ±
        yield _metal(
            job, metal, bridge, seated, min(gaps, key=lambda gap: (not _in_the_way(metal, gap), gap.mm - gap.pm95))
        )


def _in_the_way(metal: Metal, gap: Gap) -> bool:
    return gap.mm < metal.keep_out or gap.mm <= 0


def _metal(job: Job, metal: Metal, bridge: Bridge, seated: SeatedBridge, gap: Gap) -> Finding:
    least, middle = gap.mm, _called(job, metal)
    called = words.first_large(middle)
    what = "the slot" if gap.new == "slot" else "a pin hole"
    values = {"room": least, "keep_out": metal.keep_out, "pm95": gap.pm95}
    where = f"metal:{metal.name}"
    if _in_the_way(metal, gap):
        return Finding(
            grade="stop",
            code="metal.in_the_way",
            text=f"The middle of {middle} lies {said_under(max(least, 0), metal.keep_out, job.unit)} from {what}; "
            f"{said(metal.keep_out, job.unit)} is to be kept clear round it. A cutter that meets metal can break "
            f"and throw pieces: take the metal out, move the cut, or change what is kept clear.",
            values=values,
            where=where,
        )
    if least - gap.pm95 < metal.keep_out:
        return Finding(
            grade="look",
            code="metal.near",
            text=f"The middle of {middle} lies {said_pm(gap.pm95, job.unit, least)} from {what}; "
            f"{said(metal.keep_out, job.unit)} is to be kept clear round it, and that is "
            "too little to be sure. Find it again with a magnet before you cut.",
            values=values,
            where=where,
        )
    within = seated.own(complex(*metal.at))
    under = 0 <= within.real <= mm(bridge.width) and abs(within.imag) <= mm(bridge.length) / 2
    kept = f"; {said(metal.keep_out, job.unit)} round its middle is kept clear" if metal.keep_out else ""
    return Finding(
        grade="good",
        code="metal.clear",
        text=f"{called}{' lies under the bridge and' if under else ''} is clear of slot and pins by "
        f"{said_pm(gap.pm95, job.unit, least)}{kept}.",
        values=values,
        where=where,
    )


def _called(job: Job, metal: Metal) -> str:
    """Metal in a sentence: “metal 1”."""
    called = words.called(metal.name, job.hand)
    return f"the metal {called}" if words.is_own(metal.name) else called
