"""Old pin holes that nobody read: how they are named between two that were."""

from geometry.job import Job


def assumed_name(first: str, step: int) -> str:
    """The hole so many steps after one that was read."""
    return f"{first}+{step}"


def after(job: Job, name: str) -> tuple[str, str]:
    """The point that a hole's name tells of, and how many steps after it the hole is assumed; "" for one that was
    read, whatever it is called.
    """
    first, _, step = ("", "", "") if name in job.points else name.rpartition("+")
    return (first, step) if first in job.points else (name, "")
