"""Where a change of the job can be seen: the reading, or the field of a card, as a finding's `where` names it."""

from geometry.job import Job

BLOCKS = ("strings", "saddle", "bridge", "proof", "sheets")


def where(before: Job, after: Job) -> str:
    """The first reading that is another or new in `after`, else the list where one is gone, else the first block that
    differs; empty where none of these does.
    """
    old = {reading.id: reading for reading in before.readings}
    for reading in after.readings:
        if old.get(reading.id) != reading:
            return f"reading:{reading.id}"
    if before.readings != after.readings:
        return "step:measure"
    return next((f"field:{name}." for name in BLOCKS if getattr(before, name) != getattr(after, name)), "")
