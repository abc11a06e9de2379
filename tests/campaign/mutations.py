"""**Mutations**: one slip of a person at one value of a right job, drawn at random.

A mutation takes a job and gives another; None where the job has nothing that it could change. What the job itself
refuses (`NotAJob`) is let through to the caller: a refusal is a word too.
"""

import random
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from msgspec.structs import replace

from geometry.job import Job, Reading
from geometry.job.instruments import INSTRUMENTS
from geometry.units import Length, show_number

from .mirroring import MIRROR

Chance = random.Random
Path = tuple[str | int, ...]


class Mutated(NamedTuple):
    """A job with one slip; `what` says where, `reading` is the reading's id, or empty."""

    job: Job
    what: str
    reading: str = ""


Mutation = Callable[[Job, Chance], Mutated | None]

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
    "saddle.straight": "a wish; what it costs each string is told (saddle.straight), and the strings' own places are "
    "filed within its thickness",
    "saddle.peak_at": "a wish; a string that the saddle's thickness then cannot follow is told (saddle.room)",
    "frets.scale": "typed where none stood: it counts only where no fret was read, and is compared where any was",
}
"""What a person may choose freely, so that no reading could tell a slip, and why it is not tried here."""


# what a hand does to a number


def digits_exchanged(text: str, chance: Chance) -> str:
    """Two neighbouring digits change places."""
    pairs = [i for i in range(len(text) - 1) if text[i : i + 2].isdigit() and text[i] != text[i + 1]]
    if not pairs:
        return text
    i = chance.choice(pairs)
    return text[:i] + text[i + 1] + text[i] + text[i + 2 :]


def digit_misread(text: str, chance: Chance) -> str:
    """One digit is another."""
    places = [i for i, letter in enumerate(text) if letter.isdigit()]
    i = chance.choice(places)
    return text[:i] + chance.choice([d for d in "0123456789" if d != text[i]]) + text[i + 1 :]


def point_slipped(text: str, chance: Chance) -> str:
    """Ten times as much, or a tenth."""
    number, unit = _parted(text)
    return show_number(number * chance.choice((10, 0.1))) + unit


def digit_too_many(text: str, chance: Chance) -> str:
    """A digit typed twice, or left out."""
    places = [i for i, letter in enumerate(text) if letter.isdigit()]
    i = chance.choice(places)
    return text[: i + 1] + text[i:] if chance.random() < 0.5 or len(places) < 2 else text[:i] + text[i + 1 :]


def unit_slipped(text: str, chance: Chance) -> str:
    """The same number in another unit."""
    number, unit = _parted(text)
    return (
        f"{show_number(number)} {chance.choice([one for one in ('mm', 'cm', 'in') if one != (unit.strip() or 'mm')])}"
    )


NUMBERS: dict[str, Callable[[str, Chance], str]] = {
    "digits exchanged": digits_exchanged,
    "digit misread": digit_misread,
    "point slipped": point_slipped,
    "digit too many": digit_too_many,
    "unit slipped": unit_slipped,
}


def _parted(text: str) -> tuple[float, str]:
    """A length's number, fractions reckoned, and its unit with the blank before it."""
    number, unit = re.fullmatch(r"([-\d. /]*\d)(\s*[a-z\"]*)", text).groups()  # type: ignore[union-attr]  # as we write
    total = 0.0
    for part in number.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1)
    return total, unit


def slip_of(value: Length, how: str, chance: Chance) -> Length | None:
    """A length with one slip; None where it stays the same or is no number any more."""
    text = value if isinstance(value, str) else show_number(value)
    typed = NUMBERS[how](text, chance)
    if typed == text or re.search(r"/0*(\D|$)", typed):
        return None
    try:
        return float(typed)
    except ValueError:
        return typed


# the readings


def _readings(job: Job, *kinds: str) -> list[int]:
    return [i for i, r in enumerate(job.readings) if r.taken and (r.kind in kinds if kinds else r.parts)]


def _with(job: Job, place: int, what: str, **changes: Any) -> Mutated:
    reading = job.readings[place]
    changed = replace(reading, **changes)
    readings = (*job.readings[:place], changed, *job.readings[place + 1 :])
    return Mutated(replace(job, readings=readings), f"{_called(reading)}: {what}", reading.id)


def _called(reading: Reading) -> str:
    on = f" {reading.fret or reading.at} {reading.on}" if reading.on else ""
    return f"{reading.id} {reading.kind} {' '.join((*reading.of, *reading.from_))}{on}".replace("  ", " ")


def value_slip(how: str) -> Mutation:
    """A reading's value with one slip in its number."""

    def slip(job: Job, chance: Chance) -> Mutated | None:
        place = chance.choice(_readings(job))
        parts = list(job.readings[place].parts)
        which = chance.randrange(len(parts))
        value = slip_of(parts[which], how, chance)
        if value is None:
            return None
        told = f"{parts[which]} → {value}"
        parts[which] = value
        return _with(job, place, told, value=tuple(parts) if len(parts) > 1 else value)

    return slip


def side_exchanged(job: Job, chance: Chance) -> Mutated | None:
    """The side of an offset, or of a fret or a height."""
    places = _readings(job, "off", "fret", "height")
    place = chance.choice(places)
    reading = job.readings[place]
    if reading.kind == "off":
        return _with(job, place, "other side", side=MIRROR[reading.side or "left"])
    on = chance.choice([one for one in ("left", "right", "centre") if one != reading.on])
    return _with(job, place, f"on {on}", on=on)


def height_elsewhere(job: Job, chance: Chance) -> Mutated | None:
    """A height that is said to be another's."""
    places = _readings(job, "height")
    if not places:
        return None
    place = chance.choice(places)
    others = ("fret 1", "fret 12", "board end", "bridge", "saddle")
    at = chance.choice([one for one in others if one != job.readings[place].at])
    return _with(job, place, f"at {at}", at=at)


def points_exchanged(job: Job, chance: Chance) -> Mutated | None:
    """A reading's two points the wrong way round, those it is of or those it is laid from."""
    places = [i for i in _readings(job, "rims", "distance", "along", "off", "across", "meets", "inline", "at")]
    place = chance.choice(places)
    reading = job.readings[place]
    lists = [name for name in ("of", "from_") if len(getattr(reading, name)) > 1]
    if not lists:
        return None
    name = chance.choice(lists)
    return _with(job, place, f"{name} turned round", **{name: getattr(reading, name)[::-1]})


def another_point(job: Job, chance: Chance) -> Mutated | None:
    """A reading that names a point like the right one, or any other."""
    places = [i for i, r in enumerate(job.readings) if r.taken and r.of]
    place = chance.choice(places)
    reading = job.readings[place]
    name = chance.choice([one for one in ("of", "from_") if getattr(reading, one)])
    points = list(getattr(reading, name))
    at = chance.randrange(len(points))
    alike = [one for one in job.points if one != points[at] and one.split(".")[0] == points[at].split(".")[0]]
    new = chance.choice(alike if alike and chance.random() < 0.7 else [one for one in job.points if one != points[at]])
    told = f"{points[at]} → {new}"
    points[at] = new
    return _with(job, place, told, **{name: tuple(points)})


def fret_by_one(job: Job, chance: Chance) -> Mutated | None:
    """A fret counted one too many or too few."""
    places = _readings(job, "fret")
    if not places:
        return None
    place = chance.choice(places)
    fret = (job.readings[place].fret or 0) + chance.choice((1, -1))
    return _with(job, place, f"fret {fret}", fret=fret)


def frets_by_one(job: Job, chance: Chance) -> Mutated | None:
    """All frets, of one side or of both, counted one too many or too few."""
    by, sides = chance.choice((1, -1)), chance.choice((("left",), ("right",), ("left", "right")))
    mine = [r for r in job.readings if r.kind == "fret" and r.taken and r.on in sides]
    if not mine or min(r.fret or 0 for r in mine) + by < 1:
        return None
    ids = {r.id for r in mine}
    readings = tuple(replace(r, fret=(r.fret or 0) + by) if r.id in ids else r for r in job.readings)
    return Mutated(replace(job, readings=readings), f"all frets {' '.join(sides)} by {by}")


def values_exchanged(job: Job, chance: Chance) -> Mutated | None:
    """Two values of a kind, each typed in the other's place."""
    place = chance.choice(_readings(job))
    one = job.readings[place]
    others = [i for i in _readings(job, one.kind) if job.readings[i].value != one.value]
    if not others:
        return None
    there = chance.choice(others)
    other = job.readings[there]
    readings = list(job.readings)
    readings[place], readings[there] = replace(one, value=other.value), replace(other, value=one.value)
    what = f"{_called(one)} {one.value} ↔ {_called(other)} {other.value}"
    return Mutated(replace(job, readings=tuple(readings)), what, one.id)


def reading_removed(job: Job, chance: Chance) -> Mutated | None:
    """A reading taken out."""
    place = chance.choice(_readings(job))
    readings = (*job.readings[:place], *job.readings[place + 1 :])
    return Mutated(replace(job, readings=readings), f"{_called(job.readings[place])}: removed")


def reading_doubled(job: Job, chance: Chance) -> Mutated | None:
    """A reading entered again, up to five times."""
    place = chance.choice(_readings(job))
    reading = job.readings[place]
    more = tuple(replace(reading, id=f"{reading.id}x{i}") for i in range(chance.randint(1, 5)))
    return Mutated(replace(job, readings=(*job.readings, *more)), f"{_called(reading)}: {len(more)} more")


def read_with_another(job: Job, chance: Chance) -> Mutated | None:
    """A reading that says another instrument."""
    place = chance.choice(_readings(job))
    reading = job.readings[place]
    with_ = chance.choice([name for name in INSTRUMENTS if name != reading.with_])
    return _with(job, place, f"with {with_}", with_=with_, within=None, sigma=None)


# what is typed beside the readings


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
    "string's make": make_changed,
    "string missing": string_missing,
    "reference pitch": reference_slipped,
    "old work": old_work_changed,
}
