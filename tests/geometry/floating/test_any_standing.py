"""Any floating bridge and any tail work out without an exception, and a mirrored one as the mirror image."""

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry import go_or_wait
from geometry.job import Heard, Job, Point
from geometry.layout import Layout
from geometry.units import mm
from geometry.work_out import lay_out
from tests.geometry.any_job.odd_jobs import PLACES, drawn_blocks
from tests.geometry.any_job.test_mirrored import mirrored, seen, swapped
from tests.geometry.any_job.test_never_stops import EXTRAS, is_sound
from tests.geometry.floating.odd_standing import MORE_PLACES, TAILS, floatings, mirrored_floating, mirrored_tail
from tests.geometry.made import surveyed

ALL = PLACES | MORE_PLACES


@st.composite
def standing(draw: Any) -> Job:
    blocks = {name: value for name, value in drawn_blocks(draw).items() if name != "bridge"}
    floating, saddle = draw(floatings()), blocks.pop("saddle", None)
    if saddle is not None:
        fits = saddle.slot_length is None or mm(saddle.slot_length) <= mm(floating.length)
        saddle = replace(saddle, made="one", splits=None, slot_length=saddle.slot_length if fits else None)
    job = Job(points={name: Point() for name in ALL}, floating=floating, saddle=saddle, **blocks)
    if (
        job.strings is not None
        and job.strings.list
        and job.strings.list[0].fretted
        and job.strings.list[0].first < 12
        and draw(st.booleans())
    ):
        heard = Heard(string=job.strings.list[0].name, cents=4.0, trial="today")
        job = replace(job, strings=replace(job.strings, heard=(*job.strings.heard, heard)))
    return replace(job, tail=draw(st.none() | TAILS))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(standing(), st.data())
def test_any_works_out(job: Job, data: st.DataObject) -> None:
    left_out = data.draw(st.sets(st.sampled_from([*MORE_PLACES]), max_size=6))
    points = {name: at for name, at in ALL.items() if name not in left_out}
    layout = lay_out(job, surveyed(points, EXTRAS))
    is_sound(job, layout)
    go_or_wait.said(job, go_or_wait.verdicts(job, layout))


def near(value: Any) -> Any:
    return pytest.approx(value, rel=1e-6, abs=1e-6)


def both(layout: Layout) -> dict[str, Any]:
    """What can be compared beside what any layout has."""
    found: dict[str, Any] = {}
    plan, tail = layout.floating, layout.tail
    if plan is not None:
        for number, foot in enumerate(plan.feet):
            found[f"foot {foot.name}"] = (number, foot.corners)
        found["window"], found["turn"] = plan.window, (plan.turn_pm95, plan.feet_pm95, plan.thicker or 0.0)
        found["cents"] = tuple(plan.cents_per_mm.values())
        if plan.today is not None:
            found["today"] = plan.today
    if tail is not None:
        found["middle"], found["pull"] = tail.middle, (tail.across_pm95, tail.off_pm95, tail.down or 0.0)
        found["off"] = (tail.off or 0.0, tail.push or 0.0)
        found["strings"] = tuple(string.sideways for string in tail.strings)
        found["screws"] = tuple(hole.at for hole in tail.screws)
        found["pin"] = tail.pin.at if tail.pin is not None else (0.0, 0.0)
    return found


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(standing())
def test_the_mirror_image_for_the_other_hand(job: Job) -> None:
    other = replace(mirrored(job), floating=mirrored_floating(job.floating), tail=mirrored_tail(job.tail))
    here = lay_out(job, surveyed(ALL, EXTRAS))
    there = lay_out(
        other,
        surveyed(
            {swapped(name): (x, -y) for name, (x, y) in ALL.items()},
            {swapped(name): value for name, value in EXTRAS.items()},
        ),
    )
    assert seen(here)["codes"] == seen(there)["codes"]
    one, two = both(here), both(there)
    assert one.keys() == two.keys()
    for name, value in one.items():
        turned = two[name]
        if name.startswith("foot"):
            assert turned[0] == len(here.floating.feet) - 1 - value[0]  # type: ignore[union-attr]  # it has feet
            mirror = [(x, -y) for x, y in turned[1]]
            for at, to in zip(value[1], (mirror[1], mirror[0], mirror[3], mirror[2]), strict=True):
                assert at == near(to)
        elif name == "window":
            assert value == near(turned[::-1])
        elif name == "today":
            assert value.along == near(turned.along[::-1])
            assert value.along_pm95 == near(turned.along_pm95[::-1])
            assert (value.across, value.turn) == near((-turned.across, -turned.turn))
            assert (value.across_pm95, value.turn_pm95) == near((turned.across_pm95, turned.turn_pm95))
        elif name in ("middle", "pin"):
            assert value == near((turned[0], -turned[1]))
        elif name in ("off", "strings"):
            assert value == near([-part for part in turned])
        elif name == "screws":
            for at, to in zip(value, turned, strict=True):
                assert at == near((to[0], -to[1]))
        else:
            assert value == near(turned)
