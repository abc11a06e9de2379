"""Ids of readings, names of points and titles may be any text: no word or number of a finding comes from them, but for
a name that stands there as such, in quotes.

Derived: what is said under names that occur nowhere else, these put for the names that were drawn.
"""

import re
from functools import cache
from itertools import chain
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from app.file import job_file
from geometry import words
from geometry.job import Job, OldMetal, OldPin, Point, Reading
from geometry.layout import Layout
from geometry.work_out import work_out

SAMPLES = Path(__file__).parents[3] / "sample_jobs"
OWN = ("QXQ", "QYQ", "QSQ")
"""Two points and a string that a person named, under names that no sentence holds."""
FAMILIES = ("nut", "fret12", "end", "edge", "seam", "old", "pin", "metal", "body", "thread", "trial", "slot")
"""What the names of the trade begin with: they say where a point lies, and a name that a person makes up does not."""
QUOTED = re.compile("“[^”]*”")


def sample(name: str) -> Job:
    return job_file.read(SAMPLES / f"{name}.job.json")


def changed(job: Job, reading_id: str, **fields: Any) -> Job:
    assert any(r.id == reading_id for r in job.readings)
    return replace(job, readings=tuple(replace(r, **fields) if r.id == reading_id else r for r in job.readings))


def with_own_points(job: Job, *readings: Reading) -> Job:
    """The job with a point of each name in `OWN` that the readings name."""
    named = {name: Point() for r in readings for name in r.of if name in OWN}
    return replace(job, points={**job.points, **named}, readings=(*job.readings, *readings))


def from_corners(name: str, left: float, right: float) -> tuple[Reading, ...]:
    """A point by its distances from the board's two end corners."""
    return tuple(
        Reading(id=f"{name} {k}", kind="distance", of=(corner, name), value=value)
        for k, (corner, value) in enumerate((("end.left", left), ("end.right", right)))
    )


def misread() -> Job:
    return changed(sample("leaning-neck"), "r4", value=462.5)


def misread_at_an_own_point() -> Job:
    third = Reading(id="third", kind="distance", of=("nut.left", "QXQ"), value=700.0)
    return with_own_points(sample("leaning-neck"), *from_corners("QXQ", 200.0, 210.0), third)


def swapped() -> Job:
    job = sample("leaning-neck")
    nut, fret12 = (next(r.value for r in job.readings if r.id == name) for name in ("r1", "r7"))
    return changed(changed(job, "r1", value=fret12), "r7", value=nut)


def loose() -> Job:
    one = Reading(id="one", kind="distance", of=("end.left", "QXQ"), value=200.0)
    other = Reading(id="other", kind="distance", of=("end.right", "QYQ"), value=210.0)
    return with_own_points(sample("tie-bridge"), one, other)


def either_side() -> Job:
    return with_own_points(sample("tie-bridge"), *from_corners("QXQ", 200.0, 200.0))


def metal_near_the_slot() -> Job:
    """The metal of a sample, and an old hole, under a person's own names; the metal to be kept clear of by far."""
    job = renamed(sample("small-four"), {}, {"metal.1": "QXQ", "old.2": "QYQ"})
    assert job.old is not None
    return replace(job, old=replace(job.old, metal={"QXQ": OldMetal(keep_out=60.0)}, pins={"QYQ": OldPin(diameter=2)}))


def miscounted() -> Job:
    return changed(sample("leaning-neck"), "r19", fret=13)


def one_of_two() -> Job:
    return changed(sample("turned-left"), "r3", value=440.0)


def height_read_twice() -> Job:
    job = sample("turned-left")
    twice = next(r for r in job.readings if r.kind == "height" and r.at == "bridge")
    return replace(job, readings=(*job.readings, replace(twice, id="again", value=40.0)))


def few_readings() -> Job:
    job = with_own_points(sample("one-slip"), Reading(id="one", kind="distance", of=("QXQ", "QYQ"), value=20.0))
    return replace(job, readings=tuple(r for r in job.readings if r.kind != "height"))


def own_string() -> Job:
    """A wound string under a person's own name, and fewer frets than were read."""
    job = sample("leaning-neck")
    assert job.strings is not None
    named = tuple(replace(one, name="QSQ") if one.name == "4" else one for one in job.strings.list)
    return replace(job, strings=replace(job.strings, list=named), frets=replace(job.frets, count=10))


JOBS = {
    misread: "survey.misread",
    misread_at_an_own_point: "point.loose",
    swapped: "survey.swapped",
    loose: "point.loose",
    either_side: "survey.either_side",
    metal_near_the_slot: "metal.in_the_way",
    miscounted: "fret.miscounted",
    one_of_two: "survey.one_of_these",
    height_read_twice: "saddle.height",
    few_readings: "point.loose",
    own_string: "frets.count",
}
"""Each with a finding that it must have, so that its sentence is looked at."""


def renamed(job: Job, ids: dict[str, str], points: dict[str, str]) -> Job:
    """The same job, its readings, points and strings called otherwise."""

    def called(names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(points.get(name, name) for name in names)

    readings = tuple(replace(r, id=ids.get(r.id, r.id), of=called(r.of), from_=called(r.from_)) for r in job.readings)
    old = job.old and replace(
        job.old,
        outline=called(job.old.outline),
        pins={points.get(name, name): pin for name, pin in job.old.pins.items()},
        metal={points.get(name, name): metal for name, metal in job.old.metal.items()},
    )
    strings = job.strings and replace(
        job.strings, list=tuple(replace(one, name=points.get(one.name, one.name)) for one in job.strings.list)
    )
    job = replace(job, strings=strings)
    return replace(
        job, readings=readings, old=old, points={points.get(name, name): at for name, at in job.points.items()}
    )


@cache
def plainly(make: Any) -> tuple[Job, Layout]:
    job = make()
    return job, work_out(job)


def said(layout: Layout) -> list[str]:
    """Every sentence of a layout."""
    held = [text for loose in layout.survey.loose for text in (loose.point, loose.held_by)]
    return [layout.survey.why.whole, *held, *(finding.text for finding in layout.findings)]


ODD = re.findall(
    r"\S+",
    "1 2 3 12 0.5 a b r1 is the to and or left right bass reading again fret mm string QXQX <b>nut</b> &amp; ** {0} "
    "{name} %s \\1 “ ” . .. a.b it’s שלום עולם ١٢ Ω ÿ x\u202ey",
)
NAMES = st.lists(
    st.sampled_from(ODD) | st.text(st.characters(codec="utf-8"), min_size=1, max_size=12),
    min_size=3,
    max_size=30,
    unique=True,
)


@pytest.mark.parametrize("make", JOBS)
def test_the_names_of_the_jobs_stand_in_quotes_or_nowhere(make: Any) -> None:
    job, layout = plainly(make)
    assert JOBS[make] in {finding.code for finding in layout.findings}
    assert "r1" in {r.id for r in job.readings}
    for text in (layout.survey.why.whole, *(finding.text for finding in layout.findings)):
        outside = QUOTED.sub("", text)
        assert not re.search(r"\br\d+\b|Q[XYS]Q|[a-z]\w*\.(left|right|\d)", outside), text
        assert not re.search(r"\b(left|right) (edge|side|string|wing)\b|\d(st|nd|rd|th) fret", text), text


@pytest.mark.parametrize("make", JOBS)
@settings(deadline=None, max_examples=3)
@given(names=NAMES, title=st.sampled_from(ODD))
def test_any_ids_names_and_titles_leave_all_else_as_it_was(make: Any, names: list[str], title: str) -> None:
    job, layout = plainly(make)
    mine = [name for name in names if words.is_own(name) and name.split(".")[0] not in FAMILIES]
    mine = [name for name in mine if not re.fullmatch("[0-9]+[a-z]?", name)]  # numbers are what strings are called
    strings = [one.name for one in job.strings.list] if job.strings else []
    wanted = [name for name in OWN if name in (*job.points, *strings)]
    assume(len(mine) >= len(wanted))
    own = dict(zip(wanted, mine, strict=False))
    numbers = (str(k) for k in range(1000) if str(k) not in names)
    ids = dict(zip((r.id for r in job.readings), chain(names, numbers), strict=False))
    other = work_out(replace(renamed(job, ids, own), title=title))

    def put(text: str) -> str:
        called = {name: words.quoted(other)[1:-1] for name, other in own.items()}
        inside = "|".join(OWN)
        return re.sub(
            f"{QUOTED.pattern}|{inside}",
            lambda found: own.get(found[0], re.sub(inside, lambda name: called[name[0]], found[0])),
            text,
        )

    assert said(other) == [put(text) for text in said(layout)]
    assert [(f.code, f.grade, f.large) for f in other.findings] == [(f.code, f.grade, f.large) for f in layout.findings]
    for one, two in zip(layout.findings, other.findings, strict=True):
        kind, _, about = one.where.partition(":")
        assert two.where.partition(":") == (kind, _, ids.get(about, own.get(about, about)))
        assert two.values == pytest.approx(one.values, rel=1e-6, abs=1e-9, nan_ok=True)
    assert {name: (p.x, p.y) for name, p in other.points.items()} == {
        own.get(name, name): pytest.approx((p.x, p.y), abs=1e-6) for name, p in layout.points.items()
    }
