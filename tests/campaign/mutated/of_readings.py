"""Mutations of a reading: its value, its side, its points, its fret."""

from typing import Any

from msgspec.structs import replace

from geometry.job import Job, Reading
from geometry.job.measured.measuring_tools import INSTRUMENTS
from tests.campaign.invented.mirroring import MIRROR
from tests.campaign.mutated.of_numbers import Chance, Mutated, Mutation, slip_of


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
