"""Mutations of what is typed beside the readings, and all mutations by name."""

from collections.abc import Iterator, Mapping
from typing import Any

from msgspec.structs import replace

from geometry.job import Job
from tests.campaign.mutated.of_numbers import NUMBERS, Chance, Mutated, Mutation, slip_of
from tests.campaign.mutated.of_readings import (
    another_point,
    fret_by_one,
    frets_by_one,
    height_elsewhere,
    points_exchanged,
    read_with_another,
    reading_doubled,
    reading_removed,
    side_exchanged,
    value_slip,
    values_exchanged,
)

Path = tuple[str | int, ...]
LENGTHS: tuple[Path, ...] = (
    ("frets", "scale"),
    ("strings", "nut", "spread"),
    ("strings", "saddle", "spread"),
    ("strings", "shift"),
    ("strings", "relief"),
    ("strings", "press_behind"),
    ("strings", "action", "fret1"),
    ("strings", "action", "fret12"),
    ("strings", "nut_compensation"),
    ("strings", "compensation"),
    ("saddle", "thickness"),
    ("saddle", "slot_length"),
    ("saddle", "slot_depth"),
    ("bridge", "length"),
    ("bridge", "width"),
    ("bridge", "thickness"),
    ("bridge", "belly_depth"),
    ("bridge", "slot_front", "left"),
    ("bridge", "slot_front", "right"),
    ("bridge", "pins", "behind_slot"),
    ("bridge", "pins", "diameter"),
    ("bridge", "pins", "second_row"),
)
"""Where a length is typed outside the readings and the strings' own make."""
CHOICES: dict[Path, tuple[Any, ...]] = {
    ("frets", "spacing"): ("equal", "eighteen", "measured"),
    ("frets", "slanted"): (True, False),
    ("board", "centre"): ("bisector", "nut to fret 12", "midpoints"),
    ("board", "zero_fret"): (True, False),
    ("strings", "nut", "spacing"): ("gaps", "centres"),
    ("strings", "saddle", "spacing"): ("gaps", "centres"),
    ("bridge", "outline"): ("straight", "belly"),
    ("bridge", "pins", "row"): ("slot", "bridge"),
}
"""What is chosen from a few."""
LEFT_OUT: Mapping[str, str] = {
    "hand": "says which way the strings will lie; the readings and the old work only tell which way they lay. Which "
    "side stands farther, and that it is left or right, is told each time (saddle.slant)",
    "frets.nominal": "a rule chosen, both of whose places are told",
    "bridge.seat": "a wish; what it leaves over is told",
    "saddle.straight": "a wish; what it costs each string is told (saddle.straight), and the strings’ own places are "
    "filed within its thickness",
    "saddle.peak_at": "a wish; a string that the saddle’s thickness then cannot follow is told (saddle.room)",
    "frets.scale": "typed where none stood: it counts only where no fret was read, and is compared where any was",
}
"""What a person may choose freely, so that no reading could tell a slip, and why it is not tried here."""


def _at(record: Any, path: Path) -> Any:
    for step in path:
        if record is None:
            return None
        record = record[step] if isinstance(step, int) else getattr(record, step)
    return record


def _put(record: Any, path: Path, value: Any) -> Any:
    step, *rest = path
    inner = _put(_at(record, (step,)), tuple(rest), value) if rest else value
    if isinstance(step, int):
        return (*record[:step], inner, *record[step + 1 :])
    return replace(record, **{step: inner})


def _typed(job: Job) -> Iterator[Path]:
    """The way to every length that is typed beside the readings."""
    for path in LENGTHS:
        value = _at(job, path)
        if isinstance(value, tuple):
            yield from ((*path, i) for i, one in enumerate(value) if one is not None)
        elif isinstance(value, int | float) or (isinstance(value, str) and value != "worked out"):
            yield path


def length_slip(how: str) -> Mutation:
    """A length that is typed beside the readings, with one slip in its number."""

    def slip(job: Job, chance: Chance) -> Mutated | None:
        path = chance.choice(list(_typed(job)))
        was = _at(job, path)
        value = slip_of(was, how, chance) if was != 0 else chance.choice((1.0, 2.0, 5.0, 10.0, 20.0, 25.0, -15.0))
        if value is None:
            return None
        return Mutated(_put(job, path, value), f"{'.'.join(map(str, path))}: {was} → {value}")

    return slip


def choice_changed(job: Job, chance: Chance) -> Mutated | None:
    """Another choice of a few."""
    path, able = chance.choice(list(CHOICES.items()))
    was = _at(job, path)
    if was is None:
        return None
    value = chance.choice([one for one in able if one != was])
    return Mutated(_put(job, path, value), f"{'.'.join(map(str, path))}: {was} → {value}")


def count_changed(job: Job, chance: Chance) -> Mutated | None:
    """Another number of frets."""
    count = chance.choice([n for n in range(1, 37) if n != job.frets.count])
    return Mutated(replace(job, frets=replace(job.frets, count=count)), f"frets {job.frets.count} → {count}")


def _strings(job: Job, what: str, **changes: Any) -> Mutated:
    strings = job.strings
    assert strings is not None
    return Mutated(replace(job, strings=replace(strings, **changes)), what)


def order_reversed(job: Job, _chance: Chance) -> Mutated | None:
    """The list of strings, or of what is typed for each, the other way round."""
    strings = job.strings
    if strings is None:
        return None
    if isinstance(strings.compensation, tuple):
        return _strings(job, "compensation turned round", compensation=strings.compensation[::-1])
    return _strings(job, "strings turned round", list=strings.list[::-1])


def make_changed(job: Job, chance: Chance) -> Mutated | None:
    """A string's pitch, gauge or make."""
    if job.strings is None or job.strings.list[0].pitch is None:
        return None
    at = chance.randrange(len(job.strings.list))
    string = job.strings.list[at]
    made = chance.choice((_pitch, _gauge, _make))(string, chance)
    if not made:
        return None
    path: Path = ("strings", "list", at)
    return Mutated(_put(job, path, replace(string, **made)), f"string {string.name}: {made} (was {string})")


def _pitch(string: Any, chance: Chance) -> dict[str, Any]:
    note, octave = string.pitch[:-1], int(string.pitch[-1])
    if chance.random() < 0.5:
        return {"pitch": f"{note}{octave + chance.choice((1, -1))}"}
    return {"pitch": f"{chance.choice([n for n in 'CDEFGAB' if n != note])}{octave}"}


def _gauge(string: Any, chance: Chance) -> dict[str, Any]:
    value = slip_of(string.diameter, chance.choice(list(NUMBERS)), chance)
    return {} if value is None else {"diameter": value}


def _make(string: Any, chance: Chance) -> dict[str, Any]:
    if chance.random() < 0.4:
        return {"build": "wound" if string.build == "plain" else "plain"}
    if chance.random() < 0.4:
        return {"stretch_ratio": chance.choice((1.0, 2.0, 10.0, 100.0, 1000.0))}
    return {"material": chance.choice([m for m in ("steel", "nylon", "gut", "fluorocarbon") if m != string.material])}


def string_missing(job: Job, chance: Chance) -> Mutated | None:
    """A string taken out of the list, or put in twice."""
    if job.strings is None:
        return None
    at = chance.randrange(len(job.strings.list))
    listed, typed = list(job.strings.list), job.strings.compensation
    if chance.random() < 0.5:
        del listed[at]
        what, kept = "removed", [i for i in range(len(job.strings.list)) if i != at]
    else:
        listed.insert(at, replace(listed[at], name=f"{listed[at].name}x"))
        what, kept = "doubled", sorted([*range(len(job.strings.list)), at])
    more = {"compensation": tuple(typed[i] for i in kept)} if isinstance(typed, tuple) else {}
    return _strings(job, f"string {at + 1} {what}", list=tuple(listed), **more)


def reference_slipped(job: Job, chance: Chance) -> Mutated | None:
    """Another reference pitch."""
    if job.strings is None:
        return None
    a4 = chance.choice((404, 404.0, 410, 430, 450, 494, 340, 540))
    return _strings(job, f"a4 {a4}", a4=float(a4))


def old_work_changed(job: Job, chance: Chance) -> Mutated | None:
    """The old footprint's corners in another order, one left out, or a hole's size."""
    if job.old is None or not job.old.outline:
        return None
    names = list(job.old.outline)
    if chance.random() < 0.5:
        chance.shuffle(names)
    else:
        names.pop(chance.randrange(len(names)))
    return Mutated(replace(job, old=replace(job.old, outline=tuple(names))), f"old outline {' '.join(names)}")


MUTATIONS: Mapping[str, Mutation] = {
    **{f"value: {how}": value_slip(how) for how in NUMBERS},
    "side exchanged": side_exchanged,
    "height elsewhere": height_elsewhere,
    "points exchanged": points_exchanged,
    "another point": another_point,
    "fret by one": fret_by_one,
    "all frets by one": frets_by_one,
    "values exchanged": values_exchanged,
    "reading removed": reading_removed,
    "reading doubled": reading_doubled,
    "read with another": read_with_another,
    **{f"length: {how}": length_slip(how) for how in NUMBERS},
    "choice changed": choice_changed,
    "fret count": count_changed,
    "order reversed": order_reversed,
    "string’s make": make_changed,
    "string missing": string_missing,
    "reference pitch": reference_slipped,
    "old work": old_work_changed,
}
