"""Heights that were read are used, or it is said what they wait for."""

import pytest

from geometry.findings import Finding, is_unsure
from geometry.job import Reading, Spread, Strings
from geometry.job.sides import SIDES
from geometry.layout import Layout
from geometry.strings.usual_sets import SETS
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, surveyed

STEEL = Strings(list=SETS["steel 12-54"].strings, nut=Spread(spread=38.0), saddle=Spread(spread=56.0))
ACTION = {f"fret {fret}.{side}": high for fret, high in ((1, 0.5), (12, 2.0)) for side in SIDES}
END = {"board end.left": 6.0, "board end.right": 6.0}
BRIDGE = {"bridge.left": 14.7, "bridge.right": 14.7}
OFF = {"saddle.left": 11.0, "saddle.right": 11.0}


def laid_out(heights: dict[str, float], readings: tuple[Reading, ...] = ()) -> Layout:
    made = job(BOARD, "right", strings=STEEL, bridge=bridge(), readings=readings)
    extras = scales(640.0, 640.0) | {f"height.{name}": value for name, value in heights.items()}
    return lay_out(made, surveyed(BOARD, extras))


def waits(layout: Layout) -> list[Finding]:
    return [finding for finding in layout.findings if finding.code == "heights.wait"]


def knows_fall(layout: Layout) -> bool:
    return any(finding.code == "top.fall" for finding in layout.findings)


@pytest.mark.parametrize(
    ("heights", "waiting"),
    [
        ({}, False),
        (ACTION, False),
        (BRIDGE, False),  # they tell the saddle's height by themselves
        (END, True),
        (END | ACTION, True),
        (END | BRIDGE, True),
        (END | BRIDGE | ACTION, False),
        (END | OFF, False),  # the straightedge needs no action
    ],
)
def test_it_is_said_just_where_heights_wait(heights: dict[str, float], waiting: bool) -> None:
    layout = laid_out(heights)
    assert len(waits(layout)) == waiting
    assert knows_fall(layout) == ("board end.left" in heights and not waiting)


def test_the_height_to_read_is_named() -> None:
    (found,) = waits(laid_out(END))
    assert found.text == (
        "The heights at the board’s end wait: read the string over the top at the bridge too, or with the strings off "
        "the straightedge over the top at the saddle, and how the top falls away is known, and the distances allow "
        "for it."
    )
    assert found.grade == "look"
    assert is_unsure(found)


def test_one_height_alone_waits_in_the_singular() -> None:
    (found,) = waits(laid_out({"board end.left": 6.0}))
    assert found.text.startswith("The height at the board’s end waits: read ")


def test_fret_heights_that_are_missing_are_named_with_their_side() -> None:
    lacking = {name: high for name, high in ACTION.items() if name != "fret 1.right"}
    (found,) = waits(laid_out(END | BRIDGE | lacking))  # right-handed: the right is bass
    assert found.text.startswith(
        "The heights at the board’s end and at the bridge wait: read the string over fret 1 at "
    )
    assert "over fret 1 at bass, and" in found.text
    assert found.where == "field:strings.action"


def test_it_leads_to_the_reading_that_stands_in_the_list() -> None:
    listed = (
        Reading(id="r7", kind="height", at="fret 1", on="right"),
        Reading(id="r8", kind="height", at="bridge", on="left"),
    )
    lacking = {name: high for name, high in ACTION.items() if name != "fret 1.right"}
    assert [f.where for f in waits(laid_out(END | BRIDGE | lacking, listed))] == ["reading:r7"]
    assert [f.where for f in waits(laid_out(END, listed))] == ["reading:r8"]


def test_heights_over_one_fret_are_used_without_those_over_the_other() -> None:
    """They wait for nothing: what is usual stands in for the rest, and it is said."""
    one, other = (
        laid_out({"fret 12.left": high, "fret 12.right": high}).strings[-1].compensation for high in (1.6, 2.8)
    )
    assert one < other
    found = laid_out({"fret 12.left": 1.6, "fret 12.right": 1.6}).findings
    assumed = next(finding for finding in found if finding.code == "heights.assumed")
    assert assumed.text.startswith("The string’s heights over fret 1 at ")
    assert waits(laid_out({"fret 12.left": 1.6, "fret 12.right": 1.6})) == []
