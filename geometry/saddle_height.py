"""The saddle's height at both ends, from the string's height over the top and the bridge's thickness."""

from geometry.findings import Finding
from geometry.frame import Points
from geometry.job import Job
from geometry.neck import SIDES
from geometry.saddle import Strung
from geometry.sample import Sample
from geometry.strings.breakover import SaddleHeight, saddle_height_findings
from geometry.units import mm


def findings(job: Job, seen: Sample, strung: Strung, pins: Points | None) -> tuple[Finding, ...]:
    """A saddle too low or too high, strings that break too little or too much, wood under the slot; on both sides."""
    if job.bridge is None:
        return ()
    thickness = mm(job.bridge.thickness) if job.bridge.thickness is not None else None
    depth = mm(job.saddle.slot_depth) if job.saddle is not None and job.saddle.slot_depth is not None else None
    breaks = strung.break_point[0]
    ends = (int(breaks.imag.argmax()), int(breaks.imag.argmin()))
    found: dict[str, Finding] = {}
    for side, string in zip(SIDES, ends, strict=True):
        over_top = seen.unknown(f"height.bridge.{side}")
        height = SaddleHeight(
            string_over_top=float(over_top[0]) if over_top is not None else None,
            bridge=thickness,
            slot_depth=depth,
            behind=float(abs(pins[0, string] - breaks[string])) if pins is not None else None,
        )
        for finding in saddle_height_findings(height, job.bass_or_treble(side), job.unit):
            found.setdefault(finding.code, finding)
    return tuple(found.values())
