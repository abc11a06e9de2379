"""Where a change of the job can be seen: the reading, the string, the point, or a field of a card or of what is said
of the job, as a finding's `where` names it.
"""

import msgspec

from geometry.job import Job

BLOCKS = (
    *("strings", "frets", "nut", "saddle", "bridge", "floating", "separate", "tail", "choice"),
    *("old", "hardware", "sheets", "board"),
)
SEVERAL = ("kept", "proof")
"""Of these the card shows all of them in one part."""
OF_THE_JOB = ("hand", "title", "note")
"""What is said of the job as a whole, beside its board."""


def where(before: Job, after: Job, made_on: str = "") -> str:
    """The first reading that is another or new in `after`, else the card on which one that is gone was asked for (or
    the list), else the first string or field that differs, else the point whose rough place does; empty where none of
    these does. `made_on`: the card on which the change was made, where that is known.
    """
    old = {reading.id: reading for reading in before.readings}
    for reading in after.readings:
        if old.get(reading.id) != reading:
            return f"reading:{reading.id}"
    if before.readings != after.readings:
        return f"step:{made_on}" if made_on else "step:measure"
    for name in SEVERAL:
        if getattr(before, name) != getattr(after, name):
            return f"field:{name}"
    for name in BLOCKS:
        was, now = getattr(before, name), getattr(after, name)
        if was != now:
            return _string(before, after) if name == "strings" else f"field:{name}.{_field(was, now)}"
    for name in (*OF_THE_JOB, "bridge_off"):
        if getattr(before, name) != getattr(after, name):
            return f"field:{name}"
    return next((f"point:{name}" for name, point in after.points.items() if before.points.get(name) != point), "")


def in_dialog(place: str) -> bool:
    """Whether a place is a field of what is said of the job as a whole, which stands in a dialog of its own."""
    return place.startswith("field:board.") or place in {f"field:{name}" for name in OF_THE_JOB}


def _string(before: Job, after: Job) -> str:
    """The first string that is another, else the field of their block."""
    was, now = before.strings, after.strings
    old = was.list if was is not None else ()
    for at, string in enumerate(now.list if now is not None else ()):
        if at >= len(old) or old[at] != string:
            return f"string:{string.name}"
    return f"field:strings.{_field(was, now)}"


def _field(was: msgspec.Struct | None, now: msgspec.Struct | None) -> str:
    """The first field of a block that differs; nothing where the block is begun or gone."""
    if was is None or now is None:
        return ""
    name = next((name for name in now.__struct_fields__ if getattr(was, name) != getattr(now, name)), "")
    before, after = getattr(was, name), getattr(now, name)
    if isinstance(after, dict):  # of the old work's holes and metal, the point
        return next((key for key in {**after, **before} if after.get(key) != before.get(key)), name)
    return name
