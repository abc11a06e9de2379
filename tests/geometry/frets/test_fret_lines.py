"""The fret spacing that is fitted, from fret readings and from points on fret 12."""

import math
from typing import Literal

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.frets.fret_fit import is_a_scale
from geometry.job import Frets, Job, Reading
from geometry.job.sides import SIDES
from geometry.layout import Fit, FretPlan, Layout, accused
from geometry.work_out import lay_out, work_out
from tests.geometry.made import BOARD, XY, job, scales, six, surveyed

TWELFTH: dict[str, XY] = {"fret12.left": (320.0, 27.0), "fret12.right": (320.0, -27.0)}


def laid_out(points: dict[str, XY], extras: dict[str, float], **blocks: object) -> Layout:
    return lay_out(job(points, "right", **blocks), surveyed(points, extras))


def frets(layout: Layout) -> FretPlan:
    assert layout.frets is not None
    return layout.frets


def codes(layout: Layout) -> set[str]:
    return {finding.code for finding in layout.findings}


def test_points_on_fret_12_alone_give_twice_their_distance() -> None:
    # derived: the edges lean (28 − 22) / 440, so 320 along the centre is 320.03 along the edge
    plan = frets(laid_out(BOARD | TWELFTH, {}))
    assert plan.nominal.left == pytest.approx(2 * 320 / 0.999907, abs=0.005)


def with_points(off: float = 0.0) -> Job:
    """Frets read on both sides, and fret 12's corners read along the edges, the left one so much too far."""
    both = read_on("left", (1, 5, 9, 12)).readings + read_on("right", (1, 5, 9, 12)).readings[len(BOARD) :]
    frets = tuple(replace(one, id=f"{one.id}{one.on}") if one.kind == "fret" else one for one in both)
    # derived: the edges lean (28 − 22) / 440
    long = math.hypot(320, 320 * 6 / 440)
    corners = tuple(
        Reading(
            id=f"t{side}",
            kind="along",
            of=(f"fret12.{side}",),
            from_=(f"nut.{side}", f"end.{side}"),
            value=v,
            sigma=0.2,
        )
        for side, v in (("left", long + off), ("right", long))
    )
    width = Reading(
        id="tw", kind="distance", of=("fret12.left", "fret12.right"), value=2 * (22 + 320 * 6 / 440), sigma=0.1
    )
    line = Reading(id="ti", kind="inline", of=("fret12.left",), from_=("nut.left", "end.left"), sigma=0.1)
    base = job(BOARD | TWELFTH, "right")
    return replace(base, readings=(*frets, *corners, width, line))


def test_readings_and_points_that_agree_make_the_scale_surer() -> None:
    both = with_points()
    bare = replace(both, readings=tuple(one for one in both.readings if not one.id.startswith("t")))
    with_both, alone = frets(work_out(both)), frets(work_out(bare))
    assert with_both.nominal.left == pytest.approx(640.0, abs=0.05)
    assert with_both.nominal.left_pm95 < alone.nominal.left_pm95


@pytest.mark.parametrize("off", [3.0, -4.0])
def test_a_point_on_fret_12_that_lies_elsewhere_than_the_fret_readings_say_is_accused(off: float) -> None:
    layout = work_out(with_points(off))
    assert "tleft" in accused(layout.survey)
    assert not accused(work_out(with_points()).survey)


def test_frets_on_one_side_serve_for_both_and_it_is_said() -> None:
    layout = laid_out(BOARD, {"scale.left": 640.0})
    assert frets(layout).nominal.right == pytest.approx(640.0)
    assert "frets.one_side" in codes(layout)


def test_a_typed_scale_serves_where_nothing_is_read() -> None:
    layout = laid_out(BOARD, {}, frets=Frets(scale="25.5 in"))
    assert frets(layout).scale == pytest.approx(647.7)  # derived: 25.5 × 25.4
    assert "frets.one_side" in codes(layout)


def test_a_typed_scale_that_differs_from_the_frets_is_said() -> None:
    assert "scale.differs" in codes(laid_out(BOARD, scales(640.0, 640.0), frets=Frets(scale=650.0)))


@pytest.mark.parametrize(("typed", "told"), [(637.8, True), (638.1, False), (641.9, False), (642.2, True)])
def test_from_what_difference_on_a_typed_scale_is_said(typed: float, told: bool) -> None:
    """Of 640 mm as read: 2 mm either way (common practice, no source)."""
    assert told == ("scale.differs" in codes(laid_out(BOARD, scales(640.0, 640.0), frets=Frets(scale=typed))))


@pytest.mark.parametrize(
    ("length", "told"), [(195.0, False), (205.0, True), (1495.0, True), (1505.0, False), (1700.0, False)]
)
def test_what_may_be_a_scale(length: float, told: bool) -> None:
    """From 200 to 1500 mm (common practice, no source), whichever of them it is."""
    assert is_a_scale(np.array([length])) == told
    assert is_a_scale(np.array([640.0, length])) == told


@pytest.mark.parametrize(("off", "stands"), [(4.8, True), (-4.8, True), (5.4, False), (-5.4, False)])
def test_from_where_on_a_fret_was_misread_rather_than_set_wrong(off: float, stands: bool) -> None:
    """5 mm (common practice, no source): a fret that was read farther off is drawn where the fit puts it."""
    extras = scales(640.0, 640.0)
    taken = Reading(id="f", kind="fret", fret=5, on="left", value=160.5 + off, sigma=0.2)
    fit = Fit(
        id="f", value=160.5 + off, adjusted=160.5, residual=-off, sigma=0.2, redundancy=0.9, w=0.0, believable=0.7
    )
    known = surveyed(BOARD, extras)
    known = replace(
        known,
        fits=(*known.fits, fit),
        redundancy=np.append(known.redundancy, fit.redundancy),
        gain=np.column_stack([known.gain, np.zeros(len(known.state))]),
    )
    base = job(BOARD, "right", frets=Frets(spacing="measured"))
    fifth = {
        one.readings: frets(lay_out(one, known)).lines[5].left[0] for one in (base, replace(base, readings=(taken,)))
    }
    plain, there = fifth.values()
    assert there - plain == pytest.approx(off if stands else 0.0, abs=0.01)


def test_the_nominal_place_of_the_rule_of_eighteen_by_octave_and_by_best_fit() -> None:
    # derived: scale 632, octave place 627.40; the best place lies beyond it
    plan = frets(laid_out(BOARD, scales(632.0, 632.0), frets=Frets(spacing="eighteen")))
    assert plan.nominal.left == pytest.approx(627.40, abs=0.005)
    assert plan.other is not None
    assert plan.other.left > plan.nominal.left


def test_frets_are_drawn_from_edge_to_edge() -> None:
    # derived: fret 12 of 640 crosses the left edge at x = 320 within the edge's lean, y = 22 + 320 × 6 / 440
    line = frets(laid_out(BOARD, scales(640.0, 640.0))).lines[12]
    assert line.left == pytest.approx((320.0, 26.36), abs=0.05)
    assert line.right == pytest.approx((320.0, -26.36), abs=0.05)


def graded(layout: Layout) -> dict[str, str]:
    return {finding.code: finding.grade for finding in layout.findings}


def test_a_side_not_read_is_as_far_from_the_centre_as_the_other() -> None:
    # derived: 2 × 640.0 − 641.0
    layout = laid_out(BOARD, {"scale.left": 641.0, "scale.centre": 640.0})
    assert (frets(layout).nominal.left, frets(layout).nominal.right) == pytest.approx((641.0, 639.0))
    assert "frets.one_side" not in graded(layout)


def test_the_centre_alone_stands_for_both_sides() -> None:
    layout = laid_out(BOARD, {"scale.centre": 640.0})
    assert (frets(layout).nominal.left, frets(layout).nominal.right) == pytest.approx((640.0, 640.0))
    assert graded(layout)["frets.one_side"] == "look"


def test_the_centre_adds_nothing_where_both_sides_were_read() -> None:
    both = scales(641.0, 640.0)
    assert frets(laid_out(BOARD, both | {"scale.centre": 600.0})) == frets(laid_out(BOARD, both))


@pytest.mark.parametrize("extras", [{"scale.left": 64.3}, {"scale.left": 640.0, "shift.left": 600.0}])
def test_readings_that_make_no_scale_stop_the_work_and_say_where_to_look(extras: dict[str, float]) -> None:
    layout = laid_out(BOARD, extras, frets=Frets(scale=640.0))
    assert layout.frets is None
    assert graded(layout)["frets.no_scale"] == "stop"


def test_a_scale_of_centimetres_is_named() -> None:
    (found,) = (f for f in laid_out(BOARD, {"scale.right": 64.3}).findings if f.code == "frets.no_scale")
    assert "a scale of 64.3 mm along the bass string" in found.text


@pytest.mark.parametrize(
    ("counted", "says"),
    [
        ((12,), "along the treble string only: whether the frets are slanted, or the nut was moved, is not known"),
        ((1, 5, 9, 12), "along the treble string only: whether the frets are slanted is not known"),
    ],
)
def test_what_one_side_leaves_open_is_said_and_carried(counted: tuple[int, ...], says: str) -> None:
    layout = work_out(read_on("left", counted))
    (found,) = (f for f in layout.findings if f.code == "frets.one_side")
    assert says in found.text
    plan = frets(layout)
    # derived: the other side's nut may stand 0.5 mm askew and its scale be 0.2 mm another, one standard deviation each
    assert plan.nominal.right_pm95 == pytest.approx(
        math.hypot(plan.nominal.left_pm95, 1.96 * math.hypot(0.5, 0.2)), 1e-3
    )


def read_on(side: Literal["left", "right"], counted: tuple[int, ...], scale: float = 640.0, nut: float = 0.0) -> Job:
    """The board placed, and frets of a scale read along one string from a nut that stands so much too near."""
    places = tuple(Reading(id=name, kind="at", of=(name,), value=place, sigma=0.01) for name, place in BOARD.items())
    values = ((n, scale * (1 - 2 ** (-n / 12)) - nut) for n in counted)
    taken = tuple(Reading(id=f"f{n}", kind="fret", fret=n, on=side, value=v, sigma=0.2) for n, v in values)
    return replace(job(BOARD, "right"), readings=(*places, *taken))


@pytest.mark.parametrize(
    ("left", "right", "hand", "side"),
    [
        (632.8, 631.2, "right", "treble"),
        (632.8, 631.2, "left", "bass"),
        (631.2, 632.8, "right", "bass"),
        (631.2, 632.8, "left", "treble"),
    ],
)
def test_slanted_frets_say_on_which_side_the_nominal_place_is_farther(
    left: float, right: float, hand: str, side: str
) -> None:
    found = lay_out(job(BOARD, hand), surveyed(BOARD, scales(left, right))).findings
    (slanted,) = (f for f in found if f.code == "frets.slanted")
    assert f"the nominal place is 1.6 ±0.3 mm farther at {side}" in slanted.text


def test_slanted_frets_read_on_one_side_only_give_no_place() -> None:
    layout = work_out(replace(read_on("left", (1, 5, 9, 12)), frets=Frets(slanted=True)))
    assert layout.frets is None
    (found,) = (f for f in layout.findings if f.code == "frets.slanted_one_side")
    assert (found.grade, "along the bass string too" in found.text) == ("stop", True)


def both_sides(left: tuple[int, float], right: tuple[int, float]) -> Job:
    """One fret read on each side: which, and its value."""
    base = read_on("left", (12,))
    frets = tuple(
        Reading(id=side, kind="fret", fret=fret, on=side, value=value, sigma=0.2)
        for side, (fret, value) in zip(SIDES, (left, right), strict=True)
    )
    return replace(base, readings=(*base.readings[: len(BOARD)], *frets))


@pytest.mark.parametrize("slip", [3.0, 5.0, -8.0])
def test_one_fret_a_side_that_differ_are_accused_and_not_called_slanted(slip: float) -> None:
    layout = work_out(both_sides((12, 320.0 + slip), (12, 320.0)))
    assert accused(layout.survey) == {"left", "right"}
    assert not any(f.code == "frets.slanted" for f in layout.findings)


def test_frets_on_both_sides_and_the_centre_line_mirror() -> None:
    values = {"left": 323.0, "right": 322.0, "centre": 322.6}
    base = read_on("left", (12,))

    def nominal(sides: dict[str, float]) -> tuple[float, float]:
        frets = tuple(
            Reading(id=on, kind="fret", fret=12, on=on, value=value, sigma=0.2)  # type: ignore[arg-type]  # a side
            for on, value in sides.items()
        )
        plan = work_out(replace(base, readings=(*base.readings[: len(BOARD)], *frets))).frets
        assert plan is not None
        return plan.nominal.left, plan.nominal.right

    mirrored = nominal({"left": values["right"], "right": values["left"], "centre": values["centre"]})
    assert nominal(values) == pytest.approx(mirrored[::-1], abs=1e-6)


def test_uneven_frets_taken_as_measured_are_no_coarse_hand() -> None:
    # derived: 0.7 mm to and fro is three and a half times the stated 0.2
    base = read_on("left", (1, 3, 5, 7, 9, 12))
    uneven = tuple(
        replace(r, value=float(r.value) + 0.7 * (-1) ** i) if r.kind == "fret" else r  # type: ignore[arg-type]  # a number
        for i, r in enumerate(base.readings)
    )
    job = replace(base, readings=uneven)
    assert work_out(replace(job, frets=Frets(spacing="measured"))).survey.verdict == "clean"
    assert work_out(job).survey.verdict != "clean"


@pytest.mark.parametrize(
    ("read", "left", "right", "apart"),
    [
        # derived: the nominal place by octave is scale − shift, both known to 0.1 here; a string that was not read may
        # differ by 0.2 in its scale and 0.5 in its nut (common practice, no source), from the centre by half of that
        ("left", math.hypot(0.1, 0.1), math.hypot(0.1, 0.1, 0.2, 0.5), math.hypot(0.2, 0.5)),
        ("right", math.hypot(0.1, 0.1, 0.2, 0.5), math.hypot(0.1, 0.1), math.hypot(0.2, 0.5)),
        ("centre", math.hypot(0.1, 0.1, 0.1, 0.25), math.hypot(0.1, 0.1, 0.1, 0.25), math.hypot(0.2, 0.5)),
    ],
)
def test_a_string_that_was_not_read_may_be_as_far_askew_as_a_board_is(
    read: str, left: float, right: float, apart: float
) -> None:
    plan = frets(laid_out(BOARD, {f"scale.{read}": 640.0, f"shift.{read}": 0.4}, strings=six(3.0, 3.0)))
    assert (plan.nominal.left, plan.nominal.right) == pytest.approx((639.6, 639.6), abs=1e-9)
    assert (plan.nominal.left_pm95, plan.nominal.right_pm95) == pytest.approx((1.96 * left, 1.96 * right), rel=1e-3)
    assert plan.slant_pm95 == pytest.approx(1.96 * apart, rel=1e-3)


def test_the_other_side_of_the_centre_is_as_far_from_it() -> None:
    # derived: scale 640 and 641 at the centre and at left put 639 at right, shifts 0.4 and 0.7 put 0.1
    extras = {"scale.centre": 640.0, "shift.centre": 0.4, "scale.left": 641.0, "shift.left": 0.7}
    layout = lay_out(job(strings=six(3.0, 3.0)), surveyed(BOARD, extras))
    assert layout.frets is not None
    assert (layout.frets.nominal.left, layout.frets.nominal.right) == pytest.approx((640.3, 638.9), abs=1e-9)


@pytest.mark.parametrize(("off", "kept"), [(0.2, 1 / 30), (0.75, 1 / 30), (0.8, 1.0)])
def test_two_scales_by_points_alone_come_together_as_one_board_has_it(off: float, kept: float) -> None:
    # derived: fret 12 lies `off` farther at left and nearer at right, so the scales differ by four times that. Each
    # distance hangs on two points known to 0.1, their doubles' difference on 0.4; a nut askew by 0.5 adds twice that.
    # One board's scales differ by 0.2 (common practice, no source): 0.2² / (0.2² + 0.4² + 1²) of it is kept. From
    # 2.807 × √1.2 = 3.07 on there are two scales
    points: dict[str, XY] = {"fret12.left": (320.0 + off, 27.0), "fret12.right": (320.0 - off, -27.0)}
    plan = frets(laid_out(BOARD | points, {}))
    assert plan.nominal.left - plan.nominal.right == pytest.approx(4 * off * kept, rel=0.03)
    assert plan.scale == pytest.approx(2 * 320 / 0.999907, abs=0.005)
