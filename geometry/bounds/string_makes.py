"""Bounds of the strings' make: what each is made of, and how it pulls beside the others."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from statistics import median

import msgspec

from geometry import words
from geometry.findings import Finding, look
from geometry.forces import force
from geometry.job import Job, String, Strings
from geometry.layout import StringPlan
from geometry.pitch import frequency
from geometry.strings.string_make import of_usual_make, usual_core
from geometry.units import Unit, mm, said

STRETCHES = 3.0
"""A typed stretch ratio is that of another string where it is so many times what is usual, or as small a part (common
practice, no source)."""
THICK_PLAIN, THIN_WOUND = 0.52, 0.42
"""mm. Plain steel strings are rarely thicker, wound ones rarely thinner (common practice, no source)."""
CORES = 1.4
"""The core of a wound steel string is at most so many times as thick as is usual under its winding, and no less than
that part (common practice, no source; usual is within 8 %, one standard deviation)."""
UNEVEN = 1.65
"""One string of a set pulls at most so many times as hard as the middle one, and no less than that part (common
practice, no source)."""
SLACK_STEEL, SLACK_SOFT, TAUT_SOFT = 36.0, 22.0, 130.0
"""N. The middle string of a set pulls no less, with steel in it and without, and without steel no more (common
practice, no source: an octave off is a quarter of the pull, or four times that); taut steel is told where it breaks."""
MOST_IN_COURSE = 3
"""Strings of one course (common practice, no source)."""
PINS = 24
"""Holes are numbered by strings up to here; what is called by a greater number is called by something else."""


def findings(job: Job, plans: Sequence[StringPlan]) -> tuple[Finding, ...]:
    """Strings made as none is, pulling unlike the others, of another material, or more or fewer than there are."""
    strings = job.strings
    if strings is None:
        return ()
    return (
        *_makes(strings, plans, job.unit),
        *_beside_each_other(strings, plans, job.unit),
        *_whole_set(strings, plans, job.unit),
        *_mixed(strings),
        *_drones(strings),
        *_courses(strings),
        *_holes(job),
    )


def _makes(strings: Strings, plans: Sequence[StringPlan], unit: Unit) -> Iterator[Finding]:
    """Strings that are made as no string is."""
    odd = [text for string, plan in zip(strings.list, plans, strict=False) if (text := _odd(string, plan, unit))]
    if odd:
        yield look("strings.make", f"{odd[0]} Look at what is typed for the string.", "field:strings.list")


def _odd(string: String, plan: StringPlan, unit: Unit) -> str:
    """What is odd in a string's make; empty where nothing is."""
    usual = of_usual_make(string)
    if string.stretch_ratio is not None and usual is not None and plan.tension_n is not None:
        ratio = (usual.kappa(plan.tension_n) - 1) / 2
        if not 1 / STRETCHES <= string.stretch_ratio / max(ratio, 1e-6) <= STRETCHES:
            return (
                f"The stretch ratio of {words.string(string.name)} is {string.stretch_ratio:g}, and "
                f"{ratio:.0f} is usual for its make and pull."
            )
    if string.diameter is None or not _with_steel(string):
        return ""
    size = mm(string.diameter)
    if string.build == "plain" and size > THICK_PLAIN:
        return (
            f"{words.first_large(words.string(string.name))} is of plain {string.material}, {said(size, unit, 2)} "
            "thick; strings as thick as that are wound."
        )
    if string.core is not None and string.build == "wound" and string.material == "steel":
        core, usual_one = mm(string.core), usual_core(msgspec.structs.replace(string, core=None), size)
        if not 1 / CORES <= core / usual_one <= CORES:
            return (
                f"The core of {words.string(string.name)} is {said(core, unit, 2)} thick, and "
                f"{said(usual_one, unit, 2)} is usual in a string {said(size, unit, 2)} thick."
            )
    if string.build == "wound" and size < THIN_WOUND:
        return (
            f"{words.first_large(words.string(string.name))} is wound, and only {said(size, unit, 2)} "
            "thick; strings as thin as that are plain."
        )
    return ""


def _beside_each_other(strings: Strings, plans: Sequence[StringPlan], unit: Unit) -> Iterator[Finding]:
    """A string that pulls quite otherwise than the others, and neighbours that sound alike."""
    pulls = [(plan.tension_n, plan.name) for plan in plans if plan.tension_n is not None]
    if len(pulls) > 2:
        middle = median(pull for pull, _ in pulls)
        pull, name = max(pulls, key=lambda pair: max(pair[0] / middle, middle / max(pair[0], 1e-9)))
        if max(pull / middle, middle / max(pull, 1e-9)) > UNEVEN:
            yield look(
                "strings.uneven",
                f"{words.first_large(words.string(name))} would pull {force(pull, unit)}, and the middle one of the "
                f"set {force(middle, unit)}: look at its diameter, its pitch and whether it is wound.",
                f"string:{name}",
                tension_n=pull,
                middle_n=middle,
            )
    for (here, one), (there, other) in pairwise(_alone(strings)):
        if abs(here / there - 1) < 1e-3:
            yield look(
                "strings.alike",
                f"{words.first_large(words.strings((one, other)))} are tuned to the same pitch and are no "
                "pair: look at both pitches.",
                f"string:{other}",
            )
            return


def _whole_set(strings: Strings, plans: Sequence[StringPlan], unit: Unit) -> Iterator[Finding]:
    """A set that pulls as none does, as if it were of another octave or of another material."""
    pulls = [plan.tension_n for plan in plans if plan.tension_n is not None]
    if len(pulls) < 2:
        return
    middle, steel = median(pulls), _with_steel(strings.list[0])
    if any(_with_steel(string) != steel for string in strings.list):
        return
    least, most = (SLACK_STEEL, None) if steel else (SLACK_SOFT, TAUT_SOFT)
    if middle < least:
        bound = f"under {force(least, unit)}"
    elif most is not None and middle > most:
        bound = f"over {force(most, unit)}"
    else:
        return
    yield look(
        "strings.set",
        f"The middle string would pull {force(middle, unit)}, and in few sets {'of' if steel else 'without'} steel "
        f"is that {bound}: look at the octave of all pitches (A4 is the tuning fork’s A), at the material and the "
        "diameters.",
        "field:strings.list",
        middle_n=middle,
    )


def _with_steel(string: String) -> bool:
    return string.material in ("steel", "silk and steel")


def _mixed(strings: Strings) -> Iterator[Finding]:
    """Strings with steel in them among others without."""
    soft = [string.name for string in strings.list if not _with_steel(string)]
    hard = [string.name for string in strings.list if string.name not in soft]
    if soft and hard:
        few, what = (soft, "without steel") if len(soft) <= len(hard) else (hard, "of steel")
        yield look(
            "strings.mixed",
            f"{words.first_large(words.strings(few))} {'is' if len(few) == 1 else 'are'} {what}, unlike the "
            "others: look at the material of each.",
            f"string:{few[0]}",
        )


def _drones(strings: Strings) -> Iterator[Finding]:
    """Strings that no finger stops, between strings that are stopped."""
    stopped = [at for at, string in enumerate(strings.list) if string.fretted]
    between = (
        [string.name for string in strings.list[min(stopped) : max(stopped)] if not string.fretted] if stopped else []
    )
    if between:
        one = len(between) == 1
        yield look(
            "strings.drone",
            f"{words.first_large(words.strings(between))} {'is called a drone' if one else 'are called drones'}, never "
            f"fretted, and {'lies' if one else 'lie'} between strings that are: look whether "
            f"{'it is one' if one else 'they are'}, for the saddle is not placed for {'it' if one else 'them'}.",
            f"string:{between[0]}",
        )


def _alone(strings: Strings) -> list[tuple[float, str]]:
    """The pitch (Hz) and name of the first string of each course."""
    seen: set[int] = set()
    found = []
    for string in strings.list:
        if string.pitch is not None and (string.course is None or string.course not in seen):
            found.append((frequency(string.pitch, strings.a4), string.name))
        if string.course is not None:
            seen.add(string.course)
    return found


def _courses(strings: Strings) -> Iterator[Finding]:
    counts = Counter(string.course for string in strings.list if string.course is not None)
    course, count = max(counts.items(), key=lambda item: item[1], default=(0, 0))
    if count > MOST_IN_COURSE:
        yield look(
            "strings.course",
            f"Course {course} has {count} strings, and few courses have more than {MOST_IN_COURSE}: look at "
            "the course of each.",
            "field:strings.list",
            strings=float(count),
        )


def _holes(job: Job) -> Iterator[Finding]:
    """Old holes that are called by the numbers of strings, more than there are strings."""
    if job.strings is None or not job.strings.list or not job.bridge:
        return
    last = max(_numbers(job.points), default=0)
    count = len(job.strings.list)
    if count < last <= PINS:
        yield look(
            "strings.count",
            f"There is an {words.called(f'pin.{last}', job.hand)}, and the list has {count} strings: check whether "
            "one is missing.",
            "field:strings.list",
            hole=float(last),
            strings=float(count),
        )


def _numbers(names: Iterable[str]) -> Iterator[int]:
    for name in names:
        family, _, number = name.partition(".")
        if family == "pin" and number.isdecimal():
            yield int(number)
