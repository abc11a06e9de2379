"""What the Strings card says and puts back: a string's make, sets to begin with, edits of strings."""

import re
from collections.abc import Callable
from typing import Any, Literal

from app.edit import edits, saddle_that_goes
from app.edit.edits import replace
from geometry import units, words
from geometry.job import Frets, Heard, Job, NotAJob, String, Strings
from geometry.job.bridges.floating import STANDS, TODAY
from geometry.job.stringing import WORKED_OUT, Material
from geometry.strings.usual_sets import SETS
from geometry.units import Length, Unit

MAKES: tuple[tuple[tuple[Material, str], str], ...] = (
    (("steel", "plain"), "plain steel"),
    (("steel", "wound"), "wound steel"),
    (("silk and steel", "plain"), "silk and steel, plain"),
    (("silk and steel", "wound"), "silk and steel"),
    (("nylon", "plain"), "nylon"),
    (("nylon", "wound"), "wound nylon"),
    (("gut", "plain"), "gut"),
    (("gut", "wound"), "wound gut"),
    (("fluorocarbon", "plain"), "fluorocarbon"),
    (("fluorocarbon", "wound"), "wound fluorocarbon"),
)


def make(string: String) -> str:
    """What a string is made of, in words."""
    return dict(MAKES)[(string.material, string.build)]


def block(job: Job) -> Strings:
    """The strings block, or an empty one."""
    return job.strings or Strings()


def put(job: Job, **fields: Any) -> Job:
    """Some fields of the strings block changed; what stays as it was typed keeps the string that it was typed for."""
    before = block(job)
    strings = replace(before, **{**fields, "typed_for": None})
    strings = replace(strings, typed_for=_typed_for(before, strings))
    return replace(job, strings=strings, saddle=saddle_that_goes.with_strings(job.saddle, job.strings, strings))


def _typed_for(before: Strings, now: Strings) -> tuple[String, ...] | None:
    """Which string each compensation was typed for; None where it was typed for the one that is on."""
    given, typed = before.compensation, now.compensation
    if not isinstance(given, tuple) or not isinstance(typed, tuple) or len(given) != len(typed):
        return None
    then = before.typed_for or before.list
    known = [(value, bare(string)) for value, string in zip(given, then, strict=True)]
    found = tuple(
        then[at] if value is not None and value == given[at] and (value, bare(string)) not in known else string
        for at, (value, string) in enumerate(zip(typed, now.list, strict=True))
    )
    return None if [*map(bare, found)] == [*map(bare, now.list)] else found


def bare(string: String) -> String:
    """The string as it is bought: without its name, its pair and where it begins."""
    return replace(string, name="", course=None, starts_at=None, from_neighbour=None, from_edge=None, fretted=True)


def put_string(job: Job, at: int, **fields: Any) -> Job:
    """Some fields of one string changed."""
    strings = block(job).list
    return put(job, list=tuple(replace(s, **fields) if i == at else s for i, s in enumerate(strings)))


def take_set(job: Job, key: str) -> Job:
    """The job with a usual set instead of its strings; what was typed or heard for each string goes with them. It has
    the frets that strings of the set begin at, slanted where the set is for such a board.
    """
    usual = SETS[key].strings
    old = block(job)
    compensation = old.compensation if len(old.list) == len(usual) else WORKED_OUT
    nut = old.nut_compensation if len(old.list) == len(usual) else 0.0
    last = max(string.first for string in usual)
    frets = {"count": max(job.frets.count, last + 1), "slanted": job.frets.slanted or SETS[key].slanted}
    with_frets = put_frets(job, **frets)
    return put(with_frets, list=usual, compensation=compensation, nut_compensation=nut, heard=())


def sets_for(count: int) -> list[tuple[str, str]]:
    """The usual sets in words, those with so many strings first."""
    ordered = sorted(SETS, key=lambda key: SETS[key].count != count)
    return [(key, words.first_large(SETS[key].says)) for key in ordered]


def diameter(text: str, unit: Unit) -> Length | None:
    """A typed diameter; a bare whole number of two figures or more is thousandths of an inch, as gauges are called."""
    plain = text.strip()
    if not plain:
        return None
    if plain.isdecimal() and 7 <= int(plain) <= 90:
        return f"{int(plain) / 1000:.3f} in"
    return units.keep(plain, unit)


def typed_compensation(job: Job) -> Job:
    """Compensation that may be typed for each string; until it is, that string's stays worked out, with its ±."""
    return put(job, compensation=(None,) * len(block(job).list))


def own_compensation(job: Job, at: int) -> Length | None:
    """What is typed of one string's compensation; None: it is worked out."""
    given = block(job).compensation
    return given[at] if isinstance(given, tuple) else None


def put_compensation(job: Job, at: int, text: str) -> Job:
    """One string's typed compensation; nothing typed: it is worked out."""
    given = block(job).compensation
    if not isinstance(given, tuple):
        raise NotAJob("The compensation is worked out; choose “typed for each string” to type it")
    kept = units.keep(text, job.unit) if text.strip() else None
    return put(job, compensation=tuple(kept if i == at else c for i, c in enumerate(given)))


def replaced(job: Job) -> str:
    """Which usual set is replaced: its key, "now" for the strings of the job, "own" for others, "" where not told."""
    strings = block(job)
    if not strings.replaces:
        return ""
    if strings.replaces == strings.list:
        return "now"
    return next((key for key in SETS if SETS[key].strings == strings.replaces), "own")


def put_replaced(job: Job, key: str) -> Job:
    """The job with another set that is replaced; one of its own is written in the job file only."""
    if key == "own":
        return job
    old = {"": None, "now": block(job).list or None}
    return put(job, replaces=old[key] if key in old else SETS[key].strings)


def nut_moves(job: Job) -> str:
    """Whether the nut is `typed` or worked out like the saddle."""
    return WORKED_OUT if block(job).nut_compensation == WORKED_OUT else "typed"


def put_nut_moves(job: Job, how: str) -> Job:
    """The nut where it is, or moved as the strings want; what is typed already stays."""
    if how == nut_moves(job):
        return job
    return put(job, nut_compensation=WORKED_OUT if how == WORKED_OUT else 0.0)


def nut_moved(job: Job) -> Length | None:
    """How far the nut is set for all strings alike; None where it is worked out, or typed and not alike."""
    given = block(job).nut_compensation
    if isinstance(given, tuple):
        return given[0] if len(set(given)) == 1 else None
    return given if isinstance(given, float | int) else None


def put_nut_moved(job: Job, value: Length | None) -> Job:
    """The nut set for all strings alike: once for each string where the unit was typed, so that it is kept."""
    count = len(block(job).list)
    if isinstance(value, str) and count:
        return put(job, nut_compensation=(value,) * count)
    return put(job, nut_compensation=0.0 if value is None else units.mm(value))


def weighed(job: Job) -> str:
    """The frets that count in the compensation as they are typed: “1-12”, “1-5, 7: 2”; empty for the usual ones."""
    weights = {fret: weight for fret, weight in sorted((block(job).weights or {}).items()) if weight}
    runs: list[tuple[int, int, float]] = []
    for fret, weight in weights.items():
        if runs and runs[-1][1] == fret - 1 and runs[-1][2] == weight:
            runs[-1] = (runs[-1][0], fret, weight)
        else:
            runs.append((fret, fret, weight))
    frets = (str(first) if first == last else f"{first}-{last}" for first, last, _ in runs)
    return ", ".join(
        said if weight == 1 else f"{said}: {units.show_number(weight)}"
        for said, (_, _, weight) in zip(frets, runs, strict=True)
    )


def put_weighed(job: Job, text: str) -> Job:
    """The frets that count, from what was typed. Raises `NotAJob`."""
    weights: dict[int, float] = {}
    for part in filter(None, (part.strip() for part in text.replace("–", "-").split(","))):
        found = _WEIGHED.fullmatch(part)
        if found is None:
            raise NotAJob(f"“{part}” names no frets; write them like 1-12 or 1-5, 7: 2")
        first, last = int(found["first"]), int(found["last"] or found["first"])
        if not 1 <= first <= last <= MOST_FRETS:
            raise NotAJob(f"“{part}” names no frets; they run from 1 to {MOST_FRETS}, the lower one first")
        weights |= dict.fromkeys(range(first, last + 1), float(found["weight"] or 1))
    return put(job, weights=weights or None)


_WEIGHED = re.compile(r"(?P<first>\d{1,3})(?:\s*-\s*(?P<last>\d{1,3}))?(?:\s*:\s*(?P<weight>\d{1,3}(?:\.\d+)?))?")
MOST_FRETS = 36


def put_frets(job: Job, **fields: Any) -> Job:
    """Some fields of the frets block changed."""
    return edits.in_block(job, "frets", Frets, **fields)


def heard(one: Heard) -> str:
    """What was heard, in words."""
    against = "its harmonic" if one.against == "harmonic" else "the open string"
    how = "in tune" if one.cents == 0 else f"{abs(one.cents):g} cents {'sharp' if one.cents > 0 else 'flat'}"
    return f"String {one.string}, fret {one.fret} against {against}: {how}, on {words.trial(one.trial)}"


def add_heard(job: Job, string: str, fret: str, cents: str, against: Literal["open", "harmonic"], trial: str) -> Job:
    """A line of what a tuner showed, from what was typed. Raises `NotAJob`."""
    try:
        number, cents_shown = int(fret), float(cents.replace(",", ".").replace("−", "-"))
    except ValueError:
        raise NotAJob("Type the fret as a whole number and the cents as a number, such as 12 and -4.5") from None
    least = next((one.first for one in block(job).list if one.name == string), 0) + 1
    if not least <= number <= job.frets.count:
        raise NotAJob(
            f"{words.first_large(words.string(string))} is fretted at {least} to {job.frets.count}, and fret {number} "
            "was typed; mend the fret, or the number of frets"
        )
    ends = STANDS if trial == TODAY and job.floating is not None else (f"trial.{trial}.left", f"trial.{trial}.right")
    if any(end not in job.points for end in ends):
        what = words.first_large(words.trial(trial))
        raise NotAJob(f"{what} is not measured yet; add readings to its two ends first")
    made = Heard(string=string, cents=cents_shown, trial=trial, fret=number, against=against)
    return put(job, heard=(*block(job).heard, made))


def remove_heard(job: Job, at: int) -> Job:
    """The job without one line of what was heard."""
    return put(job, heard=tuple(h for i, h in enumerate(block(job).heard) if i != at))


def add_string(job: Job) -> Job:
    """One string more on the bass side, made like the last one; of its compensation nothing is known yet."""
    strings = block(job).list
    taken = {s.name for s in strings}
    name = next(str(n) for n in range(1, 99) if str(n) not in taken)
    last = replace(strings[-1], name=name, course=None) if strings else String(name=name)
    more = _numbers(job, lambda given: (*given, given[-1]) if given else (0.0,))
    if "compensation" in more:
        more["compensation"] = (*more["compensation"][:-1], None)
    return put(job, list=(*strings, last), **more)


def turn_round(job: Job) -> Job:
    """The job with its strings in the other order; their names stay in the order they are in."""
    strings = block(job).list
    turned = tuple(replace(s, name=own.name) for s, own in zip(reversed(strings), strings, strict=True))
    names = {own.name: other.name for own, other in zip(strings, reversed(strings), strict=True)}
    heard_too = tuple(replace(h, string=names[h.string]) for h in block(job).heard)
    return put(job, list=turned, heard=heard_too, **_numbers(job, lambda given: tuple(reversed(given))))


def remove_string(job: Job, at: int) -> Job:
    """The job without one string and what belongs to it."""
    strings = block(job).list
    gone = strings[at].name
    fewer = _numbers(job, lambda given: tuple(c for i, c in enumerate(given) if i != at))
    heard_left = tuple(h for h in block(job).heard if h.string != gone)
    left = tuple(s for i, s in enumerate(strings) if i != at)
    if all(s.first for s in left):  # one at least begins at the nut
        left = tuple(replace(s, starts_at=None, from_neighbour=None, from_edge=None) for s in left)
    return put(job, list=left, heard=heard_left, **fewer)


def _numbers(job: Job, change: Callable[[tuple[Length, ...]], tuple[Length, ...]]) -> dict[str, Any]:
    """Compensation that is typed for each string, changed along with the list."""
    found = {name: getattr(block(job), name) for name in ("compensation", "nut_compensation")}
    return {name: change(given) for name, given in found.items() if isinstance(given, tuple)}
