"""Old pin holes that nobody read: how they are named between two that were."""

import re

from geometry.job import Job

PIN = re.compile(r"pin\.([0-9]+)")
"""A numbered pin hole."""


def assumed_name(first: str, step: int) -> str:
    """The hole so many steps after one that was read."""
    return f"{first}+{step}"


def after(job: Job, name: str) -> tuple[str, str]:
    """The point that a hole's name tells of, and how many steps after it the hole is assumed; "" for one that was
    read, whatever it is called.
    """
    first, _, step = ("", "", "") if name in job.points else name.rpartition("+")
    return (first, step) if first in job.points else (name, "")


def number_in_row(job: Job, first: str, step: str) -> str:
    """The number of a hole that is assumed so many steps after `first`, where the numbers of the row's two ends leave
    room for just those between: 4 for the third after pin hole 1, in a row of six that ends with pin hole 6; else "".
    """
    numbered, row = PIN.fullmatch(first), job.old.row if job.old is not None else None
    if numbered is None or row is None:
        return ""
    begins = int(numbered[1])
    for way in (1, -1):
        *between, end = (f"pin.{begins + way * at}" for at in range(1, row))
        if end in job.points and not any(name in job.points for name in between):
            return str(begins + way * int(step))
    return ""
