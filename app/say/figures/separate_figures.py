"""The strip's figures of saddles that travel: an outer string's place in cents, and the least reach left."""

from typing import Literal

from geometry import units, words
from geometry.job import Job
from geometry.layout import SeparatePlan

MARKS: dict[str, Literal["good", "look", "stop"]] = {"reached": "good", "thin": "look", "unsure": "look", "out": "stop"}
"""What a saddle's reach is marked with."""


def least_reach(job: Job, plan: SeparatePlan) -> tuple[str, str, Literal["good", "look", "stop"]]:
    """What is left at the string that has the least beyond its ±: the number, the rest in words, and the mark."""
    one = plan.least
    end = "ahead" if one.ahead <= one.behind else "behind"
    rest = f"±{units.show_pm(one.pm95, job.unit)} {job.unit}, {words.string(one.string)} {end}"
    return units.show(one.least, job.unit), rest, MARKS[one.reached]
