"""The **groups** that a job's readings fall into, in the order of the work: the board, the frets, the heights, the
seam, the old work, and what is none of these. The table shows them, and its keys walk through them, group by group.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, get_args

import msgspec

from geometry.job import Job, Reading

Group = Literal["Board", "Frets", "Heights", "Seam", "Old work", "Other"]
GROUPS: tuple[Group, ...] = get_args(Group)
_OF_BOARD = {"nut", "end", "fret12", "edge"}
OF_OLD = {"old", "pin", "metal", "hole", "bare", "area", "plate", "brace"}


def group_of(reading: Reading) -> Group:
    """The group a reading falls into: by its kind, else by the points that it places."""
    if reading.kind in ("fret", "height"):
        return "Frets" if reading.kind == "fret" else "Heights"
    families = {name.partition(".")[0] for name in reading.of}
    if families & OF_OLD:
        return "Old work"
    if "seam" in families:
        return "Seam"
    return "Board" if families <= _OF_BOARD else "Other"


def grouped(readings: Iterable[Reading]) -> dict[Group, list[Reading]]:
    """The readings by group; groups that have none are left out, and within one the order is the job's."""
    found: dict[Group, list[Reading]] = {name: [] for name in GROUPS}
    for reading in readings:
        found[group_of(reading)].append(reading)
    return {name: members for name, members in found.items() if members}


def in_groups(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """The readings one group after the other."""
    return tuple(reading for members in grouped(readings).values() for reading in members)


def list_in_groups(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """A measuring list put in the order in which the table walks through it, and numbered so. Where that parts what
    was to be read in one laying of the rule, each group is a laying of its own: nobody leaves the rule lying meanwhile.
    """
    first: dict[str, Group] = {}
    made = []
    for count, reading in enumerate(in_groups(readings), 1):
        laid, group = reading.laid, group_of(reading)
        if laid is not None and first.setdefault(laid, group) != group:
            laid = f"{laid}, {group.lower()}"
        made.append(msgspec.structs.replace(reading, id=f"r{count}", laid=laid))
    return tuple(made)


def counted(readings: Sequence[Reading]) -> tuple[int, int]:
    """How many are taken, of how many that are not struck out."""
    there = [reading for reading in readings if not reading.struck]
    return sum(reading.taken for reading in there), len(there)


def moved(job: Job, ids: Iterable[str], step: int) -> Job:
    """The job with some readings one place up (`step` -1) or down (1) within their groups; what stands at the end of
    its group stays there, and what is moved together stays together.
    """
    chosen = set(ids)
    after: dict[str, Reading] = {}
    for members in grouped(job.readings).values():
        order = members[::-step]
        for at in range(1, len(order)):
            if order[at].id in chosen and order[at - 1].id not in chosen:
                order[at - 1], order[at] = order[at], order[at - 1]
        after |= dict(zip((reading.id for reading in members), order[::-step], strict=True))
    return msgspec.structs.replace(job, readings=tuple(after[reading.id] for reading in job.readings))
