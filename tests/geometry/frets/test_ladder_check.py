"""What the frets as read say against the spacing: another that fits better, or one fret that stands wrong."""

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frets.ladder_check import findings
from geometry.job import Frets, Job, Reading
from geometry.job.neck.fretting import Spacing
from geometry.layout import Fit, FretPlan, Nominal
from geometry.spacing import fraction
from geometry.survey import survey
from geometry.work_out import lay_out, work_out
from tests.geometry.made import BOARD, job, scales, surveyed

READ = (1, 3, 5, 7, 9, 12)


def values(spacing: Spacing, scale: float = 640.0) -> dict[int, float]:
    return {fret: scale * float(fraction(spacing, fret)) for fret in READ}


def read(
    left: dict[int, float], right: dict[int, float] | None = None, spacing: Spacing = "equal", sigma: float = 0.2
) -> Job:
    """The board and these frets on both sides."""
    corners = list(BOARD)
    readings = [
        Reading(
            id=f"b{i}{j}", kind="distance", of=(a, b), value=abs(complex(*BOARD[a]) - complex(*BOARD[b])), sigma=0.2
        )
        for i, a in enumerate(corners)
        for j, b in enumerate(corners)
        if i < j
    ]
    for on, side in (("left", left), ("right", right or values(spacing))):
        readings += [
            Reading(id=f"{on}{fret}", kind="fret", fret=fret, on=on, value=value, sigma=sigma)  # type: ignore[arg-type]
            for fret, value in side.items()
        ]
    return Job(points=job().points, readings=tuple(readings), frets=Frets(spacing=spacing))


def told(made: Job) -> dict[str, Finding]:
    return {finding.code: finding for finding in work_out(made).findings}


def test_frets_set_by_the_rule_of_eighteen_propose_it() -> None:
    # derived: with scale and nut free the two spacings differ by 0.13 mm at most over these frets, so they are told
    # apart by readings to 0.05 mm and not by readings to 0.2
    found = told(read(values("eighteen"), values("eighteen"), sigma=0.05))["frets.spacing"]
    assert "fit the rule of eighteen far better" in found.text
    assert found.values["proposed"] == pytest.approx(0.0, abs=1e-6)
    assert found.where == "field:frets.spacing"


def test_equal_tempered_frets_propose_equal_temperament() -> None:
    found = told(read(values("equal"), values("equal"), "eighteen", sigma=0.05))["frets.spacing"]
    assert "fit equal temperament far better" in found.text


def test_readings_too_coarse_to_tell_propose_nothing() -> None:
    assert "frets.spacing" not in told(read(values("eighteen"), values("eighteen"), sigma=0.2))


@pytest.mark.parametrize("spacing", ["equal", "eighteen"])
def test_the_spacing_that_fits_is_left_alone(spacing: Spacing) -> None:
    assert "frets.spacing" not in told(read(values(spacing), values(spacing), spacing, sigma=0.05))


def test_two_frets_a_side_cannot_tell() -> None:
    few = {fret: value for fret, value in values("eighteen").items() if fret in (1, 12)}
    assert "frets.spacing" not in told(read(few, few, sigma=0.01))


def test_three_frets_a_side_can_tell() -> None:
    few = {fret: value for fret, value in values("eighteen").items() if fret in (1, 7, 12)}
    assert "frets.spacing" in told(read(few, few, sigma=0.01))


def test_one_fret_out_of_place_is_named_with_what_it_costs() -> None:
    # derived: fret 5 stands at 160.5 of 640; 1.5 mm of the 479.5 left to the saddle are 1731.2 × 1.5 / 479.5 = 5.42
    layout = work_out(read(values("equal") | {5: values("equal")[5] + 1.5}))
    (found,) = (finding for finding in layout.findings if finding.code == "fret.out_of_place")
    assert (found.grade, found.where) == ("look", "reading:left5")
    assert (found.values["mm"], found.values["cents"]) == pytest.approx((1.5, 5.42), abs=0.005)
    assert found.text.startswith("Fret 5 (treble) reads 1.5 mm too far from the nut, 5 cents")
    assert "reads 1.5 mm more" in layout.survey.why.whole


def test_a_fret_too_near_says_so() -> None:
    found = told(read(values("equal") | {7: values("equal")[7] - 1.5}))["fret.out_of_place"]
    assert "too near the nut" in found.text
    assert found.values["cents"] < 0


def test_inches_are_spoken_in_an_inch_job() -> None:
    plan = FretPlan(
        spacing="equal",
        scale=640.0,
        scale_pm95=0.1,
        nut_shift=0.0,
        nominal=Nominal(left=640.0, right=640.0, left_pm95=0.1, right_pm95=0.1),
        lines=(),
    )
    reading = Reading(id="r1", kind="fret", fret=12, on="right", value=321.0)
    fit = Fit(
        id="r1", value=321.0, adjusted=320.0, residual=-1.0, sigma=0.2, redundancy=0.5, w=-(50**0.5), believable=0.5
    )
    (found,) = findings(Job(unit="in", readings=(reading,)), plan, (fit,), frozenset(("r1",)))
    assert "5/64 in" in found.text  # derived: 2 / 25.4 × 64 = 5.04


def test_frets_as_measured_stand_where_they_were_read() -> None:
    made = read(values("equal") | {5: values("equal")[5] + 0.5}, values("equal"), spacing="measured")
    fits = {fit.id: fit for fit in survey(made).fits}
    here, fitted = work_out(made).frets, work_out(read(values("equal") | {5: values("equal")[5] + 0.5})).frets
    assert here is not None
    assert fitted is not None
    moved = here.lines[5].left[0] - fitted.lines[5].left[0]
    assert moved == pytest.approx(fits["left5"].value - fits["left5"].adjusted, rel=0.05)
    # the fit itself moves a little: uneven frets have less say each
    assert here.lines[6].left == pytest.approx(fitted.lines[6].left, abs=0.05)


def test_a_fret_that_was_struck_out_stands_where_the_fit_puts_it() -> None:
    moved = read(values("equal") | {5: values("equal")[5] + 0.5}, values("equal"), spacing="measured")
    struck = tuple(replace(r, struck=True, why="slipped") if r.id == "left5" else r for r in moved.readings)
    here, fitted = work_out(replace(moved, readings=struck)).frets, work_out(read(values("equal"))).frets
    assert here is not None
    assert fitted is not None
    assert here.lines[5].left == pytest.approx(fitted.lines[5].left, abs=0.01)


def test_a_fret_read_centimetres_off_is_drawn_where_the_fit_puts_it() -> None:
    made = read(values("equal") | {5: values("equal")[5] + 30.0}, values("equal"), spacing="measured")
    other = read(values("equal") | {5: values("equal")[5] + 30.0}, values("equal"))
    here, fitted = work_out(made).frets, work_out(other).frets
    assert here is not None
    assert fitted is not None
    assert here.lines[5].left == pytest.approx(fitted.lines[5].left, abs=1e-6)
    assert here.lines[5].right == pytest.approx(fitted.lines[5].right, abs=1e-6)


def test_without_readings_there_is_nothing_to_say() -> None:
    layout = lay_out(job(), surveyed(BOARD, scales(640.0, 640.0)))
    assert not {"frets.spacing", "fret.out_of_place"} & {finding.code for finding in layout.findings}


@pytest.mark.parametrize("off", [-4.0, 4.0])
def test_a_misread_fret_does_not_hide_another_spacing(off: float) -> None:
    """The others say so without it: with it neither spacing fits, and the number between two frets is far off."""
    left = values("eighteen")
    left[5] += off
    told_of = work_out(read(left, values("eighteen"), sigma=0.02))
    assert told_of.survey.suspects == ("left5",)
    found = [one.code for one in told_of.findings if one.code in ("frets.spacing", "fret.out_of_place")]
    assert found == ["frets.spacing"]


def told_of_fits(n: float, sigma: float, spacing: Spacing) -> list[str]:
    """What is said of frets on one side that divide by `n` what remains of 640 mm."""
    left = {fret: 640.0 * (1 - (1 - 1 / n) ** fret) for fret in READ}
    taken = tuple(Reading(id=f"{k}", kind="fret", fret=k, on="left", value=v, sigma=sigma) for k, v in left.items())
    fits = tuple(
        Fit(id=f"{k}", value=v, adjusted=v, residual=0.0, sigma=sigma, redundancy=0.5, w=0.0, believable=0.7)
        for k, v in left.items()
    )
    nominal = Nominal(left=640.0, right=640.0, left_pm95=0.1, right_pm95=0.1)
    plan = FretPlan(spacing=spacing, scale=640.0, scale_pm95=0.1, nut_shift=0.0, nominal=nominal, lines=())
    return [one.code for one in findings(Job(readings=taken, frets=Frets(spacing=spacing)), plan, fits, frozenset())]


@pytest.mark.parametrize(("better", "told"), [(8.9, False), (9.1, True), (9.9, True)])
def test_how_much_better_another_spacing_must_fit(better: float, told: bool) -> None:
    """By nine (common practice, no source): what a straight line in the frets' fractions leaves of exact values of the
    other spacing, over sigma squared (derived).
    """
    equal = [float(fraction("equal", fret)) for fret in READ]
    eighteen = [640 * float(fraction("eighteen", fret)) for fret in READ]
    left = eighteen - np.polyval(np.polyfit(equal, eighteen, 1), equal)
    sigma = float(np.sqrt(left @ left / better))
    assert told_of_fits(18.0, sigma, "equal") == ["frets.spacing"] * told


@pytest.mark.parametrize(("n", "told"), [(18.0, True), (18.45, True), (18.55, False), (18.62, False)])
def test_how_near_another_spacing_the_frets_must_divide(n: float, told: bool) -> None:
    """Within a half of eighteen (common practice, no source)."""
    assert told_of_fits(n, 0.001, "equal") == ["frets.spacing"] * told
