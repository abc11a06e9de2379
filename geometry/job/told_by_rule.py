"""How fine a job in inches is told: in 64ths where a rule is all there is to lay it off with.

Files and calipers are in thousandths; a rule alone shows 64ths. In millimetres a rule shows what the decimals say, near
enough.
"""

from collections.abc import Iterable

from geometry.job.job import Job
from geometry.units import MM_PER


def by_rule_alone(job: Job) -> bool:
    """Whether a job in inches has readings, and none that was taken with a caliper."""
    calipers = any((reading.with_ or "").startswith("caliper") for reading in job.readings)
    return job.unit == "in" and bool(job.readings) and not calipers


def in_64ths(job: Job, pm95s: Iterable[float]) -> bool:
    """Whether lengths with these ± (mm) are told in 64ths of an inch: where a rule is all there is, or where one of
    them is known no better than to 1/64 in.
    """
    return by_rule_alone(job) or (job.unit == "in" and max(pm95s, default=0.0) >= MM_PER["in"] / 64)


def places_of(job: Job) -> int:
    """The decimals of a mm (as `units.show` counts them) to which the places of holes are told: hundredths of a mm and
    thousandths of an inch, or 64ths where a rule is all there is.
    """
    return 1 if by_rule_alone(job) else 2
