"""Slanted frets: the lines of nut, frets and nominal places against a geometry of its own, and what was declared."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frets.fret_fit import PathFit, _about_centre
from geometry.frets.slants import _not_square, in_a_line
from geometry.frets.slants import told as told_lines
from geometry.job import Frets, Job, NotAJob, Scales
from geometry.job.job import Hand
from geometry.layout import Layout, Slants
from geometry.survey.rows.one_scale import TYPED
from geometry.units import mm, said_pm
from geometry.work_out import lay_out, work_out
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.made import BOARD, job, scales, surveyed
from tests.geometry.slanted_made import LEAN, made, place

INSTRUMENTS = [(635.0, 660.0, 7), (660.0, 635.0, 7), (640.0, 660.0, 0), (640.0, 648.0, 12)]
instruments = pytest.mark.parametrize(("left", "right", "square"), INSTRUMENTS)


def slants(layout: Layout) -> Slants:
    assert layout.frets is not None
    assert layout.frets.slants is not None
    return layout.frets.slants


def told(layout: Layout) -> dict[str, Finding]:
    return {finding.code: finding for finding in layout.findings}


def without(job: Job, **fields: object) -> Job:
    return replace(job, frets=replace(job.frets, **fields))


@instruments
def test_nut_and_nominal_places_lie_as_they_were_made(left: float, right: float, square: int) -> None:
    # derived: the places of frets on both outer strings by the geometry of slanted_made, its own
    found = slants(work_out(made(left, right, square)))
    scales = {"left": left, "right": right}
    for fret, slant in ((0.0, found.nut), (math.inf, found.nominal)):
        one, other = (place(scales, square, side, fret) for side in ("left", "right"))
        assert slant == pytest.approx(one.real - other.real, abs=0.03)
    assert found.squarest == square
    assert found.off_square == pytest.approx(0.0, abs=0.03)


@instruments
def test_what_was_declared_says_the_same_as_the_readings(left: float, right: float, square: int) -> None:
    layout = work_out(made(left, right, square))
    found = slants(layout)
    assert found.declared_nut == pytest.approx(found.nut, abs=0.05)
    assert found.declared_nominal == pytest.approx(found.nominal, abs=0.05)
    assert not told(layout).keys() & {"frets.not_square", "scales.differ", "scales.one_side", "frets.one_side"}


@pytest.mark.parametrize("read", [("left",), ("right",), ()])
def test_a_declared_scale_stands_in_where_no_fret_was_read(read: tuple[str, ...]) -> None:
    layout, whole = work_out(made(read=read)), work_out(made())
    assert layout.frets is not None
    assert whole.frets is not None
    assert layout.saddle is not None
    assert whole.saddle is not None
    assert (layout.frets.nominal.left, layout.frets.nominal.right) == pytest.approx((635.0, 660.0), abs=0.01)
    for one, other in zip(layout.saddle.at_strings, whole.saddle.at_strings, strict=True):
        assert one == pytest.approx(other, abs=0.02)
    for side, pm95 in (("left", layout.frets.nominal.left_pm95), ("right", layout.frets.nominal.right_pm95)):
        # derived: a typed scale and a nut, half a mm each; with no side read, half of a nut askew besides
        wide = math.hypot(TYPED, 0.5) if read else math.hypot(TYPED, 0.5, 0.25)
        assert side in read or pm95 == pytest.approx(1.96 * wide, abs=0.02)
    assert told(layout)["frets.one_side"].grade == "look"


def test_without_a_declared_scale_the_side_must_be_read() -> None:
    layout = work_out(without(made(read=("left",)), scales=None))
    assert layout.saddle is None
    assert "or declare the scale there" in told(layout)["frets.slanted_one_side"].text


def test_frets_read_on_the_centre_line_lie_midway_between_the_declared_ones() -> None:
    job = made(read=("left",))
    on_centre = tuple(replace(r, on="centre") if r.kind == "fret" else r for r in job.readings)
    layout = work_out(replace(job, readings=on_centre))
    assert layout.frets is not None
    # derived: 635 read on the centre line, and the sides 25 apart
    assert layout.frets.nominal.left == pytest.approx(622.5, abs=0.01)
    assert layout.frets.nominal.right == pytest.approx(647.5, abs=0.01)


def test_a_scale_that_differs_from_the_readings_is_told() -> None:
    found = told(work_out(without(made(), scales=Scales(left=635.0, right=655.0))))["scales.differ"]
    assert found.where == "field:frets.scales.right"
    assert found.text.startswith("The frets as read along the bass string make a scale of 660.0 ±")
    near = told(work_out(without(made(), scales=Scales(left=635.0, right=659.5))))
    assert "scales.differ" not in near


@pytest.mark.parametrize("hand", ["right", "left"])
def test_scales_declared_the_wrong_way_round_are_told_once(hand: Hand) -> None:
    # the board is of 635 at left and 660 at right
    turned = replace(without(made(), scales=Scales(left=660.0, right=635.0)), hand=hand)
    found = [f for f in work_out(turned).findings if f.code.startswith("scales.")]
    assert [(f.code, f.grade) for f in found] == [("scales.exchanged", "look")]
    assert found[0].text == (
        "The scales that were declared at bass and treble look exchanged: the frets as read make each the other’s. The "
        "readings are used; look at both."
    )
    both_off = told(work_out(without(made(), scales=Scales(left=660.0, right=640.0))))
    assert "scales.exchanged" not in both_off
    assert "scales.differ" in both_off


def test_another_fret_than_the_declared_one_is_square() -> None:
    found = told(work_out(without(made(), square_fret=12)))["frets.not_square"]
    # derived: 25 mm of scale between the sides, over 0.5 less 0.3326 of it
    assert found.values["mm"] == pytest.approx(-25 * math.cos(LEAN) * (0.5 - (1 - 2 ** (-7 / 12))), abs=0.03)
    assert "farther at bass; fret 7 is the nearest to square" in found.text


def test_declared_on_one_side_only_is_one_sentence() -> None:
    layout = work_out(without(made(), scales=Scales(right=660.0)))
    assert told(layout)["scales.one_side"].text == (
        "The scale of slanted frets is declared at the bass string and not at the treble string: declare both, or "
        "neither."
    )
    assert slants(layout).declared_nut is None


@pytest.mark.parametrize("hand", ["right", "left"])
@instruments
def test_a_declared_slant_is_never_called_wrong_for_the_hand(
    left: float, right: float, square: int, hand: Hand
) -> None:
    layout = work_out(made(left, right, square, hand=hand))
    found = told(layout)
    assert found["saddle.slant"].grade == "good"
    assert "exchanged" not in found["saddle.slant"].text
    assert found["bridge.turned"].grade == "good" if "bridge.turned" in found else True
    assert not found.keys() & {"saddle.leans", "slot.leans"}


def test_undeclared_the_treble_side_farther_is_asked_about() -> None:
    layout = work_out(replace(made(660.0, 635.0), frets=Frets(count=20)))
    assert told(layout)["saddle.slant"].grade == "look"


def test_the_bridge_follows_its_slot() -> None:
    layout = work_out(made())
    assert layout.bridge is not None
    assert layout.saddle is not None
    (left, right) = (complex(*at) for at in layout.saddle.front)
    front = complex(*layout.bridge.corners[0]) - complex(*layout.bridge.corners[1])
    assert ((left - right) / front).imag == pytest.approx(0.0, abs=1e-9)


def test_mirrored_it_is_the_mirror_image() -> None:
    one, other = slants(work_out(made())), slants(work_out(mirrored(made())))
    assert (other.nut, other.nominal) == pytest.approx((-one.nut, -one.nominal), abs=1e-6)
    assert other.scales == one.scales[::-1]
    assert other.off_square_pm95 == pytest.approx(one.off_square_pm95, rel=1e-6)


def test_declared_in_inches_is_the_same() -> None:
    inches = Scales(left="25 in", right="26 in")
    one = slants(work_out(without(made(), scales=inches)))
    other = slants(work_out(without(made(), scales=Scales(left=635.0, right=mm("26 in")))))
    assert one == other


def test_the_slants_in_a_line() -> None:
    job = made()
    layout = work_out(job)
    found, saddle = slants(layout), layout.saddle
    assert saddle is not None
    nut, nominal = said_pm(found.nut_pm95, "mm", 8.3), said_pm(found.nominal_pm95, "mm", 16.7)
    assert in_a_line(job, found, saddle) == (
        f"Nut: {nut} farther at treble (declared 8.3 mm farther at treble); nominal places: {nominal} farther at bass "
        f"(declared 16.7 mm farther at bass); saddle: {said_pm(saddle.slant_pm95, 'mm', saddle.slant)} farther at "
        "bass. Nearest to square: fret 7 (fret 7 declared)."
    )


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        (
            {"slanted": True, "square_fret": 21},
            "Fret 21 is said to be square, and the board has 20 frets; look at both numbers",
        ),
        (
            {"slanted": True, "square_fret": -1},
            "The fret that is square is -1, but must lie between 0 and 36; mend the number",
        ),
        (
            {"scales": Scales(left=640.0, right=650.0)},
            "Scales at both sides are declared, and the frets are not said to be slanted; say so, or leave it out",
        ),
        (
            {"square_fret": 0},
            "A square fret is declared, and the frets are not said to be slanted; say so, or leave it out",
        ),
    ],
)
def test_what_cannot_be_is_one_sentence(fields: dict[str, object], said: str) -> None:
    with pytest.raises(NotAJob) as refused:
        Frets(**fields)  # type: ignore[arg-type]  # a test gives the fields
    assert str(refused.value).replace("−", "-") == said


SLANTS = Slants(nut=0.0, nut_pm95=0.3, nominal=0.0, nominal_pm95=0.3, squarest=0)


@pytest.mark.parametrize(
    ("much", "says"),
    # no rule shows 0.05 mm
    [
        (0.04, "declared square"),
        (-0.04, "declared square"),
        (0.06, "declared 0.1 mm farther at treble"),
        (-0.06, "declared 0.1 mm farther at bass"),
        (0.9, "declared 0.9 mm farther at treble"),
    ],
)
def test_from_where_on_a_declared_slant_is_one(much: float, says: str) -> None:
    line, other = told_lines(Job(), replace(SLANTS, declared_nut=much))
    assert (line.name, line.declared, other.declared) == ("nut", says, "")


@pytest.mark.parametrize(("off", "side"), [(0.58, "treble"), (-0.58, "bass"), (0.54, ""), (-0.54, "")])
def test_from_where_on_a_fret_is_not_square(off: float, side: str) -> None:
    """derived: 2.807 times 0.2 mm that a saw leaves (common practice, no source), where readings add next to nothing,
    are 0.561 mm.
    """
    job = Job(frets=Frets(slanted=True, square_fret=7))
    found = list(_not_square(job, replace(SLANTS, square_fret=7, off_square=off, off_square_pm95=0.01)))
    assert [f"farther at {side};" in one.text for one in found] == [True] * bool(side)


def test_both_sides_lie_as_far_from_the_centre_as_was_declared() -> None:
    # derived: half of 660 − 638 and of 0.6 − 0.2 to either side
    centre, left, right = (PathFit(np.array([a]), np.array([b])) for a, b in ((650, 0.5), (638, 0.2), (660, 0.6)))
    one, other = _about_centre(centre, left, right)
    assert one is not None
    assert other is not None
    assert (one.scale[0], other.scale[0]) == (639, 661)
    assert (one.shift[0], other.shift[0]) == pytest.approx((0.3, 0.7))
    assert _about_centre(centre, None, right) == _about_centre(centre, left, None) == (None, None)


@pytest.mark.parametrize(("left", "right", "off"), [(0.5, 0.0, -0.5), (0.0, 0.5, 0.5), (0.5, 0.5, 0.0)])
def test_a_nut_that_was_moved_on_one_side_puts_the_square_fret_off(left: float, right: float, off: float) -> None:
    # derived: on a square board a fret stands at scale × share − shift on each path, so off by the shifts' difference
    slanted = Frets(slanted=True, scales=Scales(left=640.0, right=640.0), square_fret=7)
    extras = scales(640.0, 640.0) | {"shift.left": left, "shift.right": right}
    layout = lay_out(replace(job(BOARD, "right"), frets=slanted), surveyed(BOARD, extras, 0.02))
    assert slants(layout).off_square == pytest.approx(off, abs=0.001)
